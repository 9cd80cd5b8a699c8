package temper

import (
	"errors"
	"math"
	"time"

	"wetside/trade/quantity"
)

// ErrReadings is returned where two readings do not tell how a bath drifts towards its room: not later, or
// not nearer to the room on the same side of it.
var ErrReadings = errors.New("readings do not tell a drift")

// A Drift is a bath left standing: its distance from the room's temperature shrinks by 1/e in each Constant.
type Drift struct {
	Room     quantity.Celsius
	Constant time.Duration
}

// A Reading is a temperature at a time, counted from any moment that is the same for all of them.
type Reading struct {
	After time.Duration
	At    quantity.Celsius
}

// DriftFrom returns the drift that two readings tell: Constant = Δt ÷ ln((T1 − Room) ÷ (T2 − Room)). The nearer
// the readings are to the room's temperature, or to each other, the less they tell. ErrReadings where the
// second is not later, or not nearer to the room, or on its other side.
func DriftFrom(room quantity.Celsius, first, second Reading) (Drift, error) {
	span := (second.After - first.After).Seconds()
	ratio := float64((first.At - room) / (second.At - room))
	constant := span / math.Log(ratio)
	if !(span > 0 && ratio > 1) || math.IsInf(ratio, 0) || constant >= math.MaxInt64/float64(time.Second) {
		return Drift{}, ErrReadings
	}
	return Drift{Room: room, Constant: seconds(constant)}, nil
}

// After returns the temperature of a bath a while after it was at t.
func (d Drift) After(t quantity.Celsius, while time.Duration) quantity.Celsius {
	if d.Constant <= 0 {
		return d.Room
	}
	return d.Room + (t-d.Room)*quantity.Celsius(math.Exp(-float64(while)/float64(d.Constant)))
}

// Until returns how long a bath takes from one temperature to another; false where it never gets there by
// itself. It is 0 where it is there already.
func (d Drift) Until(from, to quantity.Celsius) (time.Duration, bool) {
	if from == to {
		return 0, true
	}
	ratio := float64((from - d.Room) / (to - d.Room))
	s := d.Constant.Seconds() * math.Log(ratio)
	if !(ratio > 1) || math.IsInf(ratio, 0) || s >= math.MaxInt64/float64(time.Second) {
		return 0, false
	}
	return seconds(s), true
}

func seconds(s float64) time.Duration { return time.Duration(math.Round(s * float64(time.Second))) }
