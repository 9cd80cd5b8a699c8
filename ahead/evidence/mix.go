package evidence

import (
	"slices"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/dilution"
	"wetside/trade/fault"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// usual is the temperature of a bath whose label names none, °C. Common practice.
const usual = 20

// How far a developer may be off its temperature: colder or warmer by so many °C, or as it should be within one. From memory;
// most labels keep to half a degree for film and two for paper.
const (
	colder = 2.0
	warmer = 3.0
	right  = 1.0
)

// temperature takes the last reading of a developer.
func (g *gatherer) temperature(o *ahead.Outlook, b *book.Bath) {
	r, ok := g.last(b, book.Thermometer, tonight)
	if !ok {
		return
	}
	read, wanted := celsius("read", (r.From+r.To)/2, reckoning.Measured), celsius("wanted", usual, reckoning.CommonPractice)
	if p := o.Bath.Product; p != nil && p.Temperature.Given() {
		wanted = celsius("wanted", float64(p.Temperature.Value), reckoning.Label)
	}
	switch off := read.Value - wanted.Value; {
	case off <= -colder:
		g.of(o, fault.DeveloperReadCold, read, wanted)
	case off >= warmer:
		g.of(o, fault.DeveloperReadWarm, read, wanted)
	case -right <= off && off <= right:
		g.of(o, fault.DeveloperReadRight, read, wanted)
	}
}

// mixed says where a bath was mixed otherwise than its label says, and where whoever did had mixed nothing here before.
func (g *gatherer) mixed(o *ahead.Outlook, b *book.Bath) {
	if g.firstMix(b) && g.since(b.MixedAt, testHolds) {
		g.of(o, fault.NewHand)
	}
	kinds := map[process.Role][2]fault.FactKind{
		process.Developer: {fault.DeveloperThin, fault.DeveloperStrongMix},
		process.StopBath:  {"", fault.StopStrongMix},
		process.Fixer:     {fault.FixerThin, ""},
	}[o.Bath.Role]
	got, ok := strength(b.Dilution)
	least, most, known := labelled(o)
	if !ok || !known {
		return
	}
	off, label := fault.FactKind(""), least
	switch {
	case got < (1-mixOff)*least:
		off = kinds[0]
	case got > (1+mixOff)*most:
		off, label = kinds[1], most
	}
	if off != "" {
		g.of(o, off, share("mixed", got, reckoning.Measured), share("label", label, reckoning.Label))
	}
}

// mixOff is by how much of it a mix must differ from its label to be worth saying: a tenth, which is what a jug read with care
// comes to.
const mixOff = 0.1

// labelled returns the thinnest and the strongest mix that the label names for what a bath is used for.
func labelled(o *ahead.Outlook) (least, most float64, ok bool) {
	if o.Bath.Product == nil {
		return 0, 0, false
	}
	film := o.Bath.Film && !o.Bath.Paper
	for _, m := range material.All() {
		d := o.Bath.Product.Dilutions[m]
		if !d.Given() || (about(&o.Bath) != fault.Anywhere && film != (m == material.Film)) {
			continue
		}
		if s, good := strength(d.Value); good {
			if !ok {
				least, most = s, s
			}
			least, most, ok = min(least, s), max(most, s), true
		}
	}
	return least, most, ok
}

// strength is the part of a mix that is chemical.
func strength(d dilution.Dilution) (float64, bool) {
	sum := 0.0
	for _, c := range d.Chemicals {
		sum += c.Float()
	}
	if total := sum + d.Water.Float(); sum > 0 && total > 0 {
		return sum / total, true
	}
	return 0, false
}

// firstMix reports whether whoever mixed a bath had mixed none before, in a book where others have.
func (g *gatherer) firstMix(b *book.Bath) bool {
	others := false
	for by, first := range g.state.FirstMixes() {
		if !first.Before(b.MixedAt.Add(-tonight)) {
			continue // the same evening's work
		}
		if by == b.By {
			return false
		}
		others = true
	}
	return b.By != "" && others
}

// perRoll says where a tank had too little concentrate for the rolls that were in it together.
func (g *gatherer) perRoll(o *ahead.Outlook, b *book.Bath) {
	p := o.Bath.Product
	if p == nil || about(&o.Bath) == fault.OnPrint {
		return
	}
	rolls := 0
	for _, e := range b.Events {
		if l, ok := e.Did.(book.Load); ok {
			rolls = max(rolls, l.Said.Rolls)
		}
	}
	part, ok := strength(b.Dilution)
	if !ok || rolls == 0 {
		return
	}
	kind := process.Concentrate
	if b.Dilution.FromStock {
		kind = process.Stock
	}
	least := process.LeastPerRoll(kind)
	if p.LeastPerRoll.Given() {
		least.Of, least.Value, least.Origin = p.Name, p.LeastPerRoll.Value.ML(), reckoning.Label
	}
	chemical, err := quantity.VolumeOfML(b.Volume.ML() * part)
	if err != nil {
		return
	}
	if s, err := process.ShareOf(chemical, b.Volume, rolls, least); err == nil && !s.Enough {
		g.of(o, fault.LittlePerRoll, s.Figure, least)
	}
}

// stands says what the book does not have: a stop bath beside a developer, a washing aid for fibre prints.
func (g *gatherer) stands() {
	has := func(roles ...process.Role) bool {
		return slices.ContainsFunc(g.report.Baths, func(o ahead.Outlook) bool {
			return slices.Contains(roles, o.Bath.Role) && about(&o.Bath) != fault.OnFilm
		})
	}
	if has(process.Developer) && has(process.Fixer) && !has(process.StopBath) {
		g.say(fault.NoStopStands, fault.OnPrint)
	}
	fibre := slices.ContainsFunc(g.report.Baths, func(o ahead.Outlook) bool {
		return slices.ContainsFunc(g.baths[o.Bath.ID].Totals, func(t book.Total) bool { return t.Material == material.FB })
	})
	if fibre && !has(process.WashingAid) {
		g.say(fault.NoAidStands, fault.OnPrint)
	}
}

// apartBy is how far neighbouring baths may be apart, °C: Army-98-90 and Navy-14262 want all within 5 °F.
const apartBy = 3

// apart says where tonight's readings of the baths for prints, or of those for film, lie far apart.
func (g *gatherer) apart() {
	for _, work := range []fault.Where{fault.OnPrint, fault.OnFilm} {
		var low, high float64
		n := 0
		for i := range g.report.Baths {
			o := &g.report.Baths[i]
			b, known := g.baths[o.Bath.ID]
			r, ok := g.last(&b, book.Thermometer, tonight)
			if at := about(&o.Bath); !known || !ok || at != work && at != fault.Anywhere {
				continue
			}
			c := (r.From + r.To) / 2
			if n++; n == 1 {
				low, high = c, c
			}
			low, high = min(low, c), max(high, c)
		}
		if high-low > apartBy {
			g.say(fault.BathsApart, work, celsius("coldest", low, reckoning.Measured), celsius("warmest", high, reckoning.Measured))
		}
	}
}

func share(name string, v float64, from reckoning.Origin) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: v, Unit: reckoning.Share, Origin: from}
}
