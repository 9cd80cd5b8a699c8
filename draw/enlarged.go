package draw

import (
	"math"

	"wetside/draw/scene"
	"wetside/trade/measure"
)

// Where the enlarged piece of a scale and the vessel beside it stand.
const (
	enlargedHeight = 360
	pieceRight     = 202
	pieceTop       = 22
	pieceBottom    = enlargedHeight - 22
	besideLeft     = 224
	leastMarks     = 7    // marks that a piece shows at least, where the scale has them
	leastBeside    = 10.5 // smallest number on the small vessel
	mostMarks      = 22   // and at most
)

// A piece is a part of a scale, drawn enlarged: marks[first] to marks[last], from low to high in mL.
type piece struct {
	first, last int
	low, high   float64
	floor       bool // the vessel's floor is in sight
}

// pieceOf chooses what is enlarged: from the numbered mark below the stop to the one above, and more of them until
// there are marks enough to find one's way.
func pieceOf(marks []mark, s stop) piece {
	most, under := mostMarks, s.at
	if s.half {
		most, under = mostMarks/2, s.at+1 // there must be room between two marks, and the lower one is below the stop
	}
	p := piece{first: below(marks, under), last: above(marks, s)}
	for p.last-p.first+1 < leastMarks {
		wider := piece{first: below(marks, p.first), last: above(marks, stop{at: p.last})}
		if wider == p || wider.last-wider.first > most {
			break
		}
		p = wider
	}
	if p.last-p.first > most {
		p.first, p.last = max(p.first, s.at-most/2), min(p.last, s.at+most/2)
	}
	division := marks[p.last].ml - marks[p.last-1].ml
	p.low, p.high = marks[p.first].ml-division*0.7, marks[p.last].ml+division*0.7
	if p.first == 0 && marks[0].ml < division*2.5 {
		p.low, p.floor = 0, true
	}
	return p
}

// below returns the index of the nearest numbered mark under marks[i], or the first mark.
func below(marks []mark, i int) int {
	for i--; i > 0; i-- {
		if marks[i].numbered {
			return i
		}
	}
	return 0
}

// above returns the index of the nearest numbered mark over a stop, or the last mark.
func above(marks []mark, s stop) int {
	for i := s.at + 1; i < len(marks); i++ {
		if marks[i].numbered {
			return i
		}
	}
	return len(marks) - 1
}

func (p piece) y(ml float64) float64 {
	return pieceBottom - (ml-p.low)/(p.high-p.low)*(pieceBottom-pieceTop)
}

// band returns what lies between two levels, as far as the piece shows it.
func (p piece) band(from, to float64) []scene.Point {
	a, b := p.y(max(from, p.low)), p.y(min(to, p.high))
	return []scene.Point{{X: lineLeft, Y: a}, {X: lineLeft, Y: b}, {X: pieceRight, Y: b}, {X: pieceRight, Y: a}}
}

// enlarged draws the piece of the scale round the stop, and beside it the whole vessel, small, with its
// numbered marks and the place of the piece.
func (v *view) enlarged() scene.Scene {
	v.out.Height = enlargedHeight
	p := pieceOf(v.used.marks, v.stop)
	v.beside()
	v.pieceOnVessel(p)
	v.pieceContents(p)
	v.pieceTicks(p)
	y := p.y(v.r.level())
	v.out.Add(scene.Line{A: scene.Point{X: lineLeft, Y: y}, B: scene.Point{X: pieceRight + 10, Y: y}, Stroke: scene.Accent, Width: stopWidth})
	v.stopNumber(y)
	return v.out
}

// beside stands the whole vessel at the right edge.
func (v *view) beside() {
	left, right := float64(besideLeft), float64(sceneWidth-2)
	switch v.r.Vessel.Kind {
	case measure.Jug:
		left, right = left+8, right-30 // spout, handle
	case measure.Cylinder, measure.Syringe, measure.Pipette:
		left, right = left+22, right-40 // foot, numbers outside
	case measure.Beaker, measure.Balance:
		left, right = left+4, right-10 // lips
	}
	tall := 290.0
	if v.r.Vessel.Kind == measure.Syringe {
		tall = 140
	}
	g := newGlass(v.r.Vessel, v.full, (left+right)/2, right-left, tall)
	g.bottom = pieceBottom - g.below()
	if room := v.above(g); g.bottom-g.tall < room {
		g = newGlass(v.r.Vessel, v.full, (left+right)/2, right-left, g.bottom-room)
		g.bottom = pieceBottom - g.below()
	}
	v.g = g
	v.contents()
	v.sideTicks()
	y := g.y(v.r.level())
	v.out.Add(scene.Line{A: scene.Point{X: g.left(y) - 4, Y: y}, B: scene.Point{X: g.right(y) + 4, Y: y}, Stroke: scene.Accent, Width: 3})
}

// sideTicks draws the numbered marks of the scale in use on the small vessel.
func (v *view) sideTicks() {
	w := 2 * v.g.mouth
	at := side{loud: true, long: 0.24 * w, numbers: true}
	if v.g.narrow() {
		at.right, at.long = true, 0.5*w
	}
	every := stride(v.used.marks, v.g.y, otherSize+4)
	for _, m := range v.used.marks {
		if !m.numbered {
			continue
		}
		v.tick(m, at)
		t := v.textAt(v.r.Say.number(m.number), v.g.y(m.ml), at, 13)
		if v.written(m, every) && t.Size >= leastBeside {
			v.out.Add(onLiquid(t, v.form, !v.g.narrow() && t.Box().Max.Y > v.g.y(v.r.level()))...)
		}
	}
}

// pieceOnVessel joins the piece with its place on the vessel by two hairlines.
func (v *view) pieceOnVessel(p piece) {
	for _, end := range []struct{ ml, y float64 }{{p.high, pieceTop}, {p.low, pieceBottom}} {
		y := v.g.y(min(max(end.ml, 0), v.full*1.02))
		v.out.Add(scene.Line{
			A: scene.Point{X: pieceRight, Y: end.y}, B: scene.Point{X: v.g.left(y) - 3, Y: y}, Stroke: scene.Soft, Width: 0.8,
		})
	}
}

// pieceContents draws wall and liquid of the piece.
func (v *view) pieceContents(p piece) {
	var seen []layer
	for _, l := range v.r.layers() {
		if l.to > p.low {
			seen = append(seen, l)
		}
	}
	v.out.Add(pour(seen, v.form, p.band)...)
	body := wall()
	body.Move(lineLeft, pieceTop).Line(lineLeft, pieceBottom)
	if p.floor {
		body.Line(pieceRight, pieceBottom)
	}
	v.out.Add(body)
	v.out.Add(scene.Line{A: scene.Point{X: pieceRight, Y: pieceTop}, B: scene.Point{X: pieceRight, Y: pieceBottom}, Stroke: scene.Hair, Width: hairWidth})
}

// pieceTicks draws every mark of the piece, and the number of every numbered one but the stop's own.
func (v *view) pieceTicks(p piece) {
	end := v.r.level()
	for i := p.first; i <= p.last; i++ {
		m := v.used.marks[i]
		y := p.y(m.ml)
		long, width := 22.0, 1.4
		if m.numbered {
			long, width = 38, 2.2
		}
		v.out.Add(scene.Line{A: scene.Point{X: lineLeft, Y: y}, B: scene.Point{X: lineLeft + long, Y: y}, Stroke: scene.Mark, Width: width})
		if m.numbered && math.Abs(y-p.y(end)) >= wipeReach {
			t := scene.Text{At: scene.Point{X: lineLeft + long + 7, Y: y + 7}, Text: v.r.Say.number(m.number), Size: 19, Fill: scene.Ink}
			v.out.Add(onLiquid(t, v.form, m.ml < end)...)
		}
	}
}
