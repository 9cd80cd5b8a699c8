package book

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"wetside/darkroom"
)

// ImportOptions rule how far an import goes.
type ImportOptions struct {
	// Replace takes away what the file does not have: things are removed, lots discarded. Without it they stay.
	Replace bool
	// Expect is the position that the decision was made on; nil takes the book as it stands.
	Expect *int64
	// Persons are ids, by name, of people whom the file names and the book has no entry of: members who own nothing yet.
	Persons map[string]string
}

// Imported is what an import writes: entries into the book, and names and notes into the erasable record.
type Imported struct {
	Entries []Entry
	People  []Person // to be put in place of what the record holds under these ids
}

// Import returns what is to be written so that the book says what the file says; nothing where it does already, so that
// the same file imported twice writes nothing. Things are matched by name; lots by product, state, dates and what they
// hold, in their order, where a lot that was opened, counted or used up in part since is the same lot. What a file is
// silent about (the bench's depth, the wanted session, a lot's opening) stays. The entries are decisions and facts made on
// s, in the order in which they must be written.
func Import(s *State, p People, f darkroom.File, a *Author, o ImportOptions) (Imported, error) {
	im := &importer{state: s, people: p, file: f, author: a, ounce: OunceOf(f.Darkroom.Ounce), names: map[string]string{}, owners: map[string]string{}}
	im.has, im.ids = s.fileUnder(im.ounce, p)
	setOne(im, RoomPart, im.has.Darkroom, im.file.Darkroom, o)
	im.persons(o)
	im.things(o)
	im.lots(o)
	setOne(im, SessionPart, im.has.Session, im.file.Session, o)
	im.removals()
	return im.out, im.err
}

// An importer compares a file with what there is.
type importer struct {
	state  *State
	people People
	file   darkroom.File
	author *Author
	ounce  Ounce
	has    darkroom.File
	ids    IDs

	names   map[string]string // the file's products' ids by name
	owners  map[string]string // the ids of the file's people by name, the first of each
	removed []Body            // what goes, last
	out     Imported
	err     error
}

func (im *importer) write(b Body) {
	if im.err != nil {
		return
	}
	var e Entry
	e, im.err = im.author.Write(b)
	im.out.Entries = append(im.out.Entries, e)
}

// setOne sets what there is one of.
func setOne[T darkroom.Part](im *importer, part Part, has, wants T, o ImportOptions) {
	as := darkroom.JSON(wants)
	if (o.Replace || string(as) != "{}") && !bytes.Equal(as, darkroom.JSON(has)) {
		im.write(&Set{Part: part, As: as, Ounce: im.ounce})
	}
}

// persons sets who works here. Names go into the record, what they do into entries.
func (im *importer) persons(o ImportOptions) {
	left := pairing(im.has.People, im.ids.People, func(p darkroom.Person) string { return p.Name })
	for _, p := range im.file.People {
		id, known := left.take(p.Name)
		if !known {
			if id, known = o.Persons[p.Name]; !known {
				id = im.author.NewID()
			}
		}
		if im.owners[p.Name] == "" {
			im.owners[p.Name] = cmp.Or(o.Persons[p.Name], id)
		}
		record := Person{ID: id, Name: p.Name, Notes: p.Notes}
		if len(p.Notes) == 0 {
			record.Notes = im.people[id].Notes
		}
		if was := im.people[id]; was.Name != record.Name || !slices.Equal(was.Notes, record.Notes) {
			im.out.People = append(im.out.People, record)
		}
		does := darkroom.Person{Does: p.Does}
		if !known || !samePart(does, darkroom.Person{Does: im.doesOf(id)}) { // one who is known by owning something has no entry
			im.write(NewSet(PersonPart, id, does, NoOunce))
		}
	}
	im.remove(o, PersonPart, slices.DeleteFunc(left.rest(), func(id string) bool { return !im.state.has(PersonPart, id) }))
}

func (im *importer) doesOf(id string) []string {
	if i := slices.Index(im.ids.People, id); i >= 0 {
		return im.has.People[i].Does
	}
	return nil
}

// things sets the products and the bench.
func (im *importer) things(o ImportOptions) {
	depth := func(b darkroom.Bench) darkroom.Bench { return darkroom.Bench{FillDepth: b.FillDepth, Dry: b.Dry} }
	b, was := im.file.Bench, im.has.Bench
	setOne(im, BenchPart, depth(was), depth(b), o)
	setAll(im, o, ProductPart, im.has.Shelf.Products, im.ids.Products, im.file.Shelf.Products,
		func(p darkroom.Product) string { return p.Name })
	setAll(im, o, VesselPart, was.Vessels, im.ids.Vessels, b.Vessels, func(v darkroom.Vessel) string { return v.Name })
	setAll(im, o, TrayPart, was.Trays, im.ids.Trays, b.Trays, func(t darkroom.Tray) string { return t.Name })
	setAll(im, o, TankPart, was.Tanks, im.ids.Tanks, b.Tanks, func(t darkroom.Tank) string { return t.Name })
	setAll(im, o, CanPart, was.Cans, im.ids.Cans, b.Cans, func(c darkroom.Can) string { return c.Name })
}

// setAll writes the things of one kind that are new or differ.
func setAll[T darkroom.Part](im *importer, o ImportOptions, part Part, has []T, ids []string, wants []T, name func(T) string) {
	left := pairing(has, ids, name)
	for _, w := range wants {
		id, known := left.take(name(w))
		if !known {
			id = im.author.NewID()
		}
		if part == ProductPart {
			im.names[name(w)] = id
		}
		if !known || !samePart(w, has[slices.Index(ids, id)]) {
			set := NewSet(part, id, w, im.ounce)
			if p, ok := any(w).(darkroom.Product); ok {
				was, _ := im.state.ProductOwner(id)
				set.Whose = im.owner(p.Whose, was)
			}
			im.write(set)
		}
	}
	im.remove(o, part, left.rest())
}

func samePart[T darkroom.Part](a, b T) bool {
	return bytes.Equal(darkroom.JSON(a), darkroom.JSON(b))
}

// remove notes what goes where the file replaces; it goes last, when nothing names it any more.
func (im *importer) remove(o ImportOptions, part Part, ids []string) {
	if !o.Replace {
		return
	}
	for _, id := range ids {
		im.removed = append(im.removed, &Removed{Part: part, ID: id})
	}
}

func (im *importer) removals() {
	for _, b := range im.removed {
		im.write(b)
	}
}

// Pairs give out ids by name, each once, those of one name in their order.
type pairs struct {
	byName map[string][]string
	order  []string
	taken  map[string]bool
}

func pairing[T any](has []T, ids []string, name func(T) string) *pairs {
	p := &pairs{byName: map[string][]string{}, order: ids, taken: map[string]bool{}}
	for i, t := range has {
		key := alike(name(t))
		p.byName[key] = append(p.byName[key], ids[i])
	}
	return p
}

func (p *pairs) take(name string) (id string, known bool) {
	ids := p.byName[alike(name)]
	if len(ids) == 0 {
		return "", false
	}
	p.byName[alike(name)], p.taken[ids[0]] = ids[1:], true
	return ids[0], true
}

// rest returns the ids that were not taken, in order.
func (p *pairs) rest() []string {
	return slices.DeleteFunc(slices.Clone(p.order), func(id string) bool { return p.taken[id] })
}

// alike returns the same for names that differ in capitals and spaces only.
func alike(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
