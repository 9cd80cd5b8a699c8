package signs

import (
	"errors"

	"wetside/draw/scene"
	"wetside/trade/fault"
)

// ErrNoPicture is the error for a sign that has none: one of a later program.
var ErrNoPicture = errors.New("no picture of this sign")

// The size of every picture.
const (
	Wide = 120
	High = 96
)

// A Picture is one sign.
type Picture struct {
	Sign  fault.Sign
	Label string // the picture in words
}

// Scene returns the picture. The error is ErrNoPicture.
func (p Picture) Scene(f scene.Form) (scene.Scene, error) {
	for _, table := range []map[fault.Sign]func(*pen){prints(), films(), baths()} {
		if draw, ok := table[p.Sign]; ok {
			x := pen{red: f == scene.Red, s: scene.Scene{Width: Wide, Height: High, Label: p.Label}}
			draw(&x)
			return x.s, nil
		}
	}
	return scene.Scene{}, ErrNoPicture
}

// A pen draws on a picture.
type pen struct {
	s   scene.Scene
	red bool
}

// A box is a part of the picture: left, top, right, bottom.
type box struct{ l, t, r, b float64 }

func (b box) corners() []scene.Point {
	return []scene.Point{{X: b.l, Y: b.t}, {X: b.r, Y: b.t}, {X: b.r, Y: b.b}, {X: b.l, Y: b.b}}
}

// within returns the box so much smaller on every side.
func (b box) within(by float64) box { return box{b.l + by, b.t + by, b.r - by, b.b - by} }

const (
	thin  = 1
	plain = 1.4
	bold  = 2.2
)

func (x *pen) rect(b box, width float64) {
	x.s.Add(scene.Rect{At: scene.Point{X: b.l, Y: b.t}, W: b.r - b.l, H: b.b - b.t, Fill: scene.Paper, Stroke: scene.Mark, Width: width})
}

// dashed is an outline of dashes: where something is not.
func (x *pen) dashed(b box) {
	p := scene.Polygon(b.corners()...)
	p.Stroke, p.Width, p.Dash = scene.Mark, thin, 3
	x.s.Add(p)
}

// hatch shades a box: the nearer the lines, the darker.
func (x *pen) hatch(b box, gap float64) { x.hatched(b.corners(), gap) }

// hatched shades a polygon; in the dark with fewer lines, so that little light comes of it.
func (x *pen) hatched(polygon []scene.Point, gap float64) {
	if x.red {
		gap = max(1.6*gap, 5)
	}
	p := scene.Hatched(polygon, gap)
	p.Stroke, p.Width = scene.Mark, thin
	x.s.Add(p)
}

// stroke adds a path in the mark's role.
func (x *pen) stroke(p scene.Path, width float64) {
	p.Stroke, p.Width = scene.Mark, width
	x.s.Add(p)
}

// line goes through points given as x, y, x, y.
func (x *pen) line(width float64, at ...float64) {
	var p scene.Path
	for i := 0; i+1 < len(at); i += 2 {
		if i == 0 {
			p.Move(at[0], at[1])
			continue
		}
		p.Line(at[i], at[i+1])
	}
	x.stroke(p, width)
}

// wave goes from left to right in so many waves.
func (x *pen) wave(l, r, y, high float64, waves int, width float64) {
	var p scene.Path
	p.Move(l, y)
	step := (r - l) / float64(2*waves)
	for i := range 2 * waves {
		up := high
		if i%2 == 1 {
			up = -high
		}
		from := l + float64(i)*step
		p.Curve(from+step/3, y-up, from+2*step/3, y-up, from+step, y)
	}
	x.stroke(p, width)
}

func (x *pen) ring(cx, cy, r, width float64) {
	x.s.Add(scene.Circle{At: scene.Point{X: cx, Y: cy}, R: r, Fill: scene.Paper, Stroke: scene.Mark, Width: width})
}

func (x *pen) dot(cx, cy, r float64) {
	x.s.Add(scene.Circle{At: scene.Point{X: cx, Y: cy}, R: r, Fill: scene.Mark})
}

// blob is a patch with a soft outline about a point.
func (x *pen) blob(cx, cy, w, h, gap, dash float64) {
	var p scene.Path
	p.Move(cx-w, cy).Curve(cx-w, cy-1.3*h, cx-0.2*w, cy-0.8*h, cx, cy-h).Curve(cx+0.5*w, cy-1.2*h, cx+w, cy-0.6*h, cx+w, cy)
	p.Curve(cx+w, cy+1.1*h, cx+0.3*w, cy+0.7*h, cx, cy+h).Curve(cx-0.6*w, cy+1.2*h, cx-w, cy+0.7*h, cx-w, cy).Shut()
	p.Fill, p.Dash = scene.Paper, dash
	x.stroke(p, plain)
	if gap > 0 {
		x.hatched([]scene.Point{
			{X: cx - 0.85*w, Y: cy},
			{X: cx - 0.5*w, Y: cy - 0.75*h},
			{X: cx + 0.4*w, Y: cy - 0.75*h},
			{X: cx + 0.85*w, Y: cy},
			{X: cx + 0.4*w, Y: cy + 0.7*h},
			{X: cx - 0.5*w, Y: cy + 0.75*h},
		}, gap)
	}
}

// scattered are places over a box, in no order that the eye finds, given as parts of it.
func scattered(b box, n int) (at []scene.Point) {
	for i := range n {
		// steps after M. Roberts, a golden ratio for two dimensions (from memory), fill the box evenly
		u, v := float64(i)*0.754878+0.13, float64(i)*0.569840+0.37
		u, v = u-float64(int(u)), v-float64(int(v))
		at = append(at, scene.Point{X: b.l + u*(b.r-b.l), Y: b.t + v*(b.b-b.t)})
	}
	return at
}
