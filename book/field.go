package book

import (
	"errors"
	"fmt"

	"wetside/trade/quantity"
)

// FieldWhy is what is wrong with a field, a key of the message catalogue.
type FieldWhy string

// What can be wrong with a field.
const (
	FieldMissing    FieldWhy = "missing"     // it must be there
	FieldNoID       FieldWhy = "no_id"       // what stands there is no id
	FieldNoWord     FieldWhy = "no_word"     // none of the words that can stand there, which Want lists
	FieldUnreadable FieldWhy = "unreadable"  // no such quantity; the cause says where and how, Want has examples
	FieldBelowZero  FieldWhy = "below_zero"  // a count below zero
	FieldNothing    FieldWhy = "nothing"     // a count or a volume of nothing
	FieldTooMuch    FieldWhy = "too_much"    // more than any darkroom has; Want has the most
	FieldOutside    FieldWhy = "outside"     // not between the two that Want has
	FieldClashes    FieldWhy = "clashes"     // it can't stand beside the field that Want names
	FieldNotOfSteps FieldWhy = "not_of_them" // none of the strip's own steps, which Want lists
)

// A FieldError says which field of a body is wrong, and what would do in its place.
type FieldError struct {
	Field string   // as in the body's JSON: sheets, baths[1], before[0].size
	Found string   // what stands there
	Why   FieldWhy //
	Want  []string // words that can stand there, or examples
	Cause error    // a *quantity.ReadError where words could not be read, else nil
}

// Error says it for the log.
func (e *FieldError) Error() string {
	text := fmt.Sprintf("%s %q: %s", e.Field, e.Found, e.Why)
	if len(e.Want) > 0 {
		text += fmt.Sprintf(", want %q", e.Want)
	}
	if e.Cause != nil {
		text += ": " + e.Cause.Error()
	}
	return text
}

// Unwrap returns the cause.
func (e *FieldError) Unwrap() error { return e.Cause }

// ErrorKind makes it BadInput.
func (e *FieldError) ErrorKind() ErrorKind { return BadInput }

// ErrorKey returns the key of its sentence.
func (e *FieldError) ErrorKey() string { return "field_" + string(e.Why) }

// within returns the error of a field that lies within another.
func within(outer string, err error) error {
	f, ok := errors.AsType[*FieldError](err)
	if !ok {
		return err
	}
	inner := *f
	inner.Field = outer + "." + f.Field
	return &inner
}

// wantID reports an id that is missing or none.
func wantID(field, id string) error {
	switch {
	case id == "":
		return &FieldError{Field: field, Why: FieldMissing}
	case !ValidID(id):
		return &FieldError{Field: field, Found: quantity.Shown(id), Why: FieldNoID}
	}
	return nil
}

// mayID reports an id that is none, and lets a missing one pass.
func mayID(field, id string) error {
	if id == "" {
		return nil
	}
	return wantID(field, id)
}

// oneOf reports a word that is none of all, and lets an empty one pass.
func oneOf[T ~string](field string, word T, all ...T) error {
	want := make([]string, 0, len(all))
	for _, w := range all {
		if word == w || word == "" {
			return nil
		}
		want = append(want, string(w))
	}
	return &FieldError{Field: field, Found: quantity.Shown(string(word)), Why: FieldNoWord, Want: want}
}

// mustBe is oneOf of a word that must be there.
func mustBe[T ~string](field string, word T, all ...T) error {
	if word != "" {
		return oneOf(field, word, all...)
	}
	err := &FieldError{Field: field, Why: FieldMissing}
	for _, w := range all {
		err.Want = append(err.Want, string(w))
	}
	return err
}

// readVolume reads the field volume: above nothing, so many times over; 0 for empty words.
func readVolume(words string, times int, o Ounce) (quantity.Volume, error) {
	if words == "" {
		return 0, nil
	}
	if err := oneOf("ounce", o, USOunce, ImperialOunce); err != nil {
		return 0, err
	}
	if times < 0 || times > maxTimes {
		return 0, &FieldError{Field: "times", Found: fmt.Sprint(times), Why: FieldTooMuch, Want: []string{fmt.Sprint(maxTimes)}}
	}
	v, err := quantity.ReadVolume(words, o.Quantity())
	if err == nil {
		v, err = quantity.Int(int64(max(times, 1))).Of(v)
	}
	switch {
	case err != nil:
		return 0, &FieldError{
			Field: "volume", Found: quantity.Shown(words), Why: FieldUnreadable, Want: []string{"1.8 L", "500 mL", "32 fl oz"}, Cause: err,
		}
	case v <= 0:
		return 0, &FieldError{Field: "volume", Found: quantity.Shown(words), Why: FieldNothing, Want: []string{"1.8 L"}}
	}
	return v, nil
}
