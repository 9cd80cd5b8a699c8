package draw

import (
	"fmt"

	"wetside/draw/scene"
)

// A Pictogram is one hazard pictogram of the Globally Harmonised System: a black symbol on white in a square set on its point
// with a red frame (CLP, Regulation (EC) 1272/2008, Annex V). The symbols are our own drawings of what the standard
// describes. Its red form is outlines alone.
type Pictogram struct {
	Code string // GHS01 to GHS09
	Say  string // the symbol's name, for those who do not see it
}

// A pictogram is pictogramWide units from point to point, with a frame of a sixteenth of its side (the United Nations' model
// drawings, from memory).
const (
	pictogramWide  = 100.0
	pictogramFrame = pictogramWide / 1.4142135623730951 / 16
)

// PictogramWide returns how wide a pictogram stands from point to point when its square has the given side.
func PictogramWide(side float64) float64 { return side * 1.4142135623730951 }

// Scene returns the picture. The error wraps ErrModel: a code that is no pictogram's.
func (p Pictogram) Scene(f scene.Form) (scene.Scene, error) {
	shapes := symbol(p.Code)
	if shapes == nil {
		return scene.Scene{}, fmt.Errorf("%w: no pictogram %q", ErrModel, p.Code)
	}
	s := scene.Scene{Width: pictogramWide, Height: pictogramWide, Label: p.Say}
	black, white, frame := scene.Role("own-black"), scene.Role("own-white"), scene.Role("own-red")
	if f == scene.Red {
		black, white, frame = scene.Ink, scene.Paper, scene.Ink
	}
	s.Add(pictogramSquare(f, white, frame)...)
	for _, sh := range shapes {
		path := scene.Path{Segs: sh.segs, Fill: white}
		switch {
		case f == scene.Red:
			path.Stroke, path.Width = black, 1.1
		case sh.dark:
			path.Fill = black
		}
		s.Add(path)
	}
	return s, nil
}

// pictogramSquare is the ground with its frame; in the red form two outlines.
func pictogramSquare(f scene.Form, white, frame scene.Role) []scene.Item {
	square := func(in float64) scene.Path {
		a, b := in, pictogramWide-in
		mid := pictogramWide / 2
		return scene.Polygon(scene.Point{X: mid, Y: a}, scene.Point{X: b, Y: mid}, scene.Point{X: mid, Y: b}, scene.Point{X: a, Y: mid})
	}
	if f == scene.Red {
		outer, inner := square(1.2), square(pictogramFrame*1.4142135623730951)
		outer.Fill, outer.Stroke, outer.Width = white, frame, 1.4
		inner.Stroke, inner.Width = frame, 1.1
		return []scene.Item{outer, inner}
	}
	outer, inner := square(0), square(pictogramFrame*1.4142135623730951)
	outer.Fill, inner.Fill = frame, white
	return []scene.Item{outer, inner}
}

// Text returns the pictogram in words, as a terminal has no other: "GHS05 corrosion" between points. The error wraps ErrModel.
func (p Pictogram) Text(TextOptions) (string, error) {
	if symbol(p.Code) == nil {
		return "", fmt.Errorf("%w: no pictogram %q", ErrModel, p.Code)
	}
	return "<" + p.Code + " " + p.Say + ">\n", nil
}
