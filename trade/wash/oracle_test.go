package wash_test

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/wash"
)

// integrated is what is left, g/m², by a Runge-Kutta integration of masses over contacts of water that is dumped after each. It
// knows nothing of the closed form: grams in the places and in the water, and what leaves in a second.
func integrated(l wash.Load, litres, litresPerSecond float64, contacts []float64) float64 {
	return integratedIn(l, 1, litres, litresPerSecond, contacts)
}

// integratedIn is integrated in a room where what leaves slowest takes slower times as long.
func integratedIn(l wash.Load, slower, litres, litresPerSecond float64, contacts []float64) float64 {
	held, share, tau := wash.Held(l.Material).Value/1000*float64(l.Area), []float64{1}, []float64{slower * wash.TimeConstant(l.Material, l.Aid).Value}
	if l.Material == material.FB {
		share, tau = []float64{0.25, 0.75}, []float64{30, tau[0]}
	}
	mass := make([]float64, len(tau)+1)
	slowest := math.Pow(2, (20-float64(l.Water))/10)
	if l.Water > 20 {
		slowest = math.Pow(1.2, (20-float64(l.Water))/10)
	}
	fastest := litres / math.Max(litresPerSecond, 1e-12)
	for k := range tau {
		tau[k] *= slowest
		mass[k] = 158 * held * share[k]
		fastest = min(fastest, tau[k]/(1+held*share[k]/litres))
	}
	flux := func(m []float64) []float64 {
		d := make([]float64, len(m))
		water := m[len(tau)] / litres
		for k := range tau {
			d[k] = held * share[k] * (water - m[k]/(held*share[k])) / tau[k]
			d[len(tau)] -= d[k]
		}
		d[len(tau)] -= litresPerSecond * water
		return d
	}
	for _, contact := range contacts {
		mass[len(tau)] = 0
		n := int(contact/fastest*25) + 25
		for range n {
			mass = rungeKutta(mass, contact/float64(n), flux)
		}
	}
	sum := 0.0
	for k := range tau {
		sum += mass[k]
	}
	return sum / float64(l.Area)
}

func rungeKutta(y []float64, h float64, f func([]float64) []float64) []float64 {
	plus := func(d []float64, s float64) []float64 {
		z := make([]float64, len(y))
		for i := range y {
			z[i] = y[i] + s*d[i]
		}
		return z
	}
	k1 := f(y)
	k2 := f(plus(k1, h/2))
	k3 := f(plus(k2, h/2))
	k4 := f(plus(k3, h))
	next := make([]float64, len(y))
	for i := range y {
		next[i] = y[i] + h/6*(k1[i]+2*k2[i]+2*k3[i]+k4[i])
	}
	return next
}

func drawLoad(t *rapid.T) wash.Load {
	return wash.Load{
		Material: rapid.SampledFrom(material.All()).Draw(t, "material"),
		Area:     quantity.Area(math.Exp(rapid.Float64Range(-5, 1.5).Draw(t, "ln area"))),
		Aid:      rapid.Bool().Draw(t, "aid"),
		Water:    quantity.Celsius(rapid.IntRange(2, 35).Draw(t, "water")),
	}
}

func drawSetting(t *rapid.T) wash.Setting {
	return wash.Setting{
		Vessel: quantity.Volume(rapid.IntRange(200, 30_000).Draw(t, "vessel")) * quantity.Millilitre,
		Flow:   quantity.Volume(rapid.IntRange(100, 12_000).Draw(t, "flow")) * quantity.Millilitre,
	}
}

// TestClosedForm holds the closed form against the integration, over random loads and settings.
func TestClosedForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := wash.Request{Load: drawLoad(t), Setting: drawSetting(t), Limit: wash.Limit{Standard: process.Exhibition}}
		contact := float64(rapid.IntRange(60, 900).Draw(t, "contact"))
		rest := float64(rapid.IntRange(1, int(contact)-1).Draw(t, "rest"))
		full := rapid.IntRange(0, 3).Draw(t, "full")
		flow := r.Setting.Flow.ML() / 1000 / 60
		litres := r.Setting.Vessel.ML() / 1000
		w := wash.Result{Way: rapid.SampledFrom([]wash.Way{
			wash.StillChanges, wash.LongChanges, wash.Running, wash.Cascade, wash.StandingTray,
		}).Draw(t, "way")}
		contacts := []float64{}
		upTo := float64(full)*contact + rest
		switch w.Way {
		case wash.Running:
			contacts = []float64{upTo}
		case wash.Cascade:
			r.Setting.Stages = full + 2
		case wash.StillChanges, wash.LongChanges:
			flow = 0
		case wash.StandingTray, wash.NoWay:
		}
		if w.Way != wash.Running {
			w.Contact = time.Duration(contact) * time.Second
			for range full {
				contacts = append(contacts, contact)
			}
			contacts = append(contacts, rest)
		}
		want := integrated(r.Load, litres, flow, contacts)
		points, err := wash.Curve(r, w, time.Duration(upTo)*time.Second, 2)
		if err != nil {
			t.Fatal(err)
		}
		start := 158 * wash.Held(r.Load.Material).Value / 1000
		if got := points[1].Left; math.Abs(got-want) > 2e-6*want+1e-11*start {
			t.Errorf("%v for %v s of %v in contacts of %g s: %.9g left, %.9g by integration", w.Way, upTo, r.Load, contact, got, want)
		}
	})
}

// TestSteadyCascade holds the concentrations of a cascade in steady use against very many loads going through it one slice after
// another, which is where they come to rest.
func TestSteadyCascade(t *testing.T) {
	for _, m := range material.All() {
		for n := 2; n <= 3; n++ {
			l := wash.Load{Material: m, Area: 0.5, Water: 20}
			r := wash.Request{
				Load:    l,
				Setting: wash.Setting{Vessel: 10 * quantity.Litre, Flow: quantity.Litre / 2, Stages: n, Loads: 50},
				Limit:   wash.Limit{Own: 1.5},
			}
			got := way(t, solve(t, r), wash.Cascade)
			if got.Status != wash.Reached {
				t.Fatalf("%v by %d: not reached", m, n)
			}
			near(t, m.String(), got.Left, sliced(l, n, 0.5/60, got.Contact.Seconds()), 0.02)
		}
	}
}

// sliced lets slices of a load, each a fiftieth of it, enter one after another, until the last ones leave alike.
func sliced(l wash.Load, n int, flow, contact float64) float64 {
	const slices, volume = 50, 10.0
	held, share, tau := wash.Held(l.Material).Value/1000*float64(l.Area)/slices, []float64{1}, []float64{wash.TimeConstant(l.Material, l.Aid).Value}
	if l.Material == material.FB {
		share, tau = []float64{0.25, 0.75}, []float64{30, tau[0]}
	}
	type slice [2]float64
	vessels := make([][]slice, n)
	water := make([]float64, n)
	step := contact / slices
	var last slice
	for range slices * (int(10*volume/flow/contact) + 10) { // ten times the mean stay of the water
		in := slice{158, 158}
		for j := range vessels { // one slice goes on from each vessel to the next
			vessels[j] = append(vessels[j], in)
			in = slice{}
			if len(vessels[j]) > slices {
				in, vessels[j] = vessels[j][0], vessels[j][1:]
			}
			if in == (slice{}) {
				break
			}
			if j == n-1 {
				last = in
			}
		}
		const fine = 4
		for range fine {
			h := step / fine
			for j := range vessels {
				clean := 0.0
				if j+1 < n {
					clean = water[j+1]
				}
				gain := flow * (clean - water[j]) * h
				for i := range vessels[j] {
					for k := range tau {
						c := &vessels[j][i][k]
						next := water[j] + (*c-water[j])*math.Exp(-h/tau[k])
						gain += held * share[k] * (*c - next)
						*c = next
					}
				}
				water[j] += gain / volume
			}
		}
	}
	sum := 0.0
	for k := range tau {
		sum += last[k] * share[k]
	}
	return sum * wash.Held(l.Material).Value / 1000
}
