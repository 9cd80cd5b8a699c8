package words

import (
	"math"
	"slices"
	"strings"

	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// even is how far from the label a mix may be and still be told as being on it: half of what is printed.
const even = 0.005

// Summary tells a choice in one line: "30 mL made up to 1 L; 4 % weaker, ±7 %, well within the ±30 % of a stop bath".
// role is NoRole where nobody said what the mix is for; tolerance is the product's, relative.
func (v *Voice) Summary(c measure.Choice, b Batch, role process.Role, tolerance float64) Phrase {
	parts := []string{v.amounts(c, b)}
	if c.Manner == measure.Apart && b.Dilution.Water.Sign() == 0 {
		return phrase(sentence(parts[0] + v.say("stop", nil)))
	}
	exact := []string{v.PlusMinus(c.Uncertainty), v.allowed(c, role, tolerance)}
	if math.Abs(c.Bias) >= even {
		exact = append([]string{v.bias(c.Bias, "short")}, exact...)
	}
	parts = append(parts, strings.Join(exact, v.say("list.comma", nil)))
	return phrase(sentence(strings.Join(parts, v.say("list.semicolon", nil)) + v.say("stop", nil)))
}

// amounts tells what goes into what: "200 mL made up to 2 L", "1 fl oz to 31 fl oz of water".
func (v *Voice) amounts(c measure.Choice, b Batch) string {
	t := newTeller(v, c, b)
	total := v.inUnit(c.Total, t.totalUnit(), t.named)
	var chemicals []string
	for i, vol := range c.Chemical {
		key := "summary.chemical"
		if len(c.Chemical) == 2 {
			key = [...]string{"summary.part_a", "summary.part_b"}[i]
		}
		amount := v.inUnit(vol, t.chemicalUnit(i), t.named)
		if c.Manner == measure.Weighed {
			amount = t.weighed()
		}
		chemicals = append(chemicals, v.say(key, args{"Amount": amount}))
	}
	a := args{"Chemical": v.list(chemicals), "Total": total}
	switch {
	case b.Dilution.Water.Sign() == 0:
		return v.say("summary.undiluted", a)
	case c.Manner == measure.Apart:
		a["Water"] = v.inUnit(c.Total-sum(c.Chemical), t.totalUnit(), t.named)
		return v.say("summary.apart", a)
	case t.jugfuls > 1:
		a["Jugfuls"] = v.CountWord("jugfuls", t.jugfuls)
		return v.say("summary.jugfuls", a)
	}
	return v.say("summary.made_up", a)
}

func sum(all []quantity.Volume) quantity.Volume {
	var total quantity.Volume
	for _, vol := range all {
		total += vol
	}
	return total
}

// totalUnit returns the unit of the scale that the water is read on.
func (t *teller) totalUnit() quantity.VolumeUnit {
	for _, s := range slices.Backward(t.c.Steps) {
		if (s.Do == measure.Fill || s.Do == measure.Pour) && s.What == measure.Water {
			return t.b.Vessels[s.Vessel].Scales[s.Scale].Unit
		}
	}
	return t.chemicalUnit(0)
}

// chemicalUnit returns the unit of the scale that chemical i is read on.
func (t *teller) chemicalUnit(i int) quantity.VolumeUnit {
	for _, s := range t.c.Steps {
		if s.Do != measure.Pour {
			continue
		}
		if s.What == measure.Chemical && i == 0 || s.What == measure.PartA && i == 0 || s.What == measure.PartB && i == 1 {
			return t.b.Vessels[s.Vessel].Scales[s.Scale].Unit
		}
	}
	return quantity.UnitML
}

// weighed returns what the balance shall say, all weighings together.
func (t *teller) weighed() string {
	var grams float64
	for _, s := range t.c.Steps {
		if s.Do == measure.Weigh {
			grams += s.Mark.Float() * float64(max(s.Times, 1))
		}
	}
	return t.v.Mass(quantity.Mass(grams))
}

// bias tells how far a mix is off the label.
func (v *Voice) bias(x float64, form string) string {
	key := "bias.stronger_"
	if x < 0 {
		key = "bias.weaker_"
	}
	return v.say(key+form, args{"Share": v.Share(math.Abs(x))})
}

// allowed sets a choice beside what the chemical may stray.
func (v *Voice) allowed(c measure.Choice, role process.Role, tolerance float64) string {
	a := args{"Tolerance": v.PlusMinus(tolerance), "Role": v.aRole(role)}
	switch off := math.Abs(c.Bias) + c.Uncertainty; {
	case off <= tolerance/2:
		return v.say("allowed.well", a)
	case JustWithin(c, tolerance):
		return v.say("allowed.just", a)
	case off <= tolerance:
		return v.say("allowed.within", a)
	}
	return v.say("allowed.beyond", a)
}

// JustWithin reports whether a choice uses up nearly all of what the chemical may stray, nine tenths or more of it.
func JustWithin(c measure.Choice, tolerance float64) bool {
	off := math.Abs(c.Bias) + c.Uncertainty
	return off >= 0.9*tolerance && off <= tolerance
}

// Exact tells at more length how near a choice comes, for who asks: how far its marks are from the label, what
// reading them adds, and what the chemical may stray.
func (v *Voice) Exact(c measure.Choice, role process.Role, tolerance float64) Phrase {
	if c.Bias == 0 && c.Uncertainty == 0 {
		return phrase(v.say("exact.undiluted", nil))
	}
	key := gradeKey(c.Grade)
	if JustWithin(c, tolerance) {
		key = "grade.just"
	}
	first := v.say("exact.on_label", nil)
	if math.Abs(c.Bias) >= even {
		first = v.bias(c.Bias, "long")
	}
	return phrase(strings.Join([]string{
		first,
		v.say("exact.uncertainty", args{"PlusMinus": v.PlusMinus(c.Uncertainty)}),
		v.say(key, args{
			"Tolerance": v.PlusMinus(tolerance), "Role": v.aRole(role), "Sum": v.PlusMinus(math.Abs(c.Bias) + c.Uncertainty),
		}),
	}, " "))
}

// Grade returns a grade in a word or two: "on the label", "near enough", "rough".
func (v *Voice) Grade(g measure.Grade) string { return plain(v.say(gradeKey(g)+"_short", nil)) }

// Manner returns the kind of action in a few words: "chemical and water in one jug".
func (v *Voice) Manner(m measure.Manner) string { return plain(v.say(mannerKey(m), nil)) }

// Differs tells what an alternative gains and costs against the best, in one clause: "one reading fewer; 15 % off at
// the most, in place of 6 %". What would read the same on both sides is left out. It is empty for the best.
func (v *Voice) Differs(c measure.Choice) Phrase {
	var clauses []string
	for _, gain := range []bool{true, false} {
		for _, d := range c.Differs {
			if clause := v.differs(d); d.Gain == gain && clause != "" {
				clauses = append(clauses, clause)
			}
		}
	}
	return phrase(strings.Join(clauses, v.say("list.semicolon", nil)))
}

func (v *Voice) differs(d measure.Difference) string {
	a := args{}
	switch d.Aspect {
	case measure.Accuracy:
		a["From"], a["To"] = v.Share(d.From), v.Share(d.To)
	case measure.TotalVolume, measure.ChemicalVolume:
		a["From"], a["To"] = v.Volume(millilitres(d.From)), v.Volume(millilitres(d.To))
	case measure.Readings, measure.VesselCount, measure.OwnScale, measure.HalfMarkCount:
		return v.differsBy(d)
	}
	if a["From"] == a["To"] {
		return ""
	}
	return v.say(aspectKey(d.Aspect), a)
}

// differsBy tells a difference of counts.
func (v *Voice) differsBy(d measure.Difference) string {
	n := int(math.Round(math.Abs(d.To - d.From)))
	key := aspectKey(d.Aspect) + "_fewer"
	if d.To > d.From {
		key = aspectKey(d.Aspect) + "_more"
	}
	return v.sayN(key, n, args{"Count": v.Word(n)})
}

// millilitres turns a figure in mL into a volume.
func millilitres(ml float64) quantity.Volume {
	return quantity.Volume(math.Round(ml * float64(quantity.Millilitre)))
}

// Advice tells what to get where the vessels at hand do not serve, or do so roughly: "With a 100 mL cylinder it
// would be ±7 %." It is empty for nil.
func (v *Voice) Advice(a *measure.Advice) Phrase {
	if a == nil {
		return nil
	}
	return phrase(v.say("advice.get", args{
		"Vessel": bound(own(a.Get.Name)), "PlusMinus": v.PlusMinus(math.Abs(a.Bias) + a.Uncertainty),
	}))
}

// Lack tells why nothing can be made, and what is lacking.
func (v *Voice) Lack(r measure.Result, b Batch, window quantity.Window) Phrase {
	return phrase(v.say(lackKey(r.Lack), args{
		"Window": v.VolumeRange(window.Min, window.Max), "Need": v.Volume(r.NeedAtLeast), "Chemical": v.chemical(b),
	}))
}
