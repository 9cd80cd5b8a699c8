package plan

import (
	"math"

	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// makings says how many times the bath is made this evening: by what the sheets do to a fixer or stop bath, counted to
// the safe end, and by its label's capacity, whichever is more often. Loads of different materials add as fractions of it.
// Where prints are fixed in two baths, the second moves forward when the first is spent, so each further making is one
// fresh second bath.
func (m *maker) makings(b *Bath, p *darkroom.Product) {
	if b.Role != process.Developer && b.Role != process.StopBath && b.Role != process.Fixer {
		return
	}
	if b.Tank != "" && b.Role == process.Developer && p.OneShot() {
		return
	}
	b.Makings, _ = m.byCount(b, p)
	life, known := m.life(b, p)
	if !known && b.Role == process.Fixer {
		return // the count of sheets says it
	}
	if !known {
		b.Findings = append(b.Findings, Finding{Kind: CapacityUnknown, Subject: p.Name})
		return
	}
	b.Life = &life
	n := max(int(math.Ceil(life.Load-1e-9)), 1)
	if n <= b.Makings {
		return
	}
	if b.Step == process.Fix && m.hasSecond(b) {
		return // said and counted with the second
	}
	b.Makings = n
	b.Findings = append(b.Findings, Finding{Kind: SeveralMakings, Subject: p.Name, Figures: []reckoning.Figure{
		{Name: "makings", Value: float64(n)}, {Name: "load", Value: life.Load, Unit: reckoning.Share},
	}})
}

// hasSecond reports whether all materials of a first fixer go on into a second.
func (m *maker) hasSecond(b *Bath) bool {
	for i := range m.plan.Baths {
		if o := m.bath(i); o.Step == process.SecondFix && o.Product == b.Product && m.film(o) == m.film(b) {
			return true
		}
	}
	return false
}

// life adds up what the evening wants of a bath, as a part of one making's capacity by its label.
func (m *maker) life(b *Bath, p *darkroom.Product) (Life, bool) {
	chemical := sum(b.Mix.Choices[0].Chemical)
	label := p.Label(chemical.ML() / b.Volume.ML())
	var done []bath.Done
	for _, x := range b.Materials {
		if label[x] != (bath.Capacity{}) {
			area, rolls := m.through(b, x)
			done = append(done, bath.Done{Of: x, Area: float64(area), Rolls: rolls})
		}
	}
	if len(done) == 0 {
		return Life{}, false
	}
	used, _ := bath.LabelUsed(&label, b.Volume.ML()/1000, done...)
	return Life{Load: used.Result.Value, Figures: used.Puts}, true
}

// through returns the area and the rolls of a material that go through a bath.
func (m *maker) through(b *Bath, x material.Material) (quantity.Area, float64) {
	var area quantity.Area
	rolls := 0.0
	for i, l := range m.plan.Loads {
		if l.Material != x {
			continue
		}
		for step, j := range m.loadBaths[i] {
			if step == b.Step && m.plan.Baths[j].ID == b.ID {
				area += l.Area
				rolls += float64(l.Rolls)
			}
		}
	}
	return area, rolls
}
