package waste

import "wetside/trade/reckoning"

// A Span is three quantiles of an estimate: one room in ten lies under P10, half under P50, one in ten above P90.
type Span struct{ P10, P50, P90 float64 }

// Times returns the span times a number that is not negative.
func (s Span) Times(x float64) Span { return Span{s.P10 * x, s.P50 * x, s.P90 * x} }

// Worth is what so many grams of silver are worth at a price for a gram, both in the same money. What a refiner pays is less,
// and the refiner says how much.
func Worth(grams Span, perGram float64) Span { return grams.Times(perGram) }

// Leached is the silver of an extract from which on US federal law calls a waste toxic, g/L: 5.0 mg/L by the leaching test
// (40 CFR 261.24); a liquid with hardly any solids is its own extract. It is shown to say why used fixer is collected; it is no
// other place's limit, and no permission below it.
func Leached() reckoning.Figure {
	return reckoning.Figure{Name: "leached", Value: 0.005, Unit: reckoning.GPerL, Origin: reckoning.Standard, Source: "TCLP-tab"}
}

// TimesLeached says how many times Leached a bath of so much silver is, g/L.
func TimesLeached(gPerL float64) float64 { return gPerL / Leached().Value }

// AfterRecovery is what is left of the silver once a share of it was recovered, in the unit of silver.
func AfterRecovery(silver, share float64) float64 { return silver * (1 - share) }
