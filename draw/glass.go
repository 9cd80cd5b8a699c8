package draw

import (
	"math"

	"wetside/draw/scene"
	"wetside/trade/measure"
)

// A glass is a vessel's inside as it is drawn: a cone cut off, standing on its narrow end, or a cylinder.
type glass struct {
	kind        measure.Kind
	full        float64 // mL at the largest mark
	mid, bottom float64 // centre line and floor
	tall        float64 // from the floor to the largest mark
	foot, mouth float64 // half widths at the floor and at the largest mark
	bare        bool    // without a handle
}

// shape is what is usual for a kind. From memory: common practice of makers, no standard.
type shape struct {
	ratio float64 // height of the largest mark over the width half-way up
	taper float64 // mouth over foot
	least float64 // bounds of ratio where the inner width is given: beyond them marks could not be told apart
	most  float64
}

func shapeOf(k measure.Kind) shape {
	switch k {
	case measure.Cylinder:
		return shape{ratio: 5.2, taper: 1, least: 3, most: 7}
	case measure.Syringe:
		return shape{ratio: 3.8, taper: 1, least: 2.4, most: 6}
	case measure.Pipette:
		return shape{ratio: 14, taper: 1, least: 10, most: 16}
	case measure.Beaker:
		return shape{ratio: 1.3, taper: 1, least: 1, most: 2}
	case measure.Jug, measure.Balance:
	}
	return shape{ratio: 1.8, taper: 1.2, least: 1.3, most: 2.4}
}

// ratioOf returns height over width, from the inner width where it is known: V = π/4·w²·h.
func ratioOf(v measure.Vessel, full float64) float64 {
	s := shapeOf(v.Kind)
	w := float64(v.InnerWidth)
	if w <= 0 {
		return s.ratio
	}
	height := full * 1000 / (math.Pi / 4 * w * w) // 1 mL is 1000 mm³
	return min(max(height/w, s.least), s.most)
}

// newGlass fits a vessel that holds full mL into a width and a height about mid; its bottom is still to be set.
func newGlass(v measure.Vessel, full, mid, wide, tall float64) glass {
	taper := shapeOf(v.Kind).taper
	ratio := ratioOf(v, full) * (1 + 1/taper) / 2 // height over the width of the mouth
	w := min(wide, tall/ratio)
	return glass{kind: v.Kind, full: full, mid: mid, tall: w * ratio, foot: w / 2 / taper, mouth: w / 2}
}

// y returns where the level of a volume in mL stands.
func (g glass) y(ml float64) float64 { return g.bottom - g.height(ml) }

// height of a level above the floor. In a cone the volume goes with the third power of the width.
func (g glass) height(ml float64) float64 {
	part := max(ml, 0) / g.full
	if g.mouth-g.foot < 1e-6 {
		return g.tall * part
	}
	return g.tall * (g.halfAt(part) - g.foot) / (g.mouth - g.foot)
}

func (g glass) halfAt(part float64) float64 {
	foot, mouth := g.foot*g.foot*g.foot, g.mouth*g.mouth*g.mouth
	return math.Cbrt(foot + part*(mouth-foot))
}

// half returns half the width at a height y of the picture.
func (g glass) half(y float64) float64 {
	return g.foot + (g.mouth-g.foot)*(g.bottom-y)/g.tall
}

func (g glass) left(y float64) float64  { return g.mid - g.half(y) }
func (g glass) right(y float64) float64 { return g.mid + g.half(y) }

// band returns the outline of what lies between two levels.
func (g glass) band(from, to float64) []scene.Point {
	a, b := g.y(from), g.y(to)
	return []scene.Point{{X: g.left(a), Y: a}, {X: g.left(b), Y: b}, {X: g.right(b), Y: b}, {X: g.right(a), Y: a}}
}

// narrow reports whether numbers have no room inside and stand beside the vessel.
func (g glass) narrow() bool {
	return g.kind == measure.Cylinder || g.kind == measure.Syringe || g.kind == measure.Pipette
}
