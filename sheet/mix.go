package sheet

import (
	"strings"

	"wetside/darkroom"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/words"
)

type mixSheet struct {
	*setter
	plan plan.Plan
	file darkroom.File
}

// Sizes of text in points. markPoints is what is read from where one stands at the sink: digits 5 mm high, for 1.5 m (three
// thousandths of the distance, common practice for signs, from memory).
const (
	namePoints  = 16.0
	titlePoints = 13.0
	markPoints  = 20.0
	stepPoints  = 9.5
	plainPoints = 9.0
	smallPoints = 8.0
)

// head sets the room's name and the day over a ruled line; what is to be made stands left, with first aid under it, the cautions
// that hold for all of it right; what must never be poured together under both.
func (m *mixSheet) head() {
	m.ends(heavy(m.plan.Name), m.v.DateTime(m.plan.Starts), namePoints)
	m.y += 2.4
	m.rule()
	top := m.y
	half := (m.inner() - gutter) / 2
	for _, l := range m.plan.Loads {
		load := m.v.Load(l)
		p := append(heavy(load), words.Segment{Text: strings.TrimPrefix(m.v.Clauses(load, m.v.Wanted(l)), load)})
		m.block(p, stepPoints, margin, half)
		m.y += 0.6
	}
	var care, aid []plan.Caution
	for _, c := range m.plan.Cautions {
		if c.Kind.Aid() {
			aid = append(aid, c)
			continue
		}
		care = append(care, c)
	}
	m.y += 1.4
	m.barredIn(m.care(aid), plainPoints, margin, half)
	left := m.y
	m.y = top
	m.barredIn(m.care(care), plainPoints, margin+half+gutter, half)
	m.y = max(left, m.y)
	if never := m.v.NeverTogether(m.plan.Never); len(never) > 0 {
		m.barred([]words.Phrase{never}, plainPoints)
	}
	m.block(m.v.Order(m.plan), plainPoints, margin, m.inner())
	m.y += 2
}

// warnings sets what is missing, and what else is to be known of the whole session.
func (m *mixSheet) warnings() {
	var lacks []words.Phrase
	if len(m.plan.Missing) > 0 {
		lacks = append(lacks, heavy(m.v.Label("missing")))
	}
	for _, x := range m.plan.Missing {
		lacks = append(lacks, m.v.Missing(x))
	}
	m.barred(lacks, stepPoints)
	for _, f := range m.plan.Findings {
		m.flow(m.v.Finding(f), plainPoints)
	}
	m.y += 2
}

func (m *mixSheet) care(cs []plan.Caution) []words.Phrase {
	var out []words.Phrase
	for _, c := range cs {
		out = append(out, m.v.Caution(c))
	}
	return out
}

// dayBefore sets how powders are made up.
func (m *mixSheet) dayBefore() {
	for _, s := range m.plan.DayBefore {
		var rows []row
		n := 0
		for _, l := range m.v.Stock(s, words.WaterOfStock(s, m.file.Bench)) {
			r := row{say: l.Say, mark: markOf(l)}
			if counts(l) {
				n++
				r.n = n
			}
			rows = append(rows, r)
		}
		for _, f := range s.Findings {
			rows = append(rows, row{say: m.v.Finding(f)})
		}
		m.part(part{
			left: heavy(m.v.Titled(m.v.Label("day_before"), s.Product)), care: m.care(s.Cautions), rows: rows, width: m.inner(),
		})
	}
}

// baths sets all baths in the order of mixing; those of plain water, which need no mixing, a line each.
func (m *mixSheet) baths() {
	for _, i := range m.plan.Order {
		if b := m.plan.Baths[i]; b.Product != "" {
			m.part(m.bath(b))
		}
	}
	for _, i := range m.plan.Order {
		if b := m.plan.Baths[i]; b.Product == "" {
			m.room(lead(stepPoints) + 1)
			m.ends(m.named(b), m.amount(b), stepPoints)
			m.y += 0.6
		}
	}
	m.y += 3
}

// named says what a bath is and where it goes.
func (m *mixSheet) named(b plan.Bath) words.Phrase {
	p := heavy(m.v.BathTitle(b))
	if where := b.Tray + b.Tank; where != "" {
		p = append(p, words.Segment{Text: " → " + where, Weight: words.Heavy})
	}
	return p
}

// amount says how much of a bath is made; nothing where no vessel was found that would rule it.
func (m *mixSheet) amount(b plan.Bath) string {
	if b.Volume <= 0 {
		return ""
	}
	return m.v.Volume(b.Volume)
}

// bath lays a bath out: what is special to it, what is to be done with the marks large, and the readings drawn.
func (m *mixSheet) bath(b plan.Bath) part {
	rows := m.rowsOf(b)
	for _, f := range b.Findings {
		if !explains(f.Kind) {
			rows = append(rows, row{say: m.v.Finding(f)})
		}
	}
	left := m.named(b)
	if b.Words != "" {
		left = append(left, words.Segment{Text: "  " + b.Words})
	}
	return part{
		left: left, right: m.amount(b), care: m.care(b.Cautions), rows: rows,
		width: m.inner() - columnWidth - gutter, pictures: m.pictures(b),
	}
}

// rowsOf lists what is to be done for a bath: which bottle, rinsing, its water, its mix; how often it is made.
func (m *mixSheet) rowsOf(b plan.Bath) []row {
	var rows []row
	n := 0
	add := func(p words.Phrase, mark string, numbered bool) {
		if len(p) == 0 {
			return
		}
		r := row{say: p, mark: mark}
		if numbered {
			n++
			r.n = n
		}
		rows = append(rows, r)
	}
	for _, d := range b.Lots {
		add(m.v.Draw(d, m.file.Shelf.Lots), "", false)
	}
	add(m.v.Rinse(b), "", true)
	if b.Temper != nil {
		add(m.v.TemperLine(*b.Temper, words.WaterOf(b)), m.waterMarks(b), true)
		add(m.v.OutOfReach(*b.Temper), "", false)
	}
	for _, l := range m.v.BathMix(b) {
		add(l.Say, markOf(l), counts(l))
	}
	add(m.v.Makings(b), "", false)
	if c := b.Mix.Choices; len(c) == 0 || !c[0].Within {
		add(m.v.BathSummary(b), "", false)
	}
	add(m.v.Advice(b.Mix.Advice), "", false)
	return rows
}

// counts reports whether a line is a thing to do, which has a number.
func counts(l words.Line) bool { return l.Kind == words.Reading || l.Kind == words.Action }

// markOf returns a line's mark with its unit, empty where nothing is measured.
func markOf(l words.Line) string {
	if l.Number == "" {
		return ""
	}
	return l.Number + "\u00a0" + l.Unit
}

// waterMarks returns the marks of a bath's water, one after another, and the temperature: "300 → 1800 mL, 20 °C".
func (m *mixSheet) waterMarks(b plan.Bath) string {
	out, unit := "", ""
	for _, l := range m.v.Temper(*b.Temper, words.WaterOf(b)) {
		if l.Kind != words.Reading {
			continue
		}
		if out != "" && unit != l.Unit {
			out += "\u00a0" + unit
		}
		if out != "" {
			out += " → "
		}
		out, unit = out+l.Number, l.Unit
	}
	if out == "" {
		return m.v.Temperature(b.Temper.Water)
	}
	return out + "\u00a0" + unit + ", " + m.v.Temperature(b.Temper.Water)
}

// explains reports whether a finding tells how a figure came about rather than what to do: it stands at the end.
func explains(k plan.FindingKind) bool {
	return k == plan.CoversReels || k == plan.LeastPerRollOK || k == plan.SheetsTogether || k == plan.SmallerTray
}

// pictures returns the drawings of a bath's readings, at most two: the chemical's and the last water's.
func (m *mixSheet) pictures(b plan.Bath) []scene.Scene {
	all := readings(m.v, b)
	if len(all) > 2 {
		return []scene.Scene{all[0], all[len(all)-1]}
	}
	return all
}
