package hazard

import (
	"math"

	"wetside/trade/hazard/ghs"
)

// countsFrom is the share from which an ingredient counts in the sums for skin and eyes, where no specific limit is lower.
const countsFrom = 1.0

// The generic limits of the sums, mass per cent. Sources: HPR-8.2.11 (Canada's rule, the same figures as CLP's), NZ-11.2 for
// the subcategories, GESI-2021 for eye damage; those of eye irritation as coded in a public program, CLP-candle.
func skinBurns() rule     { return rule{"skin_corrosion_sum", 5, "HPR-8.2.11"} }
func skinIrritates() rule { return rule{"skin_irritation_sum", 10, "HPR-8.2.11"} }
func skin1A() rule        { return rule{"skin_corrosion_1a_sum", 5, "NZ-11.2"} }
func skin1B() rule        { return rule{"skin_corrosion_1b_sum", 5, "NZ-11.2"} }
func eyeDamage() rule     { return rule{"eye_damage_sum", 3, "GESI-2021"} }
func eyeIrritates() rule  { return rule{"eye_irritation_sum", 10, "CLP-candle"} }

// skin gives the class of the sum of what burns or irritates it.
func (v *Verdict) skin(parts []Part) {
	if !v.sum(skinBurns(), weigh(parts, skinBurns(), ghs.Skin, skinLimit(ghs.SkinCorr1))) {
		if v.sum(skinIrritates(), weigh(parts, skinIrritates(), ghs.Skin, skinLimit(ghs.SkinIrrit2))) {
			v.give(ghs.SkinIrrit2)
		}
		return
	}
	switch {
	case v.sum(skin1A(), weigh(parts, skin1A(), ghs.Skin, skinLimit(ghs.SkinCorr1A))):
		v.give(ghs.SkinCorr1A)
	case v.sum(skin1B(), weigh(parts, skin1B(), ghs.Skin, skinLimit(ghs.SkinCorr1B))):
		v.give(ghs.SkinCorr1B)
	case hasUnknownSubcategory(parts):
		v.give(ghs.SkinCorr1)
	default:
		v.give(ghs.SkinCorr1C)
	}
}

func hasUnknownSubcategory(parts []Part) bool {
	for _, p := range parts {
		if p.Substance.Has(ghs.SkinCorr1) && atLeast(p.Share, countsFrom) {
			return true
		}
	}
	return false
}

// eyes gives the class of the sum of what damages or irritates them; what burns skin damages eyes.
func (v *Verdict) eyes(parts []Part) {
	if v.sum(eyeDamage(), weigh(parts, eyeDamage(), ghs.Eyes, eyeLimit(ghs.EyeDam1))) {
		v.give(ghs.EyeDam1)
		return
	}
	if v.sum(eyeIrritates(), weigh(parts, eyeIrritates(), ghs.Eyes, eyeLimit(ghs.EyeIrrit2))) {
		v.give(ghs.EyeIrrit2)
	}
}

// weigh returns the parts that count towards a rule, each with generic ÷ own limit as its weight. limit returns the
// generic limit that a class of a substance alone has, 0 for none.
func weigh(parts []Part, r rule, k ghs.Kind, limit func(ghs.Class) float64) []weighed {
	var out []weighed
	for _, p := range parts {
		w, from := weighed{part: p, basis: p.Substance.Basis}, countsFrom
		own := p.Substance.LimitsOf(k)
		least := math.Inf(1)
		for _, l := range own {
			from = math.Min(from, l.From)
			if limit(l.Class) > 0 {
				least = math.Min(least, l.From)
			}
		}
		if len(own) > 0 {
			w.basis = p.Substance.Limited
		} else {
			for _, c := range p.Substance.Classes {
				if n := limit(c); n > 0 {
					least = math.Min(least, n)
				}
			}
		}
		if !math.IsInf(least, 1) && p.Share > 0 && atLeast(p.Share, from) {
			w.weight = r.limit / least
			out = append(out, w)
		}
	}
	return out
}

// skinLimit returns the generic limits towards a class of skin. Where a specific limit stands in, any number above 0 says that
// its class counts.
func skinLimit(towards ghs.Class) func(ghs.Class) float64 {
	return func(c ghs.Class) float64 {
		switch {
		case c.Kind() != ghs.Skin || c > towards:
			return 0
		case towards != ghs.SkinIrrit2:
			return 5
		case c == ghs.SkinIrrit2:
			return 10
		}
		return 1
	}
}

// eyeLimit returns the generic limits towards a class of eyes.
func eyeLimit(towards ghs.Class) func(ghs.Class) float64 {
	return func(c ghs.Class) float64 {
		damages := c == ghs.EyeDam1 || c.Code() == ghs.SkinCorr1.Code()
		switch {
		case damages && towards == ghs.EyeDam1:
			return 3
		case damages:
			return 1
		case c == ghs.EyeIrrit2 && towards == ghs.EyeIrrit2:
			return 10
		}
		return 0
	}
}
