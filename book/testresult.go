package book

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"wetside/trade/quantity"
)

// Test is a test that somebody makes in a darkroom.
type Test string

// The tests.
const (
	SilverStrip   Test = "silver strip"         // a strip dipped into a fixer and held to its scale
	ClearingTime  Test = "clearing time"        // of film, against the same film in fresh fixer
	IndicatorTest Test = "indicator"            // whether a stop bath's colour has turned
	PHPaper       Test = "pH paper"             //
	DropTest      Test = "drop test"            // a drop of test solution into a fixer
	SilverDrop    Test = "residual silver"      // a drop on a print's white border
	HypoDrop      Test = "residual thiosulfate" // a drop on a washed print's white border
	LightTest     Test = "sheet in room light"  // developed in the tray, and another in a cup of fresh developer
	Thermometer   Test = "thermometer"
	LevelTest     Test = "level" // what is in a tray or bottle, by looking
)

// Tests returns all tests.
func Tests() []Test {
	return []Test{
		SilverStrip, ClearingTime, IndicatorTest, PHPaper, DropTest, SilverDrop, HypoDrop, LightTest, Thermometer, LevelTest,
	}
}

// Verdict is what a test without a figure says.
type Verdict uint8

// The verdicts.
const (
	NoVerdict Verdict = iota
	Passed
	Failed
)

// A TestResult is what a test showed, as it was read. It has a verdict, or a figure that lies between From and To.
type TestResult struct {
	Test    Test
	Verdict Verdict
	// From and To bound the figure: g/L for a silver strip, g/m² for residual thiosulfate, pH, °C, seconds, mL. They are
	// alike for a plain figure; "under" has From 0, "over" has To infinite.
	From, To float64
	// Fresh is the time that it was held against: of the same film in fresh fixer, of the sheet in the cup. 0: none.
	Fresh time.Duration
}

// Wants returns what can be said of a test: its words, and examples of its figures; nothing for none of ours.
func (t Test) Wants() []string {
	s, _ := shapeOf(t)
	return slices.Concat(s.passed[:min(1, len(s.passed))], s.failed[:min(1, len(s.failed))], s.examples)
}

// ReadTestResult reads what a test showed: passed or failed or the test's own words for it; a figure with its unit, "under"
// or "over" one, a range; two times as "50 s against 30 s". o says what an ounce is in a level. The error is a *FieldError
// whose Want says what could stand there.
func ReadTestResult(t Test, text string, o Ounce) (TestResult, error) {
	s, ok := shapeOf(t)
	if !ok {
		return TestResult{}, mustBe("test", t, Tests()...)
	}
	r := TestResult{Test: t}
	said := strings.Join(strings.Fields(text), " ")
	switch {
	case slices.Contains(s.passed, strings.ToLower(said)):
		r.Verdict = Passed
		return r, nil
	case slices.Contains(s.failed, strings.ToLower(said)):
		r.Verdict = Failed
		return r, nil
	}
	bad := &FieldError{Field: "result", Found: quantity.Shown(said), Why: FieldUnreadable, Want: t.Wants()}
	switch {
	case said == "":
		bad.Why = FieldMissing
		return r, bad
	case s.figure == nil:
		bad.Why = FieldNoWord
		return r, bad
	}
	if bad.Cause = r.readFigure(s.figure, said, o); bad.Cause != nil {
		return r, bad
	}
	return r, nil
}

func (r *TestResult) readFigure(m *measure, said string, o Ounce) (err error) {
	if tray, fresh, two := strings.Cut(said, " against "); two && m.against {
		said = tray
		var f float64
		if f, err = m.read(fresh, o); err != nil {
			return err
		}
		r.Fresh = time.Duration(f * float64(time.Second))
	}
	word, rest, _ := strings.Cut(said, " ")
	from, to, isRange := strings.Cut(said, " to ")
	switch {
	case m.bounded && word == "under":
		r.To, err = m.read(rest, o)
	case m.bounded && word == "over":
		r.From, err = m.read(rest, o)
		r.To = math.Inf(1)
	case m.bounded && isRange:
		if r.To, err = m.read(to, o); err != nil {
			return err
		}
		// The first figure may leave its unit to the second.
		if r.From, err = m.read(from, o); err != nil {
			r.From, err = m.read(strings.TrimSpace(from)+unitOf(to), o)
		}
		if err == nil && r.From >= r.To {
			err = quantity.NewReadError(said, 0, "range", quantity.WhyReversed)
		}
	default:
		r.From, err = m.read(said, o)
		r.To = r.From
	}
	return err
}

// unitOf returns what stands behind the number of a quantity.
func unitOf(text string) string {
	if _, end, err := quantity.ScanRatio(text, 0); err == nil {
		return text[end:]
	}
	return ""
}

// String writes a result so that ReadTestResult reads the same: "under 0.5 g/L", "50 s against 30 s", "passed".
func (r TestResult) String() string {
	s, ok := shapeOf(r.Test)
	switch {
	case !ok:
		return ""
	case r.Verdict == Passed:
		return s.passed[0]
	case r.Verdict == Failed:
		return s.failed[0]
	}
	m := s.figure
	if m == nil {
		return ""
	}
	var text string
	switch {
	case math.IsInf(r.To, 1):
		text = "over " + m.write(r.From)
	case r.From == r.To:
		text = m.write(r.From)
	case r.From <= 0:
		text = "under " + m.write(r.To)
	default:
		text = m.write(r.From) + " to " + m.write(r.To)
	}
	if r.Fresh > 0 {
		text += " against " + quantity.Duration(r.Fresh)
	}
	return text
}

// Class returns which of a silver strip's steps (g/L, rising) the result is: 0 for less than the first, n for the n-th.
// The error, a *FieldError, says that it is none of them.
func (r TestResult) Class(steps []float64) (int, error) {
	if r.Test == SilverStrip && len(steps) > 0 {
		last := len(steps) - 1
		if r.From <= 0 && r.To == steps[0] {
			return 0, nil
		}
		for i, s := range steps {
			whole := r.To == s || math.IsInf(r.To, 1) && i == last || i < last && r.To == steps[i+1]
			if r.From == s && whole {
				return i + 1, nil
			}
		}
	}
	e := &FieldError{Field: "result", Found: r.String(), Why: FieldNotOfSteps}
	for i, s := range steps {
		step := strconv.FormatFloat(s, 'f', -1, 64) + " g/L"
		if i == 0 {
			e.Want = append(e.Want, "under "+step)
		}
		e.Want = append(e.Want, step)
	}
	return 0, e
}
