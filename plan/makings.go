package plan

import (
	"math"

	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// makings says how many times the bath is made this evening: by what the sheets do to a fixer or stop bath, counted to
// the safe end, and by its label's capacity, whichever is more often. Loads of different materials add as fractions of it. Where prints are fixed in two baths, the second moves forward when the
// first is spent, so each further making is one fresh second bath.
func (m *maker) makings(b *Bath, p *darkroom.Product) {
	if b.Role != process.Developer && b.Role != process.StopBath && b.Role != process.Fixer {
		return
	}
	if b.Tank != "" && b.Role == process.Developer && oneShot(p) {
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
	var out Life
	known := false
	for _, x := range b.Materials {
		c, ok := p.Capacity[x]
		if !ok {
			continue
		}
		area, rolls := m.through(b, x)
		part, ok := partOf(c.Value, area, rolls, b.Volume, sum(b.Mix.Choices[0].Chemical), p)
		if !ok {
			continue
		}
		known = true
		out.Load += part
		out.Figures = append(out.Figures,
			reckoning.Figure{Name: "area", Of: x.String(), Value: float64(area), Unit: reckoning.M2},
			reckoning.Figure{Name: "part_of_capacity", Of: c.Text, Value: part, Unit: reckoning.Share, Origin: reckoning.Label})
	}
	return out, known
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

// partOf returns what a load is of the capacity of so much working solution.
func partOf(c darkroom.Capacity, area quantity.Area, rolls float64, v, chemical quantity.Volume, p *darkroom.Product) (float64, bool) {
	makings := 1.0
	switch {
	case c.PerBottle: // what a whole bottle does, so the bath does the part of it that went in
		if len(p.Packs) == 0 || p.Packs[0].Holds.Value <= 0 {
			return 0, false
		}
		makings = chemical.ML() / p.Packs[0].Holds.Value.ML()
	case c.Per > 0:
		makings = v.ML() / c.Per.ML()
	}
	switch {
	case c.Rolls > 0:
		return rolls / (c.Rolls * makings), makings > 0
	case c.Area > 0:
		return float64(area) / (float64(c.Area) * makings), makings > 0
	}
	return 0, false
}
