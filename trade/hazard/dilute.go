package hazard

import (
	"math"

	"wetside/trade/dilution"
)

// The densities between which a concentrate counts whose own is not known, g/mL: acids and developers are at the lower end, fixers at
// the upper; from memory.
const (
	LeastDensity = 1.0
	MostDensity  = 1.3
)

// Dilute returns the ingredients of the working solution: parts are by volume, shares by mass. A density of 0 is not known: the
// lower ends are then reckoned with LeastDensity, the upper with MostDensity. Parts A and B of a developer count as
// one chemical, as no label tells here which ingredient is in which.
func Dilute(is []Ingredient, d dilution.Dilution, density float64) ([]Ingredient, error) {
	strength := 0.0
	for i := range d.Chemicals {
		s, err := d.Strength(i)
		if err != nil {
			return nil, err
		}
		strength += s.Float()
	}
	low, high := density, density
	if !(density > 0) {
		low, high = LeastDensity, MostDensity
	}
	out := make([]Ingredient, len(is))
	for k, i := range is {
		i.Share = Share{i.Share.Low * byMass(strength, low), i.Share.High * byMass(strength, high)}
		out[k] = i
	}
	return out, nil
}

// MakeUp returns the ingredients of a solution of a powder: so many grams of it in so many millilitres of the whole. The
// solution's density is not known: it counts as MostDensity for the lower ends and LeastDensity for the upper.
func MakeUp(is []Ingredient, grams, ml float64) []Ingredient {
	out := make([]Ingredient, len(is))
	for k, i := range is {
		low, high := grams/(ml*MostDensity), grams/(ml*LeastDensity)
		i.Share = Share{math.Min(i.Share.Low*math.Min(low, 1), total), math.Min(i.Share.High*math.Min(high, 1), total)}
		out[k] = i
	}
	return out
}

// byMass returns the share by mass of a liquid of which so much is there by volume, the rest being water.
func byMass(strength, density float64) float64 {
	return math.Min(1, strength*density/(strength*density+1-strength))
}
