package sheet

import (
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/words"
)

// Room under a note's head, and under a note.
const (
	noteHead = 1.6
	noteGap  = 1.6
)

// A note is lines, under a head or without one, set in half the width of the page.
type note struct {
	head  words.Phrase
	lines []words.Phrase
}

// chains sets, for each load, the steps that it goes through and how long.
func (m *mixSheet) chains() {
	var all []note
	for _, l := range m.plan.Loads {
		n := note{head: heavy(m.v.Load(l))}
		for _, t := range l.Times {
			n.lines = append(n.lines, m.v.TimedOf(m.plan, t))
		}
		all = append(all, n)
	}
	m.room(m.notesHeight(all, stepPoints))
	m.notes(all, stepPoints)
}

func (m *mixSheet) cost() {
	c := m.v.Cost(m.plan.Cost)
	if len(c) == 0 {
		return
	}
	var parts []string
	for _, p := range m.plan.Cost.Parts {
		parts = append(parts, m.v.CostPart(p, m.plan.Cost.Currency))
	}
	detail := plain(m.v.Clauses(parts...))
	m.room(lead(stepPoints)*2 + 3 + float64(len(m.lines(detail, smallPoints, m.inner())))*lead(smallPoints))
	m.flow(append(heavy(m.v.Label("cost")+". "), c...), stepPoints)
	m.flow(detail, smallPoints)
	m.y += 3
}

// figures tells, small and last, how the figures of each bath came about.
func (m *mixSheet) figures() {
	var all []note
	for _, i := range m.plan.Order {
		if say := m.figuresOf(m.plan.Baths[i]); len(say) > 0 {
			all = append(all, note{lines: []words.Phrase{say}})
		}
	}
	if len(all) == 0 {
		return
	}
	m.room(lead(stepPoints) + 1 + m.noteHeight(all[0], smallPoints))
	m.flow(heavy(m.v.Label("reckoning")), stepPoints)
	m.y++
	m.notes(all, smallPoints)
}

// figuresOf says what a bath comes to, how exact that is, and what it does by the tray's and the tank's size.
func (m *mixSheet) figuresOf(b plan.Bath) words.Phrase {
	if b.Product == "" {
		return nil
	}
	p := m.named(b)
	if depth := m.v.Depth(b); depth != "" {
		p = append(p, words.Segment{Text: ", " + depth})
	}
	p = append(p, words.Segment{Text: "."})
	bare := len(p)
	if c := b.Mix.Choices; len(c) > 0 && c[0].Within {
		p = after(p, m.v.BathSummary(b))
	}
	for _, f := range b.Findings {
		if explains(f.Kind) {
			p = after(p, m.v.Finding(f))
		}
	}
	if len(p) == bare && b.Depth <= 0 {
		return nil
	}
	return p
}

// after sets one sentence after another.
func after(p, next words.Phrase) words.Phrase {
	return append(append(p, words.Segment{Text: " "}), next...)
}

func (m *mixSheet) noteWidth() float64 { return (m.inner() - gutter) / 2 }

func (m *mixSheet) noteHeight(n note, pt float64) float64 {
	h := 0.0
	if len(n.head) > 0 {
		h = m.blockHeight(n.head, pt, m.noteWidth()) + noteHead
	}
	for _, l := range n.lines {
		h += m.blockHeight(l, pt, m.noteWidth())
	}
	return h + noteGap
}

// notesHeight is how high notes are in two columns.
func (m *mixSheet) notesHeight(all []note, pt float64) float64 {
	var ends [2]float64
	for _, n := range all {
		i := 0
		if ends[1] < ends[0] {
			i = 1
		}
		ends[i] += m.noteHeight(n, pt)
	}
	return max(ends[0], ends[1])
}

// notes sets notes in two columns, each under the shorter one; where neither has room, on a new page.
func (m *mixSheet) notes(all []note, pt float64) {
	ends := [2]float64{m.y, m.y}
	for _, n := range all {
		i := 0
		if ends[1] < ends[0] {
			i = 1
		}
		if h := m.noteHeight(n, pt); ends[i]+h > m.height-footer {
			m.page()
			ends, i = [2]float64{m.y, m.y}, 0
		}
		m.y = ends[i]
		m.note(n, pt, margin+float64(i)*(m.noteWidth()+gutter))
		ends[i] = m.y
	}
	m.y = max(ends[0], ends[1])
}

func (m *mixSheet) note(n note, pt, x float64) {
	if len(n.head) > 0 {
		m.block(n.head, pt, x, m.noteWidth())
		m.pen(scene.Hair, 0.2)
		m.doc.Line(x, m.y+0.4, x+m.noteWidth(), m.y+0.4)
		m.y += noteHead
	}
	for _, l := range n.lines {
		m.block(l, pt, x, m.noteWidth())
	}
	m.y += noteGap
}
