package book

import (
	"slices"

	"wetside/darkroom"
)

// IDs are the ids of the things in a darkroom.File that State.File returned, each list in the file's order.
type IDs struct {
	Vessels, Trays, Tanks, Cans, Products, Lots, People []string
}

// File returns what there is now as a darkroom file, with the ids of its things: what is on the bench and the shelf,
// what is left in each lot (one whose product is gone or has another form is left out), the people with their names out of the erasable record (those without one are left out, and
// so are all notes), after them whoever else owns something there, and the session that is wanted. Things stand in the order in which they came. Where a product was
// renamed, what names it follows. Words in ounces that were written under another setting of the room's say which
// ounce they mean.
func (s *State) File(p People) (darkroom.File, IDs) {
	var o Ounce
	if r := s.room.now(&s.corrections); r != nil {
		o = OunceOf(r.value.Ounce)
	}
	return s.fileUnder(o, p)
}

// fileUnder is File in words for a file whose ounce is o.
func (s *State) fileUnder(o Ounce, p People) (darkroom.File, IDs) {
	c := &s.corrections
	var f darkroom.File
	var ids IDs
	if r := s.room.now(c); r != nil {
		f.Darkroom = r.value
	}
	if b := s.bench.now(c); b != nil {
		f.Bench = under(o, b, clearBench)
	}
	if w := s.session.now(c); w != nil {
		f.Session = under(o, w, clearSession)
	}
	ids.Vessels, f.Bench.Vessels = presentUnder(&s.vessels, c, o, clearVessel)
	ids.Trays, f.Bench.Trays = presentUnder(&s.trays, c, o, clearTray)
	ids.Tanks, f.Bench.Tanks = presentUnder(&s.tanks, c, o, clearTank)
	ids.Cans, f.Bench.Cans = presentUnder(&s.cans, c, o, clearCan)
	ids.Products, f.Shelf.Products = presentUnder(&s.products, c, o, clearProduct)
	var owners []string
	for _, l := range s.Lots() {
		if x := s.products.now(l.ProductID, c); l.Gone == There && x != nil && fits(l.Lot, x.value) {
			ids.Lots = append(ids.Lots, l.ID)
			l.Lot.Whose = p.ownerName(l.Whose)
			f.Shelf.Lots = append(f.Shelf.Lots, under(o, &setting[darkroom.Lot]{value: l.Lot, ounce: l.ounce}, clearLot))
			owners = append(owners, l.Whose)
		}
	}
	for i := range f.Shelf.Products {
		x := &f.Shelf.Products[i]
		owners = append(owners, x.Whose)
		x.Whose = p.ownerName(x.Whose)
	}
	for i := range s.people.all {
		h := &s.people.all[i]
		if now, name := h.now(c), p.Name(h.id); now != nil && name != Somebody {
			ids.People = append(ids.People, h.id)
			f.People = append(f.People, darkroom.Person{Name: name, Does: now.value.Does})
		}
	}
	for _, id := range owners {
		if name := p.Name(id); id != "" && name != Somebody && !slices.Contains(ids.People, id) {
			ids.People = append(ids.People, id)
			f.People = append(f.People, darkroom.Person{Name: name})
		}
	}
	s.rename(&f)
	return f, ids
}

// Lots returns every lot that was ever on the shelf and not taken back, by the moment it came.
func (s *State) Lots() []Lot {
	type placed struct {
		Lot
		came happening
	}
	var all []placed
	for id := range s.lots {
		if l, ok := s.lotNow(id); ok {
			came, _ := s.receipt(id)
			all = append(all, placed{l, *came})
		}
	}
	slices.SortStableFunc(all, func(a, b placed) int { return a.came.compare(&b.came.moment) })
	lots := make([]Lot, 0, len(all))
	for _, l := range all {
		lots = append(lots, l.Lot)
	}
	return lots
}

// Lot returns a lot as it is now; false where it never was on the shelf, or its coming was taken back.
func (s *State) Lot(id string) (Lot, bool) { return s.lotNow(id) }

// rename lets what names a product by a former name follow it.
func (s *State) rename(f *darkroom.File) {
	c := &s.corrections
	names := map[string]string{}
	for i := range s.products.all {
		h := &s.products.all[i]
		now := h.now(c)
		if now == nil {
			continue
		}
		for _, was := range h.said {
			if !was.removed && c.stands(was.entry) {
				names[was.value.Name] = now.value.Name
			}
		}
	}
	for _, p := range f.Shelf.Products {
		names[p.Name] = p.Name
	}
	for i, v := range f.Bench.Vessels {
		if name, ok := names[v.KeepFor]; ok {
			f.Bench.Vessels[i].KeepFor = name
		}
	}
	f.Session.ToMake = slices.Clone(f.Session.ToMake)
	for i, l := range f.Session.ToMake {
		if name, ok := names[l.Product]; ok {
			f.Session.ToMake[i].Product = name
		}
	}
}
