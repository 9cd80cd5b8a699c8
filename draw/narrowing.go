package draw

import (
	"fmt"
	"math"

	"wetside/draw/scene"
)

// A Narrowing is what a room's own observations taught: each figure as it was held to be before, and as it is after.
type Narrowing struct {
	Rows []NarrowingRow
	Size Size
	Say  NarrowingWords
}

// A NarrowingRow is one figure of the room.
type NarrowingRow struct {
	Name          string // "carry-over"
	Unit          string // "mL per 8×10"
	Before, After Interval
}

// An Interval holds a figure in eight cases of ten between P10 and P90.
type Interval struct{ P10, P50, P90 float64 }

// NarrowingWords are the words in the picture.
type NarrowingWords struct {
	Picture       string // the picture in words, for those who do not see it
	Before, After string // "before", "after"
	// Figure writes a figure with so many decimals; nil: with a point.
	Figure func(v float64, places int) string
}

func (w NarrowingWords) figure(v float64, places int) string {
	if w.Figure != nil {
		return w.Figure(v, places)
	}
	return figure(v, places)
}

func (n Narrowing) check() error {
	if len(n.Rows) == 0 {
		return fmt.Errorf("%w: nothing that narrowed", ErrModel)
	}
	for _, r := range n.Rows {
		for _, i := range []Interval{r.Before, r.After} {
			if err := finite(r.Name, i.P10, i.P50, i.P90); err != nil {
				return err
			}
			if i.P10 > i.P50 || i.P50 > i.P90 {
				return fmt.Errorf("%w: %s between %g and %g, %g in the middle", ErrModel, r.Name, i.P10, i.P90, i.P50)
			}
		}
	}
	return nil
}

// scale returns a row's own scale with its step.
func (r NarrowingRow) scale() (x ruler, step float64) {
	least, most := min(r.Before.P10, r.After.P10), max(r.Before.P90, r.After.P90)
	if least < 0.35*most {
		least = 0
	}
	if most-least < 1e-9 {
		most = least + 1
	}
	step = roundStep(most-least, 5)
	return ruler{from: math.Floor(least/step+1e-9) * step, to: math.Ceil(most/step-1e-9) * step}, step
}

// Scene returns the picture. The error wraps ErrModel.
func (n Narrowing) Scene(f scene.Form) (scene.Scene, error) {
	if err := n.check(); err != nil {
		return scene.Scene{}, err
	}
	out := scene.Scene{Width: n.Size.width(), Label: n.Say.Picture}
	for _, r := range n.Rows {
		n.row(&out, r, f)
	}
	return out, nil
}

// row draws one figure under what is there.
func (n Narrowing) row(out *scene.Scene, r NarrowingRow, f scene.Form) {
	l := n.Size.letter()
	y := out.Height + l*1.3
	n.title(out, r, y)
	x, step := r.scale()
	words := max(scene.TextWidth(n.Say.Before, l, false), scene.TextWidth(n.Say.After, l, true))
	words = min(words, out.Width*0.3)
	x.a, x.b = words+12, out.Width-2*l
	bar := l * 0.9
	v := bars{out: out, x: x, size: n.Size, bar: bar, words: words, form: f}
	v.add(y+l*0.9, r.Before, n.Say.Before, false)
	v.add(y+l*0.9+bar*1.9, r.After, n.Say.After, true)
	v.foot(y+l*0.9+bar*3.4, step, r.After.P50, n.Say.figure)
}

// title writes a figure's name, and its unit in smaller letters.
func (n Narrowing) title(out *scene.Scene, r NarrowingRow, y float64) {
	l := n.Size.letter()
	name := scene.Text{At: scene.Point{X: 1, Y: y}, Text: r.Name, Bold: true, Fill: scene.Ink}
	name.Size = scene.Fit(r.Name, l*1.15, 5, out.Width*0.6, true)
	out.Add(name)
	left := name.Box().Max.X + l*0.6
	out.Add(scene.Text{At: scene.Point{X: left, Y: y}, Text: r.Unit, Size: scene.Fit(r.Unit, l, 5, out.Width-left-2, false), Fill: scene.Soft})
}

// bars draws intervals over one scale.
type bars struct {
	out        *scene.Scene
	x          ruler
	size       Size
	bar, words float64
	form       scene.Form
}

// add draws an interval as a bar with a tick at its middle: an outline before, after it full and with a heavy tick.
func (b bars) add(y float64, i Interval, word string, after bool) {
	l := b.size.letter()
	rect := scene.Rect{
		At: scene.Point{X: b.x.at(i.P10), Y: y}, W: max(b.x.at(i.P90)-b.x.at(i.P10), 1), H: b.bar,
		Stroke: scene.Mark, Width: b.size.stroke(1.1),
	}
	tick := scene.Line{Stroke: scene.Mark, Width: b.size.stroke(1.6)}
	reach := b.bar * 0.25
	if after {
		rect.Width, tick.Width, tick.Stroke = b.size.stroke(2.2), b.size.stroke(4), scene.Accent
		reach = b.bar * 0.4
		if b.form != scene.Red {
			rect.Fill = scene.Liquid
		}
	}
	mid := b.x.at(i.P50)
	tick.A, tick.B = scene.Point{X: mid, Y: y - reach}, scene.Point{X: mid, Y: y + b.bar + reach}
	text := scene.Text{At: scene.Point{X: 1, Y: y + b.bar/2 + l*0.36}, Text: word, Size: scene.Fit(word, l, 5, b.words, after), Bold: after, Fill: scene.Soft}
	if after {
		text.Fill = scene.Ink
	}
	b.out.Add(rect, tick, text)
}

// foot draws the scale, with the number now held to be likely at its mark, and sets the picture's height.
func (b bars) foot(y, step, now float64, say func(float64, int) string) {
	b.out.Add(scene.Line{A: scene.Point{X: b.x.a, Y: y}, B: scene.Point{X: b.x.b, Y: y}, Stroke: scene.Hair, Width: b.size.stroke(hairWidth)})
	tags := []tag{{mark: b.x.at(now), number: say(now, places(step)+1), loud: true}}
	for _, v := range steps(b.x.from, b.x.to, step) {
		at := b.x.at(v)
		b.out.Add(scene.Line{A: scene.Point{X: at, Y: y}, B: scene.Point{X: at, Y: y + 4}, Stroke: scene.Mark, Width: b.size.stroke(plainWidth)})
		tags = append(tags, tag{mark: at, number: say(v, places(step)), spare: true})
	}
	row := tagRow{size: b.size, lo: 1, hi: b.out.Width - 1, ends: y, top: y + 11}
	b.out.Height = row.draw(b.out, tags) + b.size.letter()*0.6
}

// Text returns the picture for a terminal. The error wraps ErrModel.
func (n Narrowing) Text(o TextOptions) (string, error) {
	if err := n.check(); err != nil {
		return "", err
	}
	g := &grid{}
	words := min(12, max(len([]rune(n.Say.Before)), len([]rune(n.Say.After))))
	for _, r := range n.Rows {
		row := len(*g)
		g.put(row, 0, clip(join(r.Name, r.Unit), plotCols))
		x, step := r.scale()
		x.a, x.b = float64(words+4), plotCols-4
		g.interval(row+1, x, r.Before, clip(n.Say.Before, words), '─', '┼')
		g.interval(row+2, x, r.After, clip(n.Say.After, words), '━', '┃')
		tags := []tag{{mark: x.at(r.After.P50), number: n.Say.figure(r.After.P50, places(step)+1)}}
		for _, v := range steps(x.from, x.to, step) {
			tags = append(tags, tag{mark: x.at(v), number: n.Say.figure(v, places(step)), spare: true})
		}
		g.tags(row+3, tags)
	}
	return g.text(o), nil
}

// interval writes one interval along a row.
func (g *grid) interval(row int, x ruler, i Interval, word string, line, mid rune) {
	col := func(v float64) int { return int(math.Round(x.at(v))) }
	g.put(row, 0, word)
	g.fill(row, col(i.P10), col(i.P90)-col(i.P10)+1, line)
	g.put(row, col(i.P10), "├")
	g.put(row, col(i.P90), "┤")
	g.put(row, col(i.P50), string(mid))
}
