package words

import (
	"strings"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/waste"
)

// UsedBath names what is collected in a waste can: used fixer, used toner.
func (v *Voice) UsedBath(r process.Role) string {
	return plain(v.say("waste.used", args{"Role": v.Role(r)}))
}

// CanName names a waste can: its own name, or that nobody named one.
func (v *Voice) CanName(c *book.WasteCan) string {
	if c.Can.Name == "" {
		return plain(v.say("waste.no_can", nil))
	}
	return own(c.Can.Name)
}

// CanLevel says how full a can is and how much goes in until it is full.
func (v *Voice) CanLevel(c *ahead.Can) Phrase {
	return phrase(v.say("waste.level."+string(c.Level.Fill), args{
		"In": v.Volume(c.WasteCan.Level()), "Holds": v.Volume(c.Can.Holds.Value), "Room": v.litres(c.Level.Room), "Mark": v.litres(c.Level.Mark),
	}))
}

// CanAndLevel says it with the can's name.
func (v *Voice) CanAndLevel(c *ahead.Can) Phrase {
	return append(phrase(sentence(v.CanName(&c.WasteCan))+": "), v.CanLevel(c)...)
}

// litres prints litres as a volume.
func (v *Voice) litres(l float64) string { return v.Volume(millilitres(1000 * l)) }

// CanTakes says that so much of a bath must not go into a can, or has no room in it; empty where it goes in, or nobody said what
// the can holds.
func (v *Voice) CanTakes(c *book.WasteCan, may *waste.May, l waste.Level, of quantity.Volume) Phrase {
	a := args{"Can": own(c.Can.Name), "Left": v.litres(l.Room)}
	switch {
	case !may.Goes:
		return phrase(sentence(v.CanName(c)) + ": " + v.may(may))
	case l.Fill == waste.NoSize:
		return nil
	case l.Room <= 0:
		return phrase(v.say("waste.takes_none", a))
	case l.Room < of.ML()/1000:
		return phrase(v.say("waste.takes_not", a))
	}
	return nil
}

// CanFullOn says about when a can is full; empty where no pace can be told.
func (v *Voice) CanFullOn(day time.Time) Phrase {
	if day.IsZero() {
		return nil
	}
	return phrase(v.say("waste.full_on", args{"Day": v.Date(day)}))
}

// Silver says how much silver there likely is, and of how much nobody knows; empty where there is nothing.
func (v *Voice) Silver(s *ahead.Silver) (all []Phrase) {
	if s.Known > 0 {
		all = append(all, phrase(v.say("waste.silver", args{
			"Likely": v.grams(s.Grams.P50), "From": v.grams(s.Grams.P10), "To": v.grams(s.Grams.P90),
		})))
	}
	if s.Unknown > 0 {
		known := ""
		if s.Known > 0 {
			known = "yes"
		}
		all = append(all, phrase(v.say("waste.silver_unknown", args{"Volume": v.litres(s.Unknown), "Known": known})))
	}
	return all
}

// grams prints a mass of silver to two figures: a refiner weighs it anew.
func (v *Voice) grams(g float64) string { return v.unit(v.significant(g, 2), "g") }

// SilverWorth says what silver would be worth at a price for a gram, in hundredths of the room's money.
func (v *Voice) SilverWorth(worth waste.Span, perGram int64) Phrase {
	return phrase(v.say("waste.worth", args{
		"Likely": v.Money(int64(worth.P50), ""), "From": v.Money(int64(worth.P10), ""), "To": v.Money(int64(worth.P90), ""), "Price": v.Money(perGram, ""),
	}))
}

// CanWrong says what is in a can and does not belong there, and why.
func (v *Voice) CanWrong(w *ahead.Wrong) Phrase {
	return phrase(v.say("waste.wrong", args{"Volume": v.Volume(w.Part.Left()), "What": v.UsedBath(w.Part.Of), "Why": v.may(&w.May)}))
}

// may says whether a bath goes into a can and why not.
func (v *Voice) may(m *waste.May) string {
	a := args{"What": ""}
	if len(m.Pairs) > 0 {
		p := m.Pairs[0]
		a["What"] = v.say("tell.meets."+string(p.Effect), nil)
		a["From"] = v.Origin(reckoning.Figure{Origin: p.Origin, Source: p.Source})
	}
	return v.say("waste.may."+string(m.Why), a)
}

// Drain says what is done with a used bath here.
func (v *Voice) Drain(a *waste.Advice) Phrase {
	return phrase(sentence(v.say("waste.way."+string(a.Way), args{"What": v.UsedBath(a.Of)})))
}

// DrainWhy says why, each reason with who says so.
func (v *Voice) DrainWhy(a *waste.Advice) (all []Phrase) {
	for _, w := range a.Why {
		fill := args{"From": v.Origin(reckoning.Figure{Origin: w.Origin, Source: w.Source}), "What": v.UsedBath(a.Of), "Office": "", "Words": "", "On": ""}
		if x := a.Answer; x != nil {
			fill["Office"], fill["Words"], fill["On"] = own(x.Office), own(x.Words), v.DateYear(x.On)
		}
		all = append(all, phrase(sentence(v.say("waste.why."+string(w.Reason), fill))))
	}
	return all
}

// WasteMove says what went into a can, or what was taken away, by whom and with which document.
func (v *Voice) WasteMove(m *book.WasteMove) Phrase {
	if t := m.Taken; t != nil {
		var vol quantity.Volume
		for i := range m.With {
			vol += m.With[i].Left()
		}
		return phrase(sentence(v.say("waste.taken", args{"Volume": v.Volume(vol), "By": own(t.By), "Document": own(t.Document)})))
	}
	return phrase(sentence(v.say("waste.put", args{"Volume": v.Volume(m.In.Volume), "What": v.UsedBath(m.In.Of), "Why": v.wentWhy(m.In.Why)})))
}

// wentWhy says why a bath went: what led in its outlook then, else in the words that somebody typed.
func (v *Voice) wentWhy(why string) string {
	if key := "waste.went." + why; why != "" && v.has(key) {
		return plain(v.say(key, nil))
	}
	return own(why)
}

// PlaceAndDrain says who the room is and where it drains, or that it was not said.
func (v *Voice) PlaceAndDrain(h *waste.Here) Phrase {
	place, drain := "unsaid", "unsaid"
	if h.Place != waste.NoPlace {
		place = string(h.Place)
	}
	if h.Drain != waste.DrainUnsaid {
		drain = string(h.Drain)
	}
	return phrase(sentence(v.say("waste.here", args{"Place": v.say("waste.place."+place, nil), "Drain": v.say("waste.drain."+drain, nil)})))
}

// SilverShort prints silver for a column: 12 g (9.1 to 16).
func (v *Voice) SilverShort(s *ahead.Silver) string {
	a := args{"Likely": v.grams(s.Grams.P50), "From": v.significant(s.Grams.P10, 2), "To": v.significant(s.Grams.P90, 2), "More": ""}
	if s.Unknown > 0 {
		a["More"] = "+"
	}
	return plain(v.say("waste.silver_short", a))
}

// SilverTaken says how much silver likely went with what was taken away in a year; empty where nothing is known of any.
func (v *Voice) SilverTaken(s *ahead.Silver) (all []Phrase) {
	if s.Known > 0 {
		all = append(all, phrase(v.say("waste.silver_taken", args{
			"Likely": v.grams(s.Grams.P50), "From": v.grams(s.Grams.P10), "To": v.grams(s.Grams.P90),
		})))
	}
	if s.Unknown > 0 {
		all = append(all, phrase(v.say("waste.taken_unknown", args{"Volume": v.litres(s.Unknown)})))
	}
	return all
}

// LedgerWhat says what a line of the ledger is about, without its volume.
func (v *Voice) LedgerWhat(r *ahead.WasteRow) Phrase {
	if t := r.Taken; t != nil {
		number := strings.ReplaceAll(own(t.Document), " ", "\u00a0") // it is looked for as one
		return phrase(sentence(v.say("waste.ledger_taken", args{"By": own(t.By), "Document": number})))
	}
	return phrase(sentence(v.say("waste.ledger_put", args{"What": v.UsedBath(r.In.Of), "Why": v.wentWhy(r.In.Why)})))
}
