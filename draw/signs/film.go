package signs

import (
	"wetside/draw/scene"
	"wetside/trade/fault"
)

// The strip, from edge to edge of the picture, and its frames.
func strip() box { return box{3, 18, 117, 78} }

func frame(i int) box {
	l := 8 + float64(i)*53
	return box{l, 30, l + 48, 66}
}

// film draws the strip with its holes, its edge numbers as short marks, and two frames shaded so near; 0 for none.
func (x *pen) film(shade float64, numbers bool) {
	b := strip()
	x.rect(b, plain)
	for at := b.l + 4; at+4 < b.r; at += 9.2 {
		x.rect(box{at, b.t + 3, at + 4.5, b.t + 7}, thin)
		x.rect(box{at, b.b - 7, at + 4.5, b.b - 3}, thin)
	}
	if numbers {
		for _, at := range []float64{20, 46, 73, 99} {
			x.line(bold, at, b.t+9.6, at+6, b.t+9.6)
		}
	}
	for i := range 2 {
		f := frame(i)
		if shade == 0 {
			x.dashed(f)
			continue
		}
		x.rect(f, thin)
		x.hatched([]scene.Point{{X: f.l, Y: f.t}, {X: f.r, Y: f.t}, {X: f.r, Y: f.b - 16}, {X: f.l + 30, Y: f.b - 6}, {X: f.l + 16, Y: f.b - 20}, {X: f.l, Y: f.b - 8}}, shade)
	}
}

const usual = 6

func films() map[fault.Sign]func(*pen) {
	return map[fault.Sign]func(*pen){
		fault.FilmBlank:      func(x *pen) { x.film(0, false) },
		fault.FilmNoPictures: func(x *pen) { x.film(0, true) },
		fault.FilmThin:       func(x *pen) { x.film(15, true) },
		fault.FilmDense: func(x *pen) {
			x.film(2.4, true)
			for i := range 2 {
				x.hatch(frame(i), 4.4)
			}
		},
		fault.FilmFog:        func(x *pen) { x.film(usual, true); x.hatch(strip(), 4.2) },
		fault.FilmMilky:      filmMilky,
		fault.FilmStreaks:    filmStreaks,
		fault.FilmEdgeBand:   filmEdgeBand,
		fault.FilmTouching:   filmTouching,
		fault.FilmCrescents:  filmCrescents,
		fault.FilmScratches:  filmScratches,
		fault.FilmRoundSpots: filmRoundSpots,
		fault.FilmDryMarks:   filmDryMarks,
		fault.FilmCracked:    filmCracked,
	}
}

func filmMilky(x *pen) {
	x.film(usual, true)
	for _, at := range scattered(strip().within(2), 120) {
		x.dot(at.X, at.Y, 0.9)
	}
}

func filmStreaks(x *pen) {
	x.film(12, true)
	b := strip()
	for at := b.l + 6.2; at+4 < b.r; at += 9.2 {
		x.line(bold, at, b.t+8, at, b.t+26)
		x.line(bold, at, b.b-8, at, b.b-20)
	}
}

func filmEdgeBand(x *pen) {
	x.film(4, true)
	b := strip()
	band := scene.Polygon(box{b.l + 1, b.t + 1, b.r - 1, b.t + 24}.corners()...)
	band.Fill = scene.Paper
	band.Stroke, band.Width, band.Dash = scene.Mark, plain, 4
	x.s.Add(band)
}

func filmTouching(x *pen) {
	x.film(usual, true)
	patch := []scene.Point{{X: 44, Y: 19}, {X: 84, Y: 19}, {X: 72, Y: 77}, {X: 32, Y: 77}}
	p := scene.Polygon(patch...)
	p.Fill = scene.Paper
	x.stroke(p, bold)
	for _, at := range scattered(box{46, 22, 70, 75}, 30) {
		x.dot(at.X, at.Y, 1)
	}
}

func filmCrescents(x *pen) {
	x.film(usual, true)
	for _, at := range []scene.Point{{X: 28, Y: 42}, {X: 62, Y: 54}, {X: 94, Y: 42}} {
		var p scene.Path
		p.Move(at.X-9, at.Y+6).Curve(at.X-7, at.Y-10, at.X+7, at.Y-10, at.X+9, at.Y+6).Curve(at.X+4, at.Y-4, at.X-4, at.Y-4, at.X-9, at.Y+6).Shut()
		p.Fill = scene.Paper
		x.stroke(p, bold)
	}
}

func filmScratches(x *pen) {
	x.film(usual, true)
	b := strip()
	for _, y := range []float64{38, 47.5, 50, 60} {
		x.line(bold, b.l, y, b.r, y)
	}
}

func filmRoundSpots(x *pen) {
	x.film(4, true)
	for i, at := range scattered(box{14, 36, 106, 62}, 8) {
		x.ring(at.X, at.Y, 2.6+1.3*float64(i%3), plain)
	}
}

func filmDryMarks(x *pen) {
	x.film(usual, true)
	for _, at := range []scene.Point{{X: 30, Y: 46}, {X: 66, Y: 56}, {X: 96, Y: 44}} {
		for _, k := range []float64{1, 0.55} {
			var p scene.Path
			p.Move(at.X, at.Y-15*k).Curve(at.X-11*k, at.Y, at.X-9*k, at.Y+9*k, at.X, at.Y+9*k).Curve(at.X+9*k, at.Y+9*k, at.X+11*k, at.Y, at.X, at.Y-15*k).Shut()
			p.Fill = scene.Paper
			x.stroke(p, plain)
		}
	}
}

func filmCracked(x *pen) {
	x.film(12, true)
	b := strip()
	for row := range 4 {
		y := b.t + 6 + float64(row)*14
		x.wave(b.l+1, b.r-1, y+3, 4, 7, plain)
		for k := range 8 {
			at := b.l + 6 + float64(k)*14 + float64(row%2)*6
			x.line(plain, at, y+2, at+3, min(y+16, b.b-1))
		}
	}
}
