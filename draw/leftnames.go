package draw

import (
	"strings"

	"wetside/draw/scene"
)

// sample is how long a stretch of a line stands before its name.
const sample = 22

// room returns how much the names on the right take: as much as the longest, a share of the width at most.
func (l Left) room() float64 {
	most := scene.TextWidth(l.Say.Limit, l.Size.letter(), true)
	for _, w := range l.Ways {
		most = max(most, scene.TextWidth(w.Name, l.Size.letter(), false))
	}
	if l.Found != nil {
		most = max(most, scene.TextWidth(l.Found.Name, l.Size.letter(), false))
	}
	return min(most+sample+16, l.Size.width()*0.42)
}

// A lineName is the name of one line at the right of a plot.
type lineName struct {
	lines []string // the name, broken
	size  float64
	look  scene.Path // as the line is drawn
	end   *scene.Point
	loud  bool
	near  *float64          // how high it stands where there is no end
	mark  func(scene.Point) // draws the mark before it in place of a stretch of line; nil: a line
}

// names writes each line's name at the right, after a stretch of it, in the order of their ends, and joins it to the end.
func (l Left) names(p *plot) {
	var all []lineName
	for i, w := range l.Ways {
		n := p.named(w.Name, wayLook(i, l.Size), false)
		if line := seenOf(w.Points, p.y.from); len(line) > 0 {
			n.end = new(p.point(line[len(line)-1].At, line[len(line)-1].Amount))
		}
		all = append(all, n)
	}
	if l.Say.Limit != "" {
		n := p.named(l.Say.Limit, scene.Path{Stroke: scene.Accent, Width: p.size.stroke(3)}, true)
		n.end = new(p.point(p.x.to, l.Limit))
		all = append(all, n)
	}
	if l.Found != nil {
		n := l.foundName(p)
		_, high := l.Found.seen(p.y)
		n.near = new(p.point(l.Found.At, high).Y)
		all = append(all, n)
	}
	p.column(all)
}

// named breaks a name so that it fits the room at the right, in smaller letters where a word would not.
func (p *plot) named(name string, look scene.Path, loud bool) lineName {
	room := p.out.Width - p.x.b - 8 - sample - 6
	size := p.size.letter()
	for word := range strings.FieldsSeq(name) {
		size = scene.Fit(word, size, 4, room, loud)
	}
	n := lineName{size: size, look: look, loud: loud}
	for word := range strings.FieldsSeq(name) {
		last := len(n.lines) - 1
		if last >= 0 && scene.TextWidth(n.lines[last]+" "+word, size, loud) <= room {
			n.lines[last] += " " + word
		} else {
			n.lines = append(n.lines, word)
		}
	}
	return n
}

// column sets names under each other at the right, as near to the ends of their lines as can be.
func (p *plot) column(all []lineName) {
	h := p.size.letter()
	tags := make([]tag, len(all))
	for i, n := range all {
		tags[i] = tag{mark: p.y.a, nth: i, wide: n.size * lineGap * float64(max(1, len(n.lines)))}
		if n.end != nil {
			tags[i].mark = n.end.Y
		}
		if n.near != nil {
			tags[i].mark = *n.near
		}
	}
	placed, share := settle(tags, p.y.b-h*0.6, p.y.a+h*0.8, h*0.35)
	for _, t := range placed {
		n := all[t.nth]
		n.size *= share
		n.write(p, t.at)
	}
}

// lineGap is how far the lines of a broken name are apart, in em.
const lineGap = 1.1

func (n lineName) write(p *plot, y float64) {
	x := p.x.b + 8
	first := y - n.size*lineGap*float64(len(n.lines)-1)/2
	n.join(p, scene.Point{X: x, Y: first})
	if n.mark != nil {
		n.mark(scene.Point{X: x + sample/2, Y: first})
	} else {
		p.out.Add(*n.look.Move(x, first).Line(x+sample, first))
	}
	for i, line := range n.lines {
		at := scene.Point{X: x + sample + 5, Y: first + n.size*(0.36+lineGap*float64(i))}
		p.out.Add(scene.Text{At: at, Text: line, Size: n.size, Bold: n.loud, Fill: scene.Ink})
	}
}

// join draws a hairline from a line's end to its name.
func (n lineName) join(p *plot, to scene.Point) {
	if n.end == nil {
		return
	}
	hair := scene.Path{Stroke: scene.Hair, Width: p.size.stroke(hairWidth)}
	p.out.Add(*hair.Move(n.end.X, n.end.Y).Line(max(n.end.X, p.x.b-4), n.end.Y).Line(to.X-2, to.Y))
}
