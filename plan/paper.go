package plan

import (
	"slices"
	"strconv"

	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
)

// A need is one step of one load: what must be there for it.
type need struct {
	load  int
	stage process.Stage
}

// paperBaths plans the trays: papers, and sheet film, which goes through trays of its own.
func (m *maker) paperBaths() {
	for _, film := range []bool{false, true} {
		var needs []need
		for i, l := range m.plan.Loads {
			if l.Size.Roll == material.NoRoll && (l.Material == material.Film) == film {
				needs = append(needs, m.needs(i)...)
			}
		}
		m.trayBaths(needs, film)
	}
}

// needs returns the steps of a load that need a liquid of their own.
func (m *maker) needs(load int) []need {
	l := m.plan.Loads[load]
	var out []need
	for _, s := range process.Chain(l.Material, wantsOf(l)) {
		out = append(out, need{load, s})
	}
	return out
}

func wantsOf(l Load) process.Wants {
	return process.Wants{Fixing: l.Fixing, WashingAid: l.WashAid}
}

// steps is the order in which baths stand in a plan.
var trayOrder = [...]process.Step{
	process.PreWash, process.Develop, process.Stop, process.StopRinse, process.Fix, process.SecondFix, process.Hold,
	process.Tone, process.WashAid, process.Wash, process.Wet,
}

// trayBaths makes one bath for each step, product and dilution, and finds a tray for it.
func (m *maker) trayBaths(needs []need, film bool) {
	first := len(m.plan.Baths)
	for _, step := range trayOrder {
		for _, n := range needs {
			if n.stage.Step != step {
				continue
			}
			if n.stage.Role == process.NoRole {
				m.waterTray(n)
				continue
			}
			m.chemicalTray(n, film)
		}
	}
	m.giveTrays(first)
}

// chemicalTray joins a need to a bath of the same product and dilution, or adds one.
func (m *maker) chemicalTray(n need, film bool) {
	x := m.plan.Loads[n.load].Material
	b, p, ok := m.solution(n, x, film)
	if !ok {
		return
	}
	for i := range m.plan.Baths {
		o := m.bath(i)
		if o.Tank == "" && o.Step == b.Step && o.Product == b.Product && o.Words == b.Words && m.film(o) == film {
			if !has(o.Materials, x) {
				o.Materials = append(o.Materials, x)
			}
			m.loadBaths[n.load][n.stage.Step] = i
			return
		}
	}
	b.ID = m.id(b, film)
	m.loadBaths[n.load][n.stage.Step] = m.add(b, p)
}

// solution returns the bath that a need wants: its product, its dilution in the label's words, how far it may stray.
func (m *maker) solution(n need, x material.Material, film bool) (Bath, *darkroom.Product, bool) {
	ask := m.file.Session.ToMake[n.load]
	name := ""
	if n.stage.Role == process.Developer {
		name = ask.Product
	}
	p, others := m.choose(n.stage.Role, x, name)
	if p == nil {
		m.lackOnce(Missing{Kind: NoProduct, Role: n.stage.Role, Near: x.String()})
		return Bath{}, nil, false
	}
	d, ok := dilutionFor(p, x)
	if n.stage.Role == process.Developer && ask.Dilution.Given() {
		d, ok = ask.Dilution, true
	}
	if !ok {
		m.lackOnce(Missing{Kind: NoDilution, Role: n.stage.Role, Product: p.Name, Near: x.String()})
		return Bath{}, nil, false
	}
	b := Bath{
		Step: n.stage.Step, Role: n.stage.Role, Materials: []material.Material{x}, Product: p.Name,
		Dilution: d.Value, Words: d.Text, Tolerance: strayOf(p, film), Makings: 1,
	}
	if others > 0 {
		b.Findings = append(b.Findings, Finding{Kind: TwoProducts, Subject: p.Name})
	}
	return b, p, true
}

// waterTray adds a bath of plain water where the room has a tray for it.
func (m *maker) waterTray(n need) {
	step := n.stage.Step
	if step != process.Hold && step != process.Wash {
		return
	}
	x := m.plan.Loads[n.load].Material
	for i := range m.plan.Baths {
		if o := m.bath(i); o.Step == step && o.Product == "" {
			if !has(o.Materials, x) {
				o.Materials = append(o.Materials, x)
			}
			m.loadBaths[n.load][step] = i
			return
		}
	}
	for _, t := range m.file.Bench.Trays {
		if (step == process.Hold && t.For.Holding) || (step == process.Wash && t.For.Wash) {
			b := Bath{Step: step, Materials: []material.Material{x}, Makings: 1}
			b.ID = m.id(b, false)
			m.loadBaths[n.load][step] = m.add(b, nil)
			return
		}
	}
}

// film reports whether a bath is for film.
func (m *maker) film(b *Bath) bool { return has(b.Materials, material.Film) }

// id returns a name for a bath that no other of the plan has.
func (m *maker) id(b Bath, film bool) string {
	base := map[process.Step]string{
		process.PreWash: "pre-wash", process.Develop: "developer", process.Stop: "stop", process.StopRinse: "rinse",
		process.Fix: "fixer", process.SecondFix: "fixer-second", process.Hold: "holding", process.Tone: "toner",
		process.WashAid: "washing-aid", process.Wash: "wash", process.Wet: "wetting-agent",
	}[b.Step]
	if film {
		base = "film-" + base
	}
	name := base
	for n := 2; m.byID(name) >= 0; n++ {
		name = base + "-" + strconv.Itoa(n)
	}
	return name
}

func (m *maker) byID(id string) int {
	for i := range m.plan.Baths {
		if m.plan.Baths[i].ID == id {
			return i
		}
	}
	return -1
}

// lackOnce adds what is missing, once for all loads that lack it.
func (m *maker) lackOnce(x Missing) {
	same := func(o Missing) bool {
		return o.Kind == x.Kind && o.Role == x.Role && o.Product == x.Product && o.Near == x.Near && o.Need == x.Need
	}
	if !slices.ContainsFunc(m.plan.Missing, same) {
		m.lack(x)
	}
}
