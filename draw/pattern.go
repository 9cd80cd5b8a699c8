package draw

import "wetside/draw/scene"

// A Pattern stands beside a tray's colour, since colour never carries meaning alone.
type Pattern uint8

// The patterns.
const (
	Bars Pattern = iota
	Dots
	Crosses
	Rings
	Waves
	Peaks
	Plusses
	Dashes
	patterns // how many there are
)

// PatternAt returns the pattern of the bath that stands at a place in working order, from 0. The first eight differ.
func PatternAt(place int) Pattern { return Pattern(max(place, 0) % int(patterns)) }

// rune is the pattern in a terminal.
func (p Pattern) rune() rune {
	runes := [patterns]rune{'|', '.', 'x', 'o', '~', '^', '+', '-'}
	return runes[p%patterns]
}

// glyph draws one of the pattern's figures about a point, some 8 high.
func (p Pattern) glyph(x, y float64) scene.Item {
	path := scene.Path{Stroke: scene.Mark, Width: 1.4}
	switch p {
	case Dots:
		return scene.Circle{At: scene.Point{X: x, Y: y}, R: 2.2, Fill: scene.Mark}
	case Rings:
		return scene.Circle{At: scene.Point{X: x, Y: y}, R: 3, Stroke: scene.Mark, Width: 1.4}
	case Crosses:
		path.Move(x-3, y-3).Line(x+3, y+3).Move(x-3, y+3).Line(x+3, y-3)
	case Waves:
		path.Move(x-5, y).Curve(x-3, y-5, x-2, y-5, x, y).Curve(x+2, y+5, x+3, y+5, x+5, y)
	case Peaks:
		path.Move(x-4, y+3).Line(x, y-3).Line(x+4, y+3)
	case Plusses:
		path.Move(x-4, y).Line(x+4, y).Move(x, y-4).Line(x, y+4)
	case Dashes:
		path.Move(x-4, y).Line(x+4, y)
	case Bars:
		path.Move(x, y-4).Line(x, y+4)
	default:
		path.Move(x, y-4).Line(x, y+4)
	}
	return path
}

// row draws the pattern from left to right along y.
func (p Pattern) row(left, right, y float64) []scene.Item {
	const pitch = 15
	n := max(int((right-left-10)/pitch), 1)
	from := (left + right - float64(n-1)*pitch) / 2
	var out []scene.Item
	for i := range n {
		out = append(out, p.glyph(from+float64(i)*pitch, y))
	}
	return out
}
