package sheet

import (
	"strconv"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/words"
)

// Measures of a part: two drawings stand side by side at the right; on the left a row's number, then its mark, then the
// sentence.
const (
	pictureWidth = 32.0
	pictureGap   = 2.0
	columnWidth  = 2*pictureWidth + pictureGap
	gutter       = 3.5

	rowIndent = 5.0  // of a mark
	sayIndent = 29.0 // of a sentence beside a mark
	rowGap    = 0.8
)

// A part is one piece of the sheet that stands on one page where it can: a bath, a powder made up.
type part struct {
	left     words.Phrase
	right    string
	care     []words.Phrase
	rows     []row
	width    float64 // of the rows
	pictures []scene.Scene
}

// A row is a thing to do, with the mark that it goes to, or something said beside, which has no number.
type row struct {
	n    int
	mark string
	say  words.Phrase
}

// part sets a part, on a new page where there is no room for it; one that is higher than a page is parted between rows.
func (m *mixSheet) part(p part) {
	body := 0.0
	for _, r := range p.rows {
		body += m.rowHeight(r, p.width)
	}
	m.room(m.headHeight(p) + max(body, heightOf(p.pictures)))
	m.headOf(p)
	page, top := m.doc.PageNo(), m.y
	bottom := m.column(p.pictures, top)
	for _, r := range p.rows {
		m.room(m.rowHeight(r, p.width))
		m.row(r, p.width)
	}
	if m.doc.PageNo() == page {
		m.y = max(m.y, bottom)
	}
	m.y += 2.6
}

func (m *mixSheet) headHeight(p part) float64 {
	h := lead(titlePoints)*float64(len(m.lines(p.left, titlePoints, m.beside(p.right, titlePoints)))) + 2.4
	if len(p.care) > 0 {
		h += m.barredHeight(p.care, stepPoints, m.inner())
	}
	return h
}

// headOf sets a part's head line: what it is on the left, how much on the right, over a ruled line; then what is special
// to it.
func (m *mixSheet) headOf(p part) {
	m.ends(p.left, p.right, titlePoints)
	m.y += 0.6
	m.pen(scene.Mark, 0.5)
	m.doc.Line(margin, m.y, m.width-margin, m.y)
	m.y += 1.8
	m.barred(p.care, stepPoints)
}

// layout of a row: where its sentence stands, how large, and in which lines; the mark's size, and whether it stands over
// the sentence instead of beside it.
type layout struct {
	indent, pt float64
	lines      [][]run
	markPoints float64
	over       bool
}

func (m *mixSheet) layout(r row, width float64) layout {
	l := layout{indent: rowIndent, pt: stepPoints}
	switch {
	case r.mark != "":
		l.indent, l.markPoints = sayIndent, markPoints
		if m.wide(r.mark, markPoints) > sayIndent-rowIndent-1.5 {
			l.indent, l.over = rowIndent, true
			l.markPoints = m.fit(r.mark, markPoints, width-rowIndent)
		}
	case r.n == 0:
		l.pt = plainPoints
	}
	l.lines = m.lines(r.say, l.pt, width-l.indent)
	return l
}

func (l layout) height() float64 {
	text := float64(len(l.lines)) * lead(l.pt)
	mark := l.markPoints * point
	switch {
	case l.over:
		return mark + text + rowGap
	case mark > 0:
		return max(mark, text) + rowGap
	}
	return text + rowGap
}

func (m *mixSheet) rowHeight(r row, width float64) float64 { return m.layout(r, width).height() }

// row sets one row: a mark stands large beside its sentence, or over it where it is wide.
func (m *mixSheet) row(r row, width float64) {
	l := m.layout(r, width)
	y := m.y
	if r.n > 0 {
		m.ink(scene.Soft)
		m.size(plainPoints, "")
		m.doc.Text(margin, y+m.firstBase(l), strconv.Itoa(r.n))
	}
	if r.mark != "" {
		m.mark(r.mark, margin+rowIndent, y+m.firstBase(l), l.markPoints)
	}
	text := y
	switch {
	case l.over:
		text += l.markPoints * point
	case r.mark != "" && len(l.lines) == 1:
		text += m.firstBase(l) - lead(l.pt)*0.76
	}
	m.ink(scene.Ink)
	if r.n == 0 {
		m.ink(scene.Soft)
	}
	m.set(l.lines, margin+l.indent, text, l.pt)
	m.y = y + l.height()
}

// firstBase is the baseline of a row's first line, or of its mark, below the row's top.
func (m *mixSheet) firstBase(l layout) float64 {
	if l.markPoints > 0 {
		return l.markPoints * point * 0.8
	}
	return lead(l.pt) * 0.76
}

// readings returns the drawings of a bath's readings, in their order.
func readings(v *words.Voice, b plan.Bath) []scene.Scene {
	if len(b.Mix.Choices) == 0 {
		return nil
	}
	all := draw.Bath(v, b)
	var out []scene.Scene
	for i := range b.Mix.Choices[0].Steps {
		r, ok := all[i]
		if !ok {
			continue
		}
		if s, err := r.Scene(scene.Light); err == nil {
			out = append(out, s)
		}
	}
	return out
}

func heightOf(pictures []scene.Scene) float64 {
	h := 0.0
	for _, s := range pictures {
		h = max(h, s.HeightAt(pictureWidth)+1)
	}
	return h
}

// column sets drawings side by side at the right and returns where they end.
func (m *mixSheet) column(all []scene.Scene, y float64) float64 {
	x := m.width - margin - columnWidth
	if len(all) == 1 {
		x += pictureWidth + pictureGap
	}
	for _, s := range all {
		s.PDF(m.doc, scene.Place{X: x, Y: y, Width: pictureWidth}, family)
		x += pictureWidth + pictureGap
	}
	return y + heightOf(all)
}
