package plan

import (
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// filmBaths plans the tanks: one group for each kind of reel, developer and dilution.
func (m *maker) filmBaths() {
	for i, l := range m.plan.Loads {
		if l.Size.Roll == material.NoRoll {
			continue
		}
		tank, reels, ok := m.tank(l.Size.Roll.Reel(), l.Rolls)
		if !ok {
			m.lackOnce(Missing{Kind: NoTank, Near: l.Size.Roll.Reel()})
			continue
		}
		m.tankBaths(i, tank, reels)
	}
}

// tank returns the smallest tank that takes all the rolls at once, else the one that takes most, and how many reels
// go in at a time.
func (m *maker) tank(reel string, rolls int) (darkroom.Tank, int, bool) {
	var best darkroom.Tank
	var bestVolume quantity.Volume
	reels := 0
	for _, t := range m.file.Bench.Tanks {
		covers := t.Covers[reel]
		n := min(len(covers), rolls)
		if n == 0 || n < reels {
			continue
		}
		if v := covers[n-1].Value; n > reels || v < bestVolume {
			best, reels, bestVolume = t, n, v
		}
	}
	return best, reels, reels > 0
}

// tankBaths adds the baths of one film load.
func (m *maker) tankBaths(load int, tank darkroom.Tank, reels int) {
	l := m.plan.Loads[load]
	covers := tank.Covers[l.Size.Roll.Reel()][reels-1].Value
	runs := (l.Rolls + reels - 1) / reels
	if runs > 1 {
		m.find(Finding{Kind: SeveralRuns, Subject: tank.Name, Figures: []reckoning.Figure{
			{Name: "runs", Value: float64(runs)}, {Name: "rolls", Value: float64(l.Rolls)}, {Name: "reels", Value: float64(reels)},
		}})
	}
	for _, n := range m.needs(load) {
		if n.stage.Role == process.NoRole {
			continue
		}
		b, p, ok := m.solution(n, material.Film, true)
		if !ok {
			continue
		}
		b.Tank, b.Rolls = tank.Name, reels
		b.Window, _ = process.TankWindow(covers)
		if b.Role == process.Developer && p.OneShot() {
			b.Makings = runs
		}
		m.joinTank(load, n.stage.Step, b, p, covers)
	}
}

// joinTank joins a film bath that another load of this evening shares (all but the developer), or adds it.
func (m *maker) joinTank(load int, step process.Step, b Bath, p *darkroom.Product, covers quantity.Volume) {
	for i := range m.plan.Baths {
		o := m.bath(i)
		if step != process.Develop && o.Step == step && o.Tank != "" && o.Product == b.Product && o.Words == b.Words {
			if b.Window.Max > o.Window.Max {
				o.Tank, o.Rolls, o.Window = b.Tank, b.Rolls, b.Window
			}
			m.loadBaths[load][step] = i
			return
		}
	}
	b.ID = m.id(b, true)
	b.Findings = append(b.Findings, Finding{Kind: CoversReels, Subject: b.Tank, Figures: []reckoning.Figure{
		{Name: "covers", Value: covers.ML(), Unit: reckoning.ML, Origin: reckoning.Measured},
		{Name: "reels", Value: float64(b.Rolls)},
	}})
	if step == process.Fix {
		b.Findings = append(b.Findings, Finding{Kind: FilmFixerApart})
	}
	m.loadBaths[load][step] = m.add(b, p)
}

// leastPerRoll checks, before anything is poured, that there is enough chemical for the film in the tank, whatever
// the dilution.
func (m *maker) leastPerRoll(b *Bath, p *darkroom.Product, chemical, total quantity.Volume) {
	if b.Tank == "" || b.Role != process.Developer || b.Rolls == 0 {
		return
	}
	kind := process.Concentrate
	if fromStock(p, b.Dilution) {
		kind = process.Stock
	}
	least := process.LeastPerRoll(kind)
	if p.LeastPerRoll.Given() {
		least.Of, least.Value, least.Origin = p.Name, p.LeastPerRoll.Value.ML(), reckoning.Label
	}
	share, err := process.ShareOf(chemical, total, b.Rolls, least)
	if err != nil {
		return
	}
	f := Finding{Kind: LeastPerRollOK, Subject: p.Name, Figures: []reckoning.Figure{
		share.Figure, least, {Name: "rolls", Value: float64(b.Rolls)},
	}}
	if !share.Enough {
		f.Kind = LeastPerRollShort
		f.Figures = append(f.Figures,
			reckoning.Figure{Name: "total_needed", Value: share.Total.ML(), Unit: reckoning.ML},
			reckoning.Figure{Name: "strength_needed", Value: share.Strength, Unit: reckoning.Share},
			reckoning.Figure{Name: "rolls_at_most", Value: float64(share.Rolls)})
	}
	b.Findings = append(b.Findings, f)
}
