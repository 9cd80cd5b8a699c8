package signs

import (
	"wetside/draw/scene"
	"wetside/trade/fault"
)

// marks are the signs that are something on a print.
func marks() map[fault.Sign]func(*pen) {
	return map[fault.Sign]func(*pen){
		fault.YellowStain:     yellowStain,
		fault.BrownPatches:    brownPatches,
		fault.FingerMarks:     fingerMarks,
		fault.WhiteSpecks:     whiteSpecks,
		fault.WhiteHairs:      whiteHairs,
		fault.DarkSpecks:      darkSpecks,
		fault.RoundSpots:      roundSpots,
		fault.Pinholes:        pinholes,
		fault.TongMarks:       tongMarks,
		fault.ChalkFilm:       chalkFilm,
		fault.StainFromBack:   stainFromBack,
		fault.TonerStain:      tonerStain,
		fault.TestAlwaysFails: testAlwaysFails,
	}
}

func yellowStain(x *pen) {
	x.picture(dark)
	for _, at := range scattered(sheet().within(3), 110) {
		x.dot(at.X, at.Y, 0.9)
	}
}

func brownPatches(x *pen) {
	x.picture(dark)
	x.blob(36, 30, 20, 13, 3, 0)
	x.blob(88, 62, 16, 18, 3, 0)
	x.blob(46, 76, 11, 8, 3, 0)
}

func fingerMarks(x *pen) {
	x.picture(7)
	for _, c := range []scene.Point{{X: 30, Y: 66}, {X: 92, Y: 30}} {
		var edge scene.Path
		edge.Move(c.X-12, c.Y+16).Curve(c.X-15, c.Y-20, c.X+15, c.Y-20, c.X+12, c.Y+16).Shut()
		edge.Fill = scene.Paper
		x.stroke(edge, plain)
		for k := 3.0; k <= 9; k += 3 {
			var p scene.Path
			p.Move(c.X-k, c.Y+14).Curve(c.X-k-2, c.Y-1.4*k, c.X+k+2, c.Y-1.4*k, c.X+k, c.Y+14)
			x.stroke(p, thin)
		}
	}
}

func whiteSpecks(x *pen) {
	x.picture(dark)
	for i, at := range scattered(image().within(3), 16) {
		r := 1.6 + 0.5*float64(i%3)
		var p scene.Path
		p.Move(at.X-r, at.Y).Line(at.X, at.Y-1.2*r).Line(at.X+1.1*r, at.Y+0.2*r).Line(at.X+0.2*r, at.Y+r).Shut()
		p.Fill = scene.Paper
		x.stroke(p, thin)
	}
}

func whiteHairs(x *pen) {
	x.picture(dark)
	for i, at := range scattered(image().within(15), 5) {
		up := 1.0 - 2*float64(i%2)
		for _, ink := range []bool{false, true} {
			var p scene.Path
			p.Move(at.X-13, at.Y).Curve(at.X-4, at.Y-11*up, at.X+3, at.Y+12*up, at.X+13, at.Y-3*up)
			p.Stroke, p.Width = scene.Paper, 5
			if ink {
				p.Stroke, p.Width = scene.Mark, thin
			}
			x.s.Add(p)
		}
	}
}

func darkSpecks(x *pen) {
	x.picture(13)
	for i, at := range scattered(image().within(5), 13) {
		x.dot(at.X, at.Y, 1.4+0.5*float64(i%3))
		if i%4 == 0 {
			x.line(plain, at.X, at.Y, at.X+1.5, at.Y-5)
		}
	}
}

func roundSpots(x *pen) {
	x.picture(dark)
	for i, at := range scattered(image().within(9), 7) {
		x.ring(at.X, at.Y, 3.5+1.7*float64(i%3), plain)
	}
}

func pinholes(x *pen) {
	x.picture(dark)
	for i, at := range scattered(image().within(8), 12) {
		x.ring(at.X, at.Y, 1.7, thin)
		if i%5 == 0 {
			x.ring(at.X, at.Y, 7, plain)
			x.ring(at.X-1.5, at.Y-1.5, 3.4, thin)
		}
	}
}

func tongMarks(x *pen) {
	x.picture(13)
	for _, at := range []scene.Point{{X: 52, Y: 28}, {X: 80, Y: 62}} {
		for _, off := range []float64{0, 8} {
			var p scene.Path
			p.Move(at.X-9, at.Y+off).Line(at.X+9, at.Y+off-4)
			x.stroke(p, 3.6)
		}
	}
}

func chalkFilm(x *pen) {
	x.picture(dark)
	for i, at := range scattered(sheet().within(9), 26) {
		l := 4 + 2*float64(i%3)
		for _, ink := range []bool{false, true} {
			p := scene.Path{Stroke: scene.Paper, Width: 3.4}
			p.Move(at.X-l/2, at.Y).Line(at.X+l/2, at.Y)
			if ink {
				p.Stroke, p.Width, p.Dash = scene.Mark, thin, 1.5
			}
			x.s.Add(p)
		}
	}
}

// stainFromBack: the corner is turned over, and the stain comes from there.
func stainFromBack(x *pen) {
	x.picture(9)
	x.blob(44, 40, 20, 14, 0, 3)
	x.blob(78, 66, 15, 10, 0, 3)
	b := sheet()
	fold := scene.Polygon(scene.Point{X: b.r, Y: b.b - 34}, scene.Point{X: b.r - 32, Y: b.b}, scene.Point{X: b.r - 30, Y: b.b - 30})
	fold.Fill = scene.Paper
	x.stroke(fold, bold)
	x.hatched([]scene.Point{{X: b.r - 3, Y: b.b - 31}, {X: b.r - 29, Y: b.b - 4}, {X: b.r - 27, Y: b.b - 27}}, 3)
}

func tonerStain(x *pen) {
	x.picture(dark)
	x.blob(40, 34, 21, 12, 0, 0)
	x.blob(84, 64, 17, 13, 0, 0)
	for _, y := range []float64{30, 36} {
		x.wave(26, 54, y, 2.5, 3, thin)
	}
	for _, y := range []float64{60, 66} {
		x.wave(72, 96, y, 2.5, 3, thin)
	}
}

func testAlwaysFails(x *pen) {
	x.picture(7)
	x.ring(34, 76, 13, plain)
	x.hatched([]scene.Point{{X: 26, Y: 76}, {X: 30, Y: 68}, {X: 38, Y: 68}, {X: 42, Y: 76}, {X: 38, Y: 84}, {X: 30, Y: 84}}, 2.6)
	var p scene.Path
	p.Move(34, 32).Curve(22, 48, 24, 56, 34, 56).Curve(44, 56, 46, 48, 34, 32).Shut()
	p.Fill = scene.Paper
	x.stroke(p, bold)
}
