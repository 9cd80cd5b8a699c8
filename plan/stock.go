package plan

import (
	"context"
	"slices"

	"wetside/darkroom"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/temper"
)

// makeStock plans the making up of whole packets of a powder the day before, enough for amount; it returns what
// is still lacking. A packet is never parted: what is in it settles into layers (from memory).
func (m *maker) makeStock(b *Bath, p *darkroom.Product, amount quantity.Volume) (rest quantity.Volume) {
	if p.Makes.Value <= 0 {
		return amount
	}
	if i := m.stockOf(p.Name); i >= 0 && m.spare(i) >= amount {
		b.Lots = append(b.Lots, Draw{Lot: -1, Stock: i, Product: p.Name, Amount: amount})
		return 0
	}
	packets, lot := m.packets(p)
	want := int((amount + p.Makes.Value - 1) / p.Makes.Value)
	n := min(want, packets)
	if n == 0 {
		return amount
	}
	s := m.stock(p, n, lot)
	m.plan.DayBefore = append(m.plan.DayBefore, s)
	take := min(amount, p.Makes.Value.Times(n))
	b.Lots = append(b.Lots, Draw{
		Lot: -1, Stock: len(m.plan.DayBefore) - 1, Product: p.Name, Amount: take, Left: p.Makes.Value.Times(n) - take,
	})
	b.Findings = append(b.Findings, Finding{Kind: StockMustBeMade, Subject: p.Name, Figures: []reckoning.Figure{
		{Name: "makes", Of: p.Name, Value: p.Makes.Value.ML(), Unit: reckoning.ML, Origin: reckoning.Label},
		{Name: "need", Value: amount.ML(), Unit: reckoning.ML},
	}})
	return amount - take
}

func (m *maker) stockOf(product string) int {
	return slices.IndexFunc(m.plan.DayBefore, func(s Stock) bool { return s.Product == product })
}

// spare returns what the baths have left of a stock that is to be made.
func (m *maker) spare(stock int) quantity.Volume {
	s := m.plan.DayBefore[stock]
	left := s.Makes.Times(s.Packets)
	for _, b := range m.plan.Baths {
		for _, d := range b.Lots {
			if d.Lot < 0 && d.Stock == stock {
				left -= d.Amount
			}
		}
	}
	return left
}

// packets returns how many packets of a powder stand there in date, and the lot of them that is opened first.
func (m *maker) packets(p *darkroom.Product) (n, lot int) {
	lot = -1
	past := m.pastDate(p)
	for i, l := range m.file.Shelf.Lots {
		if l.Product == p.Name && l.Of(m.r.Whose) && !l.Stock && l.Packets > 0 && !has(past, i) {
			if lot < 0 || ownFirst(l, m.file.Shelf.Lots[lot]) < 0 {
				lot = i
			}
			n += l.Packets
		}
	}
	return n, lot
}

// stock plans one making up: the vessel that holds it, the water to start with and its temperature.
func (m *maker) stock(p *darkroom.Product, packets, lot int) Stock {
	s := Stock{Product: p.Name, Packets: packets, Makes: p.Makes.Value, Lot: lot, Keeps: p.Keeps[darkroom.FullBottle]}
	part, partOrigin := p.StartWith.Value, reckoning.Label
	if !p.StartWith.Given() {
		part, _ = quantity.NewRatio(3, 4)
		partOrigin = reckoning.Standard
	}
	s.Start, _ = part.Of(s.Makes)
	at := mixAt(p)
	s.MixAt = quantity.Celsius(at.Value)
	start := reckoning.Figure{Name: "start_with", Value: part.Float(), Unit: reckoning.Share, Origin: partOrigin}
	if partOrigin == reckoning.Standard {
		start.Source = "Navy-ph209175"
	}
	s.Figures = []reckoning.Figure{start, at}
	s.Vessel = m.holder(s.Makes, p)
	if s.Vessel == "" {
		s.Findings = append(s.Findings, Finding{Kind: PacketNotHeld, Subject: p.Name, Figures: []reckoning.Figure{
			{Name: "makes", Value: s.Makes.ML(), Unit: reckoning.ML},
		}})
		m.lackOnce(Missing{Kind: NoHolder, Product: p.Name, Need: s.Makes})
	}
	s.Findings = append(s.Findings, Finding{Kind: CoolingHours, Subject: p.Name})
	return s
}

// scalds is the temperature from which water is handled as hot (from memory).
const scalds quantity.Celsius = 50

// mixAt returns the temperature at which a powder is dissolved: the label's, else 50 °C for a developer and 27 °C for
// anything else (US Navy manual, mixing photographic chemicals, Navy-ph209175).
func mixAt(p *darkroom.Product) reckoning.Figure {
	f := reckoning.Figure{Name: "mix_at", Unit: reckoning.C, Value: 27, Origin: reckoning.Standard, Source: "Navy-ph209175"}
	switch {
	case p.MixAt.Given():
		f.Value, f.Origin, f.Source = float64(p.MixAt.Value), reckoning.Label, ""
	case p.Role == process.Developer:
		f.Value = 50
	}
	return f
}

// holder returns the smallest vessel of the bench that holds a volume and may be used for a product.
func (m *maker) holder(v quantity.Volume, p *darkroom.Product) string {
	best, name := quantity.Volume(0), ""
	for _, x := range m.file.Bench.Vessels {
		h := x.Holds()
		if h < v || !free(x, p, m.file.Bench) {
			continue
		}
		if best == 0 || h < best {
			best, name = h, x.Name
		}
	}
	return name
}

// stockTempers finds the hot and cold water to start each stock with.
func (m *maker) stockTempers(ctx context.Context) {
	for i := range m.plan.DayBefore {
		s := &m.plan.DayBefore[i]
		s.Temper = m.temper(ctx, temper.Problem{Want: s.MixAt, Total: s.Start, Step: m.stepOf(s.Vessel)})
	}
}
