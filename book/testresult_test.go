package book_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetside/book"
)

func TestReadTestResult(t *testing.T) {
	verdict := func(test book.Test, v book.Verdict) book.TestResult { return book.TestResult{Test: test, Verdict: v} }
	figure := func(test book.Test, from, to float64) book.TestResult {
		return book.TestResult{Test: test, From: from, To: to}
	}
	for _, c := range []struct {
		test book.Test
		text string
		want book.TestResult
	}{
		{book.SilverStrip, "1 g/L", figure(book.SilverStrip, 1, 1)},
		{book.SilverStrip, "under 0.5 g/l", figure(book.SilverStrip, 0, 0.5)},
		{book.SilverStrip, "over 3 g/L", figure(book.SilverStrip, 3, math.Inf(1))},
		{book.SilverStrip, "0.5 to 1 g/L", figure(book.SilverStrip, 0.5, 1)},
		{book.ClearingTime, "50 s against 30 s", book.TestResult{Test: book.ClearingTime, From: 50, To: 50, Fresh: 30 * time.Second}},
		{book.ClearingTime, "1 min 20 s", figure(book.ClearingTime, 80, 80)},
		{book.ClearingTime, "over 5 min against 30 s", book.TestResult{
			Test: book.ClearingTime, From: 300, To: math.Inf(1), Fresh: 30 * time.Second,
		}},
		{book.IndicatorTest, "turned", verdict(book.IndicatorTest, book.Failed)},
		{book.IndicatorTest, "Not  turned", verdict(book.IndicatorTest, book.Passed)},
		{book.PHPaper, "5.5", figure(book.PHPaper, 5.5, 5.5)},
		{book.PHPaper, "pH 5 to 5.5", figure(book.PHPaper, 5, 5.5)},
		{book.DropTest, "cloudy", verdict(book.DropTest, book.Failed)},
		{book.DropTest, "passed", verdict(book.DropTest, book.Passed)},
		{book.SilverDrop, "stain", verdict(book.SilverDrop, book.Failed)},
		{book.HypoDrop, "no stain", verdict(book.HypoDrop, book.Passed)},
		{book.HypoDrop, "under 0.01 g/m²", figure(book.HypoDrop, 0, 0.01)},
		{book.LightTest, "90 s against 60 s", book.TestResult{Test: book.LightTest, From: 90, To: 90, Fresh: time.Minute}},
		{book.LightTest, "as dark", verdict(book.LightTest, book.Passed)},
		{book.Thermometer, "68 °F", figure(book.Thermometer, 20, 20)},
		{book.LevelTest, "1.8 L", figure(book.LevelTest, 1800, 1800)},
		{book.LevelTest, "64 fl oz", figure(book.LevelTest, 1892.705892, 1892.705892)}, // NIST HB 44: 29.5735295625 mL
	} {
		got, err := book.ReadTestResult(c.test, c.text, book.USOunce)
		if err != nil || math.Abs(got.From-c.want.From) > 1e-6 || got.To != c.want.To && math.Abs(got.To-c.want.To) > 1e-6 ||
			got.Verdict != c.want.Verdict || got.Fresh != c.want.Fresh || got.Test != c.test {
			t.Errorf("%s %q: got %+v, %v, want %+v", c.test, c.text, got, err, c.want)
		}
	}
}

func TestTestResultsRefused(t *testing.T) {
	for _, c := range []struct {
		test book.Test
		text string
		why  book.FieldWhy
	}{
		{book.SilverStrip, "1", book.FieldUnreadable},
		{book.SilverStrip, "passed", book.FieldUnreadable},
		{book.SilverStrip, "-1 g/L", book.FieldUnreadable},
		{book.SilverStrip, "1000 g/L", book.FieldUnreadable},
		{book.SilverStrip, "2 to 1 g/L", book.FieldUnreadable},
		{book.SilverStrip, "under", book.FieldUnreadable},
		{book.SilverStrip, "", book.FieldMissing},
		{book.ClearingTime, "30", book.FieldUnreadable},
		{book.ClearingTime, "30 s against", book.FieldUnreadable},
		{book.ClearingTime, "30 s against 0 s", book.FieldUnreadable},
		{book.ClearingTime, "0 s", book.FieldUnreadable},
		{book.IndicatorTest, "purple", book.FieldNoWord},
		{book.PHPaper, "15", book.FieldUnreadable},
		{book.DropTest, "1 g/L", book.FieldNoWord},
		{book.Thermometer, "20", book.FieldUnreadable},
		{book.Thermometer, "over 20 °C", book.FieldUnreadable},
		{book.Thermometer, "400 °C", book.FieldUnreadable},
		{book.LevelTest, "-1 L", book.FieldUnreadable},
		{"smell", "bad", book.FieldNoWord},
		{"", "passed", book.FieldMissing},
	} {
		_, err := book.ReadTestResult(c.test, c.text, book.USOunce)
		bad, ok := errors.AsType[*book.FieldError](err)
		if !ok || bad.Why != c.why || len(bad.Want) == 0 || book.KindOf(err) != book.BadInput {
			t.Errorf("%s %q: got %v, want %s and what would do", c.test, c.text, err, c.why)
		}
	}
}

// TestWantsAreRead reads all that an error offers.
func TestWantsAreRead(t *testing.T) {
	for _, test := range book.Tests() {
		if len(test.Wants()) < 2 {
			t.Errorf("%s offers %q, want two at least", test, test.Wants())
		}
		for _, text := range test.Wants() {
			r, err := book.ReadTestResult(test, text, book.USOunce)
			if err != nil {
				t.Errorf("%s offers %q: %v", test, text, err)
			}
			if again, err := book.ReadTestResult(test, r.String(), book.NoOunce); err != nil || !alike(again, r) {
				t.Errorf("%s %q is written %q and read as %+v, %v", test, text, r, again, err)
			}
		}
	}
}

// alike lets a time go by half a nanosecond, a volume by one of its units.
func alike(a, b book.TestResult) bool {
	near := func(x, y float64) bool { return x == y || math.Abs(x-y) < 1e-8 }
	return a.Test == b.Test && a.Verdict == b.Verdict && near(a.From, b.From) && near(a.To, b.To) && a.Fresh == b.Fresh
}

func TestResultsAreReadAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := book.TestResult{Test: rapid.SampledFrom(book.Tests()).Draw(t, "test")}
		most := map[book.Test]int{
			book.SilverStrip: 20_000, book.HypoDrop: 1000, book.PHPaper: 14_000, book.ClearingTime: 900_000,
			book.LightTest: 900_000, book.Thermometer: 60_000, book.LevelTest: 5_000_000,
		}[r.Test]
		if most == 0 {
			r.Verdict = rapid.SampledFrom([]book.Verdict{book.Passed, book.Failed}).Draw(t, "verdict")
		} else {
			r.From = float64(rapid.IntRange(1, most).Draw(t, "thousandths")) / 1000
			r.To = r.From
			if r.Test != book.Thermometer && r.Test != book.LevelTest {
				r.To = rapid.SampledFrom([]float64{r.From, math.Inf(1)}).Draw(t, "to")
			}
			if r.Test == book.ClearingTime {
				r.Fresh = time.Duration(rapid.IntRange(0, 90).Draw(t, "fresh")) * time.Second
			}
		}
		got, err := book.ReadTestResult(r.Test, r.String(), book.NoOunce)
		if err != nil || !alike(got, r) {
			t.Fatalf("%+v is written %q and read as %+v, %v", r, r, got, err)
		}
	})
}

func TestClass(t *testing.T) {
	steps := []float64{0.5, 1, 1.5, 2, 3}
	for text, want := range map[string]int{
		"under 0.5 g/L": 0, "0.5 g/L": 1, "0.5 to 1 g/L": 1, "1 g/L": 2, "3 g/L": 5, "over 3 g/L": 5,
		"0.7 g/L": -1, "over 2 g/L": -1, "0.5 to 2 g/L": -1, "under 1 g/L": -1,
	} {
		r, err := book.ReadTestResult(book.SilverStrip, text, book.NoOunce)
		if err != nil {
			t.Fatal(err)
		}
		got, err := r.Class(steps)
		bad, isField := errors.AsType[*book.FieldError](err)
		if want < 0 && (!isField || bad.Why != book.FieldNotOfSteps || len(bad.Want) != 6) || want >= 0 && (err != nil || got != want) {
			t.Errorf("%s is class %d, %v, want %d", text, got, err, want)
		}
	}
}
