package web

import (
	"net/http"
	"strconv"

	"wetside/darkroom"
	"wetside/plan"
	"wetside/words"
)

type planPage struct {
	frame
	Plan   plan.Plan
	When   string
	People int
	Loads  []loadView
	Baths  []bathView
	Cost   words.Phrase
	Told   []plan.Missing
	Gaps   []gapView
	Inches bool
	Own    bool // it is the plan of the member who asks
	Other  bool // and there is another: theirs, or the room's
}

type loadView struct {
	Text, Wanted, Change string
}

// showPlan shows what is to be made and what comes of it.
func (s *server) showPlan(r *http.Request, v *visit) error {
	if !v.begun() {
		return v.to(r, "/begin")
	}
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	page := planPage{frame: v.frame(r, "plan"), Plan: p, People: v.file.Session.People, Cost: v.say.Cost(p.Cost)}
	if v.file.Session.Starts.Given() {
		page.When = v.say.DateTime(p.Starts)
	}
	page.Told, page.Gaps = v.gaps(p)
	page.Inches = r.URL.Query().Get("read") == "inches"
	page.Own = v.plansForThemself()
	v.forRoom = false
	page.Other = v.plansForThemself()
	for i, l := range p.Loads {
		page.Loads = append(page.Loads, loadView{v.say.Load(l), v.say.Wanted(l), "/plan/load/" + strconv.Itoa(i)})
	}
	for _, b := range p.Baths {
		page.Baths = append(page.Baths, v.bathView(b))
	}
	return v.show(http.StatusOK, "plan", &page)
}

// load finds which line of what is to be made an address speaks of.
func (v *visit) loadAt(r *http.Request) (int, error) {
	if r.PathValue("i") == "new" {
		return darkroom.New, nil
	}
	i, err := strconv.Atoi(r.PathValue("i"))
	if err != nil || i < 0 || i >= len(v.file.Session.ToMake) {
		return 0, errNotFound
	}
	return i, nil
}

func (s *server) editLoad(r *http.Request, v *visit) error {
	i, err := v.loadAt(r)
	if err != nil {
		return err
	}
	x := sorts()["load"]
	return v.show(http.StatusOK, "form", v.formPage(r, x, i, x.form(v, i), nil))
}

func (s *server) keepLoad(r *http.Request, v *visit) error {
	i, err := v.loadAt(r)
	if err != nil {
		return err
	}
	return v.keepForm(r, sorts()["load"], i)
}

func (s *server) dropLoad(r *http.Request, v *visit) error {
	i, err := v.loadAt(r)
	if err != nil {
		return err
	}
	if i == darkroom.New {
		return errNotFound
	}
	return v.drop(r, darkroom.Without[darkroom.Load](v.file, i), "/plan")
}

// section makes a sort of a section of the file, of which there is one.
func section[T darkroom.Part](heading, back string, first []string, of func(f darkroom.File) T) sort {
	return sort{
		heading: heading, back: back, first: first,
		form:   func(v *visit, _ int) map[string]string { return darkroom.FormOf(of(v.file)) },
		fields: darkroom.FormFields[T],
		keep: func(f darkroom.File, _ int, form map[string]string) (darkroom.File, error) {
			x, err := darkroom.ReadForm[T](f, 0, form)
			if err != nil {
				return f, err
			}
			return darkroom.With(f, 0, x), nil
		},
	}
}

func whenSort() sort {
	s := section("session", "/plan", []string{"starts", "lasts", "people"}, func(f darkroom.File) darkroom.Session {
		return f.Session
	})
	return without(s, "to_make")
}

func roomSort() sort {
	return section("room", "/room", []string{"name", "place", "units", "ounce", "water.", "standards.", "poison_centre"},
		func(f darkroom.File) darkroom.Room { return f.Darkroom })
}

// without leaves a list of things out of a section's form; it then stays as it is.
func without(s sort, list string) sort {
	form, fields := s.form, s.fields
	s.form = func(v *visit, i int) map[string]string {
		out := form(v, i)
		for name := range out {
			if base(name) == list || hasGroup(name, list) {
				delete(out, name)
			}
		}
		return out
	}
	s.fields = func(counts map[string]int) []darkroom.FormField {
		var out []darkroom.FormField
		for _, f := range fields(counts) {
			if !hasGroup(f.Name, list) && f.Name != list {
				out = append(out, f)
			}
		}
		return out
	}
	return s
}

func hasGroup(name, list string) bool {
	return len(name) > len(list) && name[:len(list)] == list && (name[len(list)] == '[' || name[len(list)] == '.')
}

func (s *server) editWhen(r *http.Request, v *visit) error {
	x := whenSort()
	return v.show(http.StatusOK, "form", v.formPage(r, x, darkroom.New, x.form(v, 0), nil))
}

func (s *server) keepWhen(r *http.Request, v *visit) error {
	return v.keepForm(r, whenSort(), darkroom.New)
}

func (s *server) room(r *http.Request, v *visit) error {
	x := roomSort()
	return v.show(http.StatusOK, "form", v.formPage(r, x, darkroom.New, x.form(v, 0), nil))
}

func (s *server) keepRoom(r *http.Request, v *visit) error {
	return v.keepForm(r, roomSort(), darkroom.New)
}
