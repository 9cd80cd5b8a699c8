package draw

import (
	"fmt"
	"math"
	"slices"

	"wetside/draw/scene"
)

// A Curve is how much of something is in a bath against the sheets that went through: what was, with what is to be
// expected, and the limit that ends it.
type Curve struct {
	Done   []Sample   // from the first sheet to now
	Future []Forecast // from now on
	// Limit may fall or rise as the bath changes; empty: none.
	Limit []Sample
	// Ends are where the bath is spent; nil: not known.
	Ends *Ends
	Now  *float64 // nil: not marked
	// To is how many sheets the picture reaches to; 0: as far as its figures, rounded up.
	To   float64
	Size Size
	Say  CurveWords
}

// CurveWords are the words in the picture.
type CurveWords struct {
	Picture           string // the picture in words, for those who do not see it
	Amount            string // over the upright axis: "silver, g/L"
	Sheets            string // under the other: "sheets of 8×10"
	Limit             string // at the limit: "limit 2 g/L"
	Safe, Likely, Now string // under the numbers of their marks
	// Number writes a count of sheets; nil: whole, rounded down.
	Number func(float64) string
	// Figure writes an amount at a tick with so many decimals; nil: with a point.
	Figure func(v float64, places int) string
}

func (w CurveWords) number(v float64) string {
	if w.Number != nil {
		return w.Number(v)
	}
	return wholeSheets(v)
}

func (w CurveWords) figure(v float64, places int) string {
	if w.Figure != nil {
		return w.Figure(v, places)
	}
	return figure(v, places)
}

// quantile returns one of the forecast's lines.
func (c Curve) quantile(of func(Forecast) float64) []Sample {
	var all []Sample
	for _, f := range c.Future {
		all = append(all, Sample{f.At, of(f)})
	}
	return all
}

func low(f Forecast) float64  { return f.P10 }
func mid(f Forecast) float64  { return f.P50 }
func high(f Forecast) float64 { return f.P90 }

// check refuses what makes no picture.
func (c Curve) check() error {
	for _, f := range c.Future {
		if f.P10 > f.P50 || f.P50 > f.P90 {
			return fmt.Errorf("%w: quantiles %g, %g, %g", ErrModel, f.P10, f.P50, f.P90)
		}
	}
	for _, l := range []struct {
		what string
		line []Sample
	}{
		{"what was", c.Done}, {"p10", c.quantile(low)}, {"p50", c.quantile(mid)}, {"p90", c.quantile(high)}, {"limit", c.Limit},
	} {
		if err := rising(l.what, l.line); err != nil {
			return err
		}
	}
	if len(c.Done)+len(c.Future) == 0 {
		return fmt.Errorf("%w: a curve without figures", ErrModel)
	}
	return finite("sheets", append(c.marks(), c.To)...)
}

// marks returns the counts that are marked.
func (c Curve) marks() []float64 {
	var all []float64
	if c.Now != nil {
		all = append(all, *c.Now)
	}
	if c.Ends != nil {
		all = append(all, c.Ends.Safe, c.Ends.Likely)
	}
	return all
}

// rulers returns the two scales, the upright one with its step, and the curve cut to what is seen of it.
func (c Curve) rulers() (x, y ruler, step float64, seen Curve) {
	end := c.To
	if end == 0 {
		end = 1
		for _, l := range [][]Sample{c.Done, c.quantile(low)} {
			if n := len(l); n > 0 {
				end = max(end, l[n-1].At)
			}
		}
		end = roundUp(max(end, slices.Max(append(c.marks(), 0))))
	}
	seen = c.upTo(end)
	least, most := math.Inf(1), math.Inf(-1)
	for _, l := range [][]Sample{seen.Done, seen.quantile(low), seen.quantile(high), seen.Limit} {
		for _, s := range l {
			least, most = min(least, s.Amount), max(most, s.Amount)
		}
	}
	if math.IsInf(least, 1) {
		least, most = 0, 1
	}
	if least >= 0 && least < 0.5*most {
		least = 0
	}
	if most-least < 1e-9 {
		most = least + 1
	}
	step = roundStep(most-least, 5)
	from, to := math.Floor(least/step+1e-9)*step, math.Ceil(2*most/step-1e-9)*step/2
	return ruler{from: 0, to: end}, ruler{from: from, to: to}, step, seen
}

// upTo cuts a curve off at a count of sheets.
func (c Curve) upTo(end float64) Curve {
	lows, mids, highs := upTo(c.quantile(low), end), upTo(c.quantile(mid), end), upTo(c.quantile(high), end)
	c.Done, c.Limit, c.Future = upTo(c.Done, end), upTo(c.Limit, end), nil
	if n := len(c.Limit); n > 0 && c.Limit[n-1].At < end {
		c.Limit = append(slices.Clone(c.Limit), Sample{end, c.Limit[n-1].Amount})
	}
	for i, s := range mids {
		c.Future = append(c.Future, Forecast{s.At, lows[i].Amount, s.Amount, highs[i].Amount})
	}
	return c
}

// Scene returns the picture. The error wraps ErrModel.
func (c Curve) Scene(f scene.Form) (scene.Scene, error) {
	if err := c.check(); err != nil {
		return scene.Scene{}, err
	}
	x, y, step, seen := c.rulers()
	ticks := steps(y.from, y.to, step)
	var numbers []string
	for _, t := range ticks {
		numbers = append(numbers, c.Say.figure(t, places(step)))
	}
	p := newPlot(c.Size, c.Say.Picture, x, y, numbers, 14)
	seen.band(p, f)
	p.between(steps(y.from, y.to, step/2))
	p.upright(ticks, numbers, c.Say.Amount)
	tags := seen.draw(p)
	sheets := roundStep(x.to, (p.x.b-p.x.a)/(c.Size.letter()*3))
	p.level(max(sheets, 1), c.Say.number, tags, c.Say.Sheets)
	return p.out, nil
}

// band draws where eight baths of ten lie: pale between two thin lines; in the red form the lines alone.
func (c Curve) band(p *plot, f scene.Form) {
	up, down := p.pointsOf(c.quantile(high)), p.pointsOf(c.quantile(low))
	if len(up) < 2 {
		return
	}
	for i := 1; i < len(up); i++ {
		p.area = append(p.area, scene.Box{
			Min: scene.Point{X: up[i-1].X, Y: min(up[i-1].Y, up[i].Y)}, Max: scene.Point{X: up[i].X, Y: max(down[i-1].Y, down[i].Y)},
		})
	}
	if f != scene.Red {
		back := slices.Clone(down)
		slices.Reverse(back)
		area := scene.Polygon(append(slices.Clone(up), back...)...)
		area.Fill = scene.Liquid
		p.out.Add(area)
	}
	for _, line := range [][]Sample{c.quantile(high), c.quantile(low)} {
		p.line(line, scene.Path{Stroke: scene.Hatch, Width: p.size.stroke(1)})
	}
}

// draw draws lines and marks and the limit's name, and returns the tags of the marks.
func (c Curve) draw(p *plot) []tag {
	tags := c.uprights(p)
	p.line(c.quantile(mid), scene.Path{Stroke: scene.Ink, Width: p.size.stroke(2), Dash: 2, Gap: 4.5})
	p.line(c.Done, scene.Path{Stroke: scene.Ink, Width: p.size.stroke(3)})
	if len(c.Limit) > 0 {
		look := scene.Path{Stroke: scene.Accent, Width: p.size.stroke(3)}
		p.line(c.Limit, look)
		p.nameAlong(c.Limit, c.Say.Limit, c.Say.Amount, look)
	}
	return tags
}

// uprights draws the marks, each as high as the line that gives its meaning.
func (c Curve) uprights(p *plot) []tag {
	var tags []tag
	if c.Now != nil && *c.Now <= p.x.to {
		p.mark(*c.Now, c.amountNow(), scene.Mark, plainWidth)
		tags = append(tags, tag{mark: p.x.at(*c.Now), number: c.Say.number(*c.Now), word: c.Say.Now})
	}
	if c.Ends == nil {
		return tags
	}
	top := func(at float64, of func(Forecast) float64) float64 {
		switch {
		case len(c.Limit) > 0:
			return amountAt(c.Limit, at)
		case len(c.Future) > 0:
			return amountAt(c.quantile(of), at)
		}
		return amountAt(c.Done, at)
	}
	safe, likely := c.Say.number(c.Ends.Safe), c.Say.number(c.Ends.Likely)
	if safe != likely && c.Ends.Likely <= p.x.to {
		p.mark(c.Ends.Likely, top(c.Ends.Likely, mid), scene.Mark, 1.5)
		tags = append(tags, tag{mark: p.x.at(c.Ends.Likely), number: likely, word: c.Say.Likely})
	}
	if c.Ends.Safe <= p.x.to {
		p.mark(c.Ends.Safe, top(c.Ends.Safe, high), scene.Accent, stopWidth)
		tags = append(tags, tag{mark: p.x.at(c.Ends.Safe), number: safe, word: c.Say.Safe, loud: true})
	}
	return tags
}

func (c Curve) amountNow() float64 {
	if len(c.Done) > 0 {
		return amountAt(c.Done, *c.Now)
	}
	return amountAt(c.quantile(mid), *c.Now)
}
