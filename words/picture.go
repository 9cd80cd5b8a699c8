package words

import (
	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// ReadingWords are the words in the picture of a reading. Its fields are those of draw.ReadingWords, so that the one
// converts to the other.
type ReadingWords struct {
	Label  string   // the picture in words, for those who do not see it
	Units  []string // of each scale, as printed on it
	Stop   string   // beside the mark
	Number func(quantity.Ratio) string
}

// InReading returns the words for the picture of a step's reading; label is the step's sentence.
func (v *Voice) InReading(vessels []measure.Vessel, s measure.Step, label string) ReadingWords {
	w := ReadingWords{Label: label, Stop: v.Label("stop_here")}
	if s.Do == measure.Start {
		w.Stop = v.Label("about_three_quarters")
	}
	if s.Vessel < 0 || s.Vessel >= len(vessels) {
		return w
	}
	vessel, named := vessels[s.Vessel], v.both || bothOunces(vessels)
	balance := vessel.Kind == measure.Balance
	for _, scale := range vessel.Scales {
		w.Units = append(w.Units, v.scaleUnit(scale.Unit, balance, named))
	}
	if s.Scale >= 0 && s.Scale < len(vessel.Scales) {
		unit := vessel.Scales[s.Scale].Unit
		w.Number = func(n quantity.Ratio) string { return v.scaleNumber(n, unit, balance) }
	}
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
