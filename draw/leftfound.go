package draw

import (
	"fmt"
	"math"

	"wetside/draw/scene"
)

// A LeftFound is what a test of the room's own found after so many minutes of a wash: an amount, or what lies between two.
type LeftFound struct {
	At        float64 // minutes
	Low, High float64 // alike for a figure
	Name      string  // at the right: "your test"
}

// check refuses what makes no mark.
func (f *LeftFound) check() error {
	if f == nil {
		return nil
	}
	if err := finite(f.Name, f.At, f.Low, f.High); err != nil {
		return err
	}
	if f.At < 0 || f.Low < 0 || f.High < f.Low || f.High == 0 {
		return fmt.Errorf("%w: a test that found %g to %g after %g", ErrModel, f.Low, f.High, f.At)
	}
	return nil
}

// seen holds the mark within a scale.
func (f *LeftFound) seen(y ruler) (low, high float64) {
	hold := func(v float64) float64 { return min(max(v, y.from), y.to) }
	return hold(f.Low), hold(f.High)
}

// found draws what was found: a bar from the least to the most with a foot at each end that is seen, a diamond for a figure.
func (l Left) found(p *plot) {
	f := l.Found
	if f == nil {
		return
	}
	low, high := f.seen(p.y)
	top, foot := p.point(f.At, high), p.point(f.At, low)
	if f.Low == f.High {
		p.diamond(top)
		return
	}
	wide := p.size.stroke(4.5)
	bar := []scene.Line{{A: top, B: foot}, {A: scene.Point{X: top.X - wide, Y: top.Y}, B: scene.Point{X: top.X + wide, Y: top.Y}}}
	if f.Low >= p.y.from {
		bar = append(bar, scene.Line{A: scene.Point{X: foot.X - wide, Y: foot.Y}, B: scene.Point{X: foot.X + wide, Y: foot.Y}})
	}
	for _, b := range bar {
		b.Stroke, b.Width = scene.Ink, p.size.stroke(foundWidth)
		p.out.Add(b)
		p.hard = append(p.hard, grown(b.Box(), 2))
	}
}

// foundWidth is how wide the bar of what was found is drawn.
const foundWidth = 3

// diamond draws a standing square about a point: what reaches the limit has rings.
func (p *plot) diamond(at scene.Point) {
	r := p.size.stroke(5)
	d := scene.Path{Fill: scene.Paper, Stroke: scene.Ink, Width: p.size.stroke(2.2)}
	d.Move(at.X, at.Y-r).Line(at.X+r, at.Y).Line(at.X, at.Y+r).Line(at.X-r, at.Y).Shut()
	p.out.Add(d)
	p.hard = append(p.hard, scene.Box{Min: scene.Point{X: at.X - r, Y: at.Y - r}, Max: scene.Point{X: at.X + r, Y: at.Y + r}})
}

// foundName is the name of what was found, at the right.
func (l Left) foundName(p *plot) lineName {
	n := p.named(l.Found.Name, scene.Path{Stroke: scene.Ink, Width: p.size.stroke(foundWidth)}, false)
	n.mark = func(at scene.Point) {
		if l.Found.Low == l.Found.High {
			p.diamond(at)
			return
		}
		h := p.size.letter() * 0.45
		p.out.Add(scene.Line{
			A: scene.Point{X: at.X, Y: at.Y - h}, B: scene.Point{X: at.X, Y: at.Y + h}, Stroke: scene.Ink, Width: p.size.stroke(foundWidth),
		})
	}
	return n
}

// foundRune marks what was found in a terminal.
const foundRune = '●'

// textFound draws what was found in characters.
func (l Left) textFound(p *textPlot) {
	if l.Found == nil || l.Found.At > p.x.to {
		return
	}
	low, high := l.Found.seen(p.y)
	top, col := p.at(l.Found.At, high)
	foot, _ := p.at(l.Found.At, low)
	for row := top; row <= foot; row++ {
		p.g.put(row, col, string(foundRune))
	}
}

// ends returns where the scales must reach so that what was found is seen.
func (f *LeftFound) ends(end, least, most float64) (x, low, high float64) {
	if f == nil {
		return end, least, most
	}
	const beyond = 1.04 // so that the mark is not cut by the edge
	if f.Low > 0 {
		least = math.Min(least, f.Low)
	}
	return max(end, f.At*beyond), least, max(most, f.High)
}
