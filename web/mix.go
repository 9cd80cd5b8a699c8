package web

import (
	"bytes"
	"cmp"
	"math"
	"net/http"
	"net/url"
	"slices"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/trade/measure"
	"wetside/trade/reckoning"
	"wetside/words"
)

type mixPage struct {
	frame
	Plan   plan.Plan
	Loads  []string
	Baths  []bathView
	Sinks  []scene.Scene // one under another, and side by side
	Order  words.Phrase
	Stocks []stockView
	Cost   words.Phrase
	First  string // address of the first step
	Chains []chainView
	Told   []plan.Missing // what is missing
	Gaps   []gapView      // what nobody has told yet
	Others []spokenIn     // the sheet on paper in other languages
	Inches bool           // a size was read as inches
}

type bathView struct {
	plan.Bath
	V                *words.Voice
	Title, Where     string
	Volume, Depth    string
	Lines            []numberedLine
	Before           []words.Phrase // rinsing
	Draws            []words.Phrase // which lots the chemical comes from
	Temper           []words.Line
	Summary, Makings words.Phrase
	Exact, Advice    words.Phrase
	Pictures         []scene.Scene
	First            string
	Exacter          *otherView // a nearer way, where this one is only just near enough
}

type stockView struct {
	plan.Stock
	Lines []words.Line
}

type chainView struct {
	Load    string
	Steps   []words.Phrase
	Sources []words.Row // where the times are from
}

// mixSheet shows the whole mix sheet on one page, in the order of mixing.
func (s *server) mixSheet(r *http.Request, v *visit) error {
	if !v.begun() {
		return v.to(r, "/begin")
	}
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	page := mixPage{frame: v.frame(r, "mix_sheet"), Plan: p, Order: v.say.Order(p), Cost: v.say.Cost(p.Cost)}
	for _, l := range p.Loads {
		page.Loads = append(page.Loads, v.load(l))
	}
	for _, i := range p.Order {
		page.Baths = append(page.Baths, v.bathView(p.Baths[i]))
	}
	for _, x := range p.DayBefore {
		page.Stocks = append(page.Stocks, stockView{x, v.say.Stock(x, words.WaterOfStock(x, v.file.Bench))})
	}
	if err := page.exacter(r, v, p); err != nil {
		return err
	}
	page.Chains, page.Others = v.chains(p), v.languages("/mix.pdf", url.Values{})
	page.Inches = r.URL.Query().Get("read") == "inches"
	page.Told, page.Gaps = v.gaps(p)
	page.Sinks = v.sinks(p)
	if all := v.stops(p); len(all) > 0 {
		page.First = all[0].at()
	}
	return v.show(http.StatusOK, "mix", &page)
}

// exacter adds to the baths that come only just as near as they may, or not even that, a way that comes nearer.
func (page *mixPage) exacter(r *http.Request, v *visit, p plan.Plan) error {
	just := func(b plan.Bath) bool {
		return len(b.Mix.Choices) > 0 && (words.JustWithin(b.Mix.Choices[0], b.Tolerance) || !b.Mix.Choices[0].Within)
	}
	if !slices.ContainsFunc(p.Baths, just) {
		return nil
	}
	const some = 3
	q, err := plan.Make(r.Context(), v.asked(some))
	if err != nil {
		return err
	}
	off := func(c measure.Choice) float64 { return math.Abs(c.Bias) + c.Uncertainty }
	for i, x := range page.Baths {
		for _, b := range q.Baths {
			if b.ID != x.ID || !just(x.Bath) || len(b.Mix.Choices) < 2 {
				continue
			}
			best := slices.MinFunc(b.Mix.Choices[1:], func(a, c measure.Choice) int { return cmp.Compare(off(a), off(c)) })
			if off(best) < off(b.Mix.Choices[0]) {
				page.Baths[i].Exacter = &otherView{v.say.Differs(best), v.say.Mix(best, v.say.Batch(b))}
			}
		}
	}
	return nil
}

// load says one line of what is to be made with how it is to last.
func (v *visit) load(l plan.Load) string {
	return v.say.Clauses(v.say.Load(l), v.say.Wanted(l))
}

func (v *visit) bathView(b plan.Bath) bathView {
	out := bathView{
		Bath: b, V: v.say, Title: v.say.BathTitle(b), Where: unbroken(b.Tray + b.Tank), Volume: v.say.Volume(b.Volume), Depth: v.say.Depth(b),
		Summary: v.say.BathSummary(b), Makings: v.say.Makings(b), Advice: v.say.Advice(b.Mix.Advice), Lines: v.numberedLines(b),
	}
	if rinse := v.say.Rinse(b); len(rinse) > 0 {
		out.Before = append(out.Before, rinse)
	}
	for _, d := range b.Lots {
		out.Draws = append(out.Draws, v.say.Draw(d, v.file.Shelf.Lots))
	}
	if b.Temper != nil {
		out.Temper = v.say.Temper(*b.Temper, words.WaterOf(b))
		if w := v.waterPicture(b); w != nil {
			out.Pictures = append(out.Pictures, *w)
		}
	}
	if len(b.Mix.Choices) == 0 {
		return out
	}
	c := b.Mix.Choices[0]
	out.Exact = v.say.Exact(c, b.Role, b.Tolerance)
	all := draw.Bath(v.say, numberedVessels(b))
	for i := range c.Steps {
		if r, ok := all[i]; ok {
			if sc, err := r.Scene(v.form()); err == nil {
				out.Pictures = append(out.Pictures, sc)
			}
		}
	}
	return out
}

func (v *visit) chains(p plan.Plan) []chainView {
	var out []chainView
	for _, l := range p.Loads {
		c := chainView{Load: v.say.Load(l)}
		for _, t := range l.Times {
			c.Steps = append(c.Steps, v.say.TimedOf(p, t))
			c.Sources = append(c.Sources, v.say.Reckoning(reckoning.Reckoning{Result: t.Figure})...)
		}
		out = append(out, c)
	}
	return out
}

// mixPDF sends the mix sheet as PDF.
func (s *server) mixPDF(r *http.Request, v *visit) error {
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := s.Sheet(&b, p, v.file); err != nil {
		return err
	}
	return v.sendFile(&b, "application/pdf", `inline; filename="mix-sheet.pdf"`)
}
