package web

import (
	"net/http"
	"slices"

	"wetside/book"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/words"
)

type todayPage struct {
	frame
	Plan   plan.Plan
	When   string
	Loads  []string
	First  string // address of the first step of the mix sheet
	Stocks []stockView
	Baths  []mixedView // mixed already, newest first
	Low    []words.Phrase
}

// mixedView is a bath that stands mixed, and how to take that back.
type mixedView struct {
	Product, Dilution, Volume, When, Where, Undo string
}

// today is the first page: what the evening wants, and what stands in its way.
func (s *server) today(r *http.Request, v *visit) error {
	if !v.begun() {
		return v.to(r, "/begin")
	}
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	page := todayPage{frame: v.frame(r, "today"), Plan: p}
	if v.file.Session.Starts.Given() {
		page.When = v.say.DateTime(p.Starts)
	}
	for _, l := range p.Loads {
		page.Loads = append(page.Loads, v.load(l))
	}
	if all := v.stops(p); len(all) > 0 {
		page.First = all[0].at()
	}
	for _, x := range p.DayBefore {
		page.Stocks = append(page.Stocks, stockView{x, v.say.Stock(x, words.WaterOfStock(x, v.file.Bench))})
	}
	baths := v.state.Baths()
	for i := len(baths) - 1; i >= 0 && len(page.Baths) < 8; i-- {
		page.Baths = append(page.Baths, v.mixedView(baths[i]))
	}
	return v.show(http.StatusOK, "today", &page)
}

func (v *visit) mixedView(b book.Bath) mixedView {
	m := mixedView{
		Dilution: b.Mixed.Dilution, Volume: b.Mixed.Volume, When: v.say.DateTime(b.MixedAt), Undo: "/undo/" + b.Entry,
		Product: nameOf(v.ids.Products, b.Mixed.Product, v.productNames()),
		Where:   nameOf(v.ids.Trays, b.Mixed.Tray, v.trayNames()) + nameOf(v.ids.Tanks, b.Mixed.Tank, v.tankNames()),
	}
	return m
}

// nameOf returns the name of the thing with an id; empty where it is gone.
func nameOf(ids []string, id string, names []string) string {
	for i, x := range ids {
		if x == id && i < len(names) {
			return names[i]
		}
	}
	return ""
}

type beginPage struct {
	frame
	Name    field
	Jugs    []pick
	Problem string
}

// A pick is something that can be ticked.
type pick struct {
	option
	Ticked bool
}

// usualVessels are the vessels that can be had with one tap at the beginning: their forms, by a word.
func usualVessels() []usualVessel {
	jug := func(word, unit, from, to, step, numbered string) usualVessel {
		return usualVessel{word, map[string]string{
			"kind": "jug", "scales[0].unit": unit, "scales[0].from": from, "scales[0].to": to, "scales[0].step": step,
			"scales[0].numbered": numbered,
		}}
	}
	both := jug("litre_jug_both", "mL", "100", "1000", "50", "100")
	for name, t := range map[string]string{"unit": "US fl oz", "from": "1", "to": "32", "step": "1", "numbered": "4"} {
		both.form["scales[1]."+name] = t
	}
	small := func(word, kind, from, to, step, numbered string) usualVessel {
		u := jug(word, "mL", from, to, step, numbered)
		u.form["kind"] = kind
		return u
	}
	return []usualVessel{
		jug("litre_jug", "mL", "100", "1000", "50", "100"), both, jug("half_litre_jug", "mL", "50", "500", "25", "100"),
		jug("two_litre_jug", "mL", "200", "2000", "100", "200"), small("cylinder_100", "cylinder", "2", "100", "1", "10"),
		small("cylinder_25", "cylinder", "1", "25", "0.5", "5"), small("syringe_10", "syringe", "0.2", "10", "0.2", "1"),
	}
}

type usualVessel struct {
	word string
	form map[string]string
}

// begin asks for almost nothing: a name and which jugs there are; or the example; or just one jug.
func (s *server) begin(r *http.Request, v *visit) error {
	return v.show(http.StatusOK, "begin", v.beginPage(r, "", nil, ""))
}

func (v *visit) beginPage(r *http.Request, name string, ticked []string, problem string) *beginPage {
	p := &beginPage{frame: v.frame(r, "begin"), Problem: problem}
	p.Name = field{Name: "name", Label: v.say.Label("begin_name"), Value: name, Problem: problem}
	for _, u := range usualVessels() {
		p.Jugs = append(p.Jugs, pick{option{u.word, v.say.Label("usual_" + u.word)}, slices.Contains(ticked, u.word)})
	}
	return p
}

// beginWith makes the darkroom that was asked for.
func (s *server) beginWith(r *http.Request, v *visit) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	if r.PostForm.Get("do") == "example" {
		f, err := darkroom.Read(s.Example(s.Now()))
		if err != nil {
			return err
		}
		if err := s.Book.Keep(r.Context(), f, Keeping{}); err != nil {
			return err
		}
		return v.to(r, "/")
	}
	f := v.file
	room := map[string]string{"name": r.PostForm.Get("name")}
	d, err := darkroom.ReadForm[darkroom.Room](f, 0, room)
	if err != nil {
		return v.show(http.StatusUnprocessableEntity, "begin", v.beginPage(r, room["name"], r.PostForm["vessel"], v.say.Label("begin_name_missing")))
	}
	f = darkroom.With(f, 0, d)
	for _, u := range usualVessels() {
		if !slices.Contains(r.PostForm["vessel"], u.word) {
			continue
		}
		u.form["name"] = v.say.Label("usual_name_" + u.word)
		x, err := darkroom.ReadForm[darkroom.Vessel](f, darkroom.New, u.form)
		if err != nil {
			return err
		}
		f = darkroom.With(f, darkroom.New, x)
	}
	if err := s.Book.Keep(r.Context(), f, Keeping{}); err != nil {
		return err
	}
	return v.to(r, "/jug")
}
