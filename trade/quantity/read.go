package quantity

import (
	"errors"
	"time"
)

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
)

var errTodo = errors.New("not written yet")

// ReadRatio reads a bare number as people write it: 10, ½, 1/2, 1 1/2, 4½, 0,5, .5, 0.125.
func ReadRatio(text string) (Ratio, error) { return Ratio{}, errTodo }

// ReadVolume reads a volume. A bare oz is a fluid ounce; o says which where the words do not.
func ReadVolume(text string, o Ounce) (Volume, error) { return 0, errTodo }

// ReadVolumeUnit reads the unit of a scale: "mL", "fl oz", "US fl oz".
func ReadVolumeUnit(text string, o Ounce) (VolumeUnit, error) { return 0, errTodo }

// A Window is a range of volumes and the one that is wanted.
type Window struct{ Min, Max, Want Volume }

// ReadWindow reads "900 mL to 1 L", "900-1000 mL", "1.4 to 1.6 L" (Want is the upper end), or "1 L" alone,
// which is 10 % either way with 1 L wanted.
func ReadWindow(text string, o Ounce) (Window, error) { return Window{}, errTodo }

// ReadMass reads a mass: g, kg, mg, gr or grain, oz av, lb.
func ReadMass(text string) (Mass, error) { return 0, errTodo }

// ReadCelsius reads a temperature: 60 C, 60 °C, 12C, 140 F, 68 °F.
func ReadCelsius(text string) (Celsius, error) { return 0, errTodo }

// ReadLength reads mm, cm, m, in, inch, ", ft.
func ReadLength(text string) (Length, error) { return 0, errTodo }

// ReadSize reads a width and a height: 8x10 in, 8×10", 24x30 cm, 38 x 30 cm. Width comes first as written.
func ReadSize(text string) (w, h Length, err error) { return 0, 0, errTodo }

// ReadDensity reads "1.10 g/mL", "1.1 kg/L".
func ReadDensity(text string) (Density, error) { return 0, errTodo }

// ReadDuration reads 90 s, 1 min 30 s, 1:30 (minutes and seconds), 9 min, 9 min 45 s, 3 h, 1 h 30 min.
func ReadDuration(text string) (time.Duration, error) { return 0, errTodo }

// A Period is a keeping time by the calendar: months and days stay what they are, hours are exact.
type Period struct {
	Months, Days int
	Hours        int
}

// ReadPeriod reads 24 months, 2 years, 4 weeks, 1 week, 10 days, 24 h.
func ReadPeriod(text string) (Period, error) { return Period{}, errTodo }

// From returns the moment a period after t, by t's own calendar.
func (p Period) From(t time.Time) time.Time {
	return t.AddDate(0, p.Months, p.Days).Add(time.Duration(p.Hours) * time.Hour)
}

// ReadShare reads a relative amount: "2 %", "10%", "0.1" is refused (it has no unit). 15 % is 0.15.
func ReadShare(text string) (float64, error) { return 0, errTodo }
