package web

import (
	"errors"
	"math"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/words"
)

// A tap is one key that writes something down.
type tap struct{ Text, Value, Small string }

// tallyView is how a count is kept: one tap for what usually goes through, words for anything else.
type tallyView struct {
	Taps     []tap
	Other    field
	Guess    *guessView // an estimate to be taken; nil: nobody asked for one
	People   field
	Hours    field
	Through  string // the way that a load goes
	Position int64
}

// guessView is an estimate where nobody counted.
type guessView struct {
	Say    words.Phrase
	Sheets field
	What   string // size and material
	How    string
}

// tally makes the keys of a bath's count: of the evening's sizes first, else of 8×10.
func (v *visit) tally(r *http.Request, o *ahead.Outlook, s *ahead.Scene) tallyView {
	m := o.Chain.Material
	if m == material.None {
		m = material.RC
	}
	t := tallyView{
		Other:  field{Name: "load", Label: v.say.Label("tally_other"), Value: r.PostFormValue("load"), Hint: v.say.Label("hint_tally")},
		People: field{Name: "people", Label: v.say.Label("people"), Value: r.FormValue("people"), Mode: "numeric"},
		Hours:  field{Name: "hours", Label: v.say.Label("hours"), Value: r.FormValue("hours"), Mode: "decimal"},
	}
	for _, l := range v.file.Session.ToMake {
		if l.Size.Given() && goesThrough(s, l.Material, o.Index) {
			t.add(v, l.Material, l.Size.Value)
		}
	}
	if m == material.Film {
		t.add(v, m, material.Size{Roll: material.Roll135x36})
	} else {
		t.add(v, m, material.Inches(8, 10))
	}
	t.Through = v.through(s, m, o.Bath.ID)
	t.guess(v, r, m)
	return t
}

// mostTaps is how many sizes have a key of their own.
const mostTaps = 3

// add adds a key for one sheet or roll of a size, and for the first size one for a strip.
func (t *tallyView) add(v *visit, m material.Material, size material.Size) {
	noun, count := "sheets", "1 "
	if size.Roll != material.NoRoll {
		noun, count = "rolls", "1 roll "
	}
	value := count + size.String() + " " + m.String()
	if len(t.Taps) >= mostTaps || slices.ContainsFunc(t.Taps, func(x tap) bool { return x.Value == value }) {
		return
	}
	t.Taps = append(t.Taps, tap{"+ " + v.say.Count(noun, 1), value, v.say.Size(size) + " " + v.say.Material(m)})
	if noun == "sheets" && len(t.Taps) == 1 {
		t.Taps = append(t.Taps, tap{"+ " + v.say.Count("strips", 1), "1 strip " + size.String() + " " + m.String(), v.say.Size(size) + " " + v.say.Material(m)})
	}
}

// through names the way that a load of a material goes, for whoever counts it; empty where it is this bath alone.
func (v *visit) through(s *ahead.Scene, m material.Material, id string) string {
	var names []string
	for _, i := range wayOf(s, m, id) {
		names = append(names, v.say.BathCalled(s.Baths[i]))
	}
	if len(names) < 2 {
		return ""
	}
	return v.say.Tell("tally_through", "Baths", strings.Join(names, " → ")).Text()
}

// wayOf returns the baths that a load of a material goes through where this bath is one of them: the whole way, else the
// bath alone.
func wayOf(s *ahead.Scene, m material.Material, id string) []int {
	at := slices.IndexFunc(s.Baths, func(b ahead.Bath) bool { return b.ID == id })
	for _, c := range s.Chains {
		if c.Material == m && slices.Contains(c.Baths, at) {
			return c.Baths
		}
	}
	if at < 0 {
		return nil
	}
	return []int{at}
}

// goesThrough reports whether a material's way leads through a bath.
func goesThrough(s *ahead.Scene, m material.Material, index int) bool {
	return slices.ContainsFunc(s.Chains, func(c ahead.Chain) bool { return c.Material == m && slices.Contains(c.Baths, index) })
}

// perHour is how many sheets a person puts through in an hour where nobody counted: a guess, from memory.
const perHour = 1

// guess offers an estimate from people and hours.
func (t *tallyView) guess(v *visit, r *http.Request, m material.Material) {
	people, hours := r.FormValue("people"), r.FormValue("hours")
	if people == "" && hours == "" {
		return
	}
	n, err := strconv.Atoi(strings.TrimSpace(people))
	if err != nil || n < 1 || n > 1000 {
		t.People.Problem = v.say.Label("guess_people")
	}
	h, err := quantity.ReadRatio(strings.TrimSpace(hours))
	if err != nil || h.Float() <= 0 || h.Float() > 24 {
		t.Hours.Problem = v.say.Label("guess_hours")
	}
	if t.People.Problem+t.Hours.Problem != "" {
		return
	}
	how := v.say.Tell("guess_how", "People", v.say.Count("people", n), "Hours", v.say.Number(h)).Text()
	sheets := strconv.Itoa(int(math.Ceil(float64(n) * h.Float() * perHour)))
	size := material.Inches(8, 10)
	noun := size.String()
	if m == material.Film {
		noun = material.Roll135x36.String()
	}
	t.Guess = &guessView{
		Say: v.say.Tell("guess", "How", how, "N", sheets), What: noun + " " + m.String(), How: how,
		Sheets: field{Name: "sheets", Label: v.say.Label("sheets"), Value: sheets, Mode: "numeric"},
	}
}

// worked writes down that a load went through the baths of its way.
func (s *server) worked(r *http.Request, v *visit) error {
	b, there := v.state.Bath(r.PathValue("id"))
	if !there {
		return errNotFound
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	text := r.PostForm.Get("load")
	if what := r.PostForm.Get("what"); what != "" {
		text = "about " + r.PostForm.Get("sheets") + " " + what
	}
	prints, err := book.ReadPrints(text)
	if err != nil {
		return v.bathProblem(r, func(p *bathPage) { p.Tally.wrong(v, r, err) })
	}
	prints.How = r.PostForm.Get("how")
	m, err := material.Read(prints.Material)
	if err != nil {
		return v.bathProblem(r, func(p *bathPage) { p.Tally.wrong(v, r, err) })
	}
	sc := v.scene(m)
	var ids []string
	for _, i := range wayOf(&sc, m, b.ID) {
		ids = append(ids, sc.Baths[i].ID)
	}
	if len(ids) == 0 {
		ids = []string{b.ID}
	}
	spent := v.spent(sc, b.ID)
	return v.write(r, b.ID, &book.Worked{Baths: ids, Prints: prints}, spent)
}

// wrong sets what is wrong with a load at its field, with what was typed.
func (t *tallyView) wrong(v *visit, r *http.Request, err error) {
	if t.Guess != nil || r.PostForm.Get("what") != "" {
		t.Guess = &guessView{
			Say: v.say.Tell("guess_again"), What: r.PostForm.Get("what"), How: r.PostForm.Get("how"),
			Sheets: field{
				Name: "sheets", Label: v.say.Label("sheets"), Value: r.PostForm.Get("sheets"), Mode: "numeric", Problem: v.unreadable(err),
			},
		}
		return
	}
	t.Other.Value, t.Other.Problem = r.PostForm.Get("load"), v.unreadable(err)
}

// spent reports whether a bath was not to be used any more.
func (v *visit) spent(s ahead.Scene, id string) bool {
	s.Draws = fewDraws
	report, err := ahead.Look(s)
	if err != nil {
		return false
	}
	return slices.ContainsFunc(report.Baths, func(o ahead.Outlook) bool {
		return o.Bath.ID == id && (o.OutOfUse() || o.Lead.Kind == ahead.ForFilmAlone)
	})
}

// fewDraws is how many possible rooms are drawn where a word is wanted, not a count.
const fewDraws = 1000

// write writes what happened to a bath and shows the bath again.
func (v *visit) write(r *http.Request, bath string, body book.Body, spent bool) error {
	a := v.author(r)
	e, err := a.Write(body)
	if err != nil {
		return err
	}
	var expect *int64
	if body.Kind().Decides() {
		expect = position(r)
	}
	if err := v.s.Book.Append(r.Context(), []book.Entry{e}, expect); err != nil {
		return err
	}
	q := url.Values{"did": {e.ID}}
	if r.PostFormValue("back") == "/baths" {
		q.Set("bath", bath)
		return v.to(r, "/baths?"+q.Encode())
	}
	if spent {
		q.Set("spent", "yes")
	}
	return v.to(r, bathPath(bath)+"?"+q.Encode())
}

// bathProblem shows a bath's page again with what is wrong.
func (v *visit) bathProblem(r *http.Request, set func(p *bathPage)) error {
	p, err := v.bathPage(r)
	if err != nil {
		return err
	}
	set(p)
	return v.show(http.StatusUnprocessableEntity, "bath", p)
}

// unreadable says why words can't be read.
func (v *visit) unreadable(err error) string {
	e, ok := errors.AsType[*book.FieldError](err)
	if !ok {
		return v.say.ReadError(err).Text()
	}
	if cause, read := errors.AsType[*quantity.ReadError](e.Cause); read && len(e.Want) == 0 {
		return v.say.ReadError(cause).Text()
	}
	return v.say.Tell("field."+string(e.Why), "Found", e.Found, "Want", strings.Join(e.Want, "; ")).Text()
}
