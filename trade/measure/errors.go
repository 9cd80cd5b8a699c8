package measure

import (
	"errors"
	"fmt"
)

// ErrProblem is wrapped by every error about a malformed problem: no vessel, an empty window, a tolerance
// of nothing, a scale whose marks do not divide.
var ErrProblem = errors.New("malformed measuring problem")

// Trouble says what is wrong with a problem, a key of the message catalogue.
type Trouble string

// The troubles.
const (
	NoVessel        Trouble = "no_vessel"
	TooManyVessels  Trouble = "too_many_vessels" // more than MaxVessels
	NoName          Trouble = "vessel_without_name"
	SameName        Trouble = "two_vessels_of_one_name"
	UnknownKind     Trouble = "unknown_kind"
	NoScale         Trouble = "vessel_without_scale"
	BadUnit         Trouble = "unknown_unit"
	BadStep         Trouble = "step_not_positive"
	BadFrom         Trouble = "from_not_positive"
	BadNumbered     Trouble = "numbered_negative"
	ToBelowFrom     Trouble = "to_below_from"
	DoesNotDivide   Trouble = "marks_do_not_divide" // (To−From)/Step is not whole
	TooManyMarks    Trouble = "too_many_marks"      // more than MaxMarks
	TooLarge        Trouble = "vessel_too_large"    // more than MaxVessel
	BadPermissible  Trouble = "permissible_error_not_usable"
	BadSetting      Trouble = "setting_not_usable"
	BadWidth        Trouble = "inner_width_not_usable"
	EmptyWindow     Trouble = "empty_window"
	WantOutside     Trouble = "wanted_outside_window"
	BadTolerance    Trouble = "tolerance_not_usable" // not above 0, above 1, not a number
	BadDilution     Trouble = "dilution_not_usable"  // none or more than two chemicals, parts of nothing or less
	BadAvailable    Trouble = "available_not_usable" // negative, or not one for each chemical
	BadDensity      Trouble = "density_not_usable"
	BadAlternatives Trouble = "too_many_alternatives"
)

// A ProblemError says what is wrong with a problem and where. It wraps ErrProblem.
type ProblemError struct {
	What   Trouble
	Vessel string // the vessel's name, where it is about one
	Index  int    // the vessel's, the scale's where Scale is set, or the chemical's index
	Scale  *Scale // the scale, where it is about one
}

// Error says it in plain English, for logs and for callers without a catalogue.
func (e *ProblemError) Error() string {
	if e.Vessel == "" {
		return fmt.Sprintf("%v: %s", ErrProblem, e.What)
	}
	return fmt.Sprintf("%v: %s: %s", ErrProblem, e.Vessel, e.What)
}

// Unwrap returns ErrProblem.
func (e *ProblemError) Unwrap() error { return ErrProblem }
