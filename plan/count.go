package plan

import (
	"math"
	"slices"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// countDraws is how many possible rooms a plan's makings are reckoned in; fewer than a page that shows them.
const countDraws = 256

// counted is what the count of sheets says of a bath this evening.
type counted struct {
	part      float64 // of one making's safe count that the evening wants; 1 is all of it
	tonight   float64 // in 8×10
	safe      int     // of the material that wants most of it
	testAfter int
	standard  process.Standard
}

// count says, for each fixer and stop bath, what part of its safe count the evening wants: loads of different materials
// add as parts of it.
func (m *maker) count() map[string]counted {
	out := map[string]counted{}
	s := m.plan.scene(&m.r, material.None, len(m.plan.Loads))
	s.Tonight, s.Draws = nil, countDraws
	reports, _ := ahead.LookApart(s) // what can't be reckoned is planned by its labels
	for i, r := range reports {
		c := &s.Chains[i]
		units := m.units(c.Material)
		for _, o := range r.Baths {
			if o.Left == nil || o.Left.P10 <= 0 || !slices.Contains(c.Baths, o.Index) {
				continue
			}
			x := out[o.Bath.ID]
			part := units / float64(o.Left.P10)
			if part > x.part || x.safe == 0 {
				x.safe, x.testAfter, x.standard = o.Left.P10, o.TestAfter, o.Chain.Standard
			}
			x.part += part
			x.tonight += units
			out[o.Bath.ID] = x
		}
	}
	return out
}

// units returns how many sheets of 8×10 the evening wants of a material.
func (m *maker) units(x material.Material) (units float64) {
	for i := range m.plan.Loads {
		if l := &m.plan.Loads[i]; l.Material == x {
			units += float64(l.Area) / ahead.Area8x10
		}
	}
	return units
}

// byCount says how often a fixer or stop bath is made, so that no print goes through one past its safe count.
func (m *maker) byCount(b *Bath, p *darkroom.Product) (makings int, said bool) {
	if b.Role != process.Fixer && b.Role != process.StopBath {
		return 1, false
	}
	if m.counts == nil {
		m.counts = m.count()
	}
	c, ok := m.counts[b.ID]
	switch {
	case !ok:
		return 1, false
	case b.Step == process.Fix && m.hasSecond(b):
		return 1, true // said and counted with the second, which moves forward
	case b.Step == process.SecondFix:
		if first := m.firstOf(b); first != nil && m.counts[first.ID].part > c.part {
			c = m.counts[first.ID]
		}
	}
	n := max(int(math.Ceil(c.part-1e-9)), 1)
	kind := SeveralByCount
	switch {
	case n == 1 && c.tonight >= float64(c.testAfter) && b.Role == process.Fixer:
		kind = TestTonight
	case n == 1:
		return 1, true
	}
	after := c.safe
	if kind == TestTonight {
		after = c.testAfter
	}
	b.Findings = append(b.Findings, Finding{Kind: kind, Subject: p.Name, Other: c.standard.String(), At: m.about(float64(after) / c.tonight), Figures: []reckoning.Figure{
		{Name: "makings", Value: float64(n)},
		{Name: "safe", Value: float64(c.safe)},
		{Name: "tonight", Value: math.Ceil(c.tonight - 1e-9)},
		{Name: "test_after", Value: float64(c.testAfter)},
	}})
	return n, true
}

// aboutTo is what a moment by the evening's pace is rounded down to, minutes: nobody works evenly.
const aboutTo = 10

// about returns when a part of the evening's work is done at an even pace, zero where its start or its length is not known.
func (m *maker) about(part float64) time.Time {
	session := &m.file.Session
	start, ok := session.Start(m.r.Now.Location())
	if !ok || !session.Lasts.Given() || part > 1 || part < 0 || math.IsNaN(part) {
		return time.Time{}
	}
	at := start.Add(time.Duration(part * float64(session.Lasts.Value))).Truncate(time.Minute)
	return at.Add(-time.Duration(at.Minute()%aboutTo) * time.Minute)
}

// firstOf returns the first fixer before a second, nil for none.
func (m *maker) firstOf(b *Bath) *Bath {
	for i := range m.plan.Baths {
		if o := m.bath(i); o.Step == process.Fix && o.Product == b.Product && m.film(o) == m.film(b) {
			return o
		}
	}
	return nil
}
