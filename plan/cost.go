package plan

import (
	"math"
	"slices"

	"wetside/darkroom"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// cost adds up what the session's chemicals cost: for each product what is drawn × the price of its pack ÷ what the
// pack holds (for a powder: what it makes). The smallest pack's price counts, which is the dearest as a rule.
func (m *maker) cost() {
	c := &m.plan.Cost
	c.Currency = m.file.Darkroom.Currency
	amounts := map[string]quantity.Volume{}
	var names []string
	for _, b := range m.plan.Baths {
		for _, d := range b.Lots {
			if _, seen := amounts[d.Product]; !seen {
				names = append(names, d.Product)
			}
			amounts[d.Product] += d.Amount
		}
	}
	slices.Sort(names)
	for _, name := range names {
		part, ok := m.costOf(name, amounts[name])
		if !ok {
			c.Unpriced = append(c.Unpriced, name)
			continue
		}
		c.Parts = append(c.Parts, part)
		c.Total += part.Cost
	}
	m.share()
}

func (m *maker) costOf(name string, amount quantity.Volume) (CostPart, bool) {
	p := m.product(name)
	if p == nil {
		return CostPart{}, false
	}
	price, holds, ok := smallestPack(p)
	if !ok {
		return CostPart{}, false
	}
	cost := int64(math.Round(amount.ML() / holds.ML() * float64(price)))
	return CostPart{Product: name, Amount: amount, Cost: cost, Figures: []reckoning.Figure{
		{Name: "amount", Of: name, Value: amount.ML(), Unit: reckoning.ML},
		{Name: "price", Of: name, Value: float64(price), Unit: reckoning.Money, Origin: reckoning.Measured},
		{Name: "pack", Of: name, Value: holds.ML(), Unit: reckoning.ML, Origin: reckoning.Label},
	}}, true
}

// smallestPack returns the price of the smallest priced pack and what it holds; a powder's packet holds what it makes.
func smallestPack(p *darkroom.Product) (price int64, holds quantity.Volume, ok bool) {
	for _, k := range p.Packs {
		h := k.Holds.Value
		if k.Packets > 0 {
			h = p.Makes.Value.Times(k.Packets)
		}
		if !k.Price.Given() || h <= 0 {
			continue
		}
		if !ok || h < holds {
			price, holds, ok = k.Price.Value, h, true
		}
	}
	return price, holds, ok
}

// share divides the cost by what is made and by who comes.
func (m *maker) share() {
	c := &m.plan.Cost
	units := 0.0
	for _, l := range m.plan.Loads {
		units += l.Units
	}
	c.Reckoning = reckoning.Reckoning{
		Rule: "cost_of_session",
		Puts: []reckoning.Figure{
			{Name: "units", Value: units}, {Name: "people", Value: float64(m.file.Session.People), Origin: reckoning.Asked},
		},
		Result: reckoning.Figure{Name: "total", Value: float64(c.Total), Unit: reckoning.Money},
	}
	if units > 0 {
		c.PerUnit = int64(math.Round(float64(c.Total) / units))
	}
	if n := m.file.Session.People; n > 0 {
		c.PerHead = int64(math.Round(float64(c.Total) / float64(n)))
	}
}
