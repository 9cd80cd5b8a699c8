package scene

import (
	"math"
	"slices"
)

// A Path is lines and curves, open or closed.
type Path struct {
	Segs         []Seg
	Fill, Stroke Role
	Width        float64
	Dash, Gap    float64 // as of a Line
}

// Op is what a segment of a path does.
type Op uint8

// The operations.
const (
	MoveTo  Op = iota
	LineTo     // to Seg.To
	CurveTo    // a cubic curve to Seg.To, pulled by Seg.C1 and Seg.C2
	Close
)

// A Seg is one segment of a path.
type Seg struct {
	Op         Op
	C1, C2, To Point
}

func (s Seg) points() []Point {
	switch s.Op {
	case CurveTo:
		return []Point{s.C1, s.C2, s.To}
	case Close:
		return nil
	case MoveTo, LineTo:
	}
	return []Point{s.To}
}

// Move begins a new stretch of the path.
func (p *Path) Move(x, y float64) *Path { return p.seg(Seg{Op: MoveTo, To: Point{x, y}}) }

// Line goes straight on.
func (p *Path) Line(x, y float64) *Path { return p.seg(Seg{Op: LineTo, To: Point{x, y}}) }

// Curve goes on in a cubic curve.
func (p *Path) Curve(x1, y1, x2, y2, x, y float64) *Path {
	return p.seg(Seg{Op: CurveTo, C1: Point{x1, y1}, C2: Point{x2, y2}, To: Point{x, y}})
}

// Shut goes back to where the stretch began.
func (p *Path) Shut() *Path { return p.seg(Seg{Op: Close}) }

func (p *Path) seg(s Seg) *Path {
	p.Segs = append(p.Segs, s)
	return p
}

// Polygon returns the closed path through the points.
func Polygon(points ...Point) Path {
	var p Path
	for i, at := range points {
		if i == 0 {
			p.Move(at.X, at.Y)
		} else {
			p.Line(at.X, at.Y)
		}
	}
	p.Shut()
	return p
}

// Hatched returns lines that rise to the right at 45°, gap apart, cut to the polygon. The lines of two
// hatched shapes in one scene meet, since all are counted from the scene's corner.
func Hatched(polygon []Point, gap float64) Path {
	p := Path{Stroke: Hatch, Width: 1.2}
	low, high := math.Inf(1), math.Inf(-1)
	for _, at := range polygon {
		low, high = min(low, at.X+at.Y), max(high, at.X+at.Y)
	}
	for k := math.Ceil(low / gap); k*gap < high; k++ {
		p.cut(polygon, k*gap)
	}
	return p
}

// cut adds the parts of the line x + y = sum that lie in the polygon.
func (p *Path) cut(polygon []Point, sum float64) {
	var xs []float64
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		da, db := a.X+a.Y-sum, b.X+b.Y-sum
		if (da < 0) != (db < 0) {
			xs = append(xs, a.X+(b.X-a.X)*da/(da-db))
		}
	}
	slices.Sort(xs)
	for i := 0; i+1 < len(xs); i += 2 {
		if xs[i+1]-xs[i] > 0.5 {
			p.Move(xs[i], sum-xs[i]).Line(xs[i+1], sum-xs[i+1])
		}
	}
}
