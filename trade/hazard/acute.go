package hazard

import (
	"math"

	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
	"wetside/trade/reckoning"
)

// A route is a way into the body with its category bounds, each inclusive, and the point values where only the
// category is known: mg/kg, mg/L or ppm (UBA-6.3, CLP-3.1.1).
type route struct {
	kind   ghs.Kind
	first  ghs.Class // of its four classes
	bounds [4]float64
	points [4]float64
}

func routes() []route {
	return []route{
		{ghs.Oral, ghs.AcuteOral1, [4]float64{5, 50, 300, 2000}, [4]float64{0.5, 5, 100, 500}},
		{ghs.Dermal, ghs.AcuteDermal1, [4]float64{50, 200, 1000, 2000}, [4]float64{5, 50, 300, 1100}},
		{ghs.Vapour, ghs.AcuteVapour1, [4]float64{0.5, 2, 10, 20}, [4]float64{0.05, 0.5, 3, 11}},
		{ghs.Dust, ghs.AcuteDust1, [4]float64{0.05, 0.5, 1, 5}, [4]float64{0.005, 0.05, 0.5, 1.5}},
		{ghs.Gas, ghs.AcuteGas1, [4]float64{100, 500, 2500, 20_000}, [4]float64{10, 100, 700, 4500}},
	}
}

const acuteSource = "UBA-6.3"

// toxicFrom is the share from which a substance of categories 1 to 3 counts; from memory (CLP Annex I Table 1.1).
const toxicFrom = 0.1

// unknownLimit is the share of unknown toxicity above which it is left out of the whole (MixClass-acute, UN-3.1d).
const unknownLimit = 10.0

// acute gives the class of each route by the additivity formula.
func (v *Verdict) acute(parts []Part, unknown float64) {
	for _, r := range routes() {
		if ate := v.ateMix(r, parts, unknown); ate > 0 {
			if c := r.class(ate); c != ghs.None {
				v.give(c)
			}
		}
	}
}

// class returns the class of an estimate, None above the last bound.
func (r route) class(ate float64) ghs.Class {
	for i, bound := range r.bounds {
		if ate <= bound*(1+1e-9) {
			return r.first + ghs.Class(i)
		}
	}
	return ghs.None
}

// ateOf returns a substance's estimate, its own or the point value of its category, and how that is known; 0 where it is not
// acutely toxic by this route.
func (r route) ateOf(s substance.Substance) (ate float64, basis substance.Basis) {
	for _, a := range s.ATEs {
		if a.Kind == r.kind {
			return a.Value, s.Limited
		}
	}
	for _, c := range s.Classes {
		if c.Kind() == r.kind {
			return r.points[c-r.first], substance.Basis{Status: substance.Seen, Source: acuteSource}
		}
	}
	return 0, substance.Basis{}
}

// ateMix returns the estimate of the mixture, 0 where nothing in it counts.
func (v *Verdict) ateMix(r route, parts []Part, unknown float64) float64 {
	sum, puts := 0.0, []reckoning.Figure(nil)
	for _, p := range parts {
		ate, basis := r.ateOf(p.Substance)
		from := countsFrom
		if ate > 0 && ate <= r.bounds[2] {
			from = toxicFrom
		}
		if ate == 0 || !atLeast(p.Share, from) {
			continue
		}
		sum += p.Share / ate
		puts = append(puts, p.figure(), reckoning.Figure{
			Name: "ate", Of: p.Substance.Name, Value: ate, Origin: basis.Origin(), Source: basis.Source,
		})
	}
	if sum == 0 {
		return 0
	}
	whole := total
	if unknown > unknownLimit+1e-9 {
		v.UnknownAcute = unknown
		whole = math.Max(total-unknown, 0)
		puts = append(puts, reckoning.Figure{Name: "unknown_share", Value: unknown / 100, Unit: reckoning.Share, Origin: reckoning.Label})
	}
	ate := whole / sum
	v.Reckoning = append(v.Reckoning, reckoning.Reckoning{
		Rule: r.rule(), Puts: puts, Result: reckoning.Figure{Name: "ate_mix", Value: ate},
	})
	return math.Max(ate, math.SmallestNonzeroFloat64)
}

func (r route) rule() string {
	switch r.kind {
	case ghs.Dermal:
		return "acute_dermal"
	case ghs.Vapour:
		return "acute_vapour"
	case ghs.Dust:
		return "acute_dust"
	case ghs.Gas:
		return "acute_gas"
	default:
		return "acute_oral"
	}
}
