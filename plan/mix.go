package plan

import (
	"context"
	"errors"
	"math"
	"slices"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// mixRank is the order of mixing: developer, stop bath, fixer, so that a trace that stays in a jug travels the way that
// harms nothing (US Army course Ss05098, Army-98-11); what has no chemical comes last.
func mixRank(b Bath) int {
	if b.Product == "" {
		return math.MaxInt
	}
	return slices.Index([]process.Role{
		process.Developer, process.StopBath, process.Fixer, process.Hardener, process.WashingAid, process.Toner,
		process.WettingAgent, process.NoRole,
	}, b.Role)
}

// measureAll finds the readings of every bath, in the order of mixing, drawing on the lots as it goes.
func (m *maker) measureAll(ctx context.Context) error {
	for i := range m.plan.Baths {
		m.plan.Order = append(m.plan.Order, i)
	}
	slices.SortStableFunc(m.plan.Order, func(a, b int) int {
		return mixRank(m.plan.Baths[a]) - mixRank(m.plan.Baths[b])
	})
	for _, i := range m.plan.Order {
		b, p := m.bath(i), m.products[i]
		if p == nil || b.Window.Max == 0 {
			continue
		}
		if err := m.measure(ctx, b, p); err != nil {
			return err
		}
	}
	return nil
}

// measure finds one bath's readings, its makings and its lots.
func (m *maker) measure(ctx context.Context, b *Bath, p *darkroom.Product) error {
	prob := m.problem(b, p)
	unmeasured := Missing{Kind: NoVessel, Bath: b.ID, Product: p.Name}
	if chemicals, _, err := b.Dilution.Amounts(b.Window.Want); err == nil {
		unmeasured.Need = sum(chemicals)
	}
	if len(prob.Vessels) == 0 {
		m.lack(unmeasured)
		return nil
	}
	res, err := m.solveOnce(ctx, p, prob)
	if errors.Is(err, measure.ErrProblem) {
		m.lack(unmeasured)
		return nil
	}
	if err != nil {
		return err
	}
	b.Mix = res
	if res.Status != measure.Optimal {
		if res.Advice != nil {
			unmeasured.Near = res.Advice.Get.Name
		}
		m.lack(unmeasured)
		return nil
	}
	c := res.Choices[0]
	b.Volume = c.Total
	m.depth(b)
	m.makings(b, p)
	m.leastPerRoll(b, p, c.Chemical[0], c.Total)
	m.supply(b, p, sum(c.ChemicalUsed).Times(b.Makings))
	m.say(b, p)
	return nil
}

// A solved is a measuring problem of one product, which with it rules the vessels and the order of pouring.
type solved struct {
	product   *darkroom.Product
	dilution  string
	window    quantity.Window
	tolerance float64
}

// solveOnce finds the readings of baths that are alike once: of the two of a pair of fixing baths, of what stands in two trays.
func (m *maker) solveOnce(ctx context.Context, p *darkroom.Product, prob measure.Problem) (measure.Result, error) {
	key := solved{p, prob.Dilution.String(), prob.Window, prob.Tolerance}
	if res, known := m.solved[key]; known {
		return res, nil
	}
	res, err := solve(ctx, prob, m.r.Alternatives)
	if err == nil {
		m.solved[key] = res
	}
	return res, err
}

func sum(vs []quantity.Volume) (s quantity.Volume) {
	for _, v := range vs {
		s += v
	}
	return s
}

// depth says how deep the bath stands in its tray, and whether that is too little.
func (m *maker) depth(b *Bath) {
	for _, t := range m.file.Bench.Trays {
		if t.Name != b.Tray {
			continue
		}
		d, fig, err := geometry(t).DepthFor(b.Volume)
		if err != nil {
			return
		}
		b.Depth = d
		if least := process.LeastDepth(); float64(d) < least.Value {
			b.Findings = append(b.Findings, Finding{Kind: DepthLow, Subject: t.Name, Figures: []reckoning.Figure{fig, least}})
		}
	}
}

// supply takes the chemical from the lots. Where they hold too little, a powder is made up the day before; of
// anything else it is said what is missing.
func (m *maker) supply(b *Bath, p *darkroom.Product, amount quantity.Volume) {
	var rest quantity.Volume
	b.Lots, rest = m.draw(p, amount)
	m.lotFindings(b, p)
	if rest <= 0 {
		return
	}
	if fromStock(p, b.Dilution) && p.Form == darkroom.Powder {
		if rest = m.makeStock(b, p, rest); rest <= 0 {
			return
		}
	}
	kind := TooLittle
	switch {
	case len(b.Lots) == 0 && len(m.pastDate(p)) > 0:
		kind = OutOfDate
	case len(b.Lots) == 0 && len(m.lotsOf(p)) == 0:
		kind = NoLot
	}
	m.lack(Missing{Kind: kind, Product: p.Name, Role: p.Role, Bath: b.ID, Need: amount, Have: amount - rest})
}

// say adds what is to be said of how the label's words were read.
func (m *maker) say(b *Bath, p *darkroom.Product) {
	if b.Dilution.Note == dilution.ColonRead {
		b.Findings = append(b.Findings, Finding{Kind: ColonAmbiguous, Subject: b.Words, Other: p.Name})
	}
}
