package words

import (
	"wetside/darkroom"
	"wetside/plan"
)

// Stock tells how a powder is made up the day before: the whole packet, the water to begin with, the powder, water to
// the whole, cooling, bottle and date.
func (v *Voice) Stock(s plan.Stock, vessel Water) []Line {
	a := args{
		"Product": own(s.Product), "Stock": v.stock(own(s.Product)), "Packets": v.CountWord("packets", s.Packets),
		"Makes": v.Volume(s.Makes), "Start": v.Volume(s.Start), "At": v.Temperature(s.MixAt),
		"Vessel": v.say("the.vessel", nil),
	}
	if s.Vessel != "" {
		a["Vessel"] = v.the(s.Vessel)
	}
	lines := []Line{v.waterLine(Note, "stock.whole", a)}
	if s.Packets > 1 {
		lines = append(lines, v.waterLine(Note, "stock.each", a))
	}
	vessel.Vessel, vessel.Chemical = s.Vessel, ""
	if s.Temper != nil && len(s.Temper.Marks) > 0 {
		lines = append(lines, v.Temper(*s.Temper, vessel)...)
	} else {
		lines = append(lines, v.waterLine(Action, "stock.start", a))
	}
	for _, key := range []string{"stock.powder", "stock.fill", "stock.cool", "stock.bottle"} {
		lines = append(lines, v.waterLine(Action, key, a))
	}
	if s.Keeps.Given() {
		a["Period"] = v.Period(s.Keeps.Value)
		lines = append(lines, v.waterLine(Note, "stock.keeps", a))
	}
	return lines
}

// Draw says what is taken from which lot, and what stays: "310 mL of the bottle opened 14 October; 120 mL stay."
// lots are the shelf's.
func (v *Voice) Draw(d plan.Draw, lots []darkroom.Lot) Phrase {
	a := args{"Amount": v.Volume(d.Amount), "Product": own(d.Product), "Left": v.Volume(d.Left)}
	a["Lot"] = v.lot(d, lots)
	if d.Lot >= 0 && d.Lot < len(lots) && lots[d.Lot].Whose != "" {
		a["Lot"] = v.say("lot.whose", args{"Lot": a["Lot"], "Whose": own(v.Owner(lots[d.Lot].Whose))})
	}
	switch {
	case d.Unknown:
		return phrase(sentence(v.say("draw.unknown", a)))
	case d.Left <= 0 && !d.Opens:
		return phrase(sentence(v.say("draw.last", a)))
	}
	return phrase(sentence(v.say("draw.left", a)))
}

// Owner is whose something is, as the file says it: a name, or somebody in the reader's language.
func (v *Voice) Owner(whose string) string {
	if whose == darkroom.Somebody {
		return v.Label("somebody")
	}
	return whose
}

// lot names the bottle, packet or stock that is drawn from.
func (v *Voice) lot(d plan.Draw, lots []darkroom.Lot) string {
	if d.Lot < 0 || d.Lot >= len(lots) {
		return v.say("lot.day_before", nil)
	}
	l := lots[d.Lot]
	switch {
	case d.Opens:
		return v.say("lot.new", nil)
	case l.Stock && l.Made.Given():
		return v.say("lot.stock_made", args{"Date": v.Day(l.Made.Value)})
	case l.Stock:
		return v.say("lot.stock", nil)
	case l.Opened.Given():
		return v.say("lot.opened", args{"Date": v.Day(l.Opened.Value)})
	}
	return v.say("lot.bottle", nil)
}

// Cost says what a session's chemicals cost: "The chemicals come to €4.10: €0.11 for each 8×10." It is empty where no
// price is known.
func (v *Voice) Cost(c plan.Cost) Phrase {
	if len(c.Parts) == 0 {
		return nil
	}
	a := args{"Total": v.Money(c.Total, c.Currency), "Unit": v.Money(c.PerUnit, c.Currency), "Head": v.Money(c.PerHead, c.Currency)}
	key := "cost.total"
	if c.PerUnit > 0 {
		key += "_unit"
	}
	if c.PerHead > 0 {
		key += "_head"
	}
	text := v.say(key, a)
	if len(c.Unpriced) > 0 {
		var names []string
		for _, name := range c.Unpriced {
			names = append(names, own(name))
		}
		text += " " + v.say("cost.unpriced", args{"Products": v.list(names)})
	}
	return phrase(text)
}

// CostPart says one product's share of the cost: "paper developer: 310 mL, €3.47".
func (v *Voice) CostPart(p plan.CostPart, currency string) string {
	return plain(v.say("cost.part", args{
		"Product": own(p.Product), "Amount": v.Volume(p.Amount), "Cost": v.Money(p.Cost, currency),
	}))
}

// Depth says how deep a bath stands in its tray. It is empty for a tank.
func (v *Voice) Depth(b plan.Bath) string {
	if b.Depth <= 0 || b.Tray == "" {
		return ""
	}
	return plain(v.say("depth", args{"Depth": v.Length(b.Depth), "Volume": v.Volume(b.Volume)}))
}
