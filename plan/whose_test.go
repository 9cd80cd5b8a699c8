package plan_test

import (
	"slices"
	"testing"

	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/process"
)

// ownShelf has a room's developer and fixer, a member's bottle of that developer and a developer of their own, and another's fixer.
const ownShelf = `
shelf:
  products:
    - {name: dev, role: developer, form: liquid, dilutions: {RC paper: 1+9}}
    - {name: stop, role: stop bath, form: liquid, dilutions: {RC paper: 1+31}}
    - {name: fix, role: fixer, form: liquid, dilutions: {RC paper: 1+4}}
    - {name: warm dev, role: developer, form: liquid, dilutions: {RC paper: 1+7}, whose: Ines}
    - {name: odd fix, role: fixer, form: liquid, dilutions: {RC paper: 1+3}, whose: Karl}
  lots:
    - {product: dev, holds: 1 L, opened: 2026-11-01, left: 60 mL}
    - {product: dev, holds: 1 L, opened: 2026-11-20, left: 70 mL, whose: Ines}
    - {product: dev, holds: 1 L, whose: Karl}
    - {product: stop, holds: 1 L}
    - {product: fix, holds: 1 L, whose: somebody}
    - {product: odd fix, holds: 5 L}
people: [{name: Ines}, {name: Karl}, {name: Mo}]
`

// shelfFor plans the same evening for somebody; change edits the shelf.
func shelfFor(t *testing.T, whose string, change ...func(*darkroom.Shelf)) plan.Plan {
	t.Helper()
	f, err := darkroom.Read([]byte(head + "bench:\n  vessels:" + jug + cylinder + trays + ownShelf + rc))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range change {
		c(&f.Shelf)
	}
	p, err := plan.Make(t.Context(), plan.Request{File: f, Now: now, Whose: whose})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The room's own lots alone for the room, a member's own first and then the room's for them, never another's: as room rules have it
// that let people bring their own chemistry (common practice: it stands on a shelf apart and goes home with them).
func TestWhoseLots(t *testing.T) {
	lots := func(p plan.Plan, id string) (all []int) {
		for _, d := range bath(t, p, id).Lots {
			all = append(all, d.Lot)
		}
		return all
	}
	noWarm := func(s *darkroom.Shelf) { s.Products[3].Whose = "Karl" }
	for name, c := range map[string]struct {
		whose     string
		change    []func(*darkroom.Shelf)
		developer string
		lots      []int
	}{
		"the room":                     {"", nil, "dev", []int{0}},
		"one who owns none":            {"Mo", nil, "dev", []int{0}},
		"hers first, then the room's":  {"Ines", []func(*darkroom.Shelf){noWarm}, "dev", []int{1, 0}},
		"his closed one first":         {"Karl", nil, "dev", []int{2}},
		"her own developer where full": {"Ines", []func(*darkroom.Shelf){func(s *darkroom.Shelf) { s.Lots[2].Product, s.Lots[2].Whose = "warm dev", "Ines"; s.Lots[1].Whose = "" }}, "warm dev", []int{2}},
	} {
		p := shelfFor(t, c.whose, c.change...)
		if got := bath(t, p, "developer"); got.Product != c.developer || !slices.Equal(lots(p, "developer"), c.lots) {
			t.Errorf("%s: %s from %v, want %s from %v", name, got.Product, lots(p, "developer"), c.developer, c.lots)
		}
	}
}

// A product that is somebody's is no product of the room's: it neither plans with it nor says that it is to be bought. A bottle of the
// room's of it makes it usable.
func TestWhoseProducts(t *testing.T) {
	noRoomFix := func(s *darkroom.Shelf) { s.Products[2].Whose = "Karl" }
	if got := bath(t, shelfFor(t, "", noRoomFix), "fixer").Product; got != "odd fix" {
		t.Errorf("with a bottle of the room's: %q", got)
	}
	p := shelfFor(t, "", noRoomFix, func(s *darkroom.Shelf) { s.Lots[5].Whose = "Karl" })
	if i := slices.IndexFunc(p.Baths, func(b plan.Bath) bool { return b.Role == process.Fixer }); i >= 0 {
		t.Errorf("the room fixes in %q, which is Karl's", p.Baths[i].Product)
	}
	if !slices.ContainsFunc(p.Missing, func(m plan.Missing) bool { return m.Kind == plan.NoProduct }) {
		t.Errorf("nothing is missing: %+v", p.Missing)
	}
	p = shelfFor(t, "", func(s *darkroom.Shelf) { s.Lots[5].Whose = "Karl" })
	for _, m := range p.Missing {
		if m.Product == "warm dev" {
			t.Errorf("the room lacks what is Ines': %+v", m)
		}
	}
	if !slices.ContainsFunc(p.Missing, func(m plan.Missing) bool { return m.Product == "fix" && m.Kind == plan.NoLot }) {
		t.Errorf("the room has no fixer of its own, and it is not said: %+v", p.Missing)
	}
}
