package plan

import (
	"cmp"
	"slices"
	"time"

	"wetside/darkroom"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// lotsOf returns the lots of a product that may be used, in date: whoever plans has their own first; oldest opened first, then
// the closed ones by the day they came. Of a powder only made-up stocks count: packets are made up by stock.
func (m *maker) lotsOf(p *darkroom.Product) []int {
	var out []int
	for i, l := range m.file.Shelf.Lots {
		if l.Product != p.Name || !l.Of(m.r.Whose) || (p.Form == darkroom.Powder && !l.Stock) {
			continue
		}
		if end, known := useBy(l, p); known && !m.plan.Starts.Before(end) {
			continue
		}
		out = append(out, i)
	}
	slices.SortStableFunc(out, func(a, b int) int {
		x, y := m.file.Shelf.Lots[a], m.file.Shelf.Lots[b]
		return cmp.Or(ownFirst(x, y), olderFirst(x, y))
	})
	return out
}

// ownFirst compares lots that may be used by whose they are: what is no room's is whoever's plans.
func ownFirst(a, b darkroom.Lot) int {
	switch {
	case a.Whose == b.Whose:
		return 0
	case a.Whose != "":
		return -1
	}
	return 1
}

// olderFirst compares lots by the order in which they are used up: made or opened ones first, the oldest first; then
// the closed ones, by the day they came.
func olderFirst(a, b darkroom.Lot) int {
	ta, closedA := usedFrom(a)
	tb, closedB := usedFrom(b)
	if closedA != closedB {
		if closedA {
			return 1
		}
		return -1
	}
	return ta.Compare(tb)
}

func usedFrom(l darkroom.Lot) (from time.Time, closed bool) {
	switch {
	case l.Made.Given():
		return l.Made.Value, false
	case l.Opened.Given():
		return l.Opened.Value, false
	}
	return l.Received.Value, true
}

// pastDate returns the lots of a product whose label's keeping time is over.
func (m *maker) pastDate(p *darkroom.Product) []int {
	var out []int
	for i, l := range m.file.Shelf.Lots {
		if l.Product != p.Name || !l.Of(m.r.Whose) {
			continue
		}
		if end, known := useBy(l, p); known && !m.plan.Starts.Before(end) {
			out = append(out, i)
		}
	}
	return out
}

// useBy returns the day on which a lot's keeping time ends by its label, and whether that is known.
func useBy(l darkroom.Lot, p *darkroom.Product) (time.Time, bool) {
	from, state := l.Received, darkroom.Unopened
	switch {
	case l.Stock:
		from, state = l.Made, darkroom.FullBottle
		if l.Left.Given() && l.Left.Value < l.Holds.Value {
			state = darkroom.PartBottle
		}
	case l.Opened.Given():
		from, state = l.Opened, darkroom.Opened
	}
	keep := p.Keeps[state]
	if !from.Given() || !keep.Given() {
		return time.Time{}, false
	}
	return keep.Value.From(from.Value), true
}

// draw takes an amount from a product's lots, oldest opened first, and returns what is taken where; rest is what
// could not be had.
func (m *maker) draw(p *darkroom.Product, amount quantity.Volume) (out []Draw, rest quantity.Volume) {
	rest = amount
	for _, i := range m.lotsOf(p) {
		l := m.file.Shelf.Lots[i]
		if rest <= 0 {
			break
		}
		if unknown(l) {
			out = append(out, Draw{Lot: i, Stock: -1, Product: p.Name, Amount: rest, Unknown: true})
			return out, 0
		}
		take := min(rest, m.left[i])
		if take <= 0 {
			continue
		}
		m.left[i] -= take
		rest -= take
		out = append(out, Draw{
			Lot: i, Stock: -1, Product: p.Name, Amount: take, Left: m.left[i], Opens: !l.Opened.Given() && !l.Stock,
		})
	}
	return out, rest
}

// lotFindings says what is to be known of the lots that a bath draws on.
func (m *maker) lotFindings(b *Bath, p *darkroom.Product) {
	for _, d := range b.Lots {
		if d.Lot < 0 {
			continue
		}
		l := m.file.Shelf.Lots[d.Lot]
		if d.Unknown {
			b.Findings = append(b.Findings, Finding{Kind: LeftUnknown, Subject: p.Name, Figures: []reckoning.Figure{
				{Name: "need", Value: d.Amount.ML(), Unit: reckoning.ML},
			}})
		}
		if !l.Made.Given() && !l.Opened.Given() && !l.Received.Given() {
			b.Findings = append(b.Findings, Finding{Kind: LotAgeUnknown, Subject: p.Name})
		}
	}
	for range m.pastDate(p) {
		b.Findings = append(b.Findings, Finding{Kind: LotPastDate, Subject: p.Name})
	}
}
