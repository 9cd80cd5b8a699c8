package draw

import (
	"wetside/draw/scene"
	"wetside/trade/measure"
)

// Weights of lines, in the scene's units.
const (
	wallWidth   = 2.6
	stopWidth   = 5
	tickWidth   = 1.8 // a numbered mark
	plainWidth  = 1.1 // any other
	hairWidth   = 1
	hatchGap    = 8
	thinSpacing = 3.4 // marks closer than this are not drawn but for the numbered ones
)

// rim is how far a vessel reaches above its largest mark, as a part of the height of that mark.
func (g glass) rim() float64 {
	switch g.kind {
	case measure.Jug, measure.Beaker, measure.Balance:
		return 0.12
	case measure.Cylinder, measure.Syringe:
		return 0.07
	case measure.Pipette:
	}
	return 0.14
}

// below is how far it reaches below its floor: a foot, a nozzle, a tip.
func (g glass) below() float64 {
	switch g.kind {
	case measure.Cylinder:
		return 10
	case measure.Syringe:
		return 24
	case measure.Pipette:
		return 30
	case measure.Jug, measure.Beaker, measure.Balance:
	}
	return 0
}

// walls draws the vessel itself. The level matters to a syringe alone: its plunger stands there.
func (g glass) walls(level float64) []scene.Item {
	switch g.kind {
	case measure.Beaker:
		return g.beaker()
	case measure.Cylinder:
		return g.cylinder()
	case measure.Syringe:
		return append(g.syringe(), g.plunger(level)...)
	case measure.Pipette:
		return g.pipette()
	case measure.Jug, measure.Balance:
	}
	return g.jug()
}

func wall() scene.Path { return scene.Path{Stroke: scene.Mark, Width: wallWidth} }

// jug has a spout on the left and a handle on the right.
func (g glass) jug() []scene.Item {
	top := g.bottom - g.tall*(1+g.rim())
	lip := g.bottom - g.tall*1.04
	out := g.mouth * 0.24
	body := wall()
	body.Move(g.left(top)-out, top).Line(g.left(lip), lip).Line(g.left(g.bottom), g.bottom)
	body.Line(g.right(g.bottom), g.bottom).Line(g.right(top), top)
	if g.bare {
		return []scene.Item{body}
	}
	handle := wall()
	a, b := g.bottom-g.tall*0.9, g.bottom-g.tall*0.22
	reach := g.mouth * 0.68
	handle.Move(g.right(a), a).Curve(g.right(a)+reach, a-g.tall*0.06, g.right(b)+reach, b-g.tall*0.08, g.right(b), b)
	return []scene.Item{body, handle}
}

// beaker has straight walls, a lip and a beak.
func (g glass) beaker() []scene.Item {
	top := g.bottom - g.tall*(1+g.rim())
	out := g.mouth * 0.12
	body := wall()
	body.Move(g.left(top)-out, top-2).Line(g.left(top), top+out).Line(g.left(g.bottom), g.bottom)
	body.Line(g.right(g.bottom), g.bottom).Line(g.right(top), top+out/2).Line(g.right(top)+out/2, top)
	return []scene.Item{body}
}

// cylinder is tall, with a beak and a foot.
func (g glass) cylinder() []scene.Item {
	top := g.bottom - g.tall*(1+g.rim())
	body := wall()
	body.Move(g.left(top)-8, top).Line(g.left(top), top+9).Line(g.left(g.bottom), g.bottom)
	body.Line(g.right(g.bottom), g.bottom).Line(g.right(top), top)
	foot := wall()
	wide := g.mouth*1.5 + 6
	down := g.bottom + g.below() - wallWidth/2
	foot.Move(g.left(g.bottom), g.bottom).Line(g.mid-wide, down).Line(g.mid+wide, down).Line(g.right(g.bottom), g.bottom)
	return []scene.Item{body, foot}
}

// syringe stands on its nozzle, as it draws from a bottle.
func (g glass) syringe() []scene.Item {
	top := g.bottom - g.tall*(1+g.rim())
	neck, tip := g.bottom+7, g.bottom+g.below()
	body := wall()
	body.Move(g.left(top)-10, top).Line(g.left(top), top).Line(g.left(g.bottom), g.bottom).Line(g.mid-4, neck).Line(g.mid-3, tip)
	body.Move(g.mid+3, tip).Line(g.mid+4, neck).Line(g.right(g.bottom), g.bottom).Line(g.right(top), top).Line(g.right(top)+10, top)
	return []scene.Item{body}
}

// tip is the outline of what lies below the floor in a nozzle or a tip, nil where there is none.
func (g glass) tip() []scene.Point {
	end := g.bottom + g.below()
	switch g.kind {
	case measure.Syringe:
		return []scene.Point{
			{X: g.left(g.bottom), Y: g.bottom},
			{X: g.right(g.bottom), Y: g.bottom},
			{X: g.mid + 4, Y: g.bottom + 7},
			{X: g.mid + 3, Y: end},
			{X: g.mid - 3, Y: end},
			{X: g.mid - 4, Y: g.bottom + 7},
		}
	case measure.Pipette:
		return []scene.Point{
			{X: g.left(g.bottom), Y: g.bottom}, {X: g.right(g.bottom), Y: g.bottom}, {X: g.mid + 1.8, Y: end}, {X: g.mid - 1.8, Y: end},
		}
	case measure.Jug, measure.Beaker, measure.Cylinder, measure.Balance:
	}
	return nil
}

// plunger has its front edge at the level, and its thumb rest as far out of the barrel as it was drawn.
func (g glass) plunger(level float64) []scene.Item {
	y := g.y(level)
	half := g.mouth - wallWidth
	seal := scene.Rect{At: scene.Point{X: g.mid - half, Y: y - 13}, W: 2 * half, H: 13, Fill: scene.Paper, Stroke: scene.Mark, Width: 1.6}
	ring := scene.Line{A: scene.Point{X: g.mid - half, Y: y - 6.5}, B: scene.Point{X: g.mid + half, Y: y - 6.5}, Stroke: scene.Mark, Width: 1.6}
	rest := g.rest(level)
	rod := wall()
	rod.Width = 1.6
	rod.Move(g.mid-5, y-13).Line(g.mid-5, rest).Move(g.mid+5, y-13).Line(g.mid+5, rest)
	thumb := scene.Line{A: scene.Point{X: g.mid - half - 2, Y: rest}, B: scene.Point{X: g.mid + half + 2, Y: rest}, Stroke: scene.Mark, Width: wallWidth}
	return []scene.Item{seal, ring, rod, thumb}
}

// rest returns where the thumb rest of a syringe's plunger is.
func (g glass) rest(level float64) float64 { return g.y(level) - g.tall*(1+g.rim()) - 8 }

// pipette is a thin tube with a tip.
func (g glass) pipette() []scene.Item {
	top := g.bottom - g.tall*(1+g.rim())
	tip := g.bottom + g.below()
	body := wall()
	body.Width = 2
	body.Move(g.left(top), top).Line(g.left(g.bottom), g.bottom).Line(g.mid-1.8, tip)
	body.Move(g.mid+1.8, tip).Line(g.right(g.bottom), g.bottom).Line(g.right(top), top)
	return []scene.Item{body}
}
