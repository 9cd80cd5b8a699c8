package cli

import (
	"errors"
	"strconv"
	"strings"

	"wetside/book"
	"wetside/trade/chem"
	"wetside/trade/quantity"
	"wetside/trade/wash"
	"wetside/words"
)

// explained says what is wrong with words or figures that a command was given, and what to write instead.
func explained(v *words.Voice, err error) string {
	if e, ok := errors.AsType[*chem.ReadError](err); ok {
		return unread(v, e)
	}
	if e, ok := errors.AsType[*chem.RangeError](err); ok {
		return v.Tell("range."+e.Of, "Found", plain(e.Value), "Low", plain(e.Low), "High", plain(e.High)).Text()
	}
	if e, ok := errors.AsType[*wash.ProblemError](err); ok {
		return v.Tell("wash."+string(e.Why), "Flag", flagOf(e.Field), "Found", plain(e.Got)).Text()
	}
	e, ok := errors.AsType[*book.FieldError](err)
	if !ok {
		return v.ReadError(err).Text()
	}
	if cause, read := errors.AsType[*quantity.ReadError](e.Cause); read && (len(e.Want) == 0 || !unfit(cause)) {
		return e.Field + ": " + v.ReadError(cause).Text()
	}
	return v.Tell("field."+string(e.Why), "Found", e.Found, "Want", strings.Join(e.Want, "; ")).Text()
}

// unfit reports whether words are not made as they should be, so that examples say more than a reason.
func unfit(e *quantity.ReadError) bool {
	switch e.Why {
	case quantity.WhyNoNumber, quantity.WhyNoUnit, quantity.WhyUnknownUnit, quantity.WhyTrailing, quantity.WhyEmpty:
		return true
	default:
		return false
	}
}

// unread says why words are no amount of a substance.
func unread(v *words.Voice, e *chem.ReadError) string {
	rest := ""
	if e.At > 0 && e.At < len(e.Text) {
		rest = e.Text[e.At:]
	}
	text := v.Tell("chem."+string(e.Why), "Found", e.Text, "Rest", rest).Text()
	if (e.Why == chem.WhyUnknown || e.Why == chem.WhyNoSuchHydrate) && e.Near != "" { // other reasons say what to write
		text += " " + v.Tell("cli.suggest", "Near", e.Near).Text()
	}
	return text
}

// flagOf returns the flag that gives a field of a washing request.
func flagOf(field string) string {
	switch field {
	case "area":
		return "--prints"
	case "start":
		return "--from"
	case "vessel":
		return "--tray"
	case "stages":
		return "--vessels"
	case "result":
		return "--found"
	case "time":
		return "--after"
	case "way":
		return "--washed-in"
	}
	return "--" + field
}

func plain(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
