package quantity

import "strings"

// A ReadError says why words could not be read as a quantity. Words are in package words; here stand the facts.
type ReadError struct {
	Text string // what was found, cut to 80 characters
	At   int    // byte offset of the trouble in Text
	Want string // what is read here: "volume", "temperature", ...
	Why  Why
	Near string // the nearest right word, or empty
}

// Error says it in plain English, for logs and for callers without a catalogue.
func (e *ReadError) Error() string { return e.Want + " " + e.Text + ": " + string(e.Why) }

// Why is the reason of a ReadError, a key of the message catalogue.
type Why string

// The reasons.
const (
	WhyEmpty       Why = "empty"
	WhyNoNumber    Why = "no_number"
	WhyNoUnit      Why = "no_unit"
	WhyUnknownUnit Why = "unknown_unit"
	WhyWhichOunce  Why = "which_ounce" // an ounce, pint, quart or gallon and no system set
	WhyNegative    Why = "negative"
	WhyNotPositive Why = "not_positive"
	WhyTooLarge    Why = "too_large"
	WhyTooSmall    Why = "too_small" // above 0 but below what can be held, or below absolute zero
	WhyTrailing    Why = "trailing_words"
	WhyIsMass      Why = "is_a_mass" // "100 g" where a volume is wanted
	WhyIsVolume    Why = "is_a_volume"
	WhyNoSuchDate  Why = "no_such_date" // for the readers of dates on the floors above
	WhyTooLong     Why = "too_long"     // more text or more figures than a quantity has
	WhyNotText     Why = "not_text"     // not UTF-8
	WhyGrouped     Why = "grouped"      // 1,000 or 1 000: one or a thousand, by country; write 1000, or 1
	WhyNoFraction  Why = "no_fraction"  // 1/0, or 1 3/2
	WhyReversed    Why = "reversed"     // a range that runs from more to less
	WhyNotWhole    Why = "not_whole"    // half a month, half a day
)

// Whys returns every reason, so that a catalogue of messages can be held complete.
func Whys() []Why {
	return []Why{
		WhyEmpty, WhyNoNumber, WhyNoUnit, WhyUnknownUnit, WhyWhichOunce, WhyNegative, WhyNotPositive, WhyTooLarge,
		WhyTooSmall, WhyTrailing, WhyIsMass, WhyIsVolume, WhyNoSuchDate, WhyTooLong, WhyNotText, WhyGrouped,
		WhyNoFraction, WhyReversed, WhyNotWhole,
	}
}

// maxShown is how many characters of a text an error repeats.
const maxShown = 80

// NewReadError returns a ReadError about byte at of text, with the text cut to what an error shows.
func NewReadError(text string, at int, want string, why Why) *ReadError {
	text = Shown(text)
	return &ReadError{Text: text, At: min(at, len(text)), Want: want, Why: why}
}

// Shown returns the start of a text that an error repeats: 80 characters, and no bytes that are not UTF-8.
func Shown(text string) string {
	text = strings.ToValidUTF8(text[:min(len(text), 4*maxShown)], "\uFFFD")
	if r := []rune(text); len(r) > maxShown {
		return string(r[:maxShown])
	}
	return text
}
