package hazard

import (
	"errors"
	"math"
	"strconv"
)

// A Share is a range of mass per cent, from Low to High.
type Share struct{ Low, High float64 }

// Exactly returns the range of one share.
func Exactly(percent float64) Share { return Share{percent, percent} }

// An Ingredient is one line of a label or a safety data sheet.
type Ingredient struct {
	Name  string // as written there
	Share Share
	// Open says that no share was declared: it can't be judged.
	Open bool
}

// A State is what stands there.
type State string

// The states.
const (
	Concentrate State = "concentrate"
	Powder      State = "powder"
	Stock       State = "stock"
	Working     State = "working"
	Used        State = "used"
)

// A Law is whose rules are followed.
type Law string

// The laws. Other follows the EU's rules.
const (
	EU    Law = "EU"
	UK    Law = "UK"
	US    Law = "US"
	CA    Law = "CA"
	Other Law = "other"
)

// american tells whether a law has the limits of the US and Canada.
func (l Law) american() bool { return l == US || l == CA }

// A Mixture is what is to be judged.
type Mixture struct {
	Ingredients []Ingredient
	State       State // Concentrate where empty
	Law         Law   // EU where empty
	// PH is as measured or declared where PHKnown; else it is reckoned where that can be.
	PH      float64
	PHKnown bool
}

// ErrMixture is wrapped by every error about a malformed mixture.
var ErrMixture = errors.New("malformed mixture")

// A Why is the reason of a MixtureError, a key of the message catalogue.
type Why string

// The reasons.
const (
	WhyNoName   Why = "no_name"  // an ingredient without a name
	WhyBelow    Why = "below"    // a share below nothing, or not a number
	WhyAbove    Why = "above"    // a share above 100 %
	WhyReversed Why = "reversed" // a range from the larger to the smaller
	WhyTotal    Why = "total"    // at least more than 100 % in all
	WhyTooMany  Why = "too_many" // more than MostIngredients
	WhyTooLong  Why = "too_long" // a name of more than a thousand bytes
	WhyOddPH    Why = "odd_ph"   // a pH that no water has
)

// MostIngredients is how many ingredients a mixture may have.
const MostIngredients = 200

const (
	longestName = 1000
	total       = 100.0
	// rounding is by how much the lower ends may exceed 100 % in all, as sheets round them.
	rounding = 1.0
)

// A MixtureError says what is malformed. It wraps ErrMixture.
type MixtureError struct {
	Why       Why
	Substance string // the ingredient, where it is one's
	Got       float64
}

// Error says it in plain English, for logs and for callers without a catalogue.
func (e *MixtureError) Error() string {
	return ErrMixture.Error() + ": " + strconv.Quote(e.Substance) + " " + strconv.FormatFloat(e.Got, 'g', -1, 64) + ": " + string(e.Why)
}

// Unwrap returns ErrMixture.
func (e *MixtureError) Unwrap() error { return ErrMixture }

// check returns the first thing that is malformed, or nil.
func (m Mixture) check() error {
	if len(m.Ingredients) > MostIngredients {
		return &MixtureError{Why: WhyTooMany, Got: float64(len(m.Ingredients))}
	}
	if !(m.PH >= -2 && m.PH <= 16) {
		return &MixtureError{Why: WhyOddPH, Got: m.PH}
	}
	least := 0.0
	for _, i := range m.Ingredients {
		if err := i.check(); err != nil {
			return err
		}
		least += i.Share.Low
	}
	if least > total+rounding {
		return &MixtureError{Why: WhyTotal, Got: least}
	}
	return nil
}

func (i Ingredient) check() error {
	switch {
	case i.Name == "":
		return &MixtureError{Why: WhyNoName}
	case len(i.Name) > longestName:
		return &MixtureError{Why: WhyTooLong, Got: float64(len(i.Name))}
	case i.Open:
		return nil
	}
	for _, end := range []float64{i.Share.Low, i.Share.High} {
		switch {
		case !(end >= 0): // not a number, too
			return &MixtureError{Why: WhyBelow, Substance: i.Name, Got: end}
		case end > total || math.IsInf(end, 1):
			return &MixtureError{Why: WhyAbove, Substance: i.Name, Got: end}
		}
	}
	if i.Share.Low > i.Share.High {
		return &MixtureError{Why: WhyReversed, Substance: i.Name, Got: i.Share.Low}
	}
	return nil
}
