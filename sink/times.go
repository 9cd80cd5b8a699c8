package sink

import (
	"math"
	"slices"
	"time"

	"wetside/plan"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/temper"
)

// roundTo is what a corrected time is rounded to: nobody moves a print to the second.
const roundTo = 5 * time.Second

func celsius(v float64) quantity.Celsius { return quantity.Celsius(v) }

// stop returns the time at a station, for the temperature that was read in it.
func (k *looker) stop(t *plan.Timed, station int) Stop {
	s := Stop{Station: station, Time: t.Time, Drain: min(t.Drain, t.Time), Figures: []reckoning.Figure{t.Figure}, Agitation: t.Agitation}
	at := &k.sink.Stations[station]
	if at.Reading != nil && s.Time > 0 {
		k.correct(&s, at, t)
	}
	if a, ok := process.ReadAgitation(t.Agitation); ok && at.Film && s.Time > 0 {
		s.Moves = a.Moves(s.Time - s.Drain)
	}
	return s
}

// correct makes a time longer in a cold bath and shorter in a warm one. Outside the range in which a coefficient can be
// relied on, and for what nobody has a rule for, the time stays.
func (k *looker) correct(s *Stop, at *Station, t *plan.Timed) {
	planned := quantity.Celsius(temper.Normal)
	if b := k.scene.Plan.Baths[t.Bath].Temperature; b != 0 {
		planned = b
	}
	read := at.Reading.Celsius
	factor, figure, ok := factorAt(at.Role, planned, read)
	if !ok || math.Abs(float64(read-planned)) < 0.5 {
		return
	}
	s.Time = max(time.Duration(float64(s.Time)*factor).Round(roundTo), roundTo)
	s.Drain = min(s.Drain, s.Time)
	s.Figures = append(s.Figures,
		reckoning.Figure{Name: "planned_at", Value: float64(planned), Unit: reckoning.C, Origin: reckoning.Label},
		reckoning.Figure{Name: "read_at", Value: float64(read), Unit: reckoning.C, Origin: reckoning.Measured},
		figure,
		reckoning.Figure{Name: "time_at", Value: s.Time.Seconds(), Unit: reckoning.S},
	)
	s.Figures = slices.Clip(s.Figures)
}

// factorAt returns by what a time is multiplied at one temperature that holds at another.
func factorAt(r process.Role, from, to quantity.Celsius) (float64, reckoning.Figure, bool) {
	switch r {
	case process.Developer:
		q10 := temper.DefaultQ10(temper.UnknownDeveloper)
		k, err := temper.FromQ10(q10.Value)
		if err != nil || !temper.Within(to) {
			return 1, q10, false
		}
		return float64(temper.TimeFrom(time.Hour, from, k, to)) / float64(time.Hour), q10, true
	case process.Fixer:
		a, _ := temper.FixFactor(from)
		b, figure := temper.FixFactor(to)
		return b / a, figure, a > 0
	default:
		return 1, reckoning.Figure{}, false
	}
}
