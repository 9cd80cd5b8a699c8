package temper_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/quantity"
	"wetside/trade/temper"
)

// someProblem draws a problem that is no malformed one.
func someProblem(t *rapid.T) temper.Problem {
	degrees := func(name string, from, to float64) quantity.Celsius {
		return quantity.Celsius(rapid.Float64Range(from, to).Draw(t, name))
	}
	cold := degrees("cold", 0, 40)
	hot := cold
	if !rapid.Bool().Draw(t, "equal taps") {
		hot = degrees("hot", float64(cold)+1, 100)
	}
	total := ml(rapid.Float64Range(100, 20_000).Draw(t, "total"))
	return temper.Problem{
		Cold: cold, Hot: hot, Want: degrees("want", 0, 100), Total: total,
		Chemical:   quantity.Volume(rapid.Float64Range(0, 0.9).Draw(t, "part") * float64(total)),
		ChemicalAt: degrees("chemical_at", 0, 60),
		Kettle:     rapid.Bool().Draw(t, "kettle"), Ice: rapid.Bool().Draw(t, "ice"),
		Step: ml(rapid.SampledFrom([]float64{0, 1, 10, 29.5735295625, 50, 100}).Draw(t, "step")),
	}
}

// TestBalanceCloses: what goes in is, in mass and in heat, what the whole is at its temperature and volume;
// and that temperature lies between the coldest and the hottest that went in.
func TestBalanceCloses(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := someProblem(rt)
		r := solve(t, p)
		mass, heat := massOf(t, p, r), heatOf(t, p, r)
		if v := mass / density(t, r.Nearest); math.Abs(v-p.Total.ML()) > 1e-4*p.Total.ML() {
			rt.Errorf("%+v makes %v mL at %v, want %v", p, v, r.Nearest, p.Total.ML())
		}
		// The slack of 0.01 K at a tap's own temperature is 0.04 kJ/kg.
		if h := heat / mass; math.Abs(h-enthalpy(t, r.Nearest)) > 0.05 {
			rt.Errorf("%+v holds %v kJ/kg, want %v at %v", p, h, enthalpy(t, r.Nearest), r.Nearest)
		}
		low, high := span(p, r)
		if r.Nearest < low-0.011 || r.Nearest > high+0.011 || r.AtMarks < low-0.011 || r.AtMarks > high+0.011 {
			rt.Errorf("%+v: nearest %v, at marks %v, beyond %v to %v", p, r.Nearest, r.AtMarks, low, high)
		}
	})
}

// span is the coldest and the hottest that goes in, ice counting as the least that water has.
func span(p temper.Problem, r temper.Result) (low, high quantity.Celsius) {
	low, high = 100, 0
	for _, s := range []struct {
		used bool
		at   quantity.Celsius
	}{{r.Hot > 0, p.Hot}, {r.Cold > 0, p.Cold}, {r.Kettle > 0, 100}, {r.Ice > 0, 0}, {p.Chemical > 0, p.ChemicalAt}} {
		if s.used {
			low, high = min(low, s.at), max(high, s.at)
		}
	}
	return low, high
}

// TestHotterWantsMoreHot: a warmer whole takes more hot and less cold water.
func TestHotterWantsMoreHot(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := someProblem(rt)
		q := p
		q.Want = p.Want + quantity.Celsius(rapid.Float64Range(0.1, 20).Draw(rt, "warmer"))
		if q.Want > 100 {
			rt.Skip()
		}
		r, s := solve(t, p), solve(t, q)
		if r.Status != temper.Reached || s.Status != temper.Reached {
			return
		}
		if s.Hot <= r.Hot || s.Cold >= r.Cold {
			rt.Errorf("%v °C: %v + %v mL; %v °C: %v + %v mL", p.Want, r.Hot.ML(), r.Cold.ML(), q.Want, s.Hot.ML(), s.Cold.ML())
		}
	})
}

// TestScales: three times as much of everything is three times the waters at the same temperatures.
func TestScales(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := someProblem(rt)
		q := p
		q.Total, q.Chemical = 3*p.Total, 3*p.Chemical
		r, s := solve(t, p), solve(t, q)
		tol := 1e-6 * q.Total.ML()
		if r.Status != s.Status || math.Abs(float64(r.Nearest-s.Nearest)) > 1e-6 ||
			math.Abs(3*r.Hot.ML()-s.Hot.ML()) > tol || math.Abs(3*r.Cold.ML()-s.Cold.ML()) > tol ||
			math.Abs(3*r.Kettle.ML()-s.Kettle.ML()) > tol || math.Abs(float64(3*r.Ice-s.Ice)) > tol {
			rt.Errorf("%+v: %+v; three times: %+v", p, r, s)
		}
	})
}

// TestMarksAreBest: marks lie on the step, rise, leave room for the chemical, and no other mark for the hot water
// brings the whole nearer to what is wanted: all are tried, by a balance written apart.
func TestMarksAreBest(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := someProblem(rt)
		if p.Step < 10*quantity.Millilitre {
			p.Step = 25 * quantity.Millilitre
		}
		r := solve(t, p)
		last := quantity.Volume(0)
		for _, m := range r.Marks {
			if m.From == temper.IceByWeight {
				if m.To != 0 || m.Grams <= 0 || math.Trunc(float64(m.Grams)) != float64(m.Grams) {
					rt.Errorf("%+v: ice %+v", p, m)
				}
				continue
			}
			if m.To%p.Step != 0 || m.To <= last || m.Grams != 0 {
				rt.Errorf("%+v: mark %+v after %v", p, m, last.ML())
			}
			last = m.To
		}
		if over := last + p.Chemical - p.Total; p.Chemical > 0 && over.ML() > p.Step.ML()/10+0.02*p.Total.ML() {
			rt.Errorf("%+v: level %v leaves no room for the chemical", p, last.ML())
		}
		if r.Status == temper.Reached && len(r.Marks) > 0 && r.Marks[0].From != temper.IceByWeight {
			for to := quantity.Volume(0); to <= last; to += p.Step {
				if at := wholeAt(t, p, to, last); math.Abs(at-float64(p.Want)) < math.Abs(float64(r.AtMarks-p.Want))-0.01 {
					rt.Errorf("%+v: marks %+v give %v, hot to %v would give %v", p, r.Marks, r.AtMarks, to.ML(), at)
				}
			}
		}
	})
}

// wholeAt is the temperature of the whole with hot water to one mark and cold to another, by bisection.
func wholeAt(t *testing.T, p temper.Problem, hot, level quantity.Volume) float64 {
	t.Helper()
	m1, h1 := density(t, p.Hot)*hot.ML(), enthalpy(t, p.Hot)
	h2 := enthalpy(t, p.Cold)
	cold := bisect(0, 2*level.ML(), func(m2 float64) bool {
		at := temperature(t, (m1*h1+m2*h2)/(m1+m2))
		return (m1+m2)/density(t, at) > level.ML()
	})
	var m3, h3 float64
	if p.Chemical > 0 {
		m3, h3 = density(t, p.ChemicalAt)*p.Chemical.ML(), enthalpy(t, p.ChemicalAt)
	}
	return float64(temperature(t, (m1*h1+cold*h2+m3*h3)/(m1+cold+m3)))
}

func temperature(t *testing.T, h float64) quantity.Celsius {
	t.Helper()
	return quantity.Celsius(bisect(0, 100, func(at float64) bool { return enthalpy(t, quantity.Celsius(at)) > h }))
}

// bisect returns where tooMuch turns true.
func bisect(low, high float64, tooMuch func(float64) bool) float64 {
	for range 50 {
		if mid := (low + high) / 2; tooMuch(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return low
}

// massOf adds up what a result takes, each at its own temperature, in g.
func massOf(tb testing.TB, p temper.Problem, r temper.Result) float64 {
	tb.Helper()
	m := density(tb, p.Hot)*r.Hot.ML() + density(tb, p.Cold)*r.Cold.ML() + density(tb, 100)*r.Kettle.ML() + float64(r.Ice)
	if p.Chemical > 0 {
		m += density(tb, p.ChemicalAt) * p.Chemical.ML()
	}
	return m
}

// heatOf adds up their enthalpies, in J, melting taken out of the ice.
func heatOf(tb testing.TB, p temper.Problem, r temper.Result) float64 {
	tb.Helper()
	const melting = 333.421 // kJ/kg, IAPWS-06 and IAPWS-95
	h := density(tb, p.Hot)*r.Hot.ML()*enthalpy(tb, p.Hot) + density(tb, p.Cold)*r.Cold.ML()*enthalpy(tb, p.Cold) +
		density(tb, 100)*r.Kettle.ML()*enthalpy(tb, 100) + float64(r.Ice)*(enthalpy(tb, 0)-melting)
	if p.Chemical > 0 {
		h += density(tb, p.ChemicalAt) * p.Chemical.ML() * enthalpy(tb, p.ChemicalAt)
	}
	return h
}
