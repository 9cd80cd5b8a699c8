package web

import (
	"net/http"
	"strconv"

	"wetside/book"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/trade/measure"
	"wetside/words"
)

// A stop is one screen on the way through the mix sheet: the cautions at the head, a bath's water, one reading, a few things
// to do, or the end of a bath.
type stop struct {
	kind  stopKind
	bath  int // index into Plan.Baths, -1 for the head
	id    string
	n     int          // from 1 within the bath
	lines []words.Line // of the walk
}

type stopKind uint8

const (
	stopHead stopKind = iota
	stopWater
	stopLines
	stopEnd
)

func (s stop) at() string { return "/mix/" + s.id + "/" + strconv.Itoa(s.n) }

// stops lists the screens of a plan, in the order of mixing.
func (v *visit) stops(p plan.Plan) []stop {
	var out []stop
	if len(p.Cautions) > 0 {
		out = append(out, stop{kind: stopHead, bath: -1, id: "before", n: 1})
	}
	for _, i := range p.Order {
		b := p.Baths[i]
		if len(b.Mix.Choices) == 0 {
			continue
		}
		n := 0
		add := func(kind stopKind, lines []words.Line) {
			n++
			out = append(out, stop{kind, i, b.ID, n, lines})
		}
		if b.Temper != nil {
			add(stopWater, v.say.Temper(*b.Temper, words.WaterOf(b)))
		}
		readings, rest := screens(v.say.BathWalk(b), b.Mix.Choices[0].Steps)
		for _, lines := range readings {
			add(stopLines, lines)
		}
		add(stopEnd, rest)
	}
	return out
}

// screens puts the lines of a walk on screens: each reading on one of its own, with what is done before it; the start
// with water, which has a picture, too. rest is what is done after the last reading.
func screens(lines []words.Line, steps []measure.Step) (out [][]words.Line, rest []words.Line) {
	for _, l := range lines {
		rest = append(rest, l)
		if l.Kind == words.Reading || (l.Step >= 0 && steps[l.Step].Do == measure.Start) {
			out = append(out, rest)
			rest = nil
		}
	}
	return out, rest
}

type stepPage struct {
	frame
	Ruler      scene.Scene
	Bath       *bathView // nil for the head
	Where      string    // "Developer → white tray"
	Which      string    // "bath 2 of 5"
	Head       []plan.Caution
	Big        *words.Line // the reading, set large
	Lines      []words.Line
	Picture    *scene.Scene
	Cautions   []plan.Caution
	Before     []words.Phrase
	End        bool
	Last       bool
	Back, Next string
	Position   int64
}

// mixStep shows one screen of the mix sheet.
func (s *server) mixStep(r *http.Request, v *visit) error {
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	all := v.stops(p)
	at := -1
	for i, x := range all {
		if x.id == r.PathValue("bath") && strconv.Itoa(x.n) == r.PathValue("n") {
			at = i
		}
	}
	if at < 0 {
		return errNotFound
	}
	page, err := v.stepPage(r, p, all, at)
	if err != nil {
		return err
	}
	return v.show(http.StatusOK, "step", page)
}

func (v *visit) stepPage(r *http.Request, p plan.Plan, all []stop, at int) (*stepPage, error) {
	x := all[at]
	page := &stepPage{frame: v.frame(r, "step"), Back: "/mix", Next: "/mix", Position: v.state.Position(), Last: at == len(all)-1}
	if at > 0 {
		page.Back = all[at-1].at()
	}
	if at+1 < len(all) {
		page.Next = all[at+1].at()
	}
	if err := page.ruler(v, all, at); err != nil {
		return nil, err
	}
	if x.kind == stopHead {
		page.Head = p.Cautions
		return page, nil
	}
	b := v.bathView(p.Baths[x.bath])
	page.Bath = &b
	page.Where = b.Title
	if b.Where != "" {
		page.Where += " → " + b.Where
	}
	page.Lines = x.lines
	page.End = x.kind == stopEnd
	if x.n == 1 {
		page.Before, page.Cautions = b.Before, b.Cautions
	}
	if x.kind == stopLines && (x.n == 1 || all[at-1].kind == stopWater) {
		page.Before = append(page.Before, b.Draws...)
	}
	switch x.kind {
	case stopLines:
		page.reading(v, b.Bath, x)
	case stopWater:
		page.Picture = v.waterPicture(b.Bath)
	case stopHead, stopEnd:
	}
	return page, nil
}

// ruler draws how far one is within the bath; which bath of how many stands beside it.
func (p *stepPage) ruler(v *visit, all []stop, at int) error {
	of, baths, bath := 0, 0, 0
	for i, x := range all {
		if x.id == all[at].id {
			of++
		}
		if x.n == 1 && x.bath >= 0 {
			baths++
			if i <= at {
				bath = baths
			}
		}
	}
	n := all[at].n
	say := v.say.Tell("step_of", "N", strconv.Itoa(n), "Of", strconv.Itoa(of)).Text()
	if all[at].bath >= 0 {
		p.Which = v.say.Tell("bath_of", "N", strconv.Itoa(bath), "Of", strconv.Itoa(baths)).Text()
	}
	var err error
	p.Ruler, err = draw.Progress{At: n, Of: of, Say: say}.Scene(scene.Light)
	return err
}

// reading puts the reading of a screen apart, large, with its picture.
func (p *stepPage) reading(v *visit, b plan.Bath, x stop) {
	for i, l := range x.lines {
		if l.Step < 0 {
			continue
		}
		if l.Kind == words.Reading {
			p.Big = &x.lines[i]
			p.Lines = x.lines[:i]
		}
		if p.Picture != nil {
			continue
		}
		if reading, ok := draw.Bath(v.say, b)[l.Step]; ok {
			if s, err := reading.Scene(scene.Light); err == nil {
				p.Picture = &s
			}
		}
	}
}

// poured writes into the book that a bath was mixed, which draws its lots down.
func (s *server) poured(r *http.Request, v *visit) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	next := nextStop(v.stops(p), r.PostForm.Get("next"))
	for _, b := range p.Baths {
		if b.ID != r.PathValue("bath") || len(b.Mix.Choices) == 0 {
			continue
		}
		a := &book.Author{Device: "page", Now: s.Now(), NewID: s.NewID}
		e, err := a.Write(v.mixed(b))
		if err != nil {
			return err
		}
		if err := s.Book.Append(r.Context(), []book.Entry{e}, nil); err != nil {
			return err
		}
		return v.to(r, next)
	}
	return errNotFound
}

// nextStop returns where a form asks to go on: one of the screens, else the whole sheet. An address of anybody else's is
// never taken.
func nextStop(all []stop, wanted string) string {
	for _, x := range all {
		if x.at() == wanted {
			return wanted
		}
	}
	return "/mix"
}
