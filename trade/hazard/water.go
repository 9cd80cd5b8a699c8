package hazard

import (
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
)

// The sums for harm to water: 25 % each (ADR-2.2.9, UN-4.1a).
const (
	waterLimit  = 25.0
	waterSource = "UN-4.1a"
)

// inWater is the share from which an ingredient of the severest class counts, divided by M (CLP-4.1.3).
const inWater = 0.1

// water gives the classes for what lives in it.
func (v *Verdict) water(parts []Part) {
	if v.sum(rule{"aquatic_acute_sum", waterLimit, waterSource}, acuteInWater(parts)) {
		v.give(ghs.AquaticAcute1)
	}
	for i, c := range []ghs.Class{ghs.AquaticChronic1, ghs.AquaticChronic2, ghs.AquaticChronic3, ghs.AquaticChronic4} {
		name := []string{"aquatic_chronic_1_sum", "aquatic_chronic_2_sum", "aquatic_chronic_3_sum", "aquatic_chronic_4_sum"}[i]
		if v.sum(rule{name, waterLimit, waterSource}, longInWater(parts, c)) {
			v.give(c)
			return
		}
	}
}

func acuteInWater(parts []Part) []weighed {
	var out []weighed
	for _, p := range parts {
		if m := factor(p.Substance.MAcute); p.Substance.Has(ghs.AquaticAcute1) && p.Share > 0 && atLeast(p.Share, inWater/m) {
			out = append(out, weighed{p, m, basisOfM(p.Substance)})
		}
	}
	return out
}

// longInWater weighs what counts towards a long-term class: M times 10 for each category that it is severer; without M for the last.
func longInWater(parts []Part, towards ghs.Class) []weighed {
	var out []weighed
	for _, p := range parts {
		for _, c := range p.Substance.Classes {
			if c.Kind() != ghs.WaterLong || c > towards {
				continue
			}
			m, from := 1.0, countsFrom
			if c == ghs.AquaticChronic1 {
				m = factor(p.Substance.MChronic)
				from = inWater / m
			}
			if p.Share == 0 || !atLeast(p.Share, from) {
				continue
			}
			w := weighed{p, m, basisOfM(p.Substance)}
			for i := c; i < towards; i++ {
				w.weight *= 10
			}
			if towards == ghs.AquaticChronic4 {
				w.weight = 1
			}
			out = append(out, w)
		}
	}
	return out
}

// factor returns M, which is 1 where none is known.
func factor(m float64) float64 {
	if m == 0 {
		return 1
	}
	return m
}

// basisOfM tells where a substance's M is from, or its class where no M is known.
func basisOfM(s substance.Substance) substance.Basis {
	if s.MAcute > 0 || s.MChronic > 0 {
		return s.Limited
	}
	return s.Basis
}
