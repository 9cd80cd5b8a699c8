package draw

import (
	"math"
	"slices"

	"wetside/draw/scene"
)

// A plot is two rulers at right angles, with what is drawn between them.
type plot struct {
	size Size
	out  scene.Scene
	x, y ruler
	hard []scene.Box // where no word shall stand: lines and marks
	area []scene.Box // where a word stands only where there is no other place
}

// newPlot lays the rulers out: numbers stand on the left, right is kept free on the right.
func newPlot(size Size, label string, x, y ruler, numbers []string, right float64) *plot {
	l := size.letter()
	left := 0.0
	for _, n := range numbers {
		left = max(left, scene.TextWidth(n, l, false))
	}
	tall := 200.0
	if size != Phone {
		tall = 300
	}
	x.a, x.b = left+13, size.width()-right
	y.a, y.b = l+14+tall, l+14
	return &plot{size: size, out: scene.Scene{Width: size.width(), Label: label}, x: x, y: y}
}

func (p *plot) point(at, amount float64) scene.Point {
	return scene.Point{X: p.x.at(at), Y: p.y.at(amount)}
}

// upright draws the axis on the left: a tick at each figure, numbers as far as there is room, and over it what it is of.
func (p *plot) upright(ticks []float64, numbers []string, title string) {
	l := p.size.letter()
	p.out.Add(scene.Line{A: scene.Point{X: p.x.a, Y: p.y.a}, B: scene.Point{X: p.x.a, Y: p.y.b}, Stroke: scene.Mark, Width: p.size.stroke(plainWidth)})
	last := p.y.a + 2*l
	for i, v := range ticks {
		y := p.y.at(v)
		long := 4.0
		if last-y >= l*1.15 && y-l*0.36 >= p.y.b-l*0.5 {
			last, long = y, 7
			p.out.Add(scene.Text{At: scene.Point{X: p.x.a - 10, Y: y + l*0.36}, Text: numbers[i], Size: l, Anchor: scene.End, Fill: scene.Ink})
		}
		p.out.Add(scene.Line{A: scene.Point{X: p.x.a - long, Y: y}, B: scene.Point{X: p.x.a, Y: y}, Stroke: scene.Mark, Width: p.size.stroke(plainWidth)})
	}
	p.out.Add(scene.Text{At: scene.Point{X: 1, Y: l}, Text: title, Size: scene.Fit(title, l, 5, p.out.Width-2, false), Fill: scene.Soft})
}

// between draws small ticks on the upright axis.
func (p *plot) between(ticks []float64) {
	for _, v := range ticks {
		y := p.y.at(v)
		p.out.Add(scene.Line{A: scene.Point{X: p.x.a - 4, Y: y}, B: scene.Point{X: p.x.a, Y: y}, Stroke: scene.Mark, Width: p.size.stroke(plainWidth)})
	}
}

// level draws the axis at the foot: a tick a step, numbers at the marks and, where they leave room, at the ticks; under them
// what it is of. It sets the picture's height.
func (p *plot) level(step float64, number func(float64) string, marks []tag, title string) {
	l := p.size.letter()
	p.out.Add(scene.Line{A: scene.Point{X: p.x.a, Y: p.y.a}, B: scene.Point{X: p.x.b, Y: p.y.a}, Stroke: scene.Mark, Width: p.size.stroke(plainWidth)})
	tags := slices.Clone(marks)
	for _, v := range steps(p.x.from, p.x.to, step) {
		x := p.x.at(v)
		p.out.Add(scene.Line{A: scene.Point{X: x, Y: p.y.a}, B: scene.Point{X: x, Y: p.y.a + 5}, Stroke: scene.Mark, Width: p.size.stroke(plainWidth)})
		tags = append(tags, tag{mark: x, number: number(v), spare: true})
	}
	row := tagRow{size: p.size, lo: 1, hi: p.out.Width - 1, ends: p.y.a + 5, top: p.y.a + 16}
	low := row.draw(&p.out, tags)
	name := scene.Text{At: scene.Point{X: p.x.b, Y: low + l + 2}, Text: title, Size: scene.Fit(title, l, 5, p.x.b-2, false), Anchor: scene.End, Fill: scene.Soft}
	p.out.Add(name)
	p.out.Height = low + 3
	if title != "" {
		p.out.Height = name.Box().Max.Y + 2
	}
}

// pointsOf returns where a line lies.
func (p *plot) pointsOf(line []Sample) []scene.Point {
	var all []scene.Point
	for _, s := range line {
		all = append(all, p.point(s.At, s.Amount))
	}
	return all
}

// line draws a line of samples; words keep off it.
func (p *plot) line(line []Sample, look scene.Path) {
	points := p.pointsOf(line)
	if len(points) < 2 {
		return
	}
	for i, at := range points {
		if i == 0 {
			look.Move(at.X, at.Y)
		} else {
			look.Line(at.X, at.Y)
			p.hard = append(p.hard, along(points[i-1], at)...)
		}
	}
	p.out.Add(look)
}

// mark draws an upright mark on the foot, as high as an amount.
func (p *plot) mark(at, amount float64, role scene.Role, width float64) {
	top := p.point(at, amount)
	l := scene.Line{A: top, B: scene.Point{X: top.X, Y: p.y.a + 5}, Stroke: role, Width: p.size.stroke(width)}
	p.out.Add(l)
	p.hard = append(p.hard, grown(l.Box(), 2))
}

// ring draws a small ring about a point.
func (p *plot) ring(at scene.Point) {
	c := scene.Circle{At: at, R: p.size.stroke(3.4), Fill: scene.Paper, Stroke: scene.Mark, Width: p.size.stroke(1.6)}
	p.out.Add(c)
	p.hard = append(p.hard, c.Box())
}

// along covers a straight line with boxes.
func along(a, b scene.Point) []scene.Box {
	n := max(1, int(max(max(a.X-b.X, b.X-a.X), max(a.Y-b.Y, b.Y-a.Y))/6))
	var all []scene.Box
	for i := range n {
		f, g := float64(i)/float64(n), float64(i+1)/float64(n)
		x1, x2 := a.X+(b.X-a.X)*f, a.X+(b.X-a.X)*g
		y1, y2 := a.Y+(b.Y-a.Y)*f, a.Y+(b.Y-a.Y)*g
		all = append(all, grown(scene.Box{Min: scene.Point{X: min(x1, x2), Y: min(y1, y2)}, Max: scene.Point{X: max(x1, x2), Y: max(y1, y2)}}, 2))
	}
	return all
}

func grown(b scene.Box, by float64) scene.Box {
	return scene.Box{Min: scene.Point{X: b.Min.X - by, Y: b.Min.Y - by}, Max: scene.Point{X: b.Max.X + by, Y: b.Max.Y + by}}
}

// nameAlong writes the name of a line beside it, a little smaller where that keeps it off other lines; else over the plot,
// after the title, with a stretch of the line; where that leaves no room, beside it on the wiped ground.
func (p *plot) nameAlong(line []Sample, name, title string, look scene.Path) {
	if name == "" {
		return
	}
	l := p.size.letter()
	t := scene.Text{Text: name, Bold: true, Fill: scene.Ink}
	for _, share := range []float64{1.08, 0.92} {
		t.Size = scene.Fit(name, l*share, 6, p.x.b-p.x.a-12, true)
		if p.write(t, p.besides(line, t), false) {
			return
		}
	}
	left := scene.TextWidth(title, l, false) + l + sample + 5
	over := t
	over.At = scene.Point{X: left, Y: l}
	over.Size = scene.Fit(name, l, 1, p.out.Width-1-left, true)
	if left > p.out.Width*0.7 || over.Size < 0.55*l {
		p.write(t, p.besides(line, t), true)
		return
	}
	p.out.Add(over, *look.Move(left-5-sample, l*0.64).Line(left-5, l*0.64))
}

// besides returns places for a text over and under a line, the nearest first.
func (p *plot) besides(line []Sample, t scene.Text) []scene.Point {
	wide := scene.TextWidth(t.Text, t.Size, true)
	var places []scene.Point
	for _, away := range []float64{6, 16, 30} {
		for x := p.x.a + 8; x+wide <= p.x.b; x += 12 {
			top, foot := math.Inf(1), math.Inf(-1)
			for k := range 9 {
				at := p.x.from + (x+wide*float64(k)/8-p.x.a)/(p.x.b-p.x.a)*(p.x.to-p.x.from)
				y := p.y.at(amountAt(line, at))
				top, foot = min(top, y), max(foot, y)
			}
			places = append(places, scene.Point{X: x, Y: top - away - t.Size*0.1}, scene.Point{X: x, Y: foot + away + t.Size*0.75})
		}
	}
	return places
}

// write sets a word at the best of some places: one that touches no line, then one clear of areas too, the first of
// equals. Places that would leave the plot are not looked at. Where every place lies on a line the word is written only if it
// must be, and wiped under. It reports whether it wrote.
func (p *plot) write(t scene.Text, places []scene.Point, must bool) bool {
	var best scene.Text
	least := -1
	for _, at := range places {
		t.At = at
		box := t.Box()
		if box.Min.X < p.x.a+3 || box.Max.X > p.x.b || box.Min.Y < p.y.b-4 || box.Max.Y > p.y.a-4 {
			continue
		}
		if bad := 100*hits(box, p.hard) + hits(box, p.area); least < 0 || bad < least {
			best, least = t, bad
		}
	}
	if least < 0 || least >= 100 && !must {
		return false
	}
	if least >= 100 { // on a line after all: wipe under it
		b := grown(best.Box(), 2)
		p.out.Add(scene.Rect{At: b.Min, W: b.Max.X - b.Min.X, H: b.Max.Y - b.Min.Y, Fill: scene.Paper})
	}
	p.out.Add(best)
	p.hard = append(p.hard, best.Box())
	return true
}

func hits(b scene.Box, all []scene.Box) int {
	n := 0
	for _, o := range all {
		if b.Overlaps(o) {
			n++
		}
	}
	return n
}
