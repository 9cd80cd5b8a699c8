package wash_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/wash"
)

// TestLimits are those of the table, each with its source.
func TestLimits(t *testing.T) {
	for _, c := range []struct {
		m      material.Material
		s      process.Standard
		want   float64
		origin reckoning.Origin
		source string
	}{
		{material.Film, process.WorkPrint, 0.014, reckoning.Standard, "CDL1997"},
		{material.Film, process.Archival, 0.014, reckoning.Standard, "CDL1997"},
		{material.RC, process.Exhibition, 0.02, reckoning.FromMemory, ""},
		{material.FB, process.WorkPrint, 0.1, reckoning.FromMemory, ""},
		{material.FB, process.Exhibition, 0.03, reckoning.FromMemory, ""},
		{material.FB, process.Archival, 0.007, reckoning.FromMemory, ""},
	} {
		got := wash.LimitFor(c.m, c.s)
		if got.Value != c.want || got.Origin != c.origin || got.Source != c.source || got.Unit != reckoning.GPerM2 {
			t.Errorf("%v %v: %+v", c.m, c.s, got)
		}
		if a := solve(t, tray(c.m, c.s)); a.Limit != got {
			t.Errorf("%v %v: answered with %+v", c.m, c.s, a.Limit)
		}
	}
	r := tray(material.FB, process.Archival)
	r.Limit.Own = 0.05
	if a := solve(t, r); a.Limit.Value != 0.05 || a.Limit.Origin != reckoning.Measured {
		t.Errorf("own limit: %+v", a.Limit)
	}
}

// TestOffered: ways that need running water, a second vessel or a beat are offered where there is one.
func TestOffered(t *testing.T) {
	for _, c := range []struct {
		name string
		s    wash.Setting
		want string
	}{
		{"a tray", wash.Setting{Vessel: quantity.Litre}, "still_changes long_changes"},
		{"a hose", wash.Setting{Vessel: quantity.Litre, Flow: quantity.Litre}, "still_changes long_changes running standing_tray"},
		{"a beat", wash.Setting{Vessel: quantity.Litre, Beat: 4 * time.Minute}, "still_changes long_changes standing_tray"},
		{"trays, no hose", wash.Setting{Vessel: quantity.Litre, Stages: 3}, "still_changes long_changes"},
		{"steps", wash.Setting{Vessel: quantity.Litre, Flow: quantity.Litre, Stages: 2}, "still_changes long_changes running cascade standing_tray"},
	} {
		r := tray(material.RC, process.Exhibition)
		r.Setting = c.s
		var got []string
		for _, w := range solve(t, r).Ways {
			got = append(got, w.Way.String())
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%s: %s, want %s", c.name, s, c.want)
		}
	}
}

// TestNothingSaved: long changes are offered only where they need fewer fillings.
func TestNothingSaved(t *testing.T) {
	r := tray(material.FB, process.Exhibition)
	r.Setting.Contact = 25 * time.Minute
	for _, w := range solve(t, r).Ways {
		if w.Way == wash.LongChanges {
			t.Errorf("long changes beside %d of 25 min: %+v", way(t, solve(t, r), wash.StillChanges).Changes, w)
		}
	}
}

// TestBand: a time constant that may be half as long again makes running water in plenty take half as long again, and the band
// of a plot opens; after a measured figure it is narrower.
func TestBand(t *testing.T) {
	r := tray(material.RC, process.Exhibition)
	r.Setting.Flow = 200 * quantity.Litre
	w := way(t, solve(t, r), wash.Running)
	near(t, "safe", w.Safe.Seconds()/w.Time.Seconds(), 1.5, 0.01)
	at := curve(t, r, w, w.Time, 2)
	start := at[0].Left
	near(t, "low", math.Log(start/at[1].Low)/math.Log(start/at[1].Left), 1.5, 0.01)
	near(t, "high", math.Log(start/at[1].Left)/math.Log(start/at[1].High), 1.5, 0.01)
	own, err := wash.Calibrate(wash.Test{Load: r.Load, Setting: r.Setting, Way: wash.Running, Time: w.Time, Found: wash.Measured(w.Left)})
	if err != nil {
		t.Fatal(err)
	}
	r.Own = &own
	tested := way(t, solve(t, r), wash.Running)
	near(t, "the same time", tested.Time.Seconds(), w.Time.Seconds(), 0.01)
	near(t, "safe after a test", tested.Safe.Seconds()/tested.Time.Seconds(), 1.15, 0.01)
}

// TestWater: fillings, and what runs through; a cascade's loads share its fillings.
func TestWater(t *testing.T) {
	r := tray(material.FB, process.Exhibition)
	for _, w := range solve(t, r).Ways {
		want := 4 * float64(w.Changes)
		if w.Way == wash.Running || w.Way == wash.Cascade || w.Way == wash.StandingTray {
			want += 2 * w.Time.Minutes()
		}
		near(t, w.Way.String(), w.Water.ML()/1000, want, 1e-9)
	}
	r.Setting.Loads, r.Setting.Flow = 10, 8*quantity.Litre
	w := way(t, solve(t, r), wash.Cascade)
	near(t, "of ten loads", w.Water.ML()/1000, (3*4+8*w.Contact.Minutes()*12)/10, 1e-9)
}

// TestOutOfReach: a limit that so much water cannot reach by the changes a wash may have.
func TestOutOfReach(t *testing.T) {
	r := tray(material.FB, process.Archival)
	r.Load.Area, r.Setting = 50, wash.Setting{Vessel: 100 * quantity.Millilitre, Flow: quantity.Millilitre}
	a := solve(t, r)
	if a.Cheapest != -1 || a.Fastest != -1 {
		t.Errorf("cheapest %d, fastest %d of none", a.Cheapest, a.Fastest)
	}
	for _, w := range a.Ways {
		f := found(w.Findings, wash.FlowTooSmall)
		if w.Status != wash.OutOfReach || w.Left <= 0.007 || f == nil || f.Got.Value != w.Left {
			t.Errorf("%v: %+v", w.Way, w)
		}
	}
}

// TestProblems: what is malformed, by field and reason.
func TestProblems(t *testing.T) {
	for _, c := range []struct {
		field  string
		why    wash.Why
		change func(*wash.Request)
	}{
		{"material", wash.WhyMissing, func(r *wash.Request) { r.Load.Material = material.None }},
		{"area", wash.WhyMissing, func(r *wash.Request) { r.Load.Area = 0 }},
		{"area", wash.WhyNegative, func(r *wash.Request) { r.Load.Area = -1 }},
		{"area", wash.WhyNegative, func(r *wash.Request) { r.Load.Area = quantity.Area(math.NaN()) }},
		{"area", wash.WhyTooLarge, func(r *wash.Request) { r.Load.Area = quantity.Area(math.Inf(1)) }},
		{"water", wash.WhyNotLiquid, func(r *wash.Request) { r.Load.Water = 101 }},
		{"water", wash.WhyNotLiquid, func(r *wash.Request) { r.Load.Water = quantity.Celsius(math.NaN()) }},
		{"start", wash.WhyNegative, func(r *wash.Request) { r.Load.Start = -5 }},
		{"vessel", wash.WhyMissing, func(r *wash.Request) { r.Setting.Vessel = 0 }},
		{"flow", wash.WhyNegative, func(r *wash.Request) { r.Setting.Flow = -1 }},
		{"stages", wash.WhyTooLarge, func(r *wash.Request) { r.Setting.Stages = 11 }},
		{"loads", wash.WhyNegative, func(r *wash.Request) { r.Setting.Loads = -1 }},
		{"contact", wash.WhyTooLarge, func(r *wash.Request) { r.Setting.Contact = 25 * time.Hour }},
		{"beat", wash.WhyNegative, func(r *wash.Request) { r.Setting.Beat = -time.Second }},
		{"limit", wash.WhyMissing, func(r *wash.Request) { r.Limit = wash.Limit{} }},
		{"limit", wash.WhyNegative, func(r *wash.Request) { r.Limit.Own = -1 }},
		{"own", wash.WhyTooLarge, func(r *wash.Request) { r.Own = &wash.Calibration{Factor: 100} }},
		{"own", wash.WhyMissing, func(r *wash.Request) { r.Own = &wash.Calibration{} }},
	} {
		r := tray(material.FB, process.Exhibition)
		c.change(&r)
		_, err := wash.Solve(r)
		var got *wash.ProblemError
		if !errors.As(err, &got) || !errors.Is(err, wash.ErrProblem) || got.Field != c.field || got.Why != c.why {
			t.Errorf("%s %s: %v", c.field, c.why, err)
		}
		if _, err := wash.Curve(r, wash.Result{Way: wash.Running}, time.Minute, 2); !errors.Is(err, wash.ErrProblem) {
			t.Errorf("%s: a curve without a problem: %v", c.field, err)
		}
	}
	r := tray(material.FB, process.Exhibition)
	for _, err := range []error{
		func() error { _, err := wash.Curve(r, wash.Result{Way: wash.Running}, 0, 2); return err }(),
		func() error { _, err := wash.Curve(r, wash.Result{Way: wash.Running}, 48*time.Hour, 2); return err }(),
		func() error { _, err := wash.Curve(r, wash.Result{}, time.Minute, 2); return err }(),
	} {
		if !errors.Is(err, wash.ErrProblem) || err.Error() == "" {
			t.Errorf("a curve to nowhere: %v", err)
		}
	}
}

// TestReckonings: every figure of every answer has an origin that can be opened, and a source where it says standard.
func TestReckonings(t *testing.T) {
	for _, m := range material.All() {
		a := solve(t, tray(m, process.Exhibition))
		var all []reckoning.Reckoning
		all = append(all, a.Reckonings...)
		for _, w := range a.Ways {
			if len(w.Reckonings) != 3 || w.Reckonings[0].Result.Value != w.Time.Seconds() || w.Reckonings[1].Result.Value != w.Left {
				t.Errorf("%v %v: %+v", m, w.Way, w.Reckonings)
			}
			all = append(all, w.Reckonings...)
		}
		if len(a.Reckonings) < 2 {
			t.Errorf("%v: %d reckonings", m, len(a.Reckonings))
		}
		for _, r := range all {
			open(t, r)
		}
	}
}

func open(t *testing.T, r reckoning.Reckoning) {
	t.Helper()
	if r.Rule == "" || len(r.Puts) == 0 {
		t.Errorf("no rule: %+v", r)
	}
	for _, f := range r.Puts {
		if f.Name == "" || (f.Origin == reckoning.Standard) != (f.Source != "") || math.IsNaN(f.Value) {
			t.Errorf("%s: %+v", r.Rule, f)
		}
		if f.By != nil {
			open(t, *f.By)
		}
	}
}

// TestTogether: a print goes into the wash while others are in it, and all start again.
func TestTogether(t *testing.T) {
	at := time.Date(2026, 12, 3, 21, 0, 0, 0, time.UTC)
	put := func(minute int, m material.Material) wash.Put {
		return wash.Put{At: at.Add(time.Duration(minute) * time.Minute), Material: m}
	}
	for _, c := range []struct {
		name     string
		puts     []wash.Put
		needs    time.Duration
		started  int
		restarts int
		overlong float64 // s
	}{
		{"one", []wash.Put{put(0, material.FB)}, time.Hour, 0, 0, 0},
		{"a batch", []wash.Put{put(0, material.FB), put(0, material.FB)}, time.Hour, 0, 0, 0},
		{"one more", []wash.Put{put(0, material.FB), put(50, material.FB)}, time.Hour, 50, 1, 0},
		{"told in any order", []wash.Put{put(50, material.FB), put(0, material.FB), put(20, material.FB)}, time.Hour, 50, 2, 0},
		{"RC in time", []wash.Put{put(0, material.RC), put(5, material.RC)}, 5 * time.Minute, 5, 1, 0},
		{"RC that waits for others", []wash.Put{put(0, material.RC), put(3, material.RC), put(6, material.RC)}, 5 * time.Minute, 6, 2, 660},
		{"RC beside FB", []wash.Put{put(0, material.RC), put(0, material.FB)}, time.Hour, 0, 0, 3600},
	} {
		got, ok := wash.Together(c.puts, c.needs)
		started := at.Add(time.Duration(c.started) * time.Minute)
		if !ok || !got.Started.Equal(started) || got.Restarts != c.restarts || !got.Out.Equal(started.Add(c.needs)) {
			t.Errorf("%s: %+v", c.name, got)
		}
		if f := found(got.Findings, wash.RCTooLong); (f != nil) != (c.overlong > 0) || f != nil && f.Got.Value != c.overlong {
			t.Errorf("%s: %+v", c.name, got.Findings)
		}
	}
	if _, ok := wash.Together(nil, time.Hour); ok {
		t.Error("a clock for empty water")
	}
}

// TestCounted: two quick dumps are not two changes.
func TestCounted(t *testing.T) {
	minutes := func(ms ...int) (ds []time.Duration) {
		for _, m := range ms {
			ds = append(ds, time.Duration(m)*time.Minute)
		}
		return ds
	}
	for _, c := range []struct{ stood, want []time.Duration }{
		{minutes(5, 5, 5), minutes(5, 5, 5)},
		{minutes(1, 1), nil},
		{minutes(3, 3), minutes(6)},
		{minutes(1, 5, 2, 2, 2, 9, 4), minutes(6, 6, 9)},
		{minutes(-3, 5), minutes(5)},
		{nil, nil},
	} {
		if d := cmp.Diff(c.want, wash.Counted(c.stood, 5*time.Minute)); d != "" {
			t.Errorf("%v: %s", c.stood, d)
		}
	}
}

// TestCalibrate: a measured figure is met whatever the truth is; a stain moves no more than it tells.
func TestCalibrate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		truth := wash.Calibration{Factor: math.Exp(rapid.Float64Range(-1.5, 1.5).Draw(t, "ln factor"))}
		r := drawRequest(t)
		r.Own = &truth
		at := time.Duration(rapid.IntRange(60, 3600).Draw(t, "at")) * time.Second
		left := leftAt(t, r, wash.Result{Way: wash.Running}, at)
		unwashed := leftAt(t, r, wash.Result{Way: wash.Running}, time.Second)
		if left < 1e-5 || left > 0.9*unwashed {
			return
		}
		got, err := wash.Calibrate(wash.Test{Load: r.Load, Setting: r.Setting, Way: wash.Running, Time: at, Found: wash.Measured(left)})
		if err != nil {
			t.Fatal(err)
		}
		r.Own = &got
		if again := leftAt(t, r, wash.Result{Way: wash.Running}, at); math.Abs(again/left-1) > 1e-6 {
			t.Errorf("calibrated to %g, which leaves %g and not %g", got.Factor, again, left)
		}
	})
}

func TestStain(t *testing.T) {
	r := tray(material.FB, process.Exhibition)
	test := wash.Test{Load: r.Load, Setting: r.Setting, Way: wash.Running}
	for _, c := range []struct {
		name    string
		minutes int
		stain   wash.Stain
		far     bool
		factor  func(float64) bool
	}{
		{"as it says", 52, wash.FaintStain, false, func(f float64) bool { return f == 1 }},
		{"no stain, and none expected", 90, wash.NoStain, false, func(f float64) bool { return f == 1 }},
		{"a little cleaner", 56, wash.NoStain, false, func(f float64) bool { return f < 1 && f > 0.8 }},
		{"cleaner", 45, wash.NoStain, false, func(f float64) bool { return f < 1 && f > 0.6 }},
		{"dirtier", 60, wash.ClearStain, false, func(f float64) bool { return f > 1 && f < 1.5 }},
		{"a slip shortens nothing", 1, wash.NoStain, true, func(f float64) bool { return f == 1 }},
	} {
		test.Time, test.Found = time.Duration(c.minutes)*time.Minute, wash.Found{Stain: c.stain}
		got, err := wash.Calibrate(test)
		if err != nil || !c.factor(got.Factor) || (found(got.Findings, wash.TestFar) != nil) != c.far || len(got.Reckonings) != 1 {
			t.Errorf("%s: %+v, %v", c.name, got, err)
		}
		if _, most := c.stain.Between(); got.Factor != 1 && !c.far { // moved to the worse end
			own := r
			own.Own = &got
			near(t, c.name, curve(t, own, wash.Result{Way: wash.Running}, test.Time, 2)[1].Left, most.Value, 1e-6)
		}
		if (found(got.Findings, wash.TestAgrees) != nil) != (got.Factor == 1 && !c.far) {
			t.Errorf("%s: factor %g, %+v", c.name, got.Factor, got.Findings)
		}
	}
	last := 0.0
	for _, s := range wash.Stains() {
		least, most := s.Between()
		if least.Value != last || most.Value <= least.Value || s.String() == "" || least.Origin != reckoning.FromMemory {
			t.Errorf("%v: %g to %g", s, least.Value, most.Value)
		}
		last = most.Value
	}
}

// TestOtherTests: a test of changes, of a cascade, of a tray; and what is no test.
func TestOtherTests(t *testing.T) {
	base := tray(material.FB, process.Exhibition)
	base.Setting.Contact, base.Setting.Beat = 4*time.Minute, 2*time.Minute
	for _, w := range []wash.Way{wash.StillChanges, wash.Cascade, wash.StandingTray} {
		test := wash.Test{Load: base.Load, Setting: base.Setting, Way: w, Contact: 9 * time.Minute, Time: 27 * time.Minute, Found: wash.Measured(0.5)}
		got, err := wash.Calibrate(test)
		if err != nil || got.Factor < 0.3 || got.Factor > 3 || got.Factor == 1 {
			t.Errorf("%v: %+v, %v", w, got, err)
		}
	}
	for field, change := range map[string]func(*wash.Test){
		"way":      func(x *wash.Test) { x.Way = wash.LongChanges },
		"time":     func(x *wash.Test) { x.Time = 0 },
		"contact":  func(x *wash.Test) { x.Way, x.Contact = wash.Cascade, 0 },
		"result":   func(x *wash.Test) { x.Found.Stain = 99 },
		"material": func(x *wash.Test) { x.Load.Material = material.None },
	} {
		test := wash.Test{Load: base.Load, Setting: base.Setting, Way: wash.Running, Time: time.Hour, Found: wash.Measured(0.1)}
		change(&test)
		var got *wash.ProblemError
		if _, err := wash.Calibrate(test); !errors.As(err, &got) || got.Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
	test := wash.Test{Load: base.Load, Setting: base.Setting, Way: wash.Running, Time: time.Hour, Found: wash.Measured(-1)}
	if _, err := wash.Calibrate(test); !errors.Is(err, wash.ErrProblem) {
		t.Errorf("less than nothing left: %v", err)
	}
}
