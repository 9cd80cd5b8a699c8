package wash_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/wash"
)

// stainOf is the stain that a drop leaves where so much is left, g/m²; none of them beyond the darkest.
func stainOf(left float64) wash.Stain {
	for _, s := range wash.Stains() {
		if _, most := s.Between(); left <= most.Value {
			return s
		}
	}
	return wash.StainUnsaid
}

// drawnTest is a wash that was tested in a room whose truth is another time constant, and what an integration of masses
// says was left.
func drawnTest(t *rapid.T, truth float64) (wash.Test, float64) {
	x := wash.Test{
		Load: drawLoad(t), Setting: drawSetting(t),
		Way: rapid.SampledFrom([]wash.Way{wash.StillChanges, wash.Running, wash.StandingTray}).Draw(t, "way"),
	}
	contact := rapid.IntRange(700, 1500).Draw(t, "contact") // no shorter than the least, in water of 2 °C
	contact += contact % 2
	full := rapid.IntRange(0, 4).Draw(t, "full")
	flow, contacts := x.Setting.Flow.ML()/60_000, []float64{}
	for range full {
		contacts = append(contacts, float64(contact))
	}
	contacts = append(contacts, float64(contact/2))
	x.Time = time.Duration(full*contact+contact/2) * time.Second
	each := time.Duration(contact) * time.Second
	switch x.Way {
	case wash.StillChanges:
		flow, x.Setting.Contact = 0, each
	case wash.StandingTray:
		x.Setting.Beat = max(each, time.Second)
	default:
		contacts = []float64{x.Time.Seconds()}
	}
	if x.Load.Water < 10 && x.Load.Material == material.FB && x.Way != wash.Running {
		x.Load.Water = 10
	}
	return x, integratedIn(x.Load, truth, x.Setting.Vessel.ML()/1000, flow, contacts)
}

// TestARoomIsFoundBack: in a synthetic room that washes slower or faster than the table, one test finds that out: a figure
// to within rounding, a drop's class within the band that is stated, and never on the fast side of the truth where it moves.
func TestARoomIsFoundBack(t *testing.T) {
	seen := map[wash.Stain]int{}
	moved := 0
	check := func(t *rapid.T) {
		truth := math.Exp(rapid.Float64Range(-1.2, 1.6).Draw(t, "ln truth"))
		test, left := drawnTest(t, truth)
		stain := stainOf(left)
		held := 158 * wash.Held(test.Load.Material).Value / 1000
		if left < 1e-5 || left > held/3 || stain == wash.StainUnsaid {
			return // washed out, hardly washed, or off the drop's scale
		}
		test.Found = wash.Measured(left)
		got, err := wash.Calibrate(test)
		if err != nil {
			t.Fatal(err)
		}
		other := test
		other.Found = wash.Measured(left * 1.001)
		if nudged, err := wash.Calibrate(other); err != nil || nudged.Factor > got.Factor*1.005 {
			return // the water and not the paper decides what is left
		}
		if math.Abs(got.Factor/truth-1) > 1e-3 || got.Short > truth || got.Long < truth {
			t.Errorf("a figure: %g (%g to %g), truth %g", got.Factor, got.Short, got.Long, truth)
		}
		test.Found = wash.Found{Stain: stain}
		seen[stain]++
		if got, err = wash.Calibrate(test); err != nil {
			t.Fatal(err)
		}
		if found(got.Findings, wash.TestAgrees) != nil {
			if got.Factor != 1 || got.Short < 1/1.5-1e-9 || got.Long > 1.5+1e-9 || truth > 1/1.5 && truth < 1.5 && (got.Short > truth || got.Long < truth) {
				t.Errorf("%v agrees: %g (%g to %g), truth %g", stain, got.Factor, got.Short, got.Long, truth)
			}
			return
		}
		moved++
		if got.Factor < truth*(1-1e-3) || got.Short > truth || got.Long < truth {
			t.Errorf("%v: %g (%g to %g), truth %g", stain, got.Factor, got.Short, got.Long, truth)
		}
	}
	for tries := 0; tries < 10 && (moved < 5 || len(seen) < 3) && !t.Failed(); tries++ { // a hundred at a time; few are off the table
		rapid.Check(t, check)
	}
	if moved < 5 || len(seen) < 3 {
		t.Errorf("only %d stains moved anything, of %v", moved, seen)
	}
}

// TestOwnByHand: in plenty of running water RC paper is one exponential: what is left after t is start·exp(−t ÷ τ), so that a
// figure gives τ by hand.
func TestOwnByHand(t *testing.T) {
	r := tray(material.RC, process.Exhibition)
	r.Load.Area, r.Setting.Flow = 0.01, 400*quantity.Litre
	start, after := 158*0.035, 3*time.Minute
	for _, left := range []float64{0.002, 0.0137, 0.05, 0.4} {
		want := after.Seconds() / math.Log(start/left) / 30
		own := calibrated(t, r, wash.Running, after, wash.Measured(left))
		near(t, "factor", own.Factor, want, 0.01)
		r.Own = &own
		fits := way(t, solve(t, r), wash.Running)
		near(t, "time", fits.Time.Seconds(), 30*want*math.Log(start/0.02), 0.01)
		near(t, "safe", fits.Safe.Seconds()/fits.Time.Seconds(), 1.15, 0.01)
	}
}

// TestADropIsABand: what the drop leaves open stays open, the worse end of what contradicts the table is met, a limit that no
// drop can show is said to be so.
func TestADropIsABand(t *testing.T) {
	r := tray(material.FB, process.Archival)
	for _, c := range []struct {
		name        string
		found       wash.Found
		minutes     int
		agrees      bool
		worst       float64 // g/m² that the factor in use leaves; 0: the table's
		coarse, far bool
	}{
		{"clear after an hour", wash.Found{Stain: wash.ClearStain}, 60, false, 0.1, true, false},
		{"the same in figures", wash.Found{Least: 0.03, Most: 0.1}, 60, false, 0.1, false, false},
		{"any stain", wash.AnyStain(), 60, true, 0, false, false},
		{"over a figure", wash.Found{Least: 0.1, Most: math.Inf(1)}, 60, false, 1, false, false},
		{"under a figure", wash.Found{Most: 0.005}, 60, false, 0.005, false, false},
		{"nothing measured is what a drop calls none", wash.Found{}, 90, true, 0, true, false},
		{"none after three hours", wash.Found{Stain: wash.NoStain}, 180, true, 0, true, false},
		{"dark after ten hours", wash.Found{Stain: wash.DarkStain}, 600, false, 0, true, true},
	} {
		own := calibrated(t, r, wash.Running, time.Duration(c.minutes)*time.Minute, c.found)
		asked := r
		asked.Own = &own
		a := solve(t, asked)
		if got := found(a.Findings, wash.TestAgrees) != nil; got != c.agrees || got != (own.Factor == 1) {
			t.Errorf("%s: agrees %v, factor %g", c.name, got, own.Factor)
		}
		if got := found(a.Findings, wash.TestTooCoarse) != nil; got != c.coarse {
			t.Errorf("%s: too coarse %v", c.name, got)
		}
		if got := found(a.Findings, wash.TestFar) != nil; got != c.far {
			t.Errorf("%s: far %v at %g", c.name, got, own.Factor)
		}
		if at := curve(t, asked, wash.Result{Way: wash.Running}, own.Test.Time, 2)[1]; c.worst > 0 && math.Abs(at.Left/c.worst-1) > 1e-6 {
			t.Errorf("%s: %g left, want %g", c.name, at.Left, c.worst)
		}
		if own.Long > 1.5 && c.agrees {
			t.Errorf("%s: opens the band of an untested room to %g", c.name, own.Long)
		}
	}
}

// TestOwnKeepsOneClock: a print put in later starts all again in the room's own time, and RC paper that its own test holds in the
// water beyond ten minutes is told of (an hour by the last print put in: Wikipedia, Photographic fixer).
func TestOwnKeepsOneClock(t *testing.T) {
	r := tray(material.RC, process.Exhibition)
	before := way(t, solve(t, r), wash.Running)
	own := calibrated(t, r, wash.Running, 8*time.Minute, wash.Measured(0.2))
	r.Own = &own
	after := way(t, solve(t, r), wash.Running)
	if found(before.Findings, wash.RCTooLong) != nil || found(after.Findings, wash.RCTooLong) == nil {
		t.Errorf("RC for %v and, by its own test, for %v: %+v, %+v", before.Time, after.Time, before.Findings, after.Findings)
	}
	nine := time.Date(2026, time.December, 3, 21, 0, 0, 0, time.UTC)
	puts := []wash.Put{{At: nine, Material: material.RC}, {At: nine.Add(2 * time.Minute), Material: material.RC}}
	c, ok := wash.Together(puts, after.SafeTime())
	if !ok || c.Restarts != 1 || !c.Out.Equal(puts[1].At.Add(after.SafeTime())) || after.SafeTime() <= before.SafeTime() {
		t.Errorf("put in 2 min later: %+v, want out %v after that", c, after.SafeTime())
	}
	if f := found(c.Findings, wash.RCTooLong); f == nil || f.Got.Value != (2*time.Minute+after.SafeTime()).Seconds() {
		t.Errorf("the first of them is in for %+v", c.Findings)
	}
	if f, long := wash.Overlong(material.RC, time.Hour); !long || f.Got.Value != 3600 {
		t.Errorf("an hour: %+v", f)
	}
}

// TestOwnIsNamed: the factor stands in the reckoning as the room's own, with what was found and after how long; the ways' time
// constant opens to it.
func TestOwnIsNamed(t *testing.T) {
	r := tray(material.FB, process.Exhibition)
	own := calibrated(t, r, wash.Running, time.Hour, wash.Found{Stain: wash.ClearStain})
	r.Own = &own
	var named bool
	for _, x := range solve(t, r).Reckonings {
		if x.Rule == "residual_test" {
			named = x.Result.Name == "own_factor" && x.Puts[0].Value == 0.03 && x.Puts[1].Value == 0.1 && x.Puts[2].Value == 3600
		}
		if x.Rule == "time_constant" && x.Result.Name == "time_constant" {
			if last := x.Puts[len(x.Puts)-1]; last.Name != "own_factor" || last.By == nil || last.Value != own.Factor {
				t.Errorf("the time constant is from %+v", x.Puts)
			}
		}
	}
	if !named {
		t.Error("no reckoning of the test")
	}
}

func calibrated(t *testing.T, r wash.Request, w wash.Way, after time.Duration, f wash.Found) wash.Calibration {
	t.Helper()
	own, err := wash.Calibrate(wash.Test{Load: r.Load, Setting: r.Setting, Way: w, Time: after, Found: f})
	if err != nil {
		t.Fatal(err)
	}
	return own
}

// TestReadFound reads what a test found, and which way was washed.
func TestReadFound(t *testing.T) {
	for text, want := range map[string]wash.Found{
		"none": {Stain: wash.NoStain}, " No  stain": {Stain: wash.NoStain}, "Faint": {Stain: wash.FaintStain},
		"clear stain": {Stain: wash.ClearStain}, "dark": {Stain: wash.DarkStain}, "0.05 g/m2": wash.Measured(0.05),
		"0.05 g/m²": wash.Measured(0.05), "0,05": wash.Measured(0.05), "under 0.01 g/m2": {Most: 0.01},
		"over 0.1 g/m²": {Least: 0.1, Most: math.Inf(1)}, "0.03 to 0.1 g/m2": {Least: 0.03, Most: 0.1},
		"0.03 g/m2 to 0.1 g/m2": {Least: 0.03, Most: 0.1}, "0": {},
	} {
		if got, err := wash.ReadFound(text); err != nil || got != want {
			t.Errorf("%q: %+v, %v, want %+v", text, got, err, want)
		}
	}
	for text, why := range map[string]quantity.Why{
		"": quantity.WhyEmpty, "purple": material.WhyUnknownWord, "0.1 to 0.03": quantity.WhyReversed, "0.05 g/L": quantity.WhyTrailing,
	} {
		var e *quantity.ReadError
		if got, err := wash.ReadFound(text); !errors.As(err, &e) || e.Why != why || got != (wash.Found{}) {
			t.Errorf("%q: %+v, %v, want %v", text, got, err, why)
		}
	}
	for text, want := range map[string]wash.Way{
		"running": wash.Running, "Running water": wash.Running, "still_changes": wash.StillChanges, "still": wash.StillChanges,
		"cascade": wash.Cascade, "standing": wash.StandingTray, "standing tray": wash.StandingTray,
	} {
		if got, err := wash.ReadWay(text); err != nil || got != want {
			t.Errorf("%q: %v, %v, want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "bathtub", "long changes"} {
		if got, err := wash.ReadWay(text); err == nil {
			t.Errorf("%q: %v", text, got)
		}
	}
}

// TestNoTest: what no test can have found is told at its place.
func TestNoTest(t *testing.T) {
	r := tray(material.FB, process.Exhibition)
	for _, f := range []wash.Found{
		wash.Measured(-3), wash.Measured(math.NaN()), wash.Measured(1e6), {Least: 0.1, Most: 0.05}, {Most: 1e-9}, {Stain: 77}, {Most: math.Inf(1)},
	} {
		var e *wash.ProblemError
		_, err := wash.Calibrate(wash.Test{Load: r.Load, Setting: r.Setting, Way: wash.Running, Time: time.Hour, Found: f})
		if !errors.As(err, &e) || e.Field != "result" {
			t.Errorf("%+v: %v", f, err)
		}
	}
}

// FuzzReadFound: no panic, no result beside an error, and nothing that Calibrate chokes on.
func FuzzReadFound(f *testing.F) {
	for _, s := range []string{"none", "0.05 g/m2", "under 0.01 g/m²", "over 1", "0.03 to 0.1", "½", "-3", "1e9"} {
		f.Add(s)
	}
	r := tray(material.FB, process.Exhibition)
	f.Fuzz(func(t *testing.T, text string) {
		got, err := wash.ReadFound(text)
		if err != nil {
			if got != (wash.Found{}) {
				t.Fatalf("%q: %+v beside %v", text, got, err)
			}
			return
		}
		own, err := wash.Calibrate(wash.Test{Load: r.Load, Setting: r.Setting, Way: wash.Running, Time: time.Hour, Found: got})
		if err == nil && !(own.Short <= own.Factor && own.Factor <= own.Long) {
			t.Fatalf("%q: %+v", text, own)
		}
	})
}
