package signs

import (
	"wetside/draw/scene"
	"wetside/trade/fault"
)

// liquid is what stands in the tray.
func liquid() box { return box{18, 52, 102, 82} }

// tray draws a tray from the side, with liquid up to a level.
func (x *pen) tray() {
	b := liquid()
	if !x.red {
		x.s.Add(scene.Rect{At: scene.Point{X: b.l, Y: b.t}, W: b.r - b.l, H: b.b - b.t, Fill: scene.Liquid})
	}
	x.line(bold, 8, 36, b.l, b.b, b.r, b.b, 112, 36)
	x.line(plain, b.l-5.5, b.t, b.r+5.5, b.t)
}

func baths() map[fault.Sign]func(*pen) {
	return map[fault.Sign]func(*pen){
		fault.DeveloperBrown: func(x *pen) { x.tray(); x.hatch(liquid(), 2.4) },
		fault.DeveloperMilky: developerMilky,
		fault.StopTurned:     stopTurned,
		fault.FixerCloudy:    fixerCloudy,
		fault.FixerSlow:      fixerSlow,
		fault.DropCloud:      dropCloud,
		fault.SharpFumes:     sharpFumes,
		fault.ColouredPour:   colouredPour,
		fault.BottleCrystals: bottleCrystals,
		fault.SlimyWash:      slimyWash,
	}
}

func developerMilky(x *pen) {
	x.tray()
	for i, at := range scattered(liquid().within(4), 22) {
		l := 2 + float64(i%3)
		x.line(plain, at.X-l, at.Y, at.X+l, at.Y-1.4*float64(i%2))
	}
}

// stopTurned: half of it as it was, half as it is.
func stopTurned(x *pen) {
	x.tray()
	b := liquid()
	x.hatch(box{60, b.t, b.r, b.b}, 3)
	x.line(bold, 40, 24, 80, 24)
	x.line(bold, 72, 18, 80, 24, 72, 30)
	x.ring(26, 24, 8, plain)
	x.ring(94, 24, 8, plain)
	x.hatched([]scene.Point{{X: 88, Y: 24}, {X: 90, Y: 19}, {X: 98, Y: 19}, {X: 100, Y: 24}, {X: 98, Y: 29}, {X: 90, Y: 29}}, 2.6)
}

func fixerCloudy(x *pen) {
	x.tray()
	x.cloud(44, 68, 1)
	x.cloud(78, 66, 1.1)
}

// cloud is three humps.
func (x *pen) cloud(cx, cy, k float64) {
	var p scene.Path
	p.Move(cx-15*k, cy+7*k).Curve(cx-22*k, cy+2*k, cx-17*k, cy-6*k, cx-9*k, cy-4*k).Curve(cx-6*k, cy-13*k, cx+6*k, cy-13*k, cx+8*k, cy-4*k)
	p.Curve(cx+17*k, cy-6*k, cx+21*k, cy+3*k, cx+15*k, cy+7*k).Shut()
	p.Fill = scene.Paper
	x.stroke(p, plain)
}

// fixerSlow: a clip of film that is not clear yet, and a clock.
func fixerSlow(x *pen) {
	x.tray()
	f := box{34, 12, 54, 74}
	x.rect(f, plain)
	x.hatch(box{f.l, 40, f.r, f.b}, 3)
	x.ring(86, 24, 15, bold)
	x.line(bold, 86, 24, 86, 13)
	x.line(bold, 86, 24, 94, 29)
}

func dropCloud(x *pen) {
	x.tray()
	x.cloud(60, 68, 1.3)
	var p scene.Path
	p.Move(60, 14).Curve(50, 28, 52, 36, 60, 36).Curve(68, 36, 70, 28, 60, 14).Shut()
	p.Fill = scene.Paper
	x.stroke(p, bold)
}

func sharpFumes(x *pen) {
	x.tray()
	for _, at := range []float64{34, 60, 86} {
		var p scene.Path
		p.Move(at, 48).Curve(at-9, 38, at+9, 32, at, 22).Curve(at-5, 16, at+3, 12, at+1, 8)
		x.stroke(p, bold)
	}
}

// colouredPour: a tank tipped over a tray.
func colouredPour(x *pen) {
	x.tray()
	tank := scene.Polygon(scene.Point{X: 14, Y: 10}, scene.Point{X: 40, Y: 4}, scene.Point{X: 50, Y: 34}, scene.Point{X: 24, Y: 42})
	tank.Fill = scene.Paper
	x.stroke(tank, bold)
	var p scene.Path
	p.Move(41, 8).Curve(66, 10, 70, 30, 70, 52).Move(46, 20).Curve(60, 22, 63, 36, 63, 52)
	x.stroke(p, plain)
	b := liquid()
	for k := range 3 {
		x.wave(b.l+4, b.r-4, b.t+8+8*float64(k), 2.4, 6, plain)
	}
}

func bottleCrystals(x *pen) {
	var p scene.Path
	p.Move(50, 6).Line(70, 6).Line(70, 20).Curve(84, 26, 86, 34, 86, 42).Line(86, 90).Line(34, 90).Line(34, 42).Curve(34, 34, 36, 26, 50, 20).Shut()
	p.Fill = scene.Paper
	x.stroke(p, bold)
	x.line(plain, 34, 46, 86, 46)
	for _, at := range []scene.Point{{X: 44, Y: 80}, {X: 58, Y: 72}, {X: 74, Y: 80}, {X: 66, Y: 58}} {
		x.line(plain, at.X-7, at.Y, at.X+7, at.Y)
		x.line(plain, at.X-3.5, at.Y-6, at.X+3.5, at.Y+6)
		x.line(plain, at.X+3.5, at.Y-6, at.X-3.5, at.Y+6)
	}
}

func slimyWash(x *pen) {
	x.tray()
	b := liquid()
	x.wave(b.l-4, b.r+4, b.t, 3.5, 5, bold)
	for i, at := range scattered(box{b.l + 8, b.t + 8, b.r - 8, b.b - 5}, 7) {
		x.blob(at.X, at.Y, 4+float64(i%2), 2.6, 0, 0)
	}
	x.line(bold, 60, 8, 60, 40)
	x.line(bold, 46, 8, 60, 8)
}
