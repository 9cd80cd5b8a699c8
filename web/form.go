package web

import (
	"errors"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
)

// A formPage is a form for one thing of the darkroom.
type formPage struct {
	frame
	Heading    string
	Action     string // where it is sent
	Away       string // where the taking away is sent; empty: there is nothing yet
	Back       string
	First, All []fieldGroup // what is asked at once, and what else there is
	Other      []string     // problems that belong to no field
	AllOpen    bool
	Position   int64
}

type fieldGroup struct {
	Name   string
	Fields []field
}

// A sort knows one kind of thing that forms can change.
type sort struct {
	heading string // key of a label
	back    string
	first   []string // names of the fields that are asked at once; a name ending in . or [ is a whole group
	lists   []string // lists of things that get one more empty item
	ids     func(v *visit) []string
	form    func(v *visit, i int) map[string]string
	fields  func(counts map[string]int) []darkroom.FormField
	// keep reads a form into the file; i is darkroom.New for a new thing.
	keep func(f darkroom.File, i int, form map[string]string) (darkroom.File, error)
	drop func(f darkroom.File, i int) darkroom.File
	// fill puts in what goes without saying; nil: nothing does.
	fill  func(form map[string]string)
	owned bool // it is somebody's, or the room's
}

// part is the part of the house that a thing belongs to.
func (x sort) part() string {
	if x.back == "/room" {
		return "settings"
	}
	return strings.TrimPrefix(x.back, "/")
}

// sortOf makes a sort of a part of the file.
func sortOf[T darkroom.Part](heading, back string, first, lists []string, list func(f darkroom.File) []T, ids func(v *visit) []string) sort {
	return sort{
		heading: heading, back: back, first: first, lists: lists, ids: ids,
		form: func(v *visit, i int) map[string]string {
			if i < 0 || i >= len(list(v.file)) {
				return map[string]string{}
			}
			return darkroom.FormOf(list(v.file)[i])
		},
		fields: darkroom.FormFields[T],
		keep: func(f darkroom.File, i int, form map[string]string) (darkroom.File, error) {
			x, err := darkroom.ReadForm[T](f, i, form)
			if err != nil {
				return f, err
			}
			return darkroom.With(f, i, x), nil
		},
		drop: func(f darkroom.File, i int) darkroom.File { return darkroom.Without[T](f, i) },
	}
}

// sorts is what forms can change, by the word in the address.
func sorts() map[string]sort {
	all := map[string]sort{
		"vessel": sortOf("vessel", "/bench", []string{"name", "kind", "scales[0]."}, []string{"scales"},
			func(f darkroom.File) []darkroom.Vessel { return f.Bench.Vessels }, func(v *visit) []string { return v.ids.Vessels }),
		"tray": sortOf("tray", "/bench", []string{"name", "for", "inside", "fill"}, nil,
			func(f darkroom.File) []darkroom.Tray { return f.Bench.Trays }, func(v *visit) []string { return v.ids.Trays }),
		"tank": sortOf("tank", "/bench", []string{"name", "covers."}, nil,
			func(f darkroom.File) []darkroom.Tank { return f.Bench.Tanks }, func(v *visit) []string { return v.ids.Tanks }),
		"can": sortOf("can", "/bench", []string{"name", "takes", "holds"}, nil,
			func(f darkroom.File) []darkroom.Can { return f.Bench.Cans }, func(v *visit) []string { return v.ids.Cans }),
		"product": sortOf("product", "/shelf", []string{"name", "role", "acid", "dilutions."},
			[]string{"packs", "contains"},
			func(f darkroom.File) []darkroom.Product { return f.Shelf.Products }, func(v *visit) []string { return v.ids.Products }),
		"lot": sortOf("lot", "/shelf", []string{"product", "holds", "left", "received", "opened", "whose"}, nil,
			func(f darkroom.File) []darkroom.Lot { return f.Shelf.Lots }, func(v *visit) []string { return v.ids.Lots }),
		"load": sortOf("to_make", "/plan", []string{"material", "size", "sheets"}, nil,
			func(f darkroom.File) []darkroom.Load { return f.Session.ToMake }, nil),
	}
	for name, fill := range map[string]func(map[string]string){"vessel": fillVessel, "product": fillProduct} {
		x := all[name]
		x.fill = fill
		all[name] = x
	}
	for _, name := range []string{"product", "lot"} {
		x := all[name]
		x.owned = true
		all[name] = x
	}
	return all
}

// fillVessel numbers the marks of scales of which nobody said which carry a number.
func fillVessel(form map[string]string) {
	for i := range 20 {
		scale := "scales[" + strconv.Itoa(i) + "]."
		if form[scale+"numbered"] == "" && form[scale+"step"] != "" && form["kind"] != "balance" {
			if n := numberedBy(form[scale+"from"], form[scale+"to"], form[scale+"step"]); n != "" {
				form[scale+"numbered"] = n
			}
		}
	}
}

// fillProduct takes a product for a liquid, and a stop bath for an acid: most are, and water first harms none.
func fillProduct(form map[string]string) {
	if form["role"] != "" && form["form"] == "" {
		form["form"] = "liquid"
	}
	if form["role"] == process.StopBath.String() && form["acid"] == "" {
		form["acid"] = "yes"
	}
}

// thing finds which thing an address speaks of; new is darkroom.New.
func (v *visit) thing(r *http.Request) (sort, int, error) {
	s, ok := sorts()[r.PathValue("kind")]
	if !ok || s.ids == nil || !strings.HasPrefix(r.URL.Path, s.back+"/") {
		return sort{}, 0, errNotFound
	}
	id := r.PathValue("id")
	if id == "new" {
		return s, darkroom.New, nil
	}
	if i := slices.Index(s.ids(v), id); i >= 0 {
		return s, i, nil
	}
	return sort{}, 0, errNotFound
}

func (s *server) editThing(r *http.Request, v *visit) error {
	x, i, err := v.thing(r)
	if err != nil {
		return err
	}
	if _, err := v.withMembers(r.Context()); err != nil {
		return err
	}
	form := x.form(v, i)
	for name, values := range r.URL.Query() {
		form[name] = values[0]
	}
	if x.fill != nil {
		x.fill(form)
	}
	p := v.formPage(r, x, i, form, nil)
	return v.show(http.StatusOK, "form", p)
}

func (s *server) keepThing(r *http.Request, v *visit) error {
	x, i, err := v.thing(r)
	if err != nil {
		return err
	}
	return v.keepForm(r, x, i)
}

// keepForm reads a form into the file and keeps it, or shows it again with what is wrong at each field.
func (v *visit) keepForm(r *http.Request, x sort, i int) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	full, inches := readAsInches(form)
	if x.fill != nil {
		x.fill(full)
	}
	persons, err := v.withMembers(r.Context())
	if err != nil {
		return err
	}
	if me := v.member(); me != "" && x.owned {
		full["whose"] = v.people.Name(me)
	}
	f, err := x.keep(v.file, i, full)
	if problems, ok := errors.AsType[darkroom.Problems](err); ok {
		return v.show(http.StatusUnprocessableEntity, "form", v.formPage(r, x, i, form, problems))
	}
	if err != nil {
		return err
	}
	err = v.s.Book.Keep(r.Context(), f, Keeping{Replace: true, Expect: position(r), Device: v.device(r), Persons: persons})
	if book.KindOf(err) == book.Stale {
		p := v.formPage(r, x, i, form, nil)
		p.Other = append(p.Other, v.say.Tell("moved_on").Text())
		return v.show(http.StatusConflict, "form", p)
	}
	if err != nil {
		return err
	}
	if inches {
		return v.to(r, x.back+"?read=inches")
	}
	return v.to(r, x.back)
}

// position returns the position of the book that a form was made on, nil where it does not say.
func position(r *http.Request) *int64 {
	n, err := strconv.ParseInt(r.PostFormValue(positionField), 10, 64)
	if err != nil {
		return nil
	}
	return &n
}

// positionField is the form's hidden field for the book's position.
const positionField = "position"

func (s *server) dropThing(r *http.Request, v *visit) error {
	x, i, err := v.thing(r)
	if err != nil {
		return err
	}
	if i == darkroom.New {
		return errNotFound
	}
	return v.drop(r, x.drop(v.file, i), x.back)
}

// drop keeps a file from which something was left out.
func (v *visit) drop(r *http.Request, f darkroom.File, back string) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	if err := v.s.Book.Keep(r.Context(), f, Keeping{Replace: true, Expect: position(r), Device: v.device(r)}); err != nil {
		return err
	}
	return v.to(r, back)
}

// formOf returns the fields of a form that were filled in.
func formOf(r *http.Request) (map[string]string, error) {
	if err := r.ParseForm(); err != nil {
		return nil, err
	}
	out := map[string]string{}
	for name, values := range r.PostForm {
		if name == positionField {
			continue
		}
		if t := strings.TrimSpace(values[0]); t != "" {
			out[name] = t
		}
	}
	return out, nil
}

// formPage makes a form of a thing's fields with the user's own words in them.
func (v *visit) formPage(r *http.Request, x sort, i int, form map[string]string, problems darkroom.Problems) *formPage {
	p := &formPage{
		frame: v.frame(r, x.part()), Heading: v.say.Label(x.heading), Action: r.URL.Path, Back: x.back,
		Position: v.state.Position(),
	}
	if i != darkroom.New {
		p.Away = strings.TrimSuffix(r.URL.Path, "/") + "/away"
	}
	first := x.first
	if form["material"] == material.Film.String() {
		first = append(slices.Clone(first), "rolls")
	}
	said := map[string]bool{}
	for _, f := range x.fields(v.counts(x, form)) {
		one := v.field(f, form, problems)
		if x.owned && f.Name == "whose" {
			var shown bool
			if one, shown = v.whoseField(one); !shown {
				continue
			}
		}
		if one.Problem != "" {
			said[f.Name] = true
		}
		to := &p.All
		if asked(f.Name, first) {
			to = &p.First
		} else if one.Problem != "" {
			p.AllOpen = true
		}
		put(to, v.groupLabel(f.Group), one)
	}
	for _, pr := range problems {
		if said[pr.Path] || said[base(pr.Path)] {
			continue
		}
		if text := v.say.Problem(pr).Text(); !p.atGroup(pr.Path, text) {
			p.Other = append(p.Other, text)
		}
	}
	return p
}

// atGroup sets a problem of a whole group, as a list with nothing in it, at the group's first field.
func (p *formPage) atGroup(path, text string) bool {
	for _, groups := range [][]fieldGroup{p.First, p.All} {
		for _, g := range groups {
			for i, f := range g.Fields {
				if !strings.HasPrefix(f.Name, path+"[") && !strings.HasPrefix(f.Name, path+".") {
					continue
				}
				g.Fields[i].Problem = text
				return true
			}
		}
	}
	return false
}

// counts says how many items each list of things shows: those that are there, and one empty one.
func (v *visit) counts(x sort, form map[string]string) map[string]int {
	counts := map[string]int{}
	for _, list := range x.lists {
		n := 0
		for name := range form {
			rest, ok := strings.CutPrefix(name, list+"[")
			if !ok {
				continue
			}
			digits, _, _ := strings.Cut(rest, "]")
			if i, err := strconv.Atoi(digits); err == nil && i < 20 {
				n = max(n, i+1)
			}
		}
		counts[list] = n + 1
	}
	return counts
}

func asked(name string, first []string) bool {
	if strings.HasSuffix(name, ".numbered") { // goes without saying
		return false
	}
	return slices.ContainsFunc(first, func(f string) bool {
		return f == name || ((strings.HasSuffix(f, ".") || strings.HasSuffix(f, "[")) && strings.HasPrefix(name, f))
	})
}

// put adds a field to the group that it stands in.
func put(groups *[]fieldGroup, name string, f field) {
	if n := len(*groups); n > 0 && (*groups)[n-1].Name == name {
		(*groups)[n-1].Fields = append((*groups)[n-1].Fields, f)
		return
	}
	*groups = append(*groups, fieldGroup{Name: name, Fields: []field{f}})
}
