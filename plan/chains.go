package plan

import (
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// chains writes down, for each load, which bath comes when and for how long.
func (m *maker) chains() {
	for i := range m.plan.Loads {
		l := &m.plan.Loads[i]
		ask := m.file.Session.ToMake[i]
		for _, n := range m.needs(i) {
			j, ok := m.loadBaths[i][n.stage.Step]
			if !ok {
				j = -1
			}
			t := Timed{Step: n.stage.Step, Bath: j, Drain: n.stage.Drain}
			if d := m.file.Darkroom.DrainTime; d.Given() && t.Drain > 0 {
				t.Drain = d.Value
			}
			if j >= 0 {
				t.Time, t.Figure = timeFor(ask, m.products[j], n.stage)
			} else {
				t.Time, t.Figure = timeFor(ask, nil, n.stage)
			}
			if t.Step == process.Develop {
				t.Agitation = ask.Agitation
				if t.Agitation == "" && j >= 0 && m.products[j] != nil {
					t.Agitation = m.products[j].Agitation
				}
				m.timeKnown(t, l)
			}
			l.Times = append(l.Times, t)
		}
	}
}

// timeKnown says where nobody has named a developing time.
func (m *maker) timeKnown(t Timed, l *Load) {
	if t.Time > 0 || t.Bath < 0 {
		return
	}
	b := m.bath(t.Bath)
	b.Findings = append(b.Findings, Finding{
		Kind: TimeUnknown, Subject: b.Product, Other: l.Material.String(),
		Figures: []reckoning.Figure{t.Figure},
	})
}
