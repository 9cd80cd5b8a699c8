package wash_test

import (
	"math"
	"testing"
	"time"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/wash"
)

// near fails where got is further from want than the share rel.
func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s: got %.8g, want %.8g within %.2g", what, got, want, rel)
	}
}

// TestSingleRunningRinse: 1 gal/h carried over and 99 gal/h fresh divide by 100 (Poly); a rule of 600 volumes for one (MF-711);
// 5 mL over in 1000 divides as 1 + R does.
func TestSingleRunningRinse(t *testing.T) {
	near(t, "99 to 1", wash.CounterFlowLaw(99, 1), 100, 1e-15)
	near(t, "600 to 1", wash.CounterFlowLaw(600, 1), 601, 1e-15)
	near(t, "R of 100", wash.CounterFlowFor(100, 1), 99, 1e-12)
	for _, ratio := range []float64{1, 0.5, 0, -3, math.NaN()} {
		if got := wash.CounterFlowFor(ratio, 2); got != 0 {
			t.Errorf("ratio %g needs %g volumes, want none", ratio, got)
		}
	}
	if got := wash.CounterFlowFor(10, 0); got != 0 {
		t.Errorf("without a vessel: %g", got)
	}
}

// TestPlatingLine is the worked copper line of Remco: 250 g/L, 100 panels of 6 ft² an hour, 20 mL/ft² carried over. Its one
// rinse is printed for K·Cp ÷ Cn, of which the exact figure falls short by K; its two and three are printed for
// ((Cp ÷ Cn)^(1/n) + 1/n)·K, the exact ones were worked out beside.
func TestPlatingLine(t *testing.T) {
	const perMinute = 100 * 6 * 20 / 60.0 / 1000 // L
	near(t, "carried over, L/min", perMinute, 0.2, 1e-12)
	near(t, "copper, g/min", perMinute*250, 50, 1e-12)
	for _, c := range []struct {
		mgPerL                    float64
		n                         int
		formula, exact, tolerance float64
	}{
		{50, 1, 1000, 999.8, 1e-4},
		{100, 1, 500, 499.8, 1e-4},
		{200, 1, 250, 249.8, 1e-4},
		{50, 2, 14.24, 14.04, 5e-4},
		{100, 2, 10.10, 9.90, 5e-4},
		{200, 2, 7.17, 6.97, 7e-4},
		{50, 3, 3.487, 3.351, 2e-4},
		{100, 3, 2.781, 2.644, 2e-4},
		{200, 3, 2.221, 2.083, 3e-4},
	} {
		ratio := 250 / (c.mgPerL / 1000)
		near(t, "exact, L/min", perMinute*wash.CounterFlowFor(ratio, c.n), c.exact, c.tolerance)
		printed := ratio
		if c.n > 1 {
			printed = math.Pow(ratio, 1/float64(c.n)) + 1/float64(c.n)
		}
		near(t, "printed, L/min", perMinute*printed, c.formula, c.tolerance)
	}
}

// TestCounterFlow: what n vessels need for a ratio, and what they give, worked out.
func TestCounterFlow(t *testing.T) {
	for _, c := range []struct {
		ratio float64
		n     int
		want  float64
	}{
		{1000, 1, 999},
		{1000, 2, 31.1109},
		{1000, 3, 9.6420},
		{1000, 4, 5.3396},
		{100, 1, 99},
		{100, 2, 9.4624},
		{100, 3, 4.2488},
		{100, 4, 2.8411},
		{5000, 2, 70.2054},
		{20000, 2, 140.9187},
	} {
		got := wash.CounterFlowFor(c.ratio, c.n)
		near(t, "fresh for each carried over", got, c.want, 1.2e-5)
		near(t, "there and back", wash.CounterFlowLaw(got, c.n), c.ratio, 1e-12)
	}
	for _, c := range []struct {
		r    float64
		n    int
		want float64
	}{{9, 2, 91}, {10, 2, 111}, {10, 3, 1111}} {
		if got := wash.CounterFlowLaw(c.r, c.n); got != c.want {
			t.Errorf("%g by %d: %g, want %g", c.r, c.n, got, c.want)
		}
	}
}

// TestStillLaw: dumps worked out; a rinse weighed full and dumped (696 g and 40.2 g: MFay); two printed for a film in its tank
// (Torz2004), rounded in print to 1.2 and 0.24 g/L.
func TestStillLaw(t *testing.T) {
	near(t, "1000 and 5, 3 times", wash.StillLaw(1000, 5, 3), 1.2314e-7, 1e-4)
	near(t, "500 and 9, 4 times", wash.StillLaw(500, 9, 4), 9.7746e-8, 1e-4)
	near(t, "250 and 20, 5 times", wash.StillLaw(250, 20, 5), 2.2301e-6, 1e-4)
	near(t, "weighed", wash.StillLaw(696-40.2, 40.2, 1), 0.0578, 1e-3)
	near(t, "film and tank, g/L", 600/10.0*wash.StillLaw(500, 10, 1), 1.176, 5e-4)
	near(t, "film alone, g/L", 120/2.0*wash.StillLaw(500, 2, 1), 0.239, 1e-3)
	near(t, "printed 1 in 50", 1/wash.StillLaw(500, 10, 1), 50, 0.03)
	near(t, "printed 1 in 250", 1/wash.StillLaw(500, 2, 1), 250, 0.01)
	if wash.StillLaw(0, 5, 3) != 1 || wash.StillLaw(5, 0, 3) != 1 {
		t.Error("no water, or nothing held, rinses nothing")
	}
}

// TestRunningLaw: 8 changes an hour for 30 and 60 min, ideally mixed: worked out.
func TestRunningLaw(t *testing.T) {
	near(t, "30 min", wash.RunningLaw(8, 1, 0.5), 0.01832, 5e-4)
	near(t, "60 min", wash.RunningLaw(8, 1, 1), 0.000335, 2e-3)
}

// TestHalfLife: half of what a negative holds leaves in 1 min of running water in contact (Navy-14209-250); the flow here is so
// large that the water stays clean.
func TestHalfLife(t *testing.T) {
	r := wash.Request{
		Load:    wash.Load{Material: material.Film, Area: 1e-3, Water: 20},
		Setting: wash.Setting{Vessel: quantity.Litre, Flow: 60_000 * quantity.Litre},
		Limit:   wash.Limit{Standard: process.Archival},
	}
	for _, c := range []struct {
		minutes int
		want    float64
	}{{1, 0.5}, {2, 0.25}, {5, 3.125e-2}, {10, 9.766e-4}, {20, 9.537e-7}} {
		at := curve(t, r, wash.Result{Way: wash.Running}, time.Duration(c.minutes)*time.Minute, 2)
		near(t, "share left", at[1].Left/at[0].Left, c.want, 3e-4)
	}
}

// TestChangesTendToTheStillLaw: left long enough, every filling divides as the law says, whatever the material.
func TestChangesTendToTheStillLaw(t *testing.T) {
	for _, m := range material.All() {
		const area, litre = 0.1, 1
		r := wash.Request{
			Load:    wash.Load{Material: m, Area: area, Water: 20},
			Setting: wash.Setting{Vessel: litre * quantity.Litre, Contact: 4 * time.Hour},
			Limit:   wash.Limit{Standard: process.WorkPrint},
		}
		w := wash.Result{Way: wash.StillChanges, Contact: 4 * time.Hour}
		for n := 1; n <= 4; n++ {
			at := curve(t, r, w, time.Duration(n)*4*time.Hour, 2)
			near(t, m.String(), at[1].Left/at[0].Left, wash.StillLaw(1000*litre, wash.Held(m).Value*area, n), 1e-9)
		}
	}
}

// TestSteadyCascadeTendsToTheCounterFlowLaw: with long contact a cascade in steady use divides as the law says.
func TestSteadyCascadeTendsToTheCounterFlowLaw(t *testing.T) {
	for n := 2; n <= 4; n++ {
		for _, ratio := range []float64{100, 1000, 5000} {
			l := wash.Load{Material: material.RC, Area: 10, Water: 20}
			r := wash.Request{
				Load:    l,
				Setting: wash.Setting{Vessel: quantity.Litre, Flow: 40 * quantity.Millilitre, Stages: n, Loads: 100},
				Limit:   wash.Limit{Own: 158 * 0.035 / ratio},
			}
			got := way(t, solve(t, r), wash.Cascade)
			if got.Status != wash.Reached {
				t.Errorf("%d vessels, ratio %g: not reached", n, ratio)
				continue
			}
			fresh := 0.04 / 60 * got.Contact.Seconds() / (0.035 * 10)
			near(t, "divided by", 158*0.035/got.Left, wash.CounterFlowLaw(fresh, n), 1e-9)
			near(t, "ratio", 158*0.035/got.Left, ratio, 1e-3)
		}
	}
}

func solve(tb testing.TB, r wash.Request) wash.Answer {
	tb.Helper()
	a, err := wash.Solve(r)
	if err != nil {
		tb.Fatal(err)
	}
	return a
}

func curve(tb testing.TB, r wash.Request, w wash.Result, upTo time.Duration, n int) []wash.Point {
	tb.Helper()
	ps, err := wash.Curve(r, w, upTo, n)
	if err != nil {
		tb.Fatal(err)
	}
	return ps
}

func way(tb testing.TB, a wash.Answer, w wash.Way) wash.Result {
	tb.Helper()
	for _, r := range a.Ways {
		if r.Way == w {
			return r
		}
	}
	tb.Fatalf("%v is not offered", w)
	return wash.Result{}
}
