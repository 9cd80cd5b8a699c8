package web

import (
	"bytes"
	"net/http"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
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
}

type bathView struct {
	plan.Bath
	V                *words.Voice
	Title, Where     string
	Volume, Depth    string
	Lines            []words.Line
	Before           []words.Phrase // rinsing
	Draws            []words.Phrase // which lots the chemical comes from
	Temper           []words.Line
	Summary, Makings words.Phrase
	Exact, Advice    words.Phrase
	Pictures         []scene.Scene
	First            string
}

type stockView struct {
	plan.Stock
	Lines []words.Line
}

type chainView struct {
	Load  string
	Steps []words.Phrase
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
	page.Chains = v.chains(p)
	page.Sinks = v.sinks(p)
	if all := v.stops(p); len(all) > 0 {
		page.First = all[0].at()
	}
	return v.show(http.StatusOK, "mix", &page)
}

// load says one line of what is to be made with how it is to last.
func (v *visit) load(l plan.Load) string {
	text := v.say.Load(l)
	if w := v.say.Wanted(l); w != "" {
		text += "; " + w
	}
	return text
}

func (v *visit) bathView(b plan.Bath) bathView {
	out := bathView{
		Bath: b, V: v.say, Title: v.say.BathTitle(b), Where: b.Tray + b.Tank, Volume: v.say.Volume(b.Volume), Depth: v.say.Depth(b),
		Summary: v.say.BathSummary(b), Makings: v.say.Makings(b), Advice: v.say.Advice(b.Mix.Advice), Lines: v.say.BathMix(b),
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
	all := draw.Bath(v.say, b)
	for i := range c.Steps {
		if r, ok := all[i]; ok {
			if sc, err := r.Scene(scene.Light); err == nil {
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
			say := v.say.Timed(t)
			if t.Bath >= 0 {
				if where := p.Baths[t.Bath].Tray + p.Baths[t.Bath].Tank; where != "" {
					say = append(say, words.Segment{Text: " → " + where})
				}
			}
			c.Steps = append(c.Steps, say)
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
	v.w.Header().Set("Content-Type", "application/pdf")
	v.w.Header().Set("Content-Disposition", `inline; filename="mix-sheet.pdf"`)
	_, _ = b.WriteTo(v.w)
	return nil
}
