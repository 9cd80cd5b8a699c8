package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"regexp"
	"slices"
	"testing"

	"github.com/google/uuid"

	"wetside/access"
	"wetside/book"
	"wetside/words/facts"
)

// owned are a bottle, a product, a stock and two fixing baths of each of three: the room, the member who asks, and another.
type owned struct{ lot, product, bare, bath, second string }

func (h *house) owned(whose string) (o owned) {
	h.t.Helper()
	id := uuid.NewString
	o = owned{lot: id(), product: id(), bare: id(), bath: id(), second: id()}
	h.say(&book.Set{Part: book.ProductPart, ID: o.bare, Whose: whose, As: fmt.Appendf(nil, `{"name":%q,"role":"fixer","form":"liquid"}`, "bare "+o.bare)})
	h.say(&book.Set{Part: book.ProductPart, ID: o.product, Whose: whose, As: fmt.Appendf(nil, `{"name":%q,"role":"fixer","form":"liquid"}`, "fixer "+o.product)})
	h.say(&book.LotReceived{Lot: o.lot, Product: o.product, Whose: whose, As: []byte(`{"product":"-","holds":"1 L"}`)})
	h.say(&book.Mixed{Bath: o.bath, Product: o.product, Dilution: "1+4", Volume: "1 L", Whose: whose, Place: "first of two"})
	h.say(&book.Mixed{Bath: o.second, Product: o.product, Dilution: "1+4", Volume: "1 L", Whose: whose, Place: "second of two", Pair: o.bath})
	return o
}

// bodies are what can be done with what is somebody's, by kind, and last with what comes new, all of it in the name of whose.
func (o owned) bodies(whose string) []book.Body {
	id := uuid.NewString
	lot, from := []byte(`{"product":"-","state":"stock","holds":"1 L"}`), []book.Draw{{Lot: o.lot, Amount: "10 mL"}}
	return []book.Body{
		&book.LotReceived{Lot: o.lot, Product: o.product, Whose: whose, As: []byte(`{"product":"-","holds":"1 L"}`)},
		&book.LotOpened{Lot: o.lot, Opened: "2026-03-12"},
		&book.LotCounted{Lot: o.lot, Left: "500 mL"},
		&book.LotDrawn{Draw: from[0]},
		&book.Stock{Lot: id(), Product: o.product, Whose: whose, As: lot, From: from},
		&book.Mixed{Bath: id(), Product: o.product, Dilution: "1+4", Volume: "1 L", Whose: whose, From: from},
		&book.Mixed{Bath: id(), Product: o.product, Dilution: "1+4", Volume: "1 L", Whose: whose, Pair: o.bath},
		&book.Mixed{Bath: o.bath, Product: o.product, Dilution: "1+4", Volume: "1 L", Whose: whose},
		&book.ToppedUp{Bath: o.bath, With: book.WithFresh, Volume: "100 mL"},
		&book.ToppedUp{Bath: o.bath, With: book.WithFresh, Volume: "100 mL", From: from},
		&book.PouredBack{Bath: o.bath, Into: "full bottle"},
		&book.PouredOut{Bath: o.bath},
		&book.Moved{First: o.bath, Second: o.second},
		&book.Disposed{Bath: o.second},
		&book.LotDiscarded{Lot: o.lot},
		&book.Set{Part: book.ProductPart, ID: o.product, Whose: whose, As: fmt.Appendf(nil, `{"name":%q,"role":"fixer","form":"liquid"}`, "other "+o.product)},
		&book.Removed{Part: book.ProductPart, ID: o.bare},
	}
}

// sent writes a body as a script sends it.
func (h *house) sent(b book.Body) answer {
	h.t.Helper()
	text, err := json.Marshal(b)
	if err != nil {
		h.t.Fatal(err)
	}
	return h.post("/entries", fmt.Sprintf(`{"id":%q,"kind":%q,"expect":%d,"body":%s}`, uuid.NewString(), b.Kind(), h.position(), text))
}

// A member writes of each kind that is OwnOnly what is theirs, and nothing of the room's or of another member's, in whosever name they
// say it is. It is tried with every one of these kinds.
func TestTheirs(t *testing.T) {
	h := serve(t)
	h.keyholder()
	mo, other := h.as(access.Member, ""), h.as(access.Member, "")
	me, them := mo.person(), other.person()
	if me == them || me == "" {
		t.Fatalf("members are %q and %q", me, them)
	}
	seen := map[book.Kind]bool{}
	for name, c := range map[string]struct{ thing, says string }{
		"theirs": {me, me}, "theirs, as the room's": {me, ""}, "theirs, as another's": {me, them},
		"the room's": {"", ""}, "the room's, as theirs": {"", me}, "another's": {them, them}, "another's, as theirs": {them, me},
	} {
		for _, b := range h.owned(c.thing).bodies(c.says) {
			seen[b.Kind()] = true
			says := slices.Contains([]book.Kind{book.Received, book.StockMade, book.BathMixed, book.ProductSet}, b.Kind())
			want := c.thing == me && (c.says == me || !says)
			a := mo.sent(b)
			if (a.Status == http.StatusCreated) != want {
				t.Errorf("%s: %s %+v: %d %s", name, b.Kind(), b, a.Status, a.Text)
			}
			if a.Status != http.StatusCreated && a.Status != http.StatusForbidden && codes(a.problem("invalid"))["#/body/whose"] != "not_theirs" {
				t.Errorf("%s: %s: refused with %d %s", name, b.Kind(), a.Status, a.Text)
			}
		}
	}
	for _, k := range ownKinds(t) {
		if !seen[k] {
			t.Errorf("%s was not tried", k)
		}
	}
}

// ownKinds are the kinds of which a member writes what is theirs, corrections apart.
func ownKinds(t *testing.T) (all []book.Kind) {
	t.Helper()
	source, err := os.ReadFile("../book/kind.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?m)^\t[A-Za-z]+ +Kind += "([a-z_.]+)"`).FindAllStringSubmatch(string(source), -1) {
		if k := book.Kind(m[1]); k != book.Correction && access.Write(access.Member, k) == access.OwnOnly {
			all = append(all, k)
		}
	}
	if len(all) < 14 {
		t.Fatalf("only %d kinds are a member's own", len(all))
	}
	return all
}

// person is in whose name a key writes.
func (h *house) person() string {
	h.t.Helper()
	a := h.post("/entries", fmt.Sprintf(`{"id":%q,"kind":"bath.worked","body":{"baths":["%s"],"material":"RC paper","size":"8x10 in","sheets":1}}`, uuid.NewString(), uuid.NewString()))
	if a.Status != http.StatusCreated {
		h.t.Fatalf("%d %s", a.Status, a.Text)
	}
	var e facts.Entry
	a.into(&e)
	return e.By
}

// What comes new is theirs; an id that was used is not, even if what it was for was taken back, and what was taken back they do not bring back.
func TestNewIsTheirs(t *testing.T) {
	h := serve(t)
	h.keyholder()
	mo := h.as(access.Member, "")
	me := mo.person()
	product, lot, bath := uuid.NewString(), uuid.NewString(), uuid.NewString()
	as := []byte(`{"product":"-","holds":"1 L"}`)
	for _, b := range []book.Body{
		&book.Set{Part: book.ProductPart, ID: product, Whose: me, As: []byte(`{"name":"own fixer","role":"fixer","form":"liquid"}`)},
		&book.LotReceived{Lot: lot, Product: product, Whose: me, As: as},
		&book.Mixed{Bath: bath, Product: product, Dilution: "1+4", Volume: "1 L", Whose: me, From: []book.Draw{{Lot: lot, Amount: "200 mL"}, {Amount: "1 mL"}}},
	} {
		if a := mo.sent(b); a.Status != http.StatusCreated {
			t.Fatalf("%s: %d %s", b.Kind(), a.Status, a.Text)
		}
	}
	rooms := uuid.NewString()
	entry := h.say(&book.LotReceived{Lot: rooms, Product: product, As: as})
	ilka := h.as(access.Keyholder, "ilka")
	back := fmt.Sprintf(`{"id":%q,"kind":"correction","takes_back":%q}`, uuid.NewString(), entry)
	if a := ilka.post("/entries", back); a.Status != http.StatusCreated {
		t.Fatalf("%d %s", a.Status, a.Text)
	}
	if a := mo.sent(&book.LotReceived{Lot: rooms, Product: product, Whose: me, As: as}); a.Status != http.StatusForbidden {
		t.Errorf("in the place of a bottle of the room's: %d %s", a.Status, a.Text)
	}
	own := mo.sent(&book.LotOpened{Lot: lot, Opened: "2026-03-12"})
	var e facts.Entry
	own.into(&e)
	for i, want := range []int{http.StatusCreated, http.StatusForbidden} {
		id := uuid.NewString()
		if a := mo.post("/entries", fmt.Sprintf(`{"id":%q,"kind":"correction","takes_back":%q}`, id, e.ID)); a.Status != want {
			t.Errorf("taken back %d times: %d %s", i+1, a.Status, a.Text)
		}
		e.ID = id
	}
}
