package temper

import (
	"errors"
	"strconv"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// ErrProblem is wrapped by every error about a malformed problem (cold hotter than hot, nothing to make).
var ErrProblem = errors.New("malformed tempering problem")

// Why is the reason of a ProblemError, a key of the message catalogue.
type Why string

// The reasons.
const (
	WhyColdAboveHot Why = "cold_above_hot"  // the cold tap is hotter than the hot one: Got above Limit
	WhyNotLiquid    Why = "not_liquid"      // a temperature that water does not have as a liquid: Limit is the end
	WhyNothing      Why = "nothing_to_make" // a total of nothing or less
	WhyTooMuch      Why = "too_much"        // a total above quantity.MaxVolume
	WhyNoWater      Why = "no_water"        // the chemical leaves no room for water in the total
	WhyNegative     Why = "negative"        // a chemical, or a step of the level, below nothing
)

// A ProblemError says what is malformed about a problem. It wraps ErrProblem.
type ProblemError struct {
	Why   Why
	Field string         // cold, hot, want, total, chemical, chemical_at, step
	Got   float64        // in Unit
	Limit float64        // in Unit: what it must not pass
	Unit  reckoning.Unit // C or ML
}

// Error says it in plain English, for logs and for callers without a catalogue.
func (e *ProblemError) Error() string {
	return ErrProblem.Error() + ": " + e.Field + " " + strconv.FormatFloat(e.Got, 'g', -1, 64) + " " + string(e.Unit) +
		": " + string(e.Why)
}

// Unwrap returns ErrProblem.
func (e *ProblemError) Unwrap() error { return ErrProblem }

// check returns what is malformed, the first of it, or nil.
func (p Problem) check() error {
	temperatures := []struct {
		field string
		t     quantity.Celsius
		used  bool
	}{
		{"cold", p.Cold, true},
		{"hot", p.Hot, true},
		{"want", p.Want, true},
		{"chemical_at", p.ChemicalAt, p.Chemical != 0},
	}
	for _, t := range temperatures {
		if t.used && !inRange(t.t) {
			limit := Lowest
			if t.t > Highest {
				limit = Highest
			}
			return &ProblemError{WhyNotLiquid, t.field, float64(t.t), float64(limit), reckoning.C}
		}
	}
	if p.Cold > p.Hot {
		return &ProblemError{WhyColdAboveHot, "cold", float64(p.Cold), float64(p.Hot), reckoning.C}
	}
	return p.checkVolumes()
}

func (p Problem) checkVolumes() error {
	volume := func(why Why, field string, got, limit quantity.Volume) error {
		return &ProblemError{why, field, got.ML(), limit.ML(), reckoning.ML}
	}
	switch {
	case p.Total <= 0:
		return volume(WhyNothing, "total", p.Total, 0)
	case p.Total > quantity.MaxVolume:
		return volume(WhyTooMuch, "total", p.Total, quantity.MaxVolume)
	case p.Chemical < 0:
		return volume(WhyNegative, "chemical", p.Chemical, 0)
	case p.Step < 0:
		return volume(WhyNegative, "step", p.Step, 0)
	case p.Chemical >= p.Total || p.water().mass <= 0:
		return volume(WhyNoWater, "chemical", p.Chemical, p.Total)
	}
	return nil
}
