package draw

import (
	"fmt"
	"math"

	"wetside/draw/scene"
)

// A Progress is how far one is: a tick a step, the present one heavy.
type Progress struct {
	At, Of int    // from 1
	Say    string // beside the present tick: "2 of 9"
	Label  string // empty: Say
}

func (p Progress) check() error {
	if p.At < 1 || p.At > p.Of {
		return fmt.Errorf("%w: step %d of %d", ErrModel, p.At, p.Of)
	}
	return nil
}

// Scene returns the graduation, as wide as a reading. The error wraps ErrModel.
func (p Progress) Scene(scene.Form) (scene.Scene, error) {
	if err := p.check(); err != nil {
		return scene.Scene{}, err
	}
	const height, base = 36, 33.5
	out := scene.Scene{Width: sceneWidth, Height: height, Label: p.Label}
	if out.Label == "" {
		out.Label = p.Say
	}
	out.Add(scene.Line{A: scene.Point{X: 0, Y: base}, B: scene.Point{X: sceneWidth, Y: base}, Stroke: scene.Hair, Width: hairWidth})
	pitch := float64(sceneWidth) / float64(p.Of)
	for i := 1; i <= p.Of; i++ {
		tick := scene.Line{A: scene.Point{X: (float64(i) - 0.5) * pitch}, B: scene.Point{X: (float64(i) - 0.5) * pitch, Y: base}}
		switch {
		case i < p.At:
			tick.A.Y, tick.Stroke, tick.Width = 22, scene.Mark, 2
		case i == p.At:
			tick.A.Y, tick.Stroke, tick.Width = 6, scene.Accent, stopWidth
		default:
			tick.A.Y, tick.Stroke, tick.Width = 25, scene.Soft, 1
		}
		tick.Width = min(tick.Width, max(pitch*0.6, 0.6))
		out.Add(tick)
	}
	out.Add(p.words((float64(p.At) - 0.5) * pitch))
	return out, nil
}

// words stand after the present tick, or before it where they would not fit.
func (p Progress) words(x float64) scene.Text {
	t := scene.Text{At: scene.Point{X: x + 9, Y: 17}, Text: p.Say, Size: 16, Bold: true, Fill: scene.Ink}
	if t.Box().Max.X > sceneWidth {
		t.At.X, t.Anchor = x-9, scene.End
	}
	return t
}

// Text returns the graduation for a terminal. The error wraps ErrModel.
func (p Progress) Text(o TextOptions) (string, error) {
	if err := p.check(); err != nil {
		return "", err
	}
	var g grid
	pitch := max(1, min(3, 40/p.Of))
	at := p.At
	cols := p.Of
	if p.Of > 40 { // as many ticks as there is room for
		cols = 40
		at = max(1, int(math.Round(float64(p.At)/float64(p.Of)*40)))
	}
	for i := 1; i <= cols; i++ {
		mark := "│"
		switch {
		case i == at:
			mark = "┃"
		case i > at:
			mark = "·"
		}
		g.put(0, (i-1)*pitch, mark)
	}
	g.put(0, cols*pitch+1, p.Say)
	return g.text(o), nil
}
