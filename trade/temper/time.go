package temper

import (
	"errors"
	"math"
	"time"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// ErrChart is returned where two points of a chart do not tell a coefficient: the same temperature twice, or
// a time of nothing or less.
var ErrChart = errors.New("points of a chart do not tell a coefficient")

// A Coefficient is how fast a time shrinks as it gets warmer, per kelvin: t(T) = t(20)·exp(−k·(T − 20)).
type Coefficient float64

// Normal is the temperature that times are named at, and Span how far from it a coefficient holds: defined over
// ±7 °C about 20 °C. Source: H. E. Ives, Airplane Photography, 1920 (Ives1920).
const (
	Normal quantity.Celsius = 20
	Span   quantity.Celsius = 7
)

// FromQ10 returns the coefficient that goes with the ratio of the times 10 K apart: ln(q10) ÷ 10. ErrChart for
// a ratio of nothing or less.
func FromQ10(q10 float64) (Coefficient, error) {
	if !(q10 > 0) || math.IsInf(q10, 1) {
		return 0, ErrChart
	}
	return Coefficient(math.Log(q10) / 10), nil
}

// Q10 returns the ratio of the times 10 K apart.
func (k Coefficient) Q10() float64 { return math.Exp(10 * float64(k)) }

// CoefficientFrom returns the coefficient that two points of a product's chart tell: ln(t1 ÷ t2) ÷ (T2 − T1).
func CoefficientFrom(t1 time.Duration, at1 quantity.Celsius, t2 time.Duration, at2 quantity.Celsius) (
	Coefficient, error,
) {
	k := math.Log(t1.Seconds()/t2.Seconds()) / float64(at2-at1)
	if t1 <= 0 || t2 <= 0 || math.IsNaN(k) || math.IsInf(k, 0) { // k is so too where both temperatures are one
		return 0, ErrChart
	}
	return Coefficient(k), nil
}

// TimeAt returns the time at a temperature from that at 20 °C: t20·exp(−k·(T − 20)).
func TimeAt(t20 time.Duration, k Coefficient, at quantity.Celsius) time.Duration {
	return TimeFrom(t20, Normal, k, at)
}

// TimeFrom returns the time at one temperature from that at another: t·exp(−k·(at − from)), never more than a
// Duration holds.
func TimeFrom(t time.Duration, from quantity.Celsius, k Coefficient, at quantity.Celsius) time.Duration {
	s := t.Seconds() * math.Exp(-float64(k)*float64(at-from))
	if !(s < math.MaxInt64/float64(time.Second)) {
		return math.MaxInt64
	}
	return seconds(s)
}

// Within reports whether a temperature is within Span of Normal, where a coefficient can be relied on.
func Within(t quantity.Celsius) bool { return t >= Normal-Span && t <= Normal+Span }

// DeveloperKind is a type of developer by what is in it, for its default coefficient.
type DeveloperKind uint8

// The kinds of developer. The zero value is not known.
const (
	UnknownDeveloper DeveloperKind = iota
	MetolHydroquinone
	Hydroquinone
	Metol
	Pyro
)

// DefaultQ10 returns the ratio of the times 10 K apart by the type of developer, where the product's own chart is
// not known. Metol with hydroquinone, and what is not known, 2.07: from 20 to 40 s at 65 °F against 30 to 60 s at 55 °F,
// Glover 1924 in Clerc, Photography: Theory and Practice, §573 (PTP-573). The others from memory:
// hydroquinone 2.2 to 2.5, metol 1.25 to 1.3, pyro 1.5.
func DefaultQ10(d DeveloperKind) reckoning.Figure {
	f := reckoning.Figure{Name: "q10", Origin: reckoning.FromMemory}
	switch d {
	case UnknownDeveloper, MetolHydroquinone:
		f.Value, f.Origin, f.Source = 2.07, reckoning.Standard, "PTP-573"
	case Hydroquinone:
		f.Value = 2.35
	case Metol:
		f.Value = 1.28
	case Pyro:
		f.Value = 1.5
	}
	return f
}

// WashFactor returns by what a washing time at 20 °C is multiplied at t. Colder, twice for every 10 K
// (US Army TM 11-2323: TM11-2323). Warmer it is shortened by no more than 1.2 for every 10 K (1.20 to 1.22 in Washing
// photographic films and prints in sea water, J. SMPE: Sea-wash; 1.22 to 1.24 in US Army MD0954), since sources differ
// and a wash cut short is not seen for years.
func WashFactor(t quantity.Celsius) (float64, reckoning.Figure) {
	if t < Normal {
		return factor("wash_factor", t, 2, "TM11-2323")
	}
	return factor("wash_factor", t, 1.2, "Sea-wash")
}

// FixFactor returns by what a fixing time at 20 °C is multiplied at t: twice for every 10 K below it (US Army
// TM 11-2323: TM11-2323); 1 above it, where nobody says that less will do.
func FixFactor(t quantity.Celsius) (float64, reckoning.Figure) {
	return factor("fix_factor", min(t, Normal), 2, "TM11-2323")
}

func factor(name string, t quantity.Celsius, q10 float64, source string) (float64, reckoning.Figure) {
	f := reckoning.Figure{Name: name, Value: math.Pow(q10, float64(Normal-t)/10)}
	f.By = &reckoning.Reckoning{
		Rule: "time_by_temperature",
		Puts: []reckoning.Figure{
			celsius("temperature", t, reckoning.Asked),
			{Name: "q10", Value: q10, Origin: reckoning.Standard, Source: source},
		},
		Result: reckoning.Figure{Name: name, Value: f.Value},
	}
	return f.Value, f
}
