package signs

import (
	"maps"

	"wetside/draw/scene"
	"wetside/trade/fault"
)

// The sheet, and the picture on it within its white border.
func sheet() box { return box{10, 6, 110, 90} }
func image() box { return sheet().within(10) }

// hills are the dark part of every picture.
func hills() []scene.Point {
	b := image()
	return []scene.Point{
		{X: b.l, Y: b.b},
		{X: b.l, Y: b.b - 22},
		{X: b.l + 20, Y: b.b - 36},
		{X: b.l + 38, Y: b.b - 20},
		{X: b.l + 56, Y: b.b - 44},
		{X: b.r, Y: b.b - 18},
		{X: b.r, Y: b.b},
	}
}

// picture draws sheet, frame, hills and sun; shade is how near the hatching of the hills is, 0 for none.
func (x *pen) picture(shade float64) {
	x.rect(sheet(), plain)
	x.rect(image(), thin)
	land := scene.Polygon(hills()...)
	land.Stroke, land.Width = scene.Mark, thin
	x.s.Add(land)
	if shade > 0 {
		x.hatched(hills(), shade)
	}
	x.ring(image().r-18, image().t+14, 7, thin)
}

const dark = 3.2

func prints() map[fault.Sign]func(*pen) {
	all := map[fault.Sign]func(*pen){
		fault.FlatBlacks:     func(x *pen) { x.picture(13) },
		fault.RushesUp:       rushesUp,
		fault.NothingComes:   func(x *pen) { x.rect(sheet(), plain); x.dashed(image()) },
		fault.AllBlack:       func(x *pen) { x.rect(sheet(), plain); x.hatch(sheet(), 2.4) },
		fault.GreyVeil:       func(x *pen) { x.picture(dark); x.hatch(sheet(), 8) },
		fault.DullHighlights: func(x *pen) { x.picture(dark); x.hatch(image(), 8) },
		fault.UnevenGrey:     unevenGrey,
		fault.GreenBlacks:    greenBlacks,
		fault.PalesInFix:     palesInFix,
		fault.Fades:          fades,
		fault.EdgesLift:      edgesLift,
		fault.EmulsionPeels:  emulsionPeels,
		fault.DarkensInLight: darkensInLight,
	}
	maps.Copy(all, marks())
	return all
}

func rushesUp(x *pen) {
	x.picture(2.2)
	x.hatch(image(), 4.5)
	b := box{48, 26, 72, 70}
	var p scene.Path
	p.Move(b.l, 46).Line(60, b.t).Line(b.r, 46).Line(65, 46).Line(65, b.b).Line(55, b.b).Line(55, 46).Shut()
	p.Fill = scene.Paper
	x.stroke(p, bold)
}

func unevenGrey(x *pen) {
	x.picture(0)
	b := image()
	for i, w := range []float64{9, 5, 12, 6} {
		l := b.l + 6 + float64(i)*19
		x.hatch(box{l, b.t, l + w, b.b}, 4)
	}
}

// greenBlacks: the black is there, and another pattern than black.
func greenBlacks(x *pen) {
	x.picture(dark)
	b := image()
	var p scene.Path
	for k := 0.0; k < 6; k++ {
		p.Move(b.l+4+k*7, b.b-2).Line(b.l+4, b.b-2-k*3.2)
	}
	x.stroke(p, thin)
	x.s.Add(scene.Text{At: scene.Point{X: b.l + 10, Y: b.t + 20}, Text: "?", Size: 20, Bold: true, Fill: scene.Ink})
}

func palesInFix(x *pen) {
	x.picture(0)
	b := image()
	x.hatched([]scene.Point{{X: b.l, Y: b.b}, {X: b.l, Y: b.b - 22}, {X: b.l + 20, Y: b.b - 36}, {X: b.l + 28, Y: b.b - 28}, {X: b.l + 28, Y: b.b}}, dark)
	x.hatched([]scene.Point{{X: b.l + 28, Y: b.b}, {X: b.l + 28, Y: b.b - 28}, {X: b.l + 38, Y: b.b - 20}, {X: b.l + 52, Y: b.b - 38}, {X: b.l + 52, Y: b.b}}, 8)
}

func fades(x *pen) {
	x.rect(sheet(), plain)
	x.dashed(image())
	land := scene.Polygon(hills()...)
	land.Stroke, land.Width, land.Dash = scene.Mark, thin, 2
	x.s.Add(land)
	x.hatched(hills()[:4], 16)
}

func edgesLift(x *pen) {
	b := sheet()
	var p scene.Path
	p.Move(b.l+8, b.t).Line(b.r-8, b.t).Curve(b.r-2, b.t+2, b.r-2, b.t+20, b.r-8, b.t+28).Curve(b.r+4, b.t+40, b.r-12, b.t+54, b.r-2, b.b-4)
	p.Line(b.r-14, b.b).Curve(b.l+60, b.b-12, b.l+40, b.b+4, b.l+14, b.b-4).Curve(b.l+2, b.b-20, b.l+14, b.b-40, b.l+4, b.t+30)
	p.Curve(b.l, b.t+16, b.l+2, b.t+6, b.l+8, b.t).Shut()
	p.Fill = scene.Paper
	x.stroke(p, plain)
	in := image().within(6)
	x.rect(in, thin)
	x.hatch(box{in.l, in.b - 24, in.r, in.b}, 5)
	for _, y := range []float64{30, 48, 66} {
		x.line(thin, b.r-16, y, b.r-9, y+2)
		x.line(thin, b.l+9, y, b.l+16, y+2)
	}
}

func emulsionPeels(x *pen) {
	x.picture(dark)
	b := image()
	var p scene.Path
	p.Move(b.l-6, b.t+38).Curve(b.l+10, b.t+30, b.l+4, b.t+20, b.l+18, b.t+18).Curve(b.l+30, b.t+14, b.l+24, b.t+4, b.l+38, b.t-6)
	p.Line(b.l-6, b.t-6).Shut()
	p.Fill = scene.Paper
	x.stroke(p, bold)
	x.wave(b.l-4, b.l+24, b.t+4, 3, 3, plain)
	x.wave(b.l-4, b.l+12, b.t+14, 3, 2, plain)
	x.wave(b.l-4, b.l+4, b.t+24, 3, 1, plain)
}

func darkensInLight(x *pen) {
	x.picture(dark)
	b := sheet()
	x.hatched([]scene.Point{{X: b.l + 46, Y: b.t}, {X: b.r, Y: b.t}, {X: b.r, Y: b.b}, {X: b.l + 78, Y: b.b}}, 5)
	x.line(bold, b.l+46, b.t, b.l+78, b.b)
}
