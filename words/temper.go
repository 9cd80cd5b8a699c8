package words

import (
	"strings"

	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/trade/temper"
)

// Water is what the telling of tempered water needs to know beside the result.
type Water struct {
	Vessel   string              // the own name of what hot and cold meet in; empty: none is named
	Unit     quantity.VolumeUnit // of the scale that the marks are read on
	Named    bool                // the unit with its system
	Chemical string              // what goes in afterwards; empty: nothing is said of it
	ForMix   bool                // it is the water of a mix whose steps are told after it
	InPlace  bool                // the same, and the chemical goes into the vessel that it is in
	Times    int                 // how many vesselfuls alike; 0 is 1
}

// WaterOf returns how a bath's water is told: the vessel and the scale that it is read on.
func WaterOf(b plan.Bath) Water {
	w := Water{
		Vessel: b.TemperVessel, Times: b.TemperTimes, Named: bothOunces(b.Vessels), ForMix: !b.TemperInPlace, InPlace: b.TemperInPlace,
	}
	w.Unit = unitOf(b.Vessels, b.TemperVessel)
	return w
}

// WaterOfStock returns how the water for a stock is told: the vessel that holds it, and its first scale.
func WaterOfStock(s plan.Stock, bench darkroom.Bench) Water {
	var vessels []measure.Vessel
	for _, vessel := range bench.Vessels {
		one := measure.Vessel{Name: vessel.Name, Kind: vessel.Kind}
		for _, scale := range vessel.Scales {
			if !scale.Grams {
				one.Scales = append(one.Scales, measure.Scale{Unit: scale.Unit.Value})
			}
		}
		vessels = append(vessels, one)
	}
	return Water{Vessel: s.Vessel, Unit: unitOf(vessels, s.Vessel), Named: bothOunces(vessels)}
}

func unitOf(vessels []measure.Vessel, name string) quantity.VolumeUnit {
	for _, vessel := range vessels {
		if vessel.Name == name && vessel.Kind != measure.Balance && len(vessel.Scales) > 0 {
			return vessel.Scales[0].Unit
		}
	}
	return quantity.UnitML
}

// Temper tells how to get water of a temperature, as a person does it: hot to a mark, cold up to a mark, then the
// thermometer, then the chemical.
func (v *Voice) Temper(r temper.Result, w Water) []Line {
	var lines []Line
	if r.Status == temper.OutOfReach {
		lines = append(lines, Line{Kind: Note, Step: -1, Say: v.outOfReach(r, w.Times)})
	}
	for i, m := range r.Marks {
		lines = append(lines, v.waterMark(m, i, w))
	}
	if len(r.Marks) == 0 {
		lines = append(lines, v.waterLine(Action, "temper.about", args{"Amounts": v.sources(r)}))
	}
	if w.Times > 1 {
		lines = append(lines, v.waterLine(Again, "temper.again", args{"Times": v.Times(w.Times)}))
	}
	a := args{"Temperature": v.Temperature(r.Water), "Chemical": own(w.Chemical)}
	lines = append(lines, v.waterLine(Action, "temper.thermometer", a))
	switch {
	case a["Chemical"] != "":
		lines = append(lines, v.waterLine(Action, "temper.chemical", a))
	case w.InPlace:
		lines = append(lines, v.waterLine(Note, "temper.in_place", a))
	case w.ForMix:
		lines = append(lines, v.waterLine(Note, "temper.for_mix", a))
	}
	return lines
}

// sources lists what is poured, where no marks could be given: "60 mL of hot water and 200 mL of cold water".
func (v *Voice) sources(r temper.Result) string {
	var parts []string
	add := func(amount string, from temper.Source) {
		parts = append(parts, v.say("temper.amount", args{"Amount": amount, "Source": v.say("water."+from.String(), nil)}))
	}
	for _, x := range []struct {
		vol  quantity.Volume
		from temper.Source
	}{{r.Hot, temper.HotTap}, {r.Kettle, temper.KettleWater}, {r.Cold, temper.ColdTap}} {
		if x.vol > 0 {
			add(v.Volume(x.vol), x.from)
		}
	}
	if r.Ice > 0 {
		add(v.ice(r.Ice), temper.IceByWeight)
	}
	return v.list(parts)
}

func (v *Voice) waterLine(kind LineKind, key string, a args) Line {
	return Line{Kind: kind, Step: -1, Say: phrase(sentence(v.say(key, a)))}
}

// waterMark tells one pour.
func (v *Voice) waterMark(m temper.Mark, i int, w Water) Line {
	a := args{"Source": v.say("water."+m.From.String(), nil), "In": ""}
	if w.Vessel != "" {
		a["In"] = v.the(w.Vessel)
	}
	if m.From == temper.IceByWeight {
		return v.number(v.ice(m.Grams), "temper.ice", a)
	}
	key := "temper.up"
	if i == 0 {
		key = "temper.first"
	}
	if w.Vessel == "" {
		key += "_bare"
	}
	return v.number(v.level(m.To, w), key, a)
}

// number makes a reading of an amount that is printed as number and unit.
func (v *Voice) number(amount, key string, a args) Line {
	l := Line{Kind: Reading, Step: -1}
	l.Number, l.Unit, _ = strings.Cut(amount, string(nbsp))
	a["Mark"], a["Amount"] = v.short(amount), amount
	l.Say = phrase(sentence(v.say(key, a)))
	return l
}

// short leaves out the unit of a mark in millilitres, as one says it at the jug.
func (v *Voice) short(amount string) string {
	return strings.TrimSuffix(amount, string(nbsp)+quantity.UnitML.Symbol())
}

// level prints a level in the unit of the scale it is read on, exactly where it is a mark.
func (v *Voice) level(to quantity.Volume, w Water) string {
	if w.Vessel == "" && v.system != w.Unit.System() {
		return v.Volume(to)
	}
	n := to.InUnit(w.Unit)
	if n.Den() > most {
		var ok bool
		if n, ok = to.Nearest(w.Unit, eighth()); !ok {
			return v.Volume(to)
		}
	}
	return v.scaleNumber(n, w.Unit, false) + string(nbsp) + v.scaleUnit(w.Unit, false, w.Named || v.both)
}

// eighth is the finest that a level is told in where it lies on no mark.
func eighth() quantity.Ratio {
	r, err := quantity.NewRatio(1, 8)
	if err != nil {
		return quantity.Int(1)
	}
	return r
}

// TemperLine tells the same in one sentence: "Hot water to the 600 mark, cold up to 1800; the thermometer should say
// 20 °C; then the concentrate".
func (v *Voice) TemperLine(r temper.Result, w Water) Phrase {
	var pours []string
	for i, m := range r.Marks {
		a := args{"Source": v.say("water."+m.From.String(), nil), "Amount": v.ice(m.Grams)}
		key := "temper.clause_ice"
		if m.From != temper.IceByWeight {
			key = "temper.clause_up"
			if i == 0 {
				key = "temper.clause_first"
				if w.Vessel != "" {
					key, a["In"] = "temper.clause_first_in", v.the(w.Vessel)
				}
			}
			a["Mark"] = v.level(m.To, w)
			if w.Vessel != "" {
				a["Mark"] = v.short(a["Mark"])
			}
		}
		pours = append(pours, v.say(key, a))
	}
	a := args{"Temperature": v.Temperature(r.Water), "Chemical": own(w.Chemical)}
	if len(pours) == 0 {
		pours = append(pours, v.say("temper.clause_about", args{"Amounts": v.sources(r)}))
	}
	if w.Times > 1 {
		pours = append(pours, v.say("temper.clause_times", args{"Times": v.Times(w.Times)}))
	}
	clauses := []string{strings.Join(pours, v.say("list.comma", nil)), v.say("temper.clause_thermometer", a)}
	switch {
	case a["Chemical"] != "":
		clauses = append(clauses, v.say("temper.clause_chemical", a))
	case w.InPlace:
		clauses = append(clauses, v.say("temper.clause_in_place", a))
	case w.ForMix:
		clauses = append(clauses, v.say("temper.clause_for_mix", a))
	}
	return phrase(sentence(strings.Join(clauses, v.say("list.semicolon", nil)) + v.say("stop", nil)))
}

// TemperStatus says in a few words how a temperature is reached.
func (v *Voice) TemperStatus(s temper.Status) string {
	return plain(v.say("temper_status."+s.String(), nil))
}

// OutOfReach says what is the nearest that can be had and what would help. It is empty where the temperature can be
// reached.
func (v *Voice) OutOfReach(r temper.Result) Phrase { return v.outOfReach(r, 1) }

// outOfReach says it for so many vesselfuls, since what would help is for one of them.
func (v *Voice) outOfReach(r temper.Result, times int) Phrase {
	if r.Status != temper.OutOfReach {
		return nil
	}
	parts := []string{v.say("temper.nearest", args{"Nearest": v.Temperature(r.Nearest)})}
	for _, h := range r.Helps {
		a := args{"At": v.Temperature(h.At), "Volume": v.Volume(h.Volume), "Grams": v.ice(h.Grams)}
		parts = append(parts, v.say("temper.help_"+h.What.String(), a))
	}
	if times > 1 && len(r.Helps) > 0 {
		parts = append(parts, v.say("temper.help_each", args{"Jugfuls": v.CountWord("jugfuls", times)}))
	}
	return phrase(strings.Join(parts, " "))
}
