package draw

import (
	"math"

	"wetside/draw/scene"
)

// A tapeView is a tape being drawn.
type tapeView struct {
	t           Tape
	out         scene.Scene
	r           ruler
	top, bottom float64 // of the tape
	n           float64 // sheets in a stroke
	pitch       float64 // of strokes
}

const (
	tapeMargin = 6   // is left free at both ends
	leastPitch = 2.9 // of strokes that can still be told apart
)

// Scene returns the picture. The error wraps ErrModel.
func (t Tape) Scene(scene.Form) (scene.Scene, error) {
	to, err := t.check()
	if err != nil {
		return scene.Scene{}, err
	}
	v := newTapeView(t, to)
	v.strip()
	v.graduation()
	v.strokes()
	v.out.Height = max(v.below(), v.bottom+tapeMargin)
	v.key()
	v.above()
	return v.out, nil
}

func newTapeView(t Tape, to float64) *tapeView {
	wide, l := t.Size.width(), t.Size.letter()
	v := &tapeView{t: t, out: scene.Scene{Width: wide, Label: t.Say.Picture}, top: tapeMargin}
	if t.Label != nil || t.Test != nil || t.past() && t.Say.Past != "" {
		v.top = l + 14
	}
	v.r = ruler{from: 0, to: to, a: tapeMargin, b: wide - tapeMargin}
	v.bottom = v.top + 2.6*l + 8
	one := (v.r.b - v.r.a) / to
	v.n = bundle(one, leastPitch)
	v.pitch = v.n * one
	return v
}

// strip draws the tape's two edges: broken from the end of the work on where nobody knows how far it goes.
func (v *tapeView) strip() {
	whole, open := v.r.b+tapeMargin-1, v.r.b+tapeMargin-1
	if v.t.Ends == nil {
		whole = min(v.r.at(v.t.done())+8, open)
	}
	for _, y := range []float64{v.top, v.bottom} {
		v.out.Add(scene.Line{A: scene.Point{X: 1, Y: y}, B: scene.Point{X: whole, Y: y}, Stroke: scene.Hair, Width: v.t.Size.stroke(1.2)})
		if whole < open-4 {
			v.out.Add(scene.Line{A: scene.Point{X: whole + 4, Y: y}, B: scene.Point{X: open, Y: y}, Stroke: scene.Soft, Width: v.t.Size.stroke(1.4), Dash: 5, Gap: 6})
		}
	}
	v.out.Add(scene.Line{A: scene.Point{X: 1, Y: v.top}, B: scene.Point{X: 1, Y: v.bottom}, Stroke: scene.Hair, Width: v.t.Size.stroke(1.2)})
}

// step returns between how many sheets the scale has its ticks.
func (v *tapeView) step() float64 {
	return max(1, roundStep(v.r.to, (v.r.b-v.r.a)/(1.4*v.t.Size.letter())))
}

// graduation draws the scale, faint, on the tape's lower edge; none where nobody knows how far it goes.
func (v *tapeView) graduation() {
	end := v.r.to
	if v.t.Ends == nil {
		end = v.t.done()
	}
	for _, c := range steps(0, end, v.step()) {
		v.out.Add(scene.Line{A: scene.Point{X: v.r.at(c), Y: v.bottom - 4}, B: scene.Point{X: v.r.at(c), Y: v.bottom}, Stroke: scene.Hair, Width: v.t.Size.stroke(1)})
	}
}

// strokes tallies the work.
func (v *tapeView) strokes() {
	low, high := v.bottom-7, v.top+5
	tall := low - high
	wide := min(v.t.Size.stroke(2), v.pitch*0.45)
	if v.n > 1 {
		wide = min(v.t.Size.stroke(5), v.pitch*0.6)
	}
	x := func(strokes float64) float64 { return v.r.at(strokes * v.n) }
	for _, s := range v.t.tallies(v.n) {
		gate := float64(s.nth / 5 * 5)
		line := scene.Line{Stroke: scene.Ink, Width: wide}
		if s.nth%5 == 4 {
			line.Width = min(wide, v.t.Size.stroke(2.6))
			line.A = scene.Point{X: x(gate + 0.15), Y: low - 2}
			line.B = scene.Point{X: line.A.X + (x(gate+4.6)-line.A.X)*s.part, Y: line.A.Y - (tall-4)*s.part}
		} else {
			at := x(gate + 0.75 + 0.9*float64(s.nth%5))
			line.A, line.B = scene.Point{X: at, Y: low}, scene.Point{X: at, Y: low - max(5, tall*s.part)}
		}
		if s.estimated {
			line.Dash, line.Gap = v.t.Size.stroke(4), v.t.Size.stroke(3.2)
		}
		v.out.Add(line)
	}
}

// A tapeEnd is one end as a mark.
type tapeEnd struct {
	count float64
	heavy bool
}

// x returns where the mark stands; beyond the scale the heavy arrow stands before the fine one.
func (v *tapeView) x(e tapeEnd) float64 {
	switch {
	case e.count <= v.r.to:
		return v.r.at(e.count)
	case e.heavy:
		return v.r.b - 12
	}
	return v.r.b
}

// below draws the ends and their numbers, and returns how far down the picture reaches.
func (v *tapeView) below() float64 {
	row := tagRow{size: v.t.Size, lo: 1, hi: v.out.Width - 1, ends: v.bottom + 7, top: v.bottom + 17}
	if v.t.Ends == nil {
		return v.unknown()
	}
	e := *v.t.Ends
	if v.t.past() {
		v.overrun()
	}
	say := v.t.Say
	tags := []tag{{mark: v.x(tapeEnd{e.Safe, true}), number: say.number(e.Safe), word: say.Safe, loud: true}}
	if n := say.number(e.Likely); n != tags[0].number {
		v.end(tapeEnd{e.Likely, false})
		tags = append(tags, tag{mark: v.x(tapeEnd{e.Likely, false}), number: n, word: say.Likely})
	}
	v.end(tapeEnd{e.Safe, true})
	tags = append(tags, tag{mark: v.r.b, number: say.number(v.r.to), spare: true})
	return row.draw(&v.out, tags) + 3
}

// end draws the mark of one end: a line across the tape, or an arrow where it lies beyond the scale.
func (v *tapeView) end(e tapeEnd) {
	x := v.x(e)
	role, width := scene.Mark, v.t.Size.stroke(1.5)
	if e.heavy {
		role, width = scene.Accent, v.t.Size.stroke(stopWidth)
	}
	if e.count > v.r.to {
		mid, r := (v.top+v.bottom)/2, 7.0
		arrow := scene.Path{Stroke: role, Width: min(width, 3)}
		out := x + tapeMargin - 2
		v.out.Add(*arrow.Move(out-r, mid-r).Line(out, mid).Line(out-r, mid+r))
		v.out.Add(scene.Line{A: scene.Point{X: x, Y: v.bottom + 2}, B: scene.Point{X: x, Y: v.bottom + 7}, Stroke: role, Width: width})
		return
	}
	line := scene.Line{A: scene.Point{X: x, Y: v.top - 4}, B: scene.Point{X: x, Y: v.bottom + 7}, Stroke: role, Width: width}
	if v.t.done() > e.count { // stand clear of the strokes
		v.out.Add(scene.Rect{At: scene.Point{X: x - width/2 - 1.5, Y: v.top + 1}, W: width + 3, H: v.bottom - v.top - 2, Fill: scene.Paper})
	}
	v.out.Add(line)
}

// overrun draws what went past the safe end as a heavy line under the tape.
func (v *tapeView) overrun() {
	v.out.Add(scene.Line{
		A: scene.Point{X: v.r.at(v.t.Ends.Safe), Y: v.bottom}, B: scene.Point{X: v.r.at(v.t.done()), Y: v.bottom},
		Stroke: scene.Accent, Width: v.t.Size.stroke(4),
	})
}

// unknown says on the tape, or under it where the work leaves no room, that its end is not known.
func (v *tapeView) unknown() float64 {
	if v.t.Say.Unknown == "" {
		return v.bottom + tapeMargin
	}
	l := v.t.Size.letter()
	t := scene.Text{At: scene.Point{X: v.r.at(math.Ceil(v.t.done()/v.n)*v.n) + 14, Y: (v.top+v.bottom)/2 + l*0.36}, Text: v.t.Say.Unknown, Size: l, Fill: scene.Soft}
	if t.Box().Max.X > v.r.b {
		t.At, t.Anchor = scene.Point{X: v.r.b, Y: v.bottom + l + 4}, scene.End
		t.Size = scene.Fit(t.Text, l, 5, v.r.b-v.r.a, false)
	}
	v.out.Add(t)
	return max(v.bottom+tapeMargin, t.Box().Max.Y+2)
}

// key says under the tape how many sheets a stroke is where it is not one, beside the numbers where there is room.
func (v *tapeView) key() {
	if v.n == 1 || v.t.done() == 0 {
		return
	}
	l := v.t.Size.letter()
	y := v.bottom + 17 + v.t.Size.number()*0.73
	text := scene.Text{At: scene.Point{X: 13, Y: y}, Text: v.t.Say.bundle(v.n), Size: l, Fill: scene.Soft}
	box := text.Box()
	box.Max.X, box.Max.Y = box.Max.X+l, box.Max.Y+l
	for _, it := range v.out.Items {
		if t, ok := it.(scene.Text); ok && t.Box().Overlaps(box) {
			text.At.Y = v.out.Height + l
		}
	}
	text.Size = scene.Fit(text.Text, l, 5, v.out.Width-text.At.X-2, false)
	v.out.Add(scene.Line{A: scene.Point{X: 6, Y: text.At.Y}, B: scene.Point{X: 6, Y: text.At.Y - l}, Stroke: scene.Ink, Width: min(4, v.pitch*0.6)}, text)
	v.out.Height = max(v.out.Height, text.Box().Max.Y+3)
}

// above draws over the tape what the label gives, when a test is due, and by how much the work is over.
func (v *tapeView) above() {
	say := v.t.Say
	var tags []tag
	for _, m := range []struct {
		count *float64
		word  string
	}{{v.t.Label, say.Label}, {v.t.Test, say.Test}} {
		if m.count == nil {
			continue
		}
		x := v.r.at(*m.count)
		v.out.Add(scene.Line{A: scene.Point{X: x, Y: v.top - 4}, B: scene.Point{X: x, Y: v.top + 5}, Stroke: scene.Mark, Width: v.t.Size.stroke(plainWidth)})
		text := say.number(*m.count)
		if m.word != "" {
			text = m.word + " " + text
		}
		tags = append(tags, tag{mark: x, number: text})
	}
	if v.t.past() && say.Past != "" {
		tags = append(tags, tag{mark: v.r.at(v.t.done()), number: say.Past, loud: true})
	}
	row := tagRow{size: v.t.Size, lo: 1, hi: v.out.Width - 1, number: v.t.Size.letter(), ends: v.top - 4, top: 2, upwards: true}
	row.draw(&v.out, tags)
}
