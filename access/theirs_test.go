package access_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"wetside/access"
	"wetside/book"
)

// shelf is a book of a few entries, as package access looks at it.
type shelf struct {
	state   *book.State
	entries []book.Entry
	away    error
}

func (s *shelf) State(context.Context) (*book.State, error) { return s.state, s.away }

func (s *shelf) Find(_ context.Context, id string) (book.Entry, error) {
	for _, e := range s.entries {
		if e.ID == id {
			return e, nil
		}
	}
	return book.Entry{}, &book.Error{Kind: book.NotFound, Key: "entry_not_found"}
}

func entry(t *testing.T, id, by string, b book.Body) book.Entry {
	t.Helper()
	a := book.Author{By: by, Device: "d", Now: time.Date(2026, 12, 3, 18, 30, 0, 0, time.UTC), NewID: func() string { return id }}
	e, err := a.Write(b)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// shelfOf folds entries.
func shelfOf(t *testing.T, entries ...book.Entry) *shelf {
	t.Helper()
	head := book.Head{Darkroom: "room"}
	s := &shelf{}
	for _, e := range entries {
		e, head = head.Place(e)
		s.entries = append(s.entries, e)
	}
	var err error
	if s.state, err = book.Fold("room", s.entries); err != nil {
		t.Fatal(err)
	}
	return s
}

var bottle = []byte(`{"product":"-","holds":"1 L"}`) //nolint:gochecknoglobals // a constant that Go has no word for

// What is sent in one go counts before it stands in the book: a bottle that is received and drawn from, and one that is received for
// another. Every kind by itself, of whoever it is, is tried over the API (api/theirs_test.go).
func TestTheirsInOneSending(t *testing.T) {
	s := shelfOf(t, entry(t, "e1", "ilka", &book.LotReceived{Lot: "rooms", Product: "p", As: bottle}))
	mo := access.Who{Role: access.Member, Person: "mo"}
	received := func(whose string) book.Entry {
		return entry(t, "r", "mo", &book.LotReceived{Lot: "new", Product: "own", Whose: whose, As: bottle})
	}
	product := entry(t, "p", "mo", &book.Set{Part: book.ProductPart, ID: "own", Whose: "mo", As: []byte(`{"name":"own fixer","role":"fixer","form":"liquid"}`)})
	made := entry(t, "s", "mo", &book.Stock{Lot: "stock", Product: "own", Whose: "mo", As: bottle, From: []book.Draw{{Lot: "new", Amount: "1 packet"}}})
	mix := func(lot string) book.Entry {
		return entry(t, "m", "mo", &book.Mixed{Bath: "b", Product: "own", Dilution: "1+4", Volume: "1 L", Whose: "mo", From: []book.Draw{{Lot: lot, Amount: "200 mL"}}})
	}
	for name, c := range map[string]struct {
		before []book.Entry
		e      book.Entry
		may    bool
	}{
		"a new product":                        {nil, product, true},
		"a change of it in the same sending":   {[]book.Entry{product}, product, true},
		"a draw from what came before":         {[]book.Entry{received("mo")}, entry(t, "d", "mo", &book.LotDrawn{Draw: book.Draw{Lot: "new", Amount: "1 mL"}}), true},
		"a draw from what came for another":    {[]book.Entry{received("ilka")}, entry(t, "d", "mo", &book.LotDrawn{Draw: book.Draw{Lot: "new", Amount: "1 mL"}}), false},
		"a draw from what nobody knows":        {nil, entry(t, "d", "mo", &book.LotDrawn{Draw: book.Draw{Lot: "new", Amount: "1 mL"}}), false},
		"a mix of a stock made before":         {[]book.Entry{received("mo"), made}, mix("stock"), true},
		"a mix of the room's":                  {[]book.Entry{received("mo"), made}, mix("rooms"), false},
		"a top-up of a bath mixed before":      {[]book.Entry{received("mo"), mix("new")}, entry(t, "t", "mo", &book.ToppedUp{Bath: "b", With: book.WithFresh, Volume: "1 L"}), true},
		"taking back what comes before":        {[]book.Entry{received("mo")}, book.Entry{ID: "c", Kind: book.Correction, By: "mo", TakesBack: "r"}, true},
		"taking back a keyholder's":            {nil, book.Entry{ID: "c", Kind: book.Correction, By: "mo", TakesBack: "e1"}, false},
		"a body of a program to come":          {nil, book.Entry{ID: "x", Kind: book.Opened, Version: 99, By: "mo", Body: `{"lot":"new"}`}, false},
		"a kind of a program to come":          {nil, book.Entry{ID: "x", Kind: "lot.lent", Version: 1, By: "mo", Body: `{}`}, false},
		"what anybody counts, of any bath":     {nil, book.Entry{ID: "x", Kind: book.BathWorked, Version: 1, By: "mo", Body: `{"baths":["any"]}`}, true},
		"a vessel of the room's":               {nil, entry(t, "v", "mo", &book.Removed{Part: book.VesselPart, ID: "jug"}), false},
		"somebody's thing in nobody's product": {[]book.Entry{product}, received("mo"), true},
	} {
		if may, err := access.MayWrite(t.Context(), s, mo, c.before, c.e); may != c.may || err != nil {
			t.Errorf("%s: %v, %v, want %v", name, may, err, c.may)
		}
	}
}

// A key that is nobody's owns nothing; what can't be read or looked up is no yes.
func TestTheirsUnknown(t *testing.T) {
	s := shelfOf(t)
	opened := entry(t, "o", "", &book.LotOpened{Lot: "l", Opened: "2026-12-03"})
	if may, err := access.MayWrite(t.Context(), s, access.Who{Role: access.Member}, nil, opened); may || err != nil {
		t.Errorf("nobody opens nobody's bottle: %v, %v", may, err)
	}
	mo := access.Who{Role: access.Member, Person: "mo"}
	opened.Body = `{"lot":`
	if may, err := access.MayWrite(t.Context(), s, mo, nil, opened); may || book.KindOf(err) != book.BadInput {
		t.Errorf("a body that can't be read: %v, %v", may, err)
	}
	away := errors.New("away")
	s.away = away
	if may, err := access.MayWrite(t.Context(), s, mo, nil, entry(t, "o", "mo", &book.LotOpened{Lot: "l", Opened: "2026-12-03"})); may || !errors.Is(err, away) {
		t.Errorf("a book that is away: %v, %v", may, err)
	}
	if may, err := access.MayWrite(t.Context(), s, mo, nil, book.Entry{Kind: book.Correction, TakesBack: "none"}); may || book.KindOf(err) != book.NotFound {
		t.Errorf("taking back nothing: %v, %v", may, err)
	}
}
