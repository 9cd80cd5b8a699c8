package measure_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// benchProblem draws a bath as it is mixed every evening, with the vessels of a usual bench.
func benchProblem(seed int) measure.Problem {
	d := dice{Rand: rand.New(rand.NewPCG(uint64(seed), 11))}
	p := measure.Problem{Tolerance: pick(d, 0.1, 0.15, 0.2, 0.3), System: pick(d, quantity.Metric, quantity.US)}
	p.Dilution = oneTo(pick[int64](d, 1, 2, 3, 4, 7, 9, 14, 15, 19, 31))
	if d.chance(0.25) {
		p.Dilution = pick(d, parts(2, 2, 20), parts(2, 2, 12), parts(2, 2, 4), parts(2, 4, 14))
	}
	p.Vessels = [][]measure.Vessel{
		{litreJug()},
		{litreJug()},
		{litreJug(), cylinder100()},
		{litreJug(), syringe10()},
		{litreJug(), cylinder100(), syringe10()},
	}[d.IntN(5)]
	p.WaterFirst = d.chance(0.2)
	total := 100 * (3 + d.Int64N(18))
	p.Window = ml(total-total/10, total+total/10, total)
	if d.chance(0.3) {
		p.Window = ml(total, total+total/10, total+total/10)
	}
	return p
}

// bestWithin returns the optimum where it is of grade A and of no more than limit readings, else nil.
func (q *question) bestWithin(limit int) *outcome {
	for n := 1; n <= limit; n++ {
		k := keeper{q: q}
		q.explore(n, &k)
		if k.top != nil && k.top.rank.grade == measure.GradeA {
			return k.top
		}
	}
	return nil
}

// TestSolveOnUsualBenches compares the search with the oracle on real scales, where grade A is had with up to three
// readings: then the oracle need not look further.
func TestSolveOnUsualBenches(t *testing.T) {
	most := 40
	if testing.Short() {
		most = 10
	}
	compared, two, readings := 0, 0, map[int]int{}
	for seed := 0; compared < most && seed < 3*most; seed++ {
		p := benchProblem(seed)
		q := newQuestion(p)
		want := q.bestWithin(3)
		if want == nil {
			continue
		}
		compared++
		readings[want.rank.readings]++
		if q.chemicals == 2 {
			two++
		}
		got, err := measure.Solve(t.Context(), p, measure.Options{NoAdvice: true})
		if err != nil {
			t.Fatal(err)
		}
		if what := q.disagreement(got, want); what != "" {
			t.Errorf("seed %d: %s\n%s", seed, what, describe(p))
		}
	}
	t.Logf("%d benches compared, %d with two chemicals; by readings: %v", compared, two, readings)
	if compared < most || two == 0 || readings[2] == 0 || readings[3] == 0 {
		t.Errorf("%d compared, by readings %v: too few", compared, readings)
	}
}

// TestOrderOfVessels checks that the answer is the same, to the last step, in whatever order the vessels stand.
func TestOrderOfVessels(t *testing.T) {
	for seed := range 300 {
		p := randomProblem(seed)
		turned := p
		turned.Vessels = slices.Clone(p.Vessels)
		slices.Reverse(turned.Vessels)
		if a, b := sayResult(t, p), sayResult(t, turned); a != b {
			t.Errorf("seed %d: %s\nturned %s\n%s", seed, a, b, describe(p))
		}
	}
}

// sayResult writes what a search gives, with the vessels' names in place of their indexes.
func sayResult(t *testing.T, p measure.Problem) string {
	t.Helper()
	r, err := measure.Solve(t.Context(), p, measure.Options{NoAdvice: true, Alternatives: measure.MaxAlternatives})
	if err != nil {
		t.Fatal(err)
	}
	text := fmt.Sprintf("status %v, lack %v of %d, %v", r.Status, r.Lack, r.Short, r.NeedAtLeast)
	for _, c := range r.Choices {
		text += fmt.Sprintf("\n%v %v %v bias %.9f U %.9f", c.Manner, c.Grade, c.Total, c.Bias, c.Uncertainty)
		for _, v := range c.Vessels {
			text += " " + p.Vessels[v].Name
		}
		for _, s := range c.Steps {
			if s.Vessel >= 0 {
				text += " " + p.Vessels[s.Vessel].Name
			}
			s.Vessel = 0
			text += fmt.Sprint(s)
		}
	}
	return text
}

// TestUnitOfScales checks that a scale printed in litres gives the same as one in millilitres.
func TestUnitOfScales(t *testing.T) {
	for seed := range 300 {
		p := randomProblem(seed)
		inLitres := p
		inLitres.Vessels = slices.Clone(p.Vessels)
		for i, v := range p.Vessels {
			inLitres.Vessels[i].Scales = slices.Clone(v.Scales)
			for j, s := range v.Scales {
				if s.Unit != quantity.UnitML || v.Kind == measure.Balance {
					continue
				}
				inLitres.Vessels[i].Scales[j] = measure.Scale{
					Unit: quantity.UnitLitre, From: thousandth(s.From), To: thousandth(s.To), Step: thousandth(s.Step),
					Numbered: thousandth(s.Numbered),
				}
			}
		}
		q, want := newQuestion(inLitres), newQuestion(p)
		got, err := measure.Solve(t.Context(), inLitres, measure.Options{NoAdvice: true})
		if err != nil {
			t.Fatal(err)
		}
		plain, err := measure.Solve(t.Context(), p, measure.Options{NoAdvice: true})
		if err != nil {
			t.Fatal(err)
		}
		if len(got.Choices) != len(plain.Choices) {
			t.Fatalf("seed %d: %d choices in litres, %d in millilitres", seed, len(got.Choices), len(plain.Choices))
		}
		if len(got.Choices) == 0 {
			continue
		}
		a, errA := q.trace(got.Choices[0])
		b, errB := want.trace(plain.Choices[0])
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		x, y := q.work(a), want.work(b)
		if order, step := x.rank.compare(y.rank, 0); order != 0 {
			t.Errorf("seed %d: parted by step %d: %s in litres, %s in millilitres", seed, step, q.sayOutcome(&x), want.sayOutcome(&y))
		}
	}
}

func thousandth(r quantity.Ratio) quantity.Ratio { return ratio(r.Num(), 1000*r.Den()) }
