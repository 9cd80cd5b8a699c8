package draw

import (
	"fmt"
	"math"
	"slices"

	"wetside/draw/scene"
)

// MaxWays is how many ways of washing one picture can hold: more lines than these can't be told apart on a phone.
const MaxWays = 4

// A Left is how much thiosulfate is left in paper or film against the time of washing, one line a way of washing; the
// amount on a scale on which each tenfold takes the same room.
type Left struct {
	Ways  []LeftWay  // at most MaxWays
	Limit float64    // above 0
	Found *LeftFound // by a test of the room's own; nil: none
	Size  Size
	Say   LeftWords
}

// A LeftWay is one way of washing.
type LeftWay struct {
	Name    string
	Points  []Sample  // what is left after so many minutes
	Reaches *float64  // the minute at which the limit is reached; nil: it is not
	Changes []float64 // the minutes at which the water is changed
}

// LeftWords are the words in the picture.
type LeftWords struct {
	Picture string // the picture in words, for those who do not see it
	Amount  string // over the upright axis: "thiosulfate left, g/m²"
	Time    string // under the other: "minutes"
	Limit   string // at the limit: "archival, 0.007 g/m²"
	// Minutes writes a time at a mark; nil: whole minutes, rounded up.
	Minutes func(float64) string
	// Figure writes an amount at a tick with so many decimals; nil: with a point.
	Figure func(v float64, places int) string
}

func (w LeftWords) minutes(v float64) string {
	if w.Minutes != nil {
		return w.Minutes(v)
	}
	return figure(math.Ceil(v-1e-9), 0)
}

func (w LeftWords) figure(v float64) string {
	n := places(v)
	if w.Figure != nil {
		return w.Figure(v, n)
	}
	return figure(v, n)
}

// check refuses what makes no picture.
func (l Left) check() error {
	switch {
	case len(l.Ways) == 0 || len(l.Ways) > MaxWays:
		return fmt.Errorf("%w: %d ways of washing in one picture", ErrModel, len(l.Ways))
	case !(l.Limit > 0) || math.IsInf(l.Limit, 1):
		return fmt.Errorf("%w: a limit of %g", ErrModel, l.Limit)
	}
	if err := l.Found.check(); err != nil {
		return err
	}
	for _, w := range l.Ways {
		if err := rising(w.Name, w.Points); err != nil {
			return err
		}
		if len(w.Points) < 2 {
			return fmt.Errorf("%w: %s has %d points", ErrModel, w.Name, len(w.Points))
		}
		if err := finite(w.Name, w.Changes...); err != nil {
			return err
		}
		if w.Reaches != nil {
			if err := finite(w.Name, *w.Reaches); err != nil {
				return err
			}
		}
	}
	return nil
}

// deepest is how far under the limit the picture reaches at most: further down nothing hangs on it.
const deepest = 5

// rulers returns the scales: time from 0 on, the amount from a fifth of the limit at the least to the most there is.
func (l Left) rulers() (x, y ruler) {
	end, least, most := 1.0, l.Limit*0.8, l.Limit*2
	for _, w := range l.Ways {
		end = max(end, w.Points[len(w.Points)-1].At)
		for _, s := range w.Points {
			least, most = min(least, s.Amount), max(most, s.Amount)
		}
	}
	end, least, most = l.Found.ends(end, least, most)
	least, most = max(least, l.Limit/deepest), min(most, l.Limit*1e6)
	from, to := least/10, most*10
	for _, v := range decades(least/10, least) {
		from = max(from, v)
	}
	for _, v := range slices.Backward(decades(most, most*10)) {
		to = min(to, v)
	}
	return ruler{from: 0, to: end}, ruler{from: from, to: to, log: true}
}

// seenOf cuts a way's line off where it leaves the scale at the bottom.
func seenOf(points []Sample, least float64) []Sample {
	for i, s := range points {
		if s.Amount >= least {
			continue
		}
		if i == 0 {
			return nil
		}
		before := points[i-1]
		f := 1.0
		if s.Amount > 0 {
			f = math.Log(before.Amount/least) / math.Log(before.Amount/s.Amount)
		}
		return append(points[:i:i], Sample{before.At + f*(s.At-before.At), least})
	}
	return points
}

// wayLook returns how the nth way is drawn.
func wayLook(n int, size Size) scene.Path {
	look := scene.Path{Stroke: scene.Ink, Width: size.stroke(2.2)}
	switch n {
	case 1:
		look.Dash, look.Gap = 11, 4
	case 2:
		look.Dash, look.Gap = 5, 3.5
	case 3:
		look.Dash, look.Gap = 2, 3.5
	}
	return look
}

// Scene returns the picture. The error wraps ErrModel.
func (l Left) Scene(scene.Form) (scene.Scene, error) {
	if err := l.check(); err != nil {
		return scene.Scene{}, err
	}
	x, y := l.rulers()
	ticks := decades(y.from, y.to)
	var numbers []string
	for _, t := range ticks {
		numbers = append(numbers, l.Say.figure(t))
	}
	p := newPlot(l.Size, l.Say.Picture, x, y, numbers, l.room())
	p.upright(ticks, numbers, l.Say.Amount)
	limit := []Sample{{0, l.Limit}, {x.to, l.Limit}}
	p.line(limit, scene.Path{Stroke: scene.Accent, Width: p.size.stroke(3)})
	for i, w := range l.Ways {
		p.line(seenOf(w.Points, y.from), wayLook(i, l.Size))
		l.changes(p, w)
	}
	tags := l.reached(p)
	l.found(p)
	l.names(p)
	p.level(max(roundStep(x.to, (p.x.b-p.x.a)/(l.Size.letter()*3)), 1), func(v float64) string { return figure(v, 0) }, tags, l.Say.Time)
	return p.out, nil
}

// changes draws a tick across a way's line at each change of its water.
func (l Left) changes(p *plot, w LeftWay) {
	for _, m := range w.Changes {
		amount := amountAt(w.Points, m)
		if m > min(p.x.to, w.Points[len(w.Points)-1].At) || amount < p.y.from {
			continue
		}
		at := p.point(m, amount)
		tick := scene.Line{A: scene.Point{X: at.X, Y: max(at.Y-6, p.y.b)}, B: scene.Point{X: at.X, Y: min(at.Y+6, p.y.a)}, Stroke: scene.Mark, Width: p.size.stroke(1.4)}
		p.out.Add(tick)
		p.hard = append(p.hard, grown(tick.Box(), 1))
	}
}

// reached rings where each way reaches the limit, lets a fine line fall from there, and returns the tags of the times.
func (l Left) reached(p *plot) []tag {
	var tags []tag
	for i, w := range l.Ways {
		if w.Reaches == nil || *w.Reaches > p.x.to {
			continue
		}
		at := p.point(*w.Reaches, l.Limit)
		look := wayLook(i, l.Size)
		fall := scene.Line{A: at, B: scene.Point{X: at.X, Y: p.y.a + 5}, Stroke: scene.Mark, Width: p.size.stroke(plainWidth), Dash: look.Dash, Gap: look.Gap}
		p.out.Add(fall)
		p.hard = append(p.hard, grown(fall.Box(), 2))
		p.ring(at)
		text := l.Say.minutes(*w.Reaches)
		if !slices.ContainsFunc(tags, func(t tag) bool { return t.number == text && math.Abs(t.mark-at.X) < 6 }) {
			tags = append(tags, tag{mark: at.X, number: text, loud: true})
		}
	}
	return tags
}
