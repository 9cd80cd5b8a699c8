package web

import (
	"net/http"
	"slices"
	"strconv"

	"wetside/book"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/trade/measure"
	"wetside/words"
)

type stepPage struct {
	frame
	Ruler      scene.Scene
	Bath       *bathView // nil for the head
	Where      string    // "Developer → white tray"
	Which      string    // "bath 2 of 5"
	Head       []plan.Caution
	Never      words.Phrase
	Verb       string      // before the large number: "fill to"
	Big        *words.Line // the reading, set large
	Notes      []words.Line
	Lines      []words.Line
	Picture    *scene.Scene
	Cautions   []plan.Caution
	Persons    []personView // for whom the caution is higher, the doubtful at the head; those who keep the darkroom alone see it
	Yours      []words.Phrase
	Before     []words.Phrase
	First      []words.Phrase // what to have at hand and to look at, before the next screen
	Again      words.Phrase   // the bath stands mixed already
	Done       string         // what the key says
	End        bool
	Unwritten  bool // it is the end of a bath that whoever asks may not write down
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
	page := &stepPage{
		frame: v.frame(r, "step"), Back: "/mix", Next: "/mix/ready", Position: v.state.Position(), Last: at == len(all)-1, End: x.last && v.mayMix(&p.Baths[x.bath]),
	}
	page.Unwritten = x.last && !page.End
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
		page.Head, page.Never, page.Done = p.Cautions, v.say.NeverTogether(p.Never), v.say.Label("ready")
		page.Persons = v.mixers(true, p.Products()...)
		return page, nil
	}
	page.bath(v, p.Baths[x.bath], all, at)
	return page, nil
}

// bath fills in what a stop of a bath shows.
func (p *stepPage) bath(v *visit, bath plan.Bath, all []stop, at int) {
	x, b := all[at], v.bathView(bath)
	p.Bath, p.Where, p.Done, p.Notes = &b, b.Title, v.done(bath, x), x.notes
	if b.Where != "" {
		p.Where += " → " + b.Where
	}
	p.Cautions = x.cautions
	if x.n == 1 {
		p.First, p.Persons, p.Yours = b.Draws, v.mixers(false, bath.Product), v.yoursAt(bath.Product)
		for _, f := range bath.Findings {
			if early(f.Kind) {
				p.First = append(p.First, v.say.Finding(f))
			}
		}
		if before, ok := v.ready(bath); ok {
			p.Again = v.say.Tell("mixed_before", "Bath", b.Title, "Where", b.Where, "When", v.say.DateTime(before.MixedAt))
		}
	}
	switch x.kind {
	case stopWash:
		p.Before = b.Before
	case stopWater:
		p.Lines, p.Picture = b.Temper, v.waterPicture(bath)
	case stopLine:
		p.reading(v, bath, x.line)
	case stopHead:
	}
}

// early reports what is said before anything is poured: of the bottles. What else was found stands at the end.
func early(k plan.FindingKind) bool {
	return k == plan.LeftUnknown || k == plan.LotAgeUnknown || k == plan.LeastPerRollShort
}

// Late are the findings that stand at the end of a bath.
func (p *stepPage) Late() []plan.Finding {
	return slices.DeleteFunc(slices.Clone(p.Bath.Findings), func(f plan.Finding) bool { return early(f.Kind) })
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
	if of == 1 { // nothing to be gone through
		return nil
	}
	var err error
	p.Ruler, err = draw.Progress{At: n, Of: of, Say: say}.Scene(v.form())
	return err
}

// reading sets what is read large, with its picture; what is done without reading stands as a sentence.
func (p *stepPage) reading(v *visit, b plan.Bath, l words.Line) {
	if l.Number == "" {
		p.Lines = []words.Line{l}
	} else {
		p.Big = &l
	}
	if l.Step < 0 {
		return
	}
	switch b.Mix.Choices[0].Steps[l.Step].Do {
	case measure.Fill:
		p.Verb = v.say.Label("verb_fill")
	case measure.Start:
		p.Verb = v.say.Label("verb_start")
	case measure.Pour:
		p.Verb = v.say.Label("verb_pour")
	case measure.Weigh, measure.Tip, measure.Rinse, measure.Stir:
	}
	if reading, ok := draw.Bath(v.say, numberedVessels(b))[l.Step]; ok {
		if s, err := reading.Scene(v.form()); err == nil {
			p.Picture = &s
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
		if x, ok := v.ready(b); ok && r.PostForm.Get("again") == "" {
			return v.askAgain(r, b, x, next)
		}
		a := v.author(r)
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
	if wanted == "/mix/ready" {
		return wanted
	}
	return "/mix"
}
