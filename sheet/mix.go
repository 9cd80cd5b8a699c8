package sheet

import (
	"strconv"
	"strings"

	"wetside/darkroom"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/words"
)

type mixSheet struct {
	*setter
	plan plan.Plan
	file darkroom.File
}

// head sets the room's name, the day, and what is to be made.
func (m *mixSheet) head() {
	m.say(heavy(m.plan.Name), 20)
	m.say(plain(m.v.DateTime(m.plan.Starts)), 12)
	m.y += 4
	m.rule()
	for _, l := range m.plan.Loads {
		text := m.v.Load(l)
		p := heavy(text)
		if w := m.v.Wanted(l); w != "" {
			p = append(p, words.Segment{Text: "; " + w})
		}
		m.say(p, 11)
	}
	m.y += 3
}

// warnings sets what is missing and the cautions that hold for all of it.
func (m *mixSheet) warnings() {
	var lacks []words.Phrase
	if len(m.plan.Missing) > 0 {
		lacks = append(lacks, heavy(m.v.Label("missing")))
	}
	for _, x := range m.plan.Missing {
		lacks = append(lacks, m.v.Missing(x))
	}
	m.barred(lacks, 11)
	for _, f := range m.plan.Findings {
		m.say(m.v.Finding(f), 10)
	}
	var care []words.Phrase
	for _, c := range m.plan.Cautions {
		care = append(care, m.v.Caution(c))
	}
	m.barred(care, 10)
	m.say(m.v.Order(m.plan), 10)
	m.y += 3
}

func (m *mixSheet) dayBefore() {
	for _, s := range m.plan.DayBefore {
		m.room(40)
		m.title(m.v.Label("day_before")+": "+s.Product, "")
		m.cautions(s.Cautions)
		for i, l := range m.v.Stock(s, words.WaterOfStock(s, m.file.Bench)) {
			m.numbered(i+1, l.Say, m.inner())
		}
		for _, f := range s.Findings {
			m.sayIn(m.v.Finding(f), 10, 8)
		}
		m.y += 3
	}
}

// title sets a bath's head line: what it is on the left, how much on the right, over a ruled line.
func (m *mixSheet) title(left, right string) {
	m.ink(scene.Ink)
	m.size(15, "B")
	m.doc.Text(margin, m.y+5, left)
	if right != "" {
		m.doc.Text(m.width-margin-m.doc.GetStringWidth(right), m.y+5, right)
	}
	m.y += 7.4
	m.pen(scene.Mark, 0.5)
	m.doc.Line(margin, m.y, m.width-margin, m.y)
	m.y += 2.6
}

func (m *mixSheet) cautions(cs []plan.Caution) {
	var ps []words.Phrase
	for _, c := range cs {
		ps = append(ps, m.v.Caution(c))
	}
	m.barred(ps, 10)
}

// numbered sets one thing to do with its number, in a column of a width.
func (m *mixSheet) numbered(n int, p words.Phrase, width float64) {
	const indent, pt = 8.0, 12.0
	lines := m.lines(p, pt, width-indent)
	m.ink(scene.Soft)
	m.size(pt, "")
	m.doc.Text(margin, m.y+lead(pt)*0.76, strconv.Itoa(n))
	m.ink(scene.Ink)
	m.y = m.set(lines, margin+indent, m.y, pt) + 1.4
}

// bath sets one bath: its steps on the left, its readings drawn on the right.
func (m *mixSheet) bath(b plan.Bath) {
	where := b.Tray + b.Tank
	left := m.v.Bath(b)
	if where != "" {
		left += " → " + where
	}
	right := m.v.Volume(b.Volume)
	if b.Product == "" {
		m.room(14)
		m.title(left, right)
		m.y += 2
		return
	}
	pictures := m.pictures(b)
	h := 62.0
	if len(pictures) > 0 {
		h = 30 + pictures[0].HeightAt(pictureWidth)
	}
	m.room(h)
	m.title(left, right)
	m.cautions(b.Cautions)
	page, top := m.doc.PageNo(), m.y
	m.steps(b, m.inner()-pictureWidth-6)
	bottom := m.y
	if m.doc.PageNo() == page {
		bottom = max(bottom, m.column(pictures, top))
	}
	m.y = bottom
	m.after(b)
	m.y += 4
}

// steps sets what is to be done for a bath, in a column.
func (m *mixSheet) steps(b plan.Bath, width float64) {
	n := 0
	add := func(p words.Phrase) {
		if len(p) > 0 {
			n++
			m.numbered(n, p, width)
		}
	}
	add(m.v.Rinse(b))
	for _, d := range b.Lots {
		m.aside(m.v.Draw(d, m.file.Shelf.Lots), width)
	}
	if b.Temper != nil {
		add(m.v.TemperLine(*b.Temper, words.WaterOf(b)))
	}
	for _, l := range m.v.BathMix(b) {
		if l.Kind == words.Note || l.Kind == words.Again {
			m.aside(l.Say, width)
			continue
		}
		add(l.Say)
	}
}

// aside sets a sentence without a number, smaller.
func (m *mixSheet) aside(p words.Phrase, width float64) {
	const indent, pt = 8.0, 10.0
	m.ink(scene.Soft)
	m.y = m.set(m.lines(p, pt, width-indent), margin+indent, m.y, pt) + 1.2
}

// after sets what is said of a bath once it is mixed.
func (m *mixSheet) after(b plan.Bath) {
	for _, p := range []words.Phrase{m.v.Makings(b), m.v.BathSummary(b), m.v.Advice(b.Mix.Advice)} {
		m.sayIn(p, 10, 8)
	}
	for _, f := range b.Findings {
		m.sayIn(m.v.Finding(f), 10, 8)
	}
}

const pictureWidth = 62.0

// pictures returns the drawings of a bath's readings, at most two: the chemical's and the last water's.
func (m *mixSheet) pictures(b plan.Bath) []scene.Scene {
	if len(b.Mix.Choices) == 0 {
		return nil
	}
	c := b.Mix.Choices[0]
	all := draw.Bath(m.v, b)
	var out []scene.Scene
	for i := range c.Steps {
		r, ok := all[i]
		if !ok {
			continue
		}
		if s, err := r.Scene(scene.Light); err == nil {
			out = append(out, s)
		}
	}
	if len(out) > 2 {
		out = []scene.Scene{out[0], out[len(out)-1]}
	}
	return out
}

// column sets drawings below each other at the right, as far as the page goes, and returns where they end.
func (m *mixSheet) column(all []scene.Scene, y float64) float64 {
	x := m.width - margin - pictureWidth
	for _, s := range all {
		h := s.HeightAt(pictureWidth)
		if y+h > m.height-footer {
			break
		}
		s.PDF(m.doc, scene.Place{X: x, Y: y, Width: pictureWidth}, family)
		y += h + 3
	}
	return y
}

// chains sets, for each load, the steps that it goes through and how long.
func (m *mixSheet) chains() {
	for _, l := range m.plan.Loads {
		m.room(12 + float64(len(l.Times))*lead(11))
		m.title(m.v.Load(l), "")
		for _, t := range l.Times {
			p := m.v.Timed(t)
			if t.Bath >= 0 {
				if where := m.plan.Baths[t.Bath].Tray + m.plan.Baths[t.Bath].Tank; where != "" {
					p = append(p, words.Segment{Text: " → " + where})
				}
			}
			m.say(p, 11)
		}
		m.y += 3
	}
}

func (m *mixSheet) cost() {
	c := m.v.Cost(m.plan.Cost)
	if len(c) == 0 {
		return
	}
	m.room(30)
	m.title(m.v.Label("cost"), "")
	m.say(c, 11)
	var parts []string
	for _, p := range m.plan.Cost.Parts {
		parts = append(parts, m.v.CostPart(p, m.plan.Cost.Currency))
	}
	m.say(plain(strings.Join(parts, "; ")), 10)
}
