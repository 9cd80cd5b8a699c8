package wash_test

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/temper"
	"wetside/trade/wash"
)

// leftAt is what a way leaves at a time.
func leftAt(t *rapid.T, r wash.Request, w wash.Result, at time.Duration) float64 {
	ps, err := wash.Curve(r, w, at, 2)
	if err != nil {
		t.Fatal(err)
	}
	return ps[1].Left
}

func drawResult(t *rapid.T) wash.Result {
	w := wash.Result{Way: rapid.SampledFrom(wash.AllWays()).Draw(t, "way")}
	if w.Way != wash.Running {
		w.Contact = time.Duration(rapid.IntRange(30, 1200).Draw(t, "contact")) * time.Second
	}
	return w
}

func drawRequest(t *rapid.T) wash.Request {
	r := wash.Request{Load: drawLoad(t), Setting: drawSetting(t), Limit: wash.Limit{Standard: process.Exhibition}}
	r.Setting.Stages = rapid.IntRange(2, 4).Draw(t, "stages")
	return r
}

// notMore fails where better is more than worse, rounding apart.
func notMore(t *rapid.T, what string, better, worse float64) {
	if better > worse*(1+1e-9)+1e-12 {
		t.Errorf("%s leaves more: %.12g against %.12g", what, better, worse)
	}
}

// TestMoreNeverLeavesMore: time, water, flow, warmth, a washing aid, fewer prints: none leaves more; nothing is below 0; the band
// has the curve inside.
func TestMoreNeverLeavesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, w := drawRequest(t), drawResult(t)
		at := time.Duration(rapid.IntRange(10, 7200).Draw(t, "at")) * time.Second
		left := leftAt(t, r, w, at)
		if left < 0 || math.IsNaN(left) {
			t.Fatalf("%g left", left)
		}
		more := r
		more.Setting.Vessel = r.Setting.Vessel * 3 / 2
		if w.Way == wash.StillChanges || w.Way == wash.LongChanges {
			notMore(t, "more water", leftAt(t, more, w, at), left)
		}
		more = r
		more.Setting.Flow = r.Setting.Flow * 3 / 2
		notMore(t, "more flow", leftAt(t, more, w, at), left)
		more = r
		more.Load.Aid = true
		notMore(t, "an aid", leftAt(t, more, w, at), left)
		more = r
		more.Load.Water += quantity.Celsius(rapid.IntRange(1, 10).Draw(t, "warmer"))
		notMore(t, "warmer", leftAt(t, more, w, at), left)
		more = r
		more.Load.Area *= 0.7
		notMore(t, "fewer prints", leftAt(t, more, w, at), left)
		notMore(t, "longer", leftAt(t, r, w, at+time.Minute), left)
		ps, err := wash.Curve(r, w, at, 20)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range ps {
			notMore(t, "a short time constant", p.Low, p.Left)
			notMore(t, "the time constant", p.Left, p.High)
			if i > 0 {
				notMore(t, "time", p.Left, ps[i-1].Left)
			}
		}
	})
}

// TestADumpNeverLeavesMore: dumping half-way through a contact, too, never leaves more, which is why quick dumps may be counted
// together.
func TestADumpNeverLeavesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		contact := 2 * time.Duration(rapid.IntRange(15, 900).Draw(t, "half")) * time.Second
		n := time.Duration(rapid.IntRange(1, 6).Draw(t, "changes"))
		once := leftAt(t, r, wash.Result{Way: wash.StillChanges, Contact: contact}, n*contact)
		twice := leftAt(t, r, wash.Result{Way: wash.StillChanges, Contact: contact / 2}, n*contact)
		notMore(t, "a dump more", twice, once)
	})
}

// TestAnswers: what is Reached is within the limit by the curve, and one second or one change less is not, or is shorter than a
// contact may be; the cheapest and the fastest are so; warmer, aided and a laxer limit never take longer, whole changes apart.
func TestAnswers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		r.Limit = wash.Limit{Own: math.Exp(rapid.Float64Range(-7, 0).Draw(t, "ln limit"))}
		a := solve2(t, r)
		for _, w := range a.Ways {
			if w.Status == wash.Reached {
				reached(t, r, w)
				notMore(t, "the cheapest way", float64(a.Ways[a.Cheapest].Water), float64(w.Water))
				notMore(t, "the fastest way", float64(a.Ways[a.Fastest].Time), float64(w.Time))
			}
		}
		for what, change := range map[string]func(*wash.Request){
			"an aid":          func(r *wash.Request) { r.Load.Aid = true },
			"a laxer limit":   func(r *wash.Request) { r.Limit.Own *= 2 },
			"5 K warmer":      func(r *wash.Request) { r.Load.Water += 5 },
			"half the sheets": func(r *wash.Request) { r.Load.Area /= 2 },
		} {
			q := r
			change(&q)
			for _, b := range solve2(t, q).Ways {
				for _, w := range a.Ways {
					if b.Way == w.Way && w.Status == wash.Reached && w.Way != wash.LongChanges {
						more := b.Time
						if w.Way == wash.StillChanges { // contacts in whole seconds can bring in one change more
							more -= b.Contact
						}
						notMore(t, what+", "+w.Way.String(), float64(more), float64(w.Time))
					}
				}
			}
		}
	})
}

func reached(t *rapid.T, r wash.Request, w wash.Result) {
	limit := r.Limit.Own
	if left := leftAt(t, r, w, w.Time); math.Abs(left-w.Left) > 1e-9*left+1e-12 && w.Way != wash.Cascade || w.Left > limit {
		t.Errorf("%+v leaves %g by the curve", w, left)
	}
	slower, _ := temper.WashFactor(r.Load.Water)
	least := time.Duration(math.Ceil(wash.LeastContact(r.Load.Material).Value*max(slower, 1))) * time.Second
	if w.Contact > 0 && w.Contact < least {
		t.Errorf("%v: contact of %v is shorter than %v", w.Way, w.Contact, least)
	}
	less := w
	at := w.Time - w.Contact
	switch w.Way {
	case wash.Running:
		if at = w.Time - time.Second; at < least {
			return
		}
	case wash.Cascade:
		less.Contact -= time.Second
		at = less.Contact * time.Duration(r.Setting.Stages)
		if less.Contact < least {
			return
		}
	case wash.StandingTray:
		at = w.Time - time.Second
	case wash.StillChanges, wash.LongChanges, wash.NoWay:
	}
	if at > 0 && leftAt(t, r, less, at) <= limit {
		t.Errorf("%+v: less would do, %v", w, at)
	}
}

func solve2(t *rapid.T, r wash.Request) wash.Answer {
	a, err := wash.Solve(r)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// TestStartAgainIsEnough: prints half washed in running water, new ones put in beside them, and the whole time from then on for the
// area of all: no more is left than the limit, though the water was fouled. Integrated; the new ones enter the old water.
func TestStartAgainIsEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := rapid.Float64Range(0.05, 1).Draw(t, "first")
		second := rapid.Float64Range(0.05, 1).Draw(t, "second")
		r := wash.Request{
			Load:    wash.Load{Material: material.RC, Area: quantity.Area(first + second), Water: 20},
			Setting: drawSetting(t), Limit: wash.Limit{Standard: process.Exhibition},
		}
		var needs time.Duration
		for _, w := range solve2(t, r).Ways {
			if w.Way == wash.Running && w.Status == wash.Reached {
				needs = w.Time
			}
		}
		alone := rapid.Float64Range(0, 1).Draw(t, "share of the time") * needs.Seconds()
		litres, flow := r.Setting.Vessel.ML()/1000, r.Setting.Flow.ML()/60_000
		held := []float64{0.035 * first, 0.035 * second}
		mass := []float64{158 * held[0], 0, 0}
		flux := func(m []float64) []float64 {
			d := make([]float64, 3)
			for k := range held {
				d[k] = (held[k]*m[2]/litres - m[k]) / 30
				d[2] -= d[k]
			}
			d[2] -= flow * m[2] / litres
			return d
		}
		for i, step := range []float64{alone, needs.Seconds()} {
			if i == 1 {
				mass[1] = 158 * held[1]
			}
			n := int(step*(0.2/litres+0.2)) + 10
			for range n {
				mass = rungeKutta(mass, step/float64(n), flux)
			}
		}
		if left := (mass[0] + mass[1]) / (first + second); needs > 0 && left > 0.02*(1+1e-6) {
			t.Errorf("%g g/m² left after %v more", left, needs)
		}
	})
}
