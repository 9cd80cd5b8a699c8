package chem

import (
	"strconv"

	"wetside/trade/quantity"
)

// A ReadError says why words are no formula, substance or amount, where, and what would be right. Words are in
// package words; here stand the facts.
type ReadError struct {
	Text string // what was read, cut to 80 characters
	At   int    // byte offset of the trouble in Text
	Want string // what is read here: "formula", "substance" or "amount"
	Why  Why
	Near string // the remedy: the nearest right name, or a writing that would be read; may be empty
}

// Error says it in plain English, for logs and for callers without a catalogue.
func (e *ReadError) Error() string {
	s := e.Want + " " + strconv.Quote(e.Text) + ": " + string(e.Why) + " at " + strconv.Itoa(e.At+1)
	if e.Near != "" {
		s += ", try " + e.Near
	}
	return s
}

// Why is the reason of a ReadError, a key of the message catalogue.
type Why string

// The reasons.
const (
	WhyEmpty          Why = "empty"
	WhyTooLong        Why = "too_long"          // more than maxText bytes
	WhyNotText        Why = "not_text"          // not UTF-8
	WhyUnknownElement Why = "unknown_element"   // no element is written so; capitals count
	WhyNoElement      Why = "no_element"        // a formula or a part of one begins with an element or a bracket
	WhyBadCount       Why = "bad_count"         // 0, a leading 0, above 9999, or part of an atom
	WhyUnclosed       Why = "unclosed_bracket"  // no bracket closes this one
	WhyUnopened       Why = "unopened_bracket"  // no bracket was opened, or one of the other kind
	WhyEmptyBrackets  Why = "empty_brackets"    // nothing between them
	WhyTooDeep        Why = "too_deep"          // more than 8 brackets in each other
	WhyCountOrCharge  Why = "count_or_charge"   // SO42-: write SO4^2-
	WhyBadCharge      Why = "bad_charge"        // no sign, 0, or above 9
	WhyAfterCharge    Why = "after_charge"      // a charge is the end of a formula
	WhyUnknown        Why = "unknown_substance" // no substance of the table has this name
	WhyNoSuchHydrate  Why = "no_such_hydrate"   // the substance is known, this hydrate is not
	WhyNoName         Why = "no_name"           // an amount of nothing
	WhyNoNumber       Why = "no_number"         // no amount, or none that can be read
	WhyNoUnit         Why = "no_unit"           // mol/kg or mmol/kg
	WhyUnknownUnit    Why = "unknown_unit"      // no unit of amount per kilogram of water
	WhyPerLitre       Why = "per_litre"         // mol/L: the chemistry wants mol per kg of water
	WhyIsMass         Why = "is_a_mass"         // g/L, g/kg: to be divided by the molar mass
	WhyNegative       Why = "negative"          // less than nothing
	WhyGrouped        Why = "grouped"           // 1,000: one or a thousand
	WhyTooLarge       Why = "too_large"         // above MostAmount
	WhyTooFine        Why = "too_fine"          // more figures than an amount has, or above 0 and below LeastAmount
)

// Whys returns every reason, so that a catalogue of messages can be held complete.
func Whys() []Why {
	return []Why{
		WhyEmpty, WhyTooLong, WhyNotText, WhyUnknownElement, WhyNoElement, WhyBadCount, WhyUnclosed, WhyUnopened,
		WhyEmptyBrackets, WhyTooDeep, WhyCountOrCharge, WhyBadCharge, WhyAfterCharge, WhyUnknown, WhyNoSuchHydrate,
		WhyNoName, WhyNoNumber, WhyNoUnit, WhyUnknownUnit, WhyPerLitre, WhyIsMass, WhyNegative, WhyGrouped,
		WhyTooLarge, WhyTooFine,
	}
}

// maxText is the longest text that is read as a formula, a name or an amount, in bytes.
const maxText = 200

func failed(text string, at int, want string, why Why, near string) *ReadError {
	text = quantity.Shown(text)
	return &ReadError{Text: text, At: min(at, len(text)), Want: want, Why: why, Near: near}
}

// A RangeError says that a value lies outside what this package computes.
type RangeError struct {
	Of        string // "temperature" (°C), "amount" (mol/kg), "ph", "points"
	Value     float64
	Low, High float64 // the ends of what is computed, or of what can be reached
}

// Error says it in plain English, for logs and for callers without a catalogue.
func (e *RangeError) Error() string {
	return e.Of + " " + text(e.Value) + " is not within " + text(e.Low) + " to " + text(e.High)
}

func text(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
