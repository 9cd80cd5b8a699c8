package draw

import (
	"math"

	"wetside/draw/scene"
)

// A side is where a scale is printed and how loud.
type side struct {
	right       bool // on the right wall
	loud        bool // the scale in use
	long, short float64
	numbers     bool
}

// scales draws the scale in use and, paler, the first other one. In a wide vessel the first stands on the left; in a
// narrow one, where numbers stand outside, on the right.
func (v *view) scales() {
	w := 2 * v.g.mouth
	used := side{loud: true, long: 0.2 * w, short: 0.11 * w, numbers: true}
	other := side{right: true, long: 0.15 * w, short: 0.08 * w, numbers: true}
	if v.g.narrow() {
		used.right, other.right = true, false
		used.long, used.short, other.long, other.short = 0.5*w, 0.3*w, 0.34*w, 0.2*w
	}
	v.print(v.used, used)
	if v.other != nil {
		v.print(*v.other, other)
	}
}

// print draws one scale on the vessel's wall.
func (v *view) print(s scale, at side) {
	gap := spacing(s.marks, v.g.y)
	size := float64(otherSize)
	if at.loud {
		size = numberSize
		if stride(s.marks, v.g.y, numberSize+2) > 1 {
			size = closeSize
		}
	}
	every := stride(s.marks, v.g.y, size+1.5)
	for _, m := range s.marks {
		if !m.numbered && gap < thinSpacing {
			continue
		}
		v.tick(m, at)
		if at.numbers && v.written(m, every) {
			v.number(v.r.Say.number(m.number), v.g.y(m.ml), at, size)
		}
	}
	if at.numbers && s.unit != "" {
		v.heading(s, at)
	}
}

// written reports whether a numbered mark's number is written: where there are too many, every second, fifth, …
// counted from zero; none so near to the heavy line that it would be struck through.
func (v *view) written(m mark, every int64) bool {
	if !m.numbered || m.nth%every != 0 {
		return false
	}
	for _, l := range append([]float64{v.r.level()}, v.lines...) {
		if math.Abs(v.g.y(m.ml)-v.g.y(l)) < wipeReach {
			return false
		}
	}
	return true
}

func (v *view) tick(m mark, at side) {
	long, width, role := at.short, plainWidth, scene.Mark
	if m.numbered {
		long, width = at.long, tickWidth
	}
	if !at.loud {
		role = scene.Soft
		width = plainWidth
	}
	y := v.g.y(m.ml)
	a, b := v.g.left(y)+1, v.g.left(y)+long
	if at.right {
		a, b = v.g.right(y)-long, v.g.right(y)-1
	}
	v.out.Add(scene.Line{A: scene.Point{X: a, Y: y}, B: scene.Point{X: b, Y: y}, Stroke: role, Width: width})
}

// textAt returns a text beside a tick: inside a wide vessel, outside a narrow one.
func (v *view) textAt(text string, y float64, at side, size float64) scene.Text {
	t := scene.Text{At: scene.Point{Y: y + size*0.36}, Text: text, Size: size, Fill: scene.Ink}
	if !at.loud {
		t.Fill = scene.Soft
	}
	switch {
	case v.g.narrow() && at.right:
		t.At.X = v.g.right(y) + 7
	case v.g.narrow():
		t.At.X, t.Anchor = v.g.left(y)-7, scene.End
	case at.right:
		t.At.X, t.Anchor = v.g.right(y)-at.long-5, scene.End
	default:
		t.At.X = v.g.left(y) + at.long + 6
	}
	t.Size = scene.Fit(text, size, 9, v.room(y, at), false)
	return t
}

// room is how wide a text beside a tick may be: as far as the picture's edge or the big number outside a vessel;
// inside, as far as a little beyond the middle where two scales share it, the one in use having more of it.
func (v *view) room(y float64, at side) float64 {
	switch {
	case v.g.narrow() && at.right:
		return sceneWidth - 1 - v.g.right(y) - 7
	case v.g.narrow():
		return v.g.left(y) - 7 - lineLeft
	case v.other == nil:
		return 2*v.g.half(y) - at.long - 10
	case at.loud:
		return v.g.half(y) - at.long + 2
	}
	return v.g.half(y) - at.long - 17
}

func (v *view) number(text string, y float64, at side, size float64) {
	t := v.textAt(text, y, at, size)
	v.out.Add(onLiquid(t, v.form, !v.g.narrow() && t.Box().Max.Y > v.g.y(v.r.level()))...)
}

// heading writes the unit over the vessel's largest mark.
func (v *view) heading(s scale, at side) {
	y := v.g.y(v.full) - numberSize - 3
	t := v.textAt(s.unit, y, at, otherSize)
	t.Fill = scene.Soft
	if v.g.narrow() && !at.right {
		t.At.X -= 8 // clear of the beak
	}
	v.out.Add(onLiquid(t, v.form, y > v.g.y(v.r.level()))...)
}
