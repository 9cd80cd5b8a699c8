package words

import (
	"unicode"
	"unicode/utf8"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// A mark is a reading in words.
type mark struct {
	number, unit string // as set large: 200, mL
	short        string // in a clause: "**1000**", "**32 fl oz**"
	full         string // with the vessel: "the **200** mark of the **litre jug**"
}

// scaleNumber prints a mark's number as it is printed on a scale: decimals on a metric one, vulgar fractions on one
// in ounces.
func (v *Voice) scaleNumber(n quantity.Ratio, u quantity.VolumeUnit, balance bool) string {
	text, ok := u.Mark(n)
	if balance || !ok {
		return v.exact(n)
	}
	return v.printed(unbroken(text), ok)
}

// scaleUnit returns the unit of a scale in words; named: with its system.
func (v *Voice) scaleUnit(u quantity.VolumeUnit, balance, named bool) string {
	switch {
	case balance:
		return plain(v.say("unit.g", nil))
	case named:
		return unbroken(u.String())
	}
	return unbroken(u.Symbol())
}

// Mark prints the number and the unit of a mark, exactly as the scale has them; both systems of ounces are named
// where the room has both.
func (v *Voice) Mark(vessel measure.Vessel, scale int, n quantity.Ratio) (number, unit string) {
	balance := vessel.Kind == measure.Balance
	u := vessel.Scales[scale].Unit
	return v.scaleNumber(n, u, balance), v.scaleUnit(u, balance, v.both)
}

// bothOunces reports whether scales in US and in imperial units stand among the vessels.
func bothOunces(vessels []measure.Vessel) bool {
	var us, imperial bool
	for _, vessel := range vessels {
		for _, s := range vessel.Scales {
			if vessel.Kind == measure.Balance {
				continue
			}
			us = us || s.Unit.System() == quantity.US
			imperial = imperial || s.Unit.System() == quantity.Imperial
		}
	}
	return us && imperial
}

// the names a thing of the room in a sentence: "the **litre jug**", but "**Jug 1**".
func (v *Voice) the(name string) string {
	name = own(name)
	if first, _ := utf8.DecodeRuneInString(name); unicode.IsUpper(first) {
		return v.say("the.proper", args{"Name": bound(name)})
	}
	return v.say("the.common", args{"Name": bound(name)})
}

// mark tells the reading of a step.
func (t *teller) mark(s measure.Step) mark {
	v, vessel := t.v, t.b.Vessels[s.Vessel]
	scale, balance := vessel.Scales[s.Scale], vessel.Kind == measure.Balance
	m := mark{
		number: v.scaleNumber(s.Mark, scale.Unit, balance),
		unit:   v.scaleUnit(scale.Unit, balance, t.named),
	}
	suffix := ""
	if balance || scale.Unit != quantity.UnitML || mistakable(vessel, s) {
		suffix = "_unit"
	}
	a := args{"Number": m.number, "Unit": m.unit, "Vessel": v.the(vessel.Name)}
	m.short = v.say("mark.short"+suffix, a)
	if low, high, ok := neighbours(s, scale); ok {
		a["Low"], a["High"] = v.scaleNumber(low, scale.Unit, balance), v.scaleNumber(high, scale.Unit, balance)
		m.full = v.say("mark.between"+suffix, a)
		return m
	}
	m.full = v.say("mark.at"+suffix, a)
	return m
}

// neighbours returns the marks on either side of a reading between two.
func neighbours(s measure.Step, scale measure.Scale) (low, high quantity.Ratio, ok bool) {
	half, err := quantity.NewRatio(scale.Step.Num(), 2*scale.Step.Den())
	if err != nil || !s.Half {
		return low, high, false
	}
	low, errLow := s.Mark.Sub(half)
	high, errHigh := s.Mark.Add(half)
	return low, high, errLow == nil && errHigh == nil
}

// mistakable reports whether another scale of the vessel has a mark of the same number.
func mistakable(vessel measure.Vessel, s measure.Step) bool {
	for i, scale := range vessel.Scales {
		if i != s.Scale && s.Mark.Cmp(scale.From) >= 0 && s.Mark.Cmp(scale.To) <= 0 {
			return true
		}
	}
	return false
}
