package measure_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// draws is how often each choice is made in the Monte Carlo; the standard deviation is then known to 0.16 %.
const draws = 200_000

// A bench is one making of a bath: how each vessel errs, and a source of setting errors.
type bench struct {
	*rand.Rand
	z []float64
}

func (b *bench) rectangular() float64 { return 2*b.Float64() - 1 }

// measured returns what a reading truly measures, mL.
func (b *bench) measured(m *mark) float64 {
	return m.volume.ML() + m.t*b.z[m.vessel] + m.h*b.rectangular()
}

func (b *bench) measuredAll(p plan) float64 {
	sum := 0.0
	for _, x := range p {
		for range x.n {
			sum += b.measured(x.m)
		}
	}
	return sum
}

// strengths makes the bath once, with everything that goes wrong, and returns the share of each chemical.
func (q *question) strengths(b *bench, a *action) [2]float64 {
	for v := range b.z {
		b.z[v] = b.rectangular()
	}
	var s [2]float64
	for range a.dosings() {
		if a.inJug {
			first := b.measured(a.doses[0][0].m)
			s[0] += first
			if q.chemicals == 2 {
				s[1] += b.measured(a.doses[1][0].m) - first
			}
			continue
		}
		for i := range q.chemicals {
			s[i] += b.measuredAll(a.doses[i])
		}
	}
	total := b.measuredAll(a.fills)
	if a.apart {
		total += s[0] + s[1]
	}
	if a.r != nil {
		s[0] *= b.measured(a.r) / b.measured(a.q)
	}
	return [2]float64{s[0] / total, s[1] / total}
}

// deviation returns the relative standard deviation of the strength of the chemical that counts.
func (q *question) deviation(a *action, which int) float64 {
	b := &bench{rand.New(rand.NewPCG(20, 26)), make([]float64, len(q.Vessels))}
	sum, squares := 0.0, 0.0
	for range draws {
		f := q.strengths(b, a)[which]
		sum += f
		squares += f * f
	}
	mean := sum / draws
	return math.Sqrt(squares/draws-mean*mean) / mean
}

// A variedCase is a problem whose choice is of the manner.
type variedCase struct {
	name    string
	manner  measure.Manner
	problem measure.Problem
}

// variedCases adds to the kits what they do not come to.
func variedCases() []variedCase {
	jug := func(name string, s ...measure.Scale) measure.Vessel {
		return measure.Vessel{Name: name, Kind: measure.Jug, Scales: s}
	}
	good := &measure.Permissible{Rel: 0.01}
	big := jug("big", scale(quantity.UnitML, 500, 2000, 500, 500))
	fine := jug("fine", scale(quantity.UnitML, 100, 500, 10, 50))
	fine.Own = good
	halves := jug("halves", scale(quantity.UnitML, 100, 1000, 100, 100))
	halves.HalfMarks = true
	wide := litreJug()
	wide.InnerWidth = 100
	balance := measure.Vessel{Name: "balance", Kind: measure.Balance, Scales: []measure.Scale{scale(0, 1, 200, 1, 10)}}
	beaker := measure.Vessel{Name: "beaker", Kind: measure.Beaker, Own: good, Scales: []measure.Scale{scale(0, 100, 500, 100, 100)}}
	ten := measure.Vessel{Name: "ten", Kind: measure.Cylinder, Scales: []measure.Scale{tenths(50, 100, 10, 0)}}
	quarters := jug("quarters", scale(quantity.UnitML, 500, 1000, 250, 250))
	fifty := measure.Vessel{Name: "fifty", Kind: measure.Cylinder, Scales: []measure.Scale{scale(0, 40, 50, 1, 10)}}
	on := func(vs ...measure.Vessel) []measure.Vessel { return vs }
	ab := parts(2, 2, 20)
	return []variedCase{
		{"weighed into one jug", measure.Weighed, measure.Problem{
			Dilution: oneTo(19), Window: ml(1000, 1000, 1000), Tolerance: 0.08, Vessels: on(litreJug(), balance), Density: 1.1,
		}},
		{"weighed into the first of two", measure.Weighed, measure.Problem{
			Dilution: oneTo(19), Window: ml(1900, 2100, 2000), Tolerance: 0.05, Vessels: on(beaker, litreJug(), balance), Density: 1.37,
		}},
		{"intermediate", measure.Intermediate, measure.Problem{
			Dilution: oneTo(400), Window: ml(450, 550, 500), Tolerance: 0.15, Vessels: on(ten, beaker, fine),
		}},
		{"A and B in one jug", measure.InJug, measure.Problem{
			Dilution: parts(2, 2, 4), Window: ml(450, 500, 500), Tolerance: 0.15, Vessels: on(fine),
		}},
		{"A and B poured", measure.Poured, measure.Problem{
			Dilution: ab, Window: ml(900, 1000, 1000), Tolerance: 0.10, Vessels: on(litreJug(), cylinder100()),
		}},
		{"A and B into the first of two", measure.FirstJug, measure.Problem{
			Dilution: parts(2, 2, 56), Window: ml(1500, 1500, 1500), Tolerance: 0.12, Vessels: on(quarters, fifty),
		}},
		{"A and B apart", measure.Apart, measure.Problem{
			Dilution: ab, Window: ml(900, 1300, 1200), Tolerance: 0.15, Vessels: on(litreJug()), WaterFirst: true,
		}},
		{"half a mark", measure.InJug, measure.Problem{
			Dilution: parts(3, 17), Window: ml(1000, 1000, 1000), Tolerance: 0.40, Vessels: on(halves),
		}},
		{"inner width", measure.InJug, measure.Problem{
			Dilution: oneTo(9), Window: ml(900, 1000, 1000), Tolerance: 0.15, Vessels: on(wide),
		}},
		{"three jugfuls alike", measure.Poured, measure.Problem{
			Dilution: oneTo(4), Window: ml(1500, 1500, 1500), Tolerance: 0.06, Vessels: on(beaker, cylinder100()),
		}},
		{"apart, two pours", measure.Apart, measure.Problem{
			Dilution: oneTo(9), Window: ml(2100, 2300, 2200), Tolerance: 0.12, Vessels: on(big, cylinder100()), WaterFirst: true,
		}},
	}
}

// TestUncertaintyAgainstMonteCarlo makes the bath of each choice many times over with the same error variables, and
// without any linearisation. First order is good to its own square: the bound is 0.6 % (statistics, three and a
// half standard deviations) and twice u².
func TestUncertaintyAgainstMonteCarlo(t *testing.T) {
	cases := variedCases()
	for _, k := range kitCases() {
		cases = append(cases, variedCase{k.name, newQuestion(k.problem).bestByReadings().manner, k.problem})
	}
	seen := map[measure.Manner]int{}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			q := newQuestion(tc.problem)
			c := solved(t, tc.problem)
			a, err := q.trace(c)
			if err != nil {
				t.Fatal(err)
			}
			if a.manner != tc.manner {
				t.Fatalf("%s: want %s", q.say(&a), mannerName(tc.manner))
			}
			seen[a.manner]++
			q.checkDeviation(t, &a, c.Uncertainty)
		})
	}
	for m := measure.InJug; m <= measure.Intermediate; m++ {
		if seen[m] == 0 {
			t.Errorf("no choice was %s", mannerName(m))
		}
	}
}

func (q *question) checkDeviation(t *testing.T, a *action, u2 float64) {
	t.Helper()
	// With two chemicals, that one counts whose |bias| + U is larger.
	which, u := 0, u2/2
	if q.chemicals == 2 && math.Abs(q.deviation(a, 1)-u) < math.Abs(q.deviation(a, 0)-u) {
		which = 1
	}
	got := q.deviation(a, which)
	if off := math.Abs(got/u - 1); off > 0.006+2*u*u {
		t.Errorf("%s: standard deviation %.5f, to first order %.5f (%.2f %% apart)", q.say(a), got, u, 100*off)
	}
}

// solved returns the solver's choice.
func solved(t *testing.T, p measure.Problem) measure.Choice {
	t.Helper()
	r, err := measure.Solve(t.Context(), p, measure.Options{NoAdvice: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Choices) == 0 {
		t.Fatalf("nothing found: %+v", r)
	}
	return r.Choices[0]
}
