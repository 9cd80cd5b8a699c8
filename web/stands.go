package web

import (
	"net/http"
	"slices"
	"strconv"
	"strings"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
)

// standsPage asks about a bath that was begun before the book was.
type standsPage struct {
	frame
	Product, Dilution, Volume, Where field
	For, Place, Made, Before         field // of few words, all of which are shown
	Day, Sheets, Size, Of            field
}

// What a form of a bath that stands says in its own words.
const (
	isProduct, isRole  = "product ", "role " // before an id, before a role
	inTray, inTank     = "tray ", "tank "    // before an id
	madeToday, madeDay = "today", "day"
	beforeNone         = "none"
	beforeGuess        = "guess"
	nobodyKnows        = "unknown" // of either
)

// stands asks about a bath that stands here already.
func (s *server) stands(r *http.Request, v *visit) error {
	form := map[string]string{"size": material.Inches(8, 10).String(), "of": material.RC.String()}
	if all := v.file.Session.ToMake; len(all) > 0 && all[0].Size.Given() {
		form["size"], form["of"] = all[0].Size.Text, all[0].Material.String()
	}
	return v.showStands(r, http.StatusOK, form, nil)
}

// keepStands writes down a bath that stands here already, and its product where the shelf lacks it, both or neither.
func (s *server) keepStands(r *http.Request, v *visit) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	found := v.readStands(form)
	if len(found.problems) > 0 {
		return v.showStands(r, http.StatusUnprocessableEntity, form, found.problems)
	}
	var entries []book.Entry
	var expect *int64
	a := v.author(r)
	if found.fresh != nil {
		e, err := a.Write(book.NewSet(book.ProductPart, found.body.Product, *found.fresh, found.body.Ounce))
		if err != nil {
			return err
		}
		at := v.state.Position() // that a product is set is a decision
		entries, expect = append(entries, e), &at
	}
	a.Now = found.at
	e, err := a.Write(&found.body)
	if err != nil {
		return err
	}
	if err := s.Book.Append(r.Context(), append(entries, e), expect); err != nil {
		return err
	}
	return v.to(r, bathPath(found.body.Bath)+"?did="+e.ID)
}

func (v *visit) showStands(r *http.Request, status int, form, problems map[string]string) error {
	f := func(name, label string, options ...option) field {
		return field{Name: name, Label: label, Value: form[name], Problem: problems[name], Options: options}
	}
	say := v.say.Label
	p := standsPage{
		frame:    v.frame(r, "baths"),
		Product:  f("product", say("stands_product"), v.standsProducts()...),
		Dilution: f("dilution", say("dilution")),
		Volume:   f("volume", say("how_much")),
		Where:    f("where", say("stands_where"), v.standsWhere()...),
		For: f("for", say("stands_for"), option{"", say("not_said")},
			option{string(book.ServesPaper), say("stands_paper")}, option{string(book.ServesFilm), say("stands_film")}),
		Place: f("place", say("stands_place"), option{"", say("stands_alone")},
			option{string(darkroom.BathFirst), say("stands_first")}, option{string(darkroom.BathSecond), say("stands_second")}),
		Made: f("made", say("made"), option{nobodyKnows, say("stands_nobody_knows")}, option{madeToday, say("stands_today")},
			option{madeDay, say("stands_on_a_day")}),
		Day: f("day", say("stands_day")),
		Before: f("before", say("stands_before"), option{nobodyKnows, say("stands_nobody_knows")}, option{beforeGuess, say("stands_about")},
			option{beforeNone, say("stands_nothing")}),
		Sheets: f("sheets", say("stands_sheets")),
		Size:   f("size", say("size")),
		Of:     f("of", say("stands_of"), v.materials()...),
	}
	p.Title = say("stands")
	p.Dilution.Hint, p.Volume.Example, p.Day.Hint, p.Before.Hint = say("hint_stands_dilution"), v.amountOf("2 L"), say("hint_stands_day"), say("hint_stands_before")
	p.Size.Hint, p.Sheets.Mode = say("hint_size"), "numeric"
	return v.show(status, "stands", &p)
}

// standsProducts are the products of the shelf, then each role for what the shelf lacks.
func (v *visit) standsProducts() []option {
	all := []option{{"", v.say.Label("stands_choose")}}
	for i, p := range v.file.Shelf.Products {
		if i < len(v.ids.Products) {
			all = append(all, option{isProduct + v.ids.Products[i], p.Name})
		}
	}
	for _, r := range process.Roles() {
		all = append(all, option{isRole + r.String(), v.say.Tell("stands_other", "Role", v.say.Role(r)).Text()})
	}
	return all
}

// standsWhere are the trays, the tanks and the kinds of bottle.
func (v *visit) standsWhere() []option {
	all := []option{{"", v.say.Label("not_said")}}
	for i, name := range v.trayNames() {
		if i < len(v.ids.Trays) {
			all = append(all, option{inTray + v.ids.Trays[i], name})
		}
	}
	for i, name := range v.tankNames() {
		if i < len(v.ids.Tanks) {
			all = append(all, option{inTank + v.ids.Tanks[i], name})
		}
	}
	for _, b := range []darkroom.State{darkroom.FullBottle, darkroom.PartBottle, darkroom.FloatingLid} {
		all = append(all, option{string(b), v.say.Label("field_" + key(string(b)))})
	}
	return all
}

func (v *visit) materials() (all []option) {
	for _, m := range material.All() {
		all = append(all, option{m.String(), v.say.Material(m)})
	}
	return all
}

// partner returns the standing fixer that a first or a second of two stands with; empty for none.
func (v *visit) partner(place darkroom.Bath, serves book.Serves) (id string) {
	other := darkroom.BathFirst
	if place == darkroom.BathFirst {
		other = darkroom.BathSecond
	}
	film := serves == book.ServesFilm
	for _, b := range v.state.Baths() {
		single := b.Pair == nil || b.Pair.First == "" || b.Pair.Second == ""
		if b.Gone == nil && b.Place == other && single && (b.Mixed.For == book.ServesFilm) == film {
			id = b.ID
		}
	}
	return id
}

// offered reports whether a word is one of a field's.
func offered(all []option, word string) bool {
	return slices.ContainsFunc(all, func(o option) bool { return o.Value == word })
}

// freeProduct returns the role's own word, numbered where a product has that name already.
func (v *visit) freeProduct(r process.Role) string {
	name := v.say.Role(r)
	for n := 2; slices.ContainsFunc(v.productNames(), func(x string) bool { return strings.EqualFold(x, name) }); n++ {
		name = v.say.Role(r) + " " + strconv.Itoa(n)
	}
	return name
}
