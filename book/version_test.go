package book_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
)

// bottles is an invented history of lot.drawn: version 1 said a bottle and millilitres as a number, version 2 a lot and
// the amount in words, version 3, today's, what ounce is meant.
func bottles() book.Upcasts {
	return book.Upcasts{book.Drawn: {
		func(body string) (string, error) {
			var v1 struct {
				Bottle string      `json:"bottle"`
				ML     json.Number `json:"ml"`
			}
			if err := json.Unmarshal([]byte(body), &v1); err != nil {
				return "", err
			}
			if v1.ML == "" {
				return "", errors.New("no amount")
			}
			v2, err := json.Marshal(map[string]string{"lot": v1.Bottle, "amount": v1.ML.String() + " mL"})
			return string(v2), err
		},
		func(body string) (string, error) {
			return strings.Replace(body, "{", `{"ounce":"us",`, 1), nil
		},
	}}
}

func TestOldVersionsAreRead(t *testing.T) {
	for name, c := range map[string]struct {
		version int
		body    string
		left    string // of a litre
		cause   book.ErrorKind
	}{
		"the first":     {1, `{"bottle":"lot1","ml":30}`, "0.97 L", 0},
		"the second":    {2, `{"lot":"lot1","amount":"1 fl oz"}`, "970.43 mL", 0},
		"today's":       {3, `{"lot":"lot1","amount":"40 mL","ounce":"us"}`, "0.96 L", 0},
		"tomorrow's":    {4, `{"of":"lot1"}`, "", book.Newer},
		"a damaged one": {1, `{"bottle":"lot1"}`, "", book.BadInput},
		"of no version": {0, `{"lot":"lot1","amount":"1 mL"}`, "", book.BadInput},
	} {
		t.Run(name, func(t *testing.T) {
			all := append(shelf(), written(&book.Author{Now: evening, NewID: counting("r")},
				&book.LotReceived{Lot: "lot1", Product: "fix", As: []byte(`{"product":"rapid fixer","holds":"1 L"}`)}))
			all = place(append(all, book.Entry{
				ID: "old", Kind: book.Drawn, Version: c.version, HappenedAt: evening.Add(time.Hour), Body: c.body,
			}))
			s := book.New("room", bottles())
			for _, e := range all {
				if err := s.Apply(e); err != nil {
					t.Fatal(err)
				}
			}
			l, _ := s.Lot("lot1")
			unread := s.Unread()
			switch {
			case l.Lot.Left.Text != c.left:
				t.Errorf("left is %q, want %q", l.Lot.Left.Text, c.left)
			case (c.cause == 0) != (len(unread) == 0), len(unread) > 1:
				t.Errorf("unread are %+v", unread)
			case c.cause != 0 && (book.KindOf(unread[0].Cause) != c.cause || unread[0].ID != "old"):
				t.Errorf("unread is %+v, want kind %d", unread[0], c.cause)
			}
			if s.Position() != int64(len(all)) {
				t.Errorf("at %d, want %d: an entry that is not read is not lost", s.Position(), len(all))
			}
		})
	}
}

// TestUnknownKindsAreKept lets a newer program's entries into the book and does not undo what it does not know.
func TestUnknownKindsAreKept(t *testing.T) {
	j := newJournal(t)
	e := book.Entry{ID: "new", Kind: "bath.steamed", Version: 3, HappenedAt: evening, Body: `{"bath":"b"}`}
	if err := j.try(e); err != nil {
		t.Fatal(err)
	}
	if u := j.state.Unread(); len(u) != 1 || u[0].Kind != "bath.steamed" || u[0].Version != 3 || u[0].Position != 1 {
		t.Errorf("unread are %+v", u)
	}
	wantRefused(t, j, "new", book.NewerEntry, "", "")
	if book.Kind("bath.steamed").Known() || book.Kind("bath.steamed").Decides() {
		t.Error("an unknown kind counts as known")
	}
}

func TestApplyWantsTheNext(t *testing.T) {
	all := place(shelf())
	s := book.New("room", book.Upcasters())
	for _, e := range []book.Entry{all[1], {Darkroom: "annex", Position: 1}} {
		if err := s.Apply(e); book.KindOf(err) != book.Damaged || s.Position() != 0 {
			t.Errorf("entry at %d of %s: %v, state at %d", e.Position, e.Darkroom, err, s.Position())
		}
	}
	if _, err := book.Fold("room", all[1:]); book.KindOf(err) != book.Damaged {
		t.Errorf("a fold without its beginning: %v", err)
	}
}

// TestOldOuncesKeepTheirMeaning changes what an ounce is in a room that has things in ounces.
func TestOldOuncesKeepTheirMeaning(t *testing.T) {
	f := edited(t, "ounce: us ", "ounce: us ")
	j, people := imported(t, f)
	room := f.Darkroom
	room.Ounce = book.ImperialOunce.Quantity()
	j.write(book.NewSet(book.RoomPart, "", room, book.ImperialOunce))
	got, ids := j.state.File(people)
	if text := got.Bench.Vessels[0].Scales[1].Unit.Text; text != "US fl oz" {
		t.Errorf("the jug's scale is in %q, want US fl oz", text)
	}
	if text := got.Shelf.Lots[1].Holds.Text; text != "1 US quart" {
		t.Errorf("the stop bath's bottle holds %q, want 1 US quart", text)
	}
	if got.Shelf.Lots[1].Holds.Value != f.Shelf.Lots[1].Holds.Value {
		t.Errorf("the bottle holds another amount than before")
	}
	j.write(&book.LotCounted{Lot: ids.Lots[1], Left: "20 fl oz", Ounce: book.ImperialOunce})
	l, _ := j.state.Lot(ids.Lots[1])
	if l.Lot.Left.Text != "20 imperial fl oz" {
		t.Errorf("counted in other ounces than it was bought in: left %q", l.Lot.Left.Text)
	}
	got, _ = j.state.File(people)
	again := reread(t, got)
	if d := cmp.Diff(got, again, everything); d != "" {
		t.Errorf("the file means something else when it is read (-book +file):\n%s", d)
	}
	wantNothing(t, j, people, again)
}

// TestNamesFollow renames a product that a vessel is kept for and that the session wants.
func TestNamesFollow(t *testing.T) {
	f := edited(t, "{material: RC paper, size: 8x10 in, sheets: 36", "{material: RC paper, product: paper developer, sheets: 36")
	f.Bench.Vessels[1].KeepFor = "paper developer"
	j, people := imported(t, f)
	_, ids := j.state.File(people)
	p := f.Shelf.Products[0]
	for _, name := range []string{"neutral developer", "warm developer"} {
		p.Name = name
		j.write(book.NewSet(book.ProductPart, ids.Products[0], p, book.USOunce))
		got, _ := j.state.File(people)
		if v, l, lot := got.Bench.Vessels[1].KeepFor, got.Session.ToMake[0].Product, got.Shelf.Lots[0].Product; v != name ||
			l != name || lot != name {
			t.Errorf("renamed to %s: vessel kept for %q, session wants %q, lot of %q", name, v, l, lot)
		}
		reread(t, got)
	}
}
