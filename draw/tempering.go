package draw

import (
	"fmt"
	"slices"

	"wetside/draw/scene"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// A Tempering is water brought to a temperature: hot to a mark, cold to the next, then the thermometer.
type Tempering struct {
	// Vessel is what the water is run into, with its scale in use; nil: any, drawn without a scale.
	Vessel *measure.Vessel
	Scale  int
	Pours  []TemperingPour // in the order of pouring
	// Want is what the thermometer shall say.
	Want quantity.Celsius
	Say  TemperingWords
}

// A TemperingPour is one source of water.
type TemperingPour struct {
	To     quantity.Volume // the level after it, cumulative; 0: ice, which is weighed
	Number string          // the mark's number, "600"; for ice the mass, "300 g"
	What   string          // "hot", "cold", "kettle", "ice"
	Degree string          // its temperature: "45 °C"; may be empty
}

// TemperingWords are the words in the picture.
type TemperingWords struct {
	Label string
	Unit  string // of the numbers: "mL"
	Stop  string // beside the last mark: "stop here"
	Want  string // at the thermometer: "20 °C"
	// Number writes the numbers of the vessel's scale; nil: decimal.
	Number func(quantity.Ratio) string
}

// check returns the pours that have a level.
func (t Tempering) check() ([]TemperingPour, error) {
	var levels []TemperingPour
	var below quantity.Volume
	for _, p := range t.Pours {
		switch {
		case p.To == 0:
			continue
		case p.To <= below:
			return nil, fmt.Errorf("%w: levels that do not rise", ErrModel)
		}
		below = p.To
		levels = append(levels, p)
	}
	if len(levels) == 0 {
		return nil, fmt.Errorf("%w: no water to run", ErrModel)
	}
	return levels, nil
}

// reading returns the picture as that of a reading to the last level.
func (t Tempering) reading(levels []TemperingPour) Reading {
	last := levels[len(levels)-1].To
	r := Reading{About: last, Say: ReadingWords{Label: t.Say.Label, Units: []string{t.Say.Unit}, Number: t.Say.Number}}
	for _, l := range levels[:len(levels)-1] {
		r.Before = append(r.Before, Layer{Water, l.To})
	}
	if t.Vessel == nil {
		top, _ := quantity.NewRatio(int64(last), int64(quantity.Millilitre))
		r.Vessel = measure.Vessel{Kind: measure.Beaker, Scales: []measure.Scale{{From: top, To: top, Step: top}}}
		return r
	}
	r.Vessel = *t.Vessel
	if t.Scale >= 0 && t.Scale < len(t.Vessel.Scales) {
		r.Vessel.Scales = t.Vessel.Scales[t.Scale : t.Scale+1]
	}
	return r
}

// Scene returns the picture. The error wraps ErrModel.
func (t Tempering) Scene(f scene.Form) (scene.Scene, error) {
	levels, err := t.check()
	if err != nil {
		return scene.Scene{}, err
	}
	v, err := newView(t.reading(levels), f)
	if err != nil {
		return scene.Scene{}, err
	}
	t.place(v)
	v.contents()
	for _, l := range levels {
		v.lines = append(v.lines, l.To.ML())
	}
	if t.Vessel != nil {
		v.print(v.used, side{loud: true, long: 0.26 * 2 * v.g.mouth, short: 0.14 * 2 * v.g.mouth, numbers: true, right: v.g.narrow()})
	}
	t.stops(v, levels)
	t.sources(v, levels)
	t.thermometer(v)
	return v.out, nil
}

// temperingMid is where the vessel stands.
const temperingMid = 177

// place stands the vessel between the numbers and the thermometer.
func (t Tempering) place(v *view) {
	v.g = newGlass(v.r.Vessel, v.full, temperingMid, 106, 230)
	v.g.bare = true
	v.g.bottom = max(v.above(v.g), 66) + v.g.tall
	v.out.Height = v.g.bottom + v.g.below() + 26
}

// stops draws a line and a number for each level; the last is the heavy one. Numbers too near above each other are
// moved down, their lines bent.
func (t Tempering) stops(v *view, levels []TemperingPour) {
	room := 1e9 // the lowest that the next number may reach up to
	for i, level := range slices.Backward(levels) {
		last := i == len(levels)-1
		y := v.g.y(level.To.ML())
		size := scene.Fit(level.Number, sizeOf(last), 14, numberRight-2, true)
		half := size * 0.365
		at := y
		if !last {
			at = max(y, room+half)
		}
		line := scene.Path{Stroke: scene.Mark, Width: 3}
		if last {
			line.Stroke, line.Width = scene.Accent, stopWidth
		}
		line.Move(lineLeft, at)
		if at != y {
			line.Line(lineLeft+8, y)
		}
		line.Line(v.g.right(y)+8, y)
		v.out.Add(line)
		v.out.Add(scene.Text{At: scene.Point{X: numberRight, Y: at + half}, Text: level.Number, Size: size, Bold: true, Anchor: scene.End, Fill: scene.Ink})
		if last {
			t.above(v, at-half)
		}
		room = at + half + 8
		v.out.Height = max(v.out.Height, room)
	}
}

// sizeOf returns how large a level's number is.
func sizeOf(last bool) float64 {
	if last {
		return 44
	}
	return 28
}

// above writes the unit and the word over the last number.
func (t Tempering) above(v *view, top float64) {
	for _, w := range []struct {
		text string
		up   float64
		size float64
	}{{t.Say.Unit, 9, 17}, {t.Say.Stop, 30, 15}} {
		if w.text != "" {
			v.out.Add(scene.Text{
				At: scene.Point{X: numberRight, Y: top - w.up}, Text: w.text, Size: scene.Fit(w.text, w.size, 9, numberRight-2, false),
				Anchor: scene.End, Fill: scene.Soft,
			})
		}
	}
}

// A source is what is written of one pour, in two lines about mid.
type source struct {
	first, second string
	mid           float64
}

// sources writes on the right of the vessel what each layer is and how warm, and over them what is weighed.
func (t Tempering) sources(v *view, levels []TemperingPour) {
	var all []source
	from := 0.0
	for _, l := range levels {
		all = append(all, source{l.Degree, l.What, (v.g.y(from) + v.g.y(l.To.ML())) / 2})
		from = l.To.ML()
	}
	for _, p := range t.Pours {
		if p.To == 0 {
			y := v.g.y(from)
			v.out.Add(ice(v.g.mid-16, y+6), ice(v.g.mid+2, y+9), ice(v.g.mid+20, y+5))
			all = append(all, source{p.Number, p.What, y - 26})
		}
	}
	spread(all, sourceTop, v.g.bottom-14)
	for _, s := range all {
		s.write(v)
	}
}

const (
	sourceTop   = 52 // under the thermometer's words
	sourcePitch = 38
)

// spread moves what lies from the bottom up apart, as little as it can, between two bounds.
func spread(all []source, top, bottom float64) {
	for i := range all {
		all[i].mid = min(all[i].mid, bottom-float64(i)*sourcePitch)
		if i > 0 {
			all[i].mid = min(all[i].mid, all[i-1].mid-sourcePitch)
		}
	}
	for i := len(all) - 1; i >= 0; i-- {
		all[i].mid = max(all[i].mid, top)
		top = all[i].mid + sourcePitch
	}
}

// write puts the two lines beside the vessel.
func (s source) write(v *view) {
	x := temperingMid + v.g.mouth + 13
	room := 306 - x
	first, second := s.first, s.second
	if first == "" {
		first, second = second, ""
	}
	v.out.Add(scene.Text{At: scene.Point{X: x, Y: s.mid - 1}, Text: first, Size: scene.Fit(first, 17, 9, room, true), Bold: true, Fill: scene.Ink})
	if second != "" {
		v.out.Add(scene.Text{At: scene.Point{X: x, Y: s.mid + 16}, Text: second, Size: scene.Fit(second, 15, 9, room, false), Fill: scene.Soft})
	}
}

// ice is a lump that swims.
func ice(x, y float64) scene.Path {
	p := scene.Polygon(scene.Point{X: x - 6, Y: y - 5}, scene.Point{X: x + 5, Y: y - 7}, scene.Point{X: x + 7, Y: y + 4}, scene.Point{X: x - 4, Y: y + 6})
	p.Fill, p.Stroke, p.Width = scene.Paper, scene.Mark, 1.4
	return p
}

// thermometer stands at the right edge, from 0 to 60 °C, a tick every 5.
func (t Tempering) thermometer(v *view) {
	const x, top, most = 322.0, 40.0, 60.0
	bulb := v.g.bottom - 12
	y := func(c float64) float64 { return bulb - 18 - (bulb-18-top-6)*min(max(c, 0), most)/most }
	tube := scene.Path{Stroke: scene.Mark, Width: 1.6}
	tube.Move(x-5, bulb-8).Line(x-5, top).Curve(x-5, top-7, x+5, top-7, x+5, top).Line(x+5, bulb-8)
	level := y(float64(t.Want))
	thread := scene.Line{A: scene.Point{X: x, Y: bulb}, B: scene.Point{X: x, Y: level}, Stroke: scene.Mark, Width: 3}
	ball := scene.Circle{At: scene.Point{X: x, Y: bulb}, R: 9, Fill: scene.Mark, Stroke: scene.Mark, Width: 1.6}
	if v.form == scene.Red {
		ball.Fill = scene.Paper
	}
	v.out.Add(tube, thread, ball)
	for c := 0.0; c <= most; c += 5 {
		long := 4.0
		if int(c)%10 == 0 {
			long = 8
		}
		v.out.Add(scene.Line{A: scene.Point{X: x + 5, Y: y(c)}, B: scene.Point{X: x + 5 + long, Y: y(c)}, Stroke: scene.Mark, Width: plainWidth})
	}
	v.out.Add(scene.Line{A: scene.Point{X: x - 12, Y: level}, B: scene.Point{X: x + 16, Y: level}, Stroke: scene.Accent, Width: 3.5})
	size := scene.Fit(t.Say.Want, 18, 10, 88, true)
	v.out.Add(scene.Text{At: scene.Point{X: sceneWidth - 1, Y: top - 14}, Text: t.Say.Want, Size: size, Bold: true, Anchor: scene.End, Fill: scene.Ink})
}
