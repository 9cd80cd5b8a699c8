package keep

import (
	"errors"
	"strconv"

	"wetside/trade/process"
	"wetside/trade/quantity"
)

// ErrProblem is wrapped by every error about something that is malformed.
var ErrProblem = errors.New("malformed keeping problem")

// A ProblemError says what is malformed. It wraps ErrProblem.
type ProblemError struct {
	Field string // role, form, level, warmest, in_tray, now, between, label
	Got   float64
}

// Error says it in plain English, for logs and for callers without a catalogue.
func (e *ProblemError) Error() string {
	return ErrProblem.Error() + ": " + e.Field + " " + strconv.FormatFloat(e.Got, 'g', -1, 64)
}

// Unwrap returns ErrProblem.
func (e *ProblemError) Unwrap() error { return ErrProblem }

// check returns what is malformed, the first of it, or nil.
func (k Kept) check() error {
	switch {
	case k.Product.Role == process.NoRole:
		return &ProblemError{"role", 0}
	case k.Product.Form == NoForm:
		return &ProblemError{"form", 0}
	case !(k.Level >= 0 && k.Level <= 1):
		return &ProblemError{"level", k.Level}
	case k.Warmest != nil && !(*k.Warmest > -50 && *k.Warmest < 80):
		return &ProblemError{"warmest", float64(*k.Warmest)}
	case k.InTray < 0:
		return &ProblemError{"in_tray", k.InTray.Seconds()}
	case k.Now.IsZero():
		return &ProblemError{"now", 0}
	case k.Between == Tray:
		return &ProblemError{"between", float64(k.Between)}
	}
	for _, p := range k.Product.Label {
		if p.Months < 0 || p.Days < 0 || p.Hours < 0 || p == (quantity.Period{}) {
			return &ProblemError{"label", inDays(p)}
		}
	}
	return nil
}
