package draw

import (
	"fmt"

	"wetside/draw/scene"
	"wetside/trade/measure"
)

// The page's measures for a reading: a column for the number on the left, then the vessel.
const (
	sceneWidth  = 346
	numberRight = 98  // where the number at the stop ends
	lineLeft    = 104 // where the heavy line begins
	numberSize  = 16
	closeSize   = 13.5 // of numbers that stand closer
	otherSize   = 14
	wipeReach   = 10.5 // numbers nearer than this to the heavy line give way to it
)

// Scene returns the picture of the reading. The error wraps ErrModel.
func (r Reading) Scene(f scene.Form) (scene.Scene, error) {
	if err := r.check(); err != nil {
		return scene.Scene{}, err
	}
	if r.Vessel.Kind == measure.Balance {
		return r.weighing(f), nil
	}
	v, err := newView(r, f)
	if err != nil {
		return scene.Scene{}, err
	}
	if v.dense() {
		return v.enlarged(), nil
	}
	return v.plain(), nil
}

// A view is a reading on its way to a picture.
type view struct {
	r     Reading
	form  scene.Form
	used  scale
	other *scale // the first scale that is not in use
	stop  stop
	full  float64 // mL at the largest mark of all
	g     glass
	lines []float64 // other heavy lines, in mL, that no number shall be struck by
	out   scene.Scene
}

func newView(r Reading, f scene.Form) (*view, error) {
	v := &view{r: r, form: f, out: scene.Scene{Width: sceneWidth, Label: r.Say.Label}}
	for i, s := range r.Vessel.Scales {
		marks, err := marksOf(s)
		if err != nil {
			return nil, err
		}
		v.full = max(v.full, marks[len(marks)-1].ml)
		sc := scale{r.Say.unit(i), marks}
		switch {
		case i == r.Scale:
			v.used = sc
		case v.other == nil:
			v.other = &sc
		}
	}
	if r.About > 0 {
		v.stop = nearest(v.used.marks, r.level())
		return v, v.place()
	}
	var err error
	if v.stop, err = stopOf(v.used.marks, r.Mark, r.Half); err != nil {
		return nil, err
	}
	return v, v.place()
}

// place stands the vessel beside the number.
func (v *view) place() error {
	if v.r.level() > v.full*1.1 {
		return fmt.Errorf("%w: %s does not hold %.4g mL", ErrModel, v.r.Vessel.Name, v.r.level())
	}
	wide, tall := 168.0, 290.0
	if v.r.Vessel.Kind == measure.Syringe {
		tall = 170
	}
	mid := 202.0
	v.g = newGlass(v.r.Vessel, v.full, mid, wide, tall)
	v.g.bottom = v.above(v.g) + v.g.tall
	v.out.Height = v.g.bottom + v.g.below() + 22
	return nil
}

// above is the room over the largest mark.
func (v *view) above(g glass) float64 {
	room := g.tall*g.rim() + 12
	if g.kind == measure.Syringe {
		room = max(room, g.tall*g.rim()+12+g.height(v.r.level()))
	}
	return max(room, 30)
}

// dense reports whether the stop can't be told from its neighbours: marks too close, or nothing numbered near it.
func (v *view) dense() bool {
	if v.r.About > 0 {
		return false
	}
	marks, y := v.used.marks, v.g.y
	gap := spacing(marks, y)
	m := marks[v.stop.at]
	switch {
	case gap < 6.5:
		return true
	case gap < 10.5 && (v.stop.half || !m.numbered):
		return true
	}
	return stride(marks, y, closeSize+1.5) > 1 || v.struckNeighbour()
}

// struckNeighbour reports whether the heavy line runs through the number of another mark than its own.
func (v *view) struckNeighbour() bool {
	for i, m := range v.used.marks {
		own := i == v.stop.at && !v.stop.half
		if m.numbered && !own && !v.written(m, 1) {
			return true
		}
	}
	return false
}

// plain draws the vessel with all its marks.
func (v *view) plain() scene.Scene {
	v.contents()
	v.scales()
	v.level(v.g, lineLeft)
	v.stopNumber(v.g.y(v.r.level()))
	return v.out
}

func (v *view) contents() {
	layers := v.r.layers()
	v.out.Add(pour(layers, v.form, v.g.band)...)
	if tip := v.g.tip(); tip != nil {
		v.out.Add(pour(layers[:1], v.form, func(_, _ float64) []scene.Point { return tip })...)
	}
	v.out.Add(v.g.walls(v.r.level())...)
}

// level draws where the pour ends: the one heavy line, or, where no mark rules, a dashed one.
func (v *view) level(g glass, from float64) {
	y := g.y(v.r.level())
	l := scene.Line{A: scene.Point{X: from, Y: y}, B: scene.Point{X: g.right(y) + 14, Y: y}, Stroke: scene.Accent, Width: stopWidth}
	if v.r.About > 0 {
		l.Stroke, l.Width, l.Dash = scene.Mark, 2, 6
	}
	v.out.Add(l)
}

// stopNumber writes the number of the stop at the left of its line, the unit and a word under it (above it, where
// the line is low).
func (v *view) stopNumber(y float64) {
	end := func(text string, y, size float64, bold bool, role scene.Role) {
		if text != "" {
			v.out.Add(scene.Text{At: scene.Point{X: numberRight, Y: y}, Text: text, Size: size, Bold: bold, Anchor: scene.End, Fill: role})
		}
	}
	stop := v.r.Say.Stop
	stopSize := scene.Fit(stop, 15, 10, numberRight-2, false)
	if v.r.About > 0 {
		end(stop, y+5, stopSize, true, scene.Ink)
		return
	}
	number := v.r.Say.number(v.r.Mark)
	size := scene.Fit(number, 46, 20, numberRight-2, true)
	half := size * 0.365
	end(number, y+half, size, true, scene.Ink)
	unit, word := y+half+20, y+half+40
	if word > v.out.Height-4 {
		unit, word = y-half-8, y-half-29
	}
	end(v.used.unit, unit, 17, false, scene.Soft)
	end(stop, word, stopSize, false, scene.Soft)
}
