package quantity

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
	WhyTrailing    Why = "trailing_words"
	WhyIsMass      Why = "is_a_mass" // "100 g" where a volume is wanted
	WhyIsVolume    Why = "is_a_volume"
	WhyNoSuchDate  Why = "no_such_date"
	WhyTooLong     Why = "too_long"    // more text or more figures than a quantity has
	WhyNotText     Why = "not_text"    // not UTF-8
	WhyGrouped     Why = "grouped"     // 1,000 or 1 000: one or a thousand, by country; write 1000 or 1.0
	WhyNoFraction  Why = "no_fraction" // 1/0, or 1 3/2
	WhyTooSmall    Why = "too_small"   // below what can be held, or below absolute zero
	WhyReversed    Why = "reversed"    // a range that runs from more to less
	WhyNotWhole    Why = "not_whole"   // half a month, half a day
)

// ReadRatio reads a bare number as people write it: 10, ½, 1/2, 1 1/2, 1-1/2, 4½, 0,5, .5, 0.125.
func ReadRatio(text string) (Ratio, error) {
	s, err := open(text, "number")
	if err != nil {
		return Ratio{}, err
	}
	r, err := s.ratio()
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return Ratio{}, err
	}
	return r, nil
}

// ScanRatio reads the number that stands at byte at of text, and returns where it ends.
func ScanRatio(text string, at int) (r Ratio, end int, err error) {
	s := &scan{text: text, at: at, want: "number"}
	if r, err = s.ratio(); err != nil {
		return Ratio{}, at, err
	}
	return r, s.at, nil
}

// ratio reads a number that is wanted exactly.
func (s *scan) ratio() (Ratio, error) {
	start := s.at
	n, err := s.number()
	if err != nil {
		return Ratio{}, err
	}
	r, err := n.ratio()
	if err != nil {
		return Ratio{}, s.failAt(start, WhyTooLong, "")
	}
	return r, nil
}
