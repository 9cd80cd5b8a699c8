package temper_test

import (
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/temper"
)

// fahrenheit is exact: (F − 32) ÷ 1.8.
func fahrenheit(f float64) quantity.Celsius { return quantity.Celsius((f - 32) / 1.8) }

// TestTimeAgainstPrint is vector TV2: a time of 30 s at 65 °F with a ratio of 2.07 per 10 K is 45.0 s at 55 °F; Glover
// 1924 in Clerc, Photography: Theory and Practice, §573, prints 20 to 40 s and 30 to 60 s. (A ratio of 1.5 for 10 °F is 2.07 for 10 K, rounded: hence 0.1 s.)
func TestTimeAgainstPrint(t *testing.T) {
	q := temper.DefaultQ10(temper.MetolHydroquinone)
	if q.Value != 2.07 || q.Origin != reckoning.Standard || q.Source != "PTP-573" {
		t.Errorf("default %+v, want 2.07 of PTP-573", q)
	}
	k, err := temper.FromQ10(q.Value)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ at65, at55 float64 }{{20, 30}, {30, 45}, {40, 60}} {
		from := time.Duration(c.at65 * float64(time.Second))
		got := temper.TimeFrom(from, fahrenheit(65), k, fahrenheit(55)).Seconds()
		if math.Abs(got-c.at55) > 0.1 {
			t.Errorf("%v s at 65 °F: %.2f s at 55 °F, want %v", c.at65, got, c.at55)
		}
	}
}

// TestFactors is vector TV1 (US Army TM 11-2323: washing and fixing take twice as long for every 18 °F below 68 °F; it
// prints 2 at 50 °F and 4 at 35 °F, where doubling gives 3.564), and what measurements allow to be saved
// above: 1.22 to 1.24 per 10 K in US Army MD0954, 1.20 to 1.22 in J. SMPE on sea water.
func TestFactors(t *testing.T) {
	for _, c := range []struct {
		at        quantity.Celsius
		wash, fix float64
	}{
		{10, 2.000, 2.000},
		{fahrenheit(35), 3.564, 3.564},
		{20, 1, 1},
		{30, 1 / 1.2, 1},
		{0, 4, 4},
	} {
		wash, w := temper.WashFactor(c.at)
		fix, f := temper.FixFactor(c.at)
		if math.Abs(wash-c.wash) > 5e-4 || math.Abs(fix-c.fix) > 5e-4 {
			t.Errorf("%.3f °C: wash %.4f, fix %.4f, want %.3f and %.3f", c.at, wash, fix, c.wash, c.fix)
		}
		if w.Value != wash || f.Value != fix || w.By == nil || f.By == nil {
			t.Errorf("%.3f °C: figures %+v, %+v", c.at, w, f)
		}
	}
	warm, _ := temper.WashFactor(30)
	if measured := 1 / 1.20; warm < measured-1e-9 {
		t.Errorf("a wash at 30 °C is cut to %.3f, below the least measured saving %.3f", warm, measured)
	}
}

// TestDefaults: each default is marked as from memory or has its source, and lies in the range that is
// remembered (hydroquinone 2.2 to 2.5, metol 1.25 to 1.3, pyro 1.5) or observed at all (1.5 to 4, Bijster).
func TestDefaults(t *testing.T) {
	for _, c := range []struct {
		kind      temper.DeveloperKind
		low, high float64
		origin    reckoning.Origin
	}{
		{temper.UnknownDeveloper, 2.07, 2.07, reckoning.Standard},
		{temper.MetolHydroquinone, 2.07, 2.07, reckoning.Standard},
		{temper.Hydroquinone, 2.2, 2.5, reckoning.FromMemory},
		{temper.Metol, 1.25, 1.3, reckoning.FromMemory},
		{temper.Pyro, 1.5, 1.5, reckoning.FromMemory},
	} {
		if f := temper.DefaultQ10(c.kind); f.Value < c.low || f.Value > c.high || f.Origin != c.origin {
			t.Errorf("kind %d: %+v, want %v to %v, origin %v", c.kind, f, c.low, c.high, c.origin)
		}
	}
}

// TestChart: two points of a chart are met again by the coefficient they tell, from either side.
func TestChart(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		t1 := time.Duration(rapid.Int64Range(1e9, 3600e9).Draw(rt, "t1"))
		at1 := quantity.Celsius(rapid.Float64Range(10, 20).Draw(rt, "at1"))
		t2 := time.Duration(rapid.Int64Range(1e9, 3600e9).Draw(rt, "t2"))
		at2 := quantity.Celsius(rapid.Float64Range(20.5, 30).Draw(rt, "at2"))
		k, err := temper.CoefficientFrom(t1, at1, t2, at2)
		if err != nil {
			rt.Fatal(err)
		}
		back, err := temper.FromQ10(k.Q10())
		if err != nil || math.Abs(float64(back-k)) > 1e-9 {
			rt.Errorf("Q10 of %v gives back %v, %v", k, back, err)
		}
		if got := temper.TimeFrom(t1, at1, k, at2); math.Abs((got - t2).Seconds()) > 1e-3 {
			rt.Errorf("%v at %v, %v at %v: %v", t1, at1, t2, at2, got)
		}
		t20 := temper.TimeFrom(t1, at1, k, 20)
		if got := temper.TimeAt(t20, k, at2); math.Abs((got - t2).Seconds()) > 1e-3*(1+t2.Seconds()) {
			rt.Errorf("by way of 20 °C: %v, want %v", got, t2)
		}
	})
}

func TestChartRefused(t *testing.T) {
	for _, c := range []struct {
		name     string
		t1, t2   time.Duration
		at1, at2 quantity.Celsius
	}{
		{"one temperature", time.Minute, 2 * time.Minute, 20, 20},
		{"no time", 0, time.Minute, 18, 20},
		{"less than no time", time.Minute, -time.Minute, 18, 20},
		{"not a number", time.Minute, time.Minute, quantity.Celsius(math.NaN()), 20},
	} {
		if k, err := temper.CoefficientFrom(c.t1, c.at1, c.t2, c.at2); !errors.Is(err, temper.ErrChart) || k != 0 {
			t.Errorf("%s: %v, %v", c.name, k, err)
		}
	}
	for _, q := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, err := temper.FromQ10(q); !errors.Is(err, temper.ErrChart) {
			t.Errorf("FromQ10(%v): %v", q, err)
		}
	}
	if got := temper.TimeAt(time.Hour, 10, -273); got != math.MaxInt64 {
		t.Errorf("beyond all bounds: %v", got)
	}
}

// TestWithin: a coefficient holds over ±7 °C about 20 °C (Ives, Airplane Photography, 1920).
func TestWithin(t *testing.T) {
	for at, want := range map[quantity.Celsius]bool{12.9: false, 13: true, 20: true, 27: true, 27.1: false} {
		if got := temper.Within(at); got != want {
			t.Errorf("Within(%v) = %v", at, got)
		}
	}
}

// TestDrift holds a drift against Newton's law of cooling integrated in small steps (Heun's method).
func TestDrift(t *testing.T) {
	const constant = 90 * time.Minute
	room, bath := 17.0, 24.0
	const step = time.Second
	var first, second temper.Reading
	for i := range int(3 * time.Hour / step) {
		now := temper.Reading{After: time.Duration(i) * step, At: quantity.Celsius(bath)}
		if now.After == 20*time.Minute {
			first = now
		}
		if now.After == 65*time.Minute {
			second = now
		}
		k := step.Seconds() / constant.Seconds()
		slope := (room - bath) * k
		bath += (slope + (room-bath-slope)*k) / 2
	}
	d, err := temper.DriftFrom(quantity.Celsius(room), first, second)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs((d.Constant - constant).Seconds()) > 1 {
		t.Errorf("constant %v, want %v", d.Constant, constant)
	}
	got := d.After(second.At, 3*time.Hour-second.After)
	if math.Abs(float64(got)-bath) > 1e-3 {
		t.Errorf("after 3 h %v °C, want %v", got, bath)
	}
	if while, ok := d.Until(second.At, got); !ok || math.Abs((while-(3*time.Hour-second.After)).Seconds()) > 1 {
		t.Errorf("until %v: %v, %v", got, while, ok)
	}
}

func TestDriftRefused(t *testing.T) {
	read := func(m int, at float64) temper.Reading {
		return temper.Reading{After: time.Duration(m) * time.Minute, At: quantity.Celsius(at)}
	}
	for _, c := range []struct {
		name          string
		first, second temper.Reading
	}{
		{"not later", read(5, 24), read(5, 23)},
		{"not nearer", read(0, 23), read(5, 24)},
		{"not moved", read(0, 23), read(5, 23)},
		{"other side", read(0, 23), read(5, 18)},
		{"at the room's", read(0, 23), read(5, 19)},
		{"from the room's", read(0, 19), read(5, 19)},
	} {
		if d, err := temper.DriftFrom(19, c.first, c.second); !errors.Is(err, temper.ErrReadings) || d != (temper.Drift{}) {
			t.Errorf("%s: %v, %v", c.name, d, err)
		}
	}
	d := temper.Drift{Room: 19, Constant: time.Hour}
	for _, to := range []quantity.Celsius{19, 18, 25} {
		if while, ok := d.Until(24, to); ok {
			t.Errorf("from 24 to %v in a room of 19: %v", to, while)
		}
	}
	if while, ok := d.Until(24, 24); !ok || while != 0 {
		t.Errorf("to where it is: %v, %v", while, ok)
	}
}

func ExampleTimeAt() {
	// A chart gives 9 min 45 s at 20 °C and 7 min at 24 °C.
	k, err := temper.CoefficientFrom(585*time.Second, 20, 7*time.Minute, 24)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(temper.TimeAt(585*time.Second, k, 22).Round(time.Second))
	// Output: 8m16s
}

func ExampleDriftFrom() {
	d, err := temper.DriftFrom(17, temper.Reading{At: 22}, temper.Reading{After: time.Hour, At: 20})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f °C after two hours\n", d.After(22, 2*time.Hour))
	// Output: 18.8 °C after two hours
}
