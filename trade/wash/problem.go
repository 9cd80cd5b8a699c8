package wash

import (
	"errors"
	"math"
	"strconv"
	"time"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/temper"
)

// ErrProblem is wrapped by every error about a malformed request.
var ErrProblem = errors.New("malformed washing problem")

// Why is the reason of a ProblemError, a key of the message catalogue.
type Why string

// The reasons.
const (
	WhyMissing   Why = "missing"    // must be given
	WhyNegative  Why = "negative"   // below nothing, or not a number
	WhyTooLarge  Why = "too_large"  // beyond what a darkroom has
	WhyNotLiquid Why = "not_liquid" // a temperature that water does not have as a liquid
	WhyNotHere   Why = "not_here"   // a way of washing that the setting does not allow
)

// A ProblemError says what is malformed. It wraps ErrProblem.
type ProblemError struct {
	Why   Why
	Field string // material, area, water, start, vessel, flow, stages, loads, contact, beat, limit, own, way, time, result
	Got   float64
}

// Error says it in plain English, for logs and for callers without a catalogue.
func (e *ProblemError) Error() string {
	return ErrProblem.Error() + ": " + e.Field + " " + strconv.FormatFloat(e.Got, 'g', -1, 64) + ": " + string(e.Why)
}

// Unwrap returns ErrProblem.
func (e *ProblemError) Unwrap() error { return ErrProblem }

// The bounds of a request.
const (
	mostArea   = 1000   // m²
	mostStart  = 1000   // g/L
	mostStages = 10     // vessels of a cascade
	mostLoads  = 10_000 // loads through a cascade
	leastGiven = 1e-6   // of an area, m², and of a limit, g/m²
)

// check returns the first thing that is malformed, or nil.
func (r Request) check() error {
	if err := r.Load.check(); err != nil {
		return err
	}
	if err := r.Setting.check(); err != nil {
		return err
	}
	if l := r.Limit.Own; l != 0 && !(l >= leastGiven && l <= mostStart) {
		return &ProblemError{whyOf(l), "limit", l}
	}
	if r.Limit.Own == 0 && r.Limit.Standard == process.StandardUnsaid {
		return &ProblemError{WhyMissing, "limit", 0}
	}
	if r.Own != nil {
		return r.Own.check()
	}
	return nil
}

func (l Load) check() error {
	area := float64(l.Area)
	switch {
	case l.Material == material.None:
		return &ProblemError{WhyMissing, "material", 0}
	case !(area >= leastGiven && area <= mostArea):
		return &ProblemError{whyOf(area), "area", area}
	case !(l.Water >= temper.Lowest && l.Water <= temper.Highest):
		return &ProblemError{WhyNotLiquid, "water", float64(l.Water)}
	case !(l.Start >= 0 && l.Start <= mostStart):
		return &ProblemError{whyOf(l.Start), "start", l.Start}
	}
	return nil
}

func (s Setting) check() error {
	switch {
	case s.Vessel < quantity.Millilitre || s.Vessel > quantity.MaxVolume:
		return &ProblemError{whyOf(float64(s.Vessel)), "vessel", s.Vessel.ML()}
	case s.Flow < 0 || s.Flow > quantity.MaxVolume:
		return &ProblemError{whyOf(float64(s.Flow)), "flow", s.Flow.ML()}
	case s.Stages < 0 || s.Stages > mostStages:
		return &ProblemError{whyOf(float64(s.Stages)), "stages", float64(s.Stages)}
	case s.Loads < 0 || s.Loads > mostLoads:
		return &ProblemError{whyOf(float64(s.Loads)), "loads", float64(s.Loads)}
	case s.Contact < 0 || s.Contact > longest:
		return &ProblemError{whyOf(float64(s.Contact)), "contact", s.Contact.Seconds()}
	case s.Beat < 0 || s.Beat > longest || s.Beat > 0 && s.Beat < time.Second:
		return &ProblemError{whyOf(float64(s.Beat)), "beat", s.Beat.Seconds()}
	}
	return nil
}

// whyOf says what is wrong with a figure that is out of its bounds.
func whyOf(x float64) Why {
	switch {
	case x == 0:
		return WhyMissing
	case x > 0 && !math.IsInf(x, 1) && x < 1:
		return WhyMissing // too little to count as given
	case x > 0:
		return WhyTooLarge
	}
	return WhyNegative
}
