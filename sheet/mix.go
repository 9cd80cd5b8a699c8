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
	lines := m.lines(p, stepPoints, width-stepIndent)
	m.ink(scene.Soft)
	m.size(stepPoints, "")
	m.doc.Text(margin, m.y+lead(stepPoints)*0.76, strconv.Itoa(n))
	m.ink(scene.Ink)
	m.y = m.set(lines, margin+stepIndent, m.y, stepPoints) + 1.3
}

// bath sets one bath: its steps on the left, its readings drawn on the right.
func (m *mixSheet) bath(b plan.Bath) {
	where := b.Tray + b.Tank
	left := m.v.BathTitle(b)
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
	m.room(m.heightOf(b, pictures))
	m.title(left, right)
	m.cautions(b.Cautions)
	page, top := m.doc.PageNo(), m.y
	m.steps(b)
	bottom := m.y
	if m.doc.PageNo() == page {
		bottom = max(bottom, m.column(pictures, top))
	}
	m.y = bottom
	m.after(b)
	m.y += 4
}

// An item is one line of a bath: a thing to do, numbered, or something said beside.
type item struct {
	say      words.Phrase
	numbered bool
}

// items lists what is to be done for a bath: rinsing, its water, its mix; which bottle beside.
func (m *mixSheet) items(b plan.Bath) []item {
	var out []item
	add := func(p words.Phrase, numbered bool) {
		if len(p) > 0 {
			out = append(out, item{p, numbered})
		}
	}
	for _, d := range b.Lots {
		add(m.v.Draw(d, m.file.Shelf.Lots), false)
	}
	add(m.v.Rinse(b), true)
	if b.Temper != nil {
		add(m.v.TemperLine(*b.Temper, words.WaterOf(b)), true)
	}
	for _, l := range m.v.BathMix(b) {
		add(l.Say, l.Kind != words.Note && l.Kind != words.Again)
	}
	return out
}

// heightOf returns how high a bath is, so that it does not stand on two pages: its head, cautions, and the higher of its
// items and its drawings.
func (m *mixSheet) heightOf(b plan.Bath, pictures []scene.Scene) float64 {
	steps := 0.0
	for _, x := range m.items(b) {
		pt := asidePoints
		if x.numbered {
			pt = stepPoints
		}
		steps += float64(len(m.lines(x.say, pt, m.stepsWidth()-stepIndent)))*lead(pt) + 1.3
	}
	drawn := 0.0
	for _, s := range pictures {
		drawn = max(drawn, s.HeightAt(pictureWidth)+3)
	}
	return 10 + float64(len(b.Cautions))*(lead(10)*2+1) + max(steps, drawn) + float64(1+len(b.Findings))*lead(10)
}

func (m *mixSheet) stepsWidth() float64 { return m.inner() - columnWidth - 5 }

// steps sets the items of a bath in a column.
func (m *mixSheet) steps(b plan.Bath) {
	n := 0
	for _, x := range m.items(b) {
		if x.numbered {
			n++
			m.numbered(n, x.say, m.stepsWidth())
			continue
		}
		m.aside(x.say, m.stepsWidth())
	}
}

// aside sets a sentence without a number, smaller.
func (m *mixSheet) aside(p words.Phrase, width float64) {
	m.ink(scene.Soft)
	m.y = m.set(m.lines(p, asidePoints, width-stepIndent), margin+stepIndent, m.y, asidePoints) + 1.3
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

// Two drawings stand side by side at the right.
const (
	pictureWidth = 41.0
	pictureGap   = 3.0
	columnWidth  = 2*pictureWidth + pictureGap

	stepPoints  = 11.0
	asidePoints = 9.5
	stepIndent  = 7.0
)

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

// column sets drawings side by side at the right and returns where they end.
func (m *mixSheet) column(all []scene.Scene, y float64) float64 {
	x := m.width - margin - columnWidth
	if len(all) == 1 {
		x += pictureWidth + pictureGap
	}
	bottom := y
	for _, s := range all {
		s.PDF(m.doc, scene.Place{X: x, Y: y, Width: pictureWidth}, family)
		bottom = max(bottom, y+s.HeightAt(pictureWidth)+3)
		x += pictureWidth + pictureGap
	}
	return bottom
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
