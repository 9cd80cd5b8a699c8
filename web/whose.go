package web

import (
	"cmp"
	"context"
	"net/http"
	"slices"
	"strings"

	"wetside/access"
	"wetside/book"
	"wetside/darkroom"
	"wetside/plan"
)

// member is the person's id of a member who asks; empty for everybody else.
func (v *visit) member() string {
	if v.who.Role == access.Member {
		return v.who.Person
	}
	return ""
}

// mayChange reports whether whoever asks may change what is of a person, empty for the room's.
func (v *visit) mayChange(whose string) bool {
	return v.keeps() || v.member() != "" && whose == v.member()
}

// ownersNow says whose each lot and each product of the file is, by id.
func (v *visit) ownersNow() (lots, products []string) {
	for _, id := range v.ids.Lots {
		whose, _ := v.state.LotOwner(id)
		lots = append(lots, whose)
	}
	for _, id := range v.ids.Products {
		whose, _ := v.state.ProductOwner(id)
		products = append(products, whose)
	}
	return lots, products
}

// plansForThemself reports whether a page plans for the member who asks, with their own bottles first: where they have some here, and do
// not ask for the room's plan.
func (v *visit) plansForThemself() bool {
	if v.member() == "" || v.forRoom {
		return false
	}
	lots, _ := v.ownersNow()
	return slices.Contains(lots, v.member())
}

// plansFor is for whom a page plans: the member's id, or empty for the room.
func (v *visit) plansFor() string {
	if v.plansForThemself() {
		return v.member()
	}
	return ""
}

// asked is the request of a plan. Two people may have one name; what is another's is somebody's there.
func (v *visit) asked(alternatives int) plan.Request {
	r := plan.Request{File: v.file, Now: v.s.Now(), Alternatives: alternatives}
	me := v.plansFor()
	if me == "" {
		return r
	}
	r.Whose = me // a name that nobody else has: it is not shown
	lots, products := v.ownersNow()
	r.File.Shelf.Lots, r.File.Shelf.Products = slices.Clone(v.file.Shelf.Lots), slices.Clone(v.file.Shelf.Products)
	for i, id := range lots {
		r.File.Shelf.Lots[i].Whose = id
	}
	for i, id := range products {
		r.File.Shelf.Products[i].Whose = id
	}
	return r
}

// mayMix reports whether whoever asks may write down that a bath of the plan was mixed: a member, where all comes from their own bottles.
func (v *visit) mayMix(b *plan.Bath) bool {
	if v.member() == "" {
		return v.keeps()
	}
	return !slices.ContainsFunc(b.Lots, func(d plan.Draw) bool {
		if d.Lot < 0 || d.Lot >= len(v.ids.Lots) {
			return true // a stock that is to be made is none yet
		}
		whose, _ := v.state.LotOwner(v.ids.Lots[d.Lot])
		return whose != v.member()
	})
}

// ofWhom says whose something is, for a heading; empty for the room's where it goes without saying.
func (v *visit) ofWhom(whose string) string {
	switch whose {
	case "":
		return v.say.Label("whose_room")
	case v.member():
		return v.say.Label("whose_yours")
	}
	return capital(v.say.Tell("whose_of", "Name", v.say.Owner(v.people.Name(whose))).Text())
}

// owners are all who own something of the shelf, in the order of its sections: who asks, the room, the others by name.
func (v *visit) owners() []string {
	lots, products := v.ownersNow()
	all := append([]string{""}, append(lots, products...)...)
	if v.member() != "" {
		all = append(all, v.member())
	}
	rank := func(id string) int {
		switch {
		case id == v.member() && id != "":
			return 0
		case id == "":
			return 1
		case v.people.Name(id) == book.Somebody:
			return 3
		}
		return 2
	}
	slices.SortFunc(all, func(a, b string) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(v.people.Name(a), v.people.Name(b)), cmp.Compare(a, b))
	})
	return slices.Compact(all)
}

// withMembers adds to the file's people those who may own something and are not among them: the member who asks, for a keyholder all
// members. It returns their ids by name.
func (v *visit) withMembers(ctx context.Context) (map[string]string, error) {
	persons := map[string]string{}
	if me := v.member(); me != "" {
		v.addPerson(persons, me)
		return persons, nil
	}
	if !v.keeps() {
		return persons, nil
	}
	keys, err := v.s.Doors.Keys(ctx)
	for i := range keys {
		if keys[i].Role == access.Member && keys[i].Person != "" {
			v.addPerson(persons, keys[i].Person)
		}
	}
	return persons, err
}

func (v *visit) addPerson(persons map[string]string, id string) {
	name := v.people.Name(id)
	if name == book.Somebody {
		return
	}
	listed := slices.ContainsFunc(v.file.People, func(p darkroom.Person) bool { return strings.EqualFold(p.Name, name) })
	if _, twice := persons[name]; twice || listed && id != v.member() {
		return
	}
	persons[name] = id
	if !listed {
		v.file.People = append(v.file.People, darkroom.Person{Name: name})
	}
}

// whoseField makes the field of an owner a choice; false where there is nothing to choose: a member's is theirs, and where nobody else is
// known all is the room's.
func (v *visit) whoseField(f field) (field, bool) {
	if v.member() != "" || len(v.file.People) == 0 && f.Value == "" {
		return f, false
	}
	f.Label, f.Options = v.say.Label("whose"), []option{{"", v.say.Label("whose_room")}}
	known := f.Value == ""
	for _, p := range v.file.People {
		f.Options = append(f.Options, option{p.Name, p.Name})
		known = known || p.Name == f.Value
	}
	if !known {
		f.Options = append(f.Options, option{f.Value, v.say.Owner(f.Value)})
	}
	return f, true
}

// keepOwn writes what differs between the file and the book, if all of it is theirs.
func (g guarded) keepOwn(ctx context.Context, f darkroom.File, k Keeping) error {
	who := access.From(ctx)
	state, err := g.State(ctx)
	if err != nil {
		return err
	}
	people, err := g.People(ctx)
	if err != nil {
		return err
	}
	a := &book.Author{By: who.Person, Device: k.Device, Now: g.now(), NewID: g.newID}
	im, err := book.Import(state, people, f, a, book.ImportOptions{Replace: k.Replace, Persons: k.Persons})
	switch {
	case err != nil:
		return err
	case len(im.People) > 0:
		return errNotYours
	case k.Expect == nil:
		at := state.Position()
		k.Expect = &at
	}
	return g.Append(ctx, im.Entries, k.Expect)
}

// isForRoom reports whether a page is about the room's plan, and not about that of the member who asks: all are but the plan and the mix
// sheet, and these where that is asked for.
func isForRoom(r *http.Request) bool {
	switch r.Pattern {
	case "GET /plan", "GET /mix", "GET /mix/ready", "GET /mix/{bath}/{n}", "GET /mix.pdf", "POST /mix/{bath}/poured":
		return r.URL.Query().Get("for") == "room"
	}
	return true
}
