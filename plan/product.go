package plan

import (
	"time"

	"wetside/darkroom"
	"wetside/darkroom/hazards"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// choose returns the product for a role and a material: the one that the load names, else one that has a dilution
// for the material and stands on the shelf in date, else any; of those, one of which whoever plans has their own. What is another's is
// none. others counts the rest that would do as well.
func (m *maker) choose(role process.Role, x material.Material, name string) (p *darkroom.Product, others int) {
	best := -1
	for i := range m.file.Shelf.Products {
		q := &m.file.Shelf.Products[i]
		if q.Role != role || !serves(q, x) || !m.file.Shelf.ProductOf(*q, m.r.Whose) {
			continue
		}
		if name != "" && q.Name == name {
			return q, 0
		}
		score := 0
		if _, ok := q.Dilutions[x]; ok {
			score += 2
		}
		lots := m.lotsOf(q)
		if len(lots) > 0 {
			score++
		}
		own := score == 3 && m.file.Shelf.Lots[lots[0]].Whose != ""
		if own {
			score++
		}
		switch {
		case score > best:
			p, best, others = q, score, 0
		case score == best && score >= 3:
			others++
		}
	}
	return p, others
}

// serves reports whether a product is for a material: for all where its label names none.
func serves(p *darkroom.Product, x material.Material) bool {
	return len(p.For) == 0 || has(p.For, x)
}

// dilutionFor returns the dilution of a product for a material, and its label's words.
func dilutionFor(p *darkroom.Product, x material.Material) (darkroom.As[dilution.Dilution], bool) {
	d, ok := p.Dilutions[x]
	return d, ok && d.Given()
}

// fromStock reports whether what is measured is a made-up stock: always so with a powder.
func fromStock(p *darkroom.Product, d dilution.Dilution) bool {
	return p.Form == darkroom.Powder || d.FromStock
}

// waterFirst reports whether about three quarters of the water goes in first (MODEL of the trade: acids, H314, strong
// alkalis, and what foams), by the label's words or by what it declares. A made-up stock of a powder counts by its own words only.
func waterFirst(j *hazards.Judge, p *darkroom.Product) bool {
	return p.Acid.Value || p.Alkali.Value || p.Foams.Value || has(p.Hazards, "H314") || j.WaterFirst(p)
}

// strayOf returns how far a bath's strength may stray: the label's, else the role's common practice.
func strayOf(p *darkroom.Product, film bool) float64 {
	if p.Tolerance.Given() {
		return p.Tolerance.Value
	}
	return DefaultTolerance(p.Role, film)
}

// DefaultTolerance returns how far from its strength a bath of a role may stray, relative, where the label says nothing.
// Common practice without a source: labels themselves offer 1+9 and 1+14 for one developer.
func DefaultTolerance(role process.Role, film bool) float64 {
	switch role {
	case process.Developer:
		if film {
			return 0.10
		}
		return 0.15
	case process.StopBath:
		return 0.30
	case process.WashingAid:
		return 0.20
	case process.NoRole, process.Fixer, process.WettingAgent, process.Toner, process.Hardener:
		return 0.15
	}
	return 0.15
}

// timeFor returns how long a step lasts: the load's own, the label's, else the chain's default.
func timeFor(l darkroom.Load, p *darkroom.Product, s process.Stage) (time.Duration, reckoning.Figure) {
	fig := reckoning.Figure{Name: "time", Unit: reckoning.S, Value: s.Time.Seconds()}
	for _, f := range s.Figures {
		if f.Name == "time" {
			fig = f
		}
	}
	switch {
	case s.Step == process.Develop && l.Time.Given():
		fig = reckoning.Figure{Name: "time", Unit: reckoning.S, Value: l.Time.Value.Seconds(), Origin: reckoning.Asked}
		return l.Time.Value, fig
	case p != nil && p.Times[l.Material].Given():
		t := p.Times[l.Material].Value
		fig = reckoning.Figure{Name: "time", Of: p.Name, Unit: reckoning.S, Value: t.Seconds(), Origin: reckoning.Label}
		return t, fig
	}
	return s.Time, fig
}

// problem returns the measuring problem of a bath.
func (m *maker) problem(b *Bath, p *darkroom.Product) measure.Problem {
	b.Vessels = vesselsFor(*p, m.file.Bench)
	b.WaterFirst = waterFirst(m.judge, p)
	return measure.Problem{
		Dilution: b.Dilution, Window: b.Window, Tolerance: b.Tolerance, Vessels: b.Vessels,
		WaterFirst: b.WaterFirst, Density: p.Density.Value, System: m.plan.System,
	}
}
