package dilution

import "wetside/trade/quantity"

// An Error says why a label's words are no dilution. Words are in package words; here stand the facts.
type Error struct {
	Text   string // what was read, cut to 80 characters
	At     int    // byte offset of the trouble in Text
	Reason Reason
}

// Error says it in plain English, for logs and for callers without a catalogue.
func (e *Error) Error() string { return "dilution " + e.Text + ": " + string(e.Reason) }

// Reason is why words are no dilution, a key of the message catalogue.
type Reason string

// The reasons.
const (
	NoParts       Reason = "no_parts"         // one figure alone, which says nothing of the water
	NoWater       Reason = "no_water"         // 1+0, 1 in 1, 100 %: "undiluted" is the word for it
	NoChemical    Reason = "no_chemical"      // 0+9, or water on both sides
	MoreThanWhole Reason = "more_than_whole"  // 5 in 3, 120 %
	Dangling      Reason = "dangling"         // 1+ or +9: a sign with nothing on one side
	TooMany       Reason = "too_many"         // more than two chemicals and water
	TwoChemicals  Reason = "two_chemicals"    // chemical on both sides and no water
	WhichSide     Reason = "which_side"       // 9+1 developer: nothing says which of them is the water
	UnitOnOneSide Reason = "unit_on_one_side" // 16 per litre, 1+9 L
	Trailing      Reason = "trailing_words"
)

// Reasons returns every reason, so that a catalogue of messages can be held complete.
func Reasons() []Reason {
	return []Reason{
		NoParts, NoWater, NoChemical, MoreThanWhole, Dangling, TooMany, TwoChemicals, WhichSide, UnitOnOneSide, Trailing,
	}
}

// want is the name of what is read here, in every *quantity.ReadError.
const want = "dilution"

func (r *reader) fail(at int, why Reason) error {
	text := quantity.Shown(r.text)
	return &Error{Text: text, At: min(at, len(text)), Reason: why}
}

func (r *reader) tooLarge(at int) error {
	return quantity.NewReadError(r.text, at, want, quantity.WhyTooLarge)
}
