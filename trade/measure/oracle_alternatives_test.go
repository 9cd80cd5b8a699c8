package measure_test

import (
	"fmt"
	"slices"
	"testing"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// choices lists all that may be chosen from: those of grade A and B, or else those of grade C that are kept.
func (q *question) choices() []outcome {
	k := keeper{q: q, every: true}
	q.explore(noLimit, &k)
	if k.top != nil {
		return k.good
	}
	return slices.DeleteFunc(k.rest, func(o outcome) bool { return o.miss() > keptOver*k.least+tie })
}

// bestOver returns the best of the choices in a part of the space, or nil.
func (q *question) bestOver(all []outcome, in func(o *outcome) bool) *outcome {
	var best *outcome
	for i := range all {
		if in(&all[i]) && (best == nil || q.better(&all[i], best, 0)) {
			best = &all[i]
		}
	}
	return best
}

// usedUp is what leaves the bottles.
func (q *question) usedUp(o *outcome) quantity.Volume {
	sum := quantity.Volume(0)
	for i := range q.chemicals {
		sum += o.usedOf(i)
	}
	return sum
}

// gains says whether x gains something over y.
func (q *question) gains(x, y *outcome) bool {
	return x.rank.readings < y.rank.readings ||
		x.miss() <= y.miss()-max(x.miss(), y.miss())/20+tie && x.miss() < y.miss() ||
		x.rank.vessels < y.rank.vessels || x.rank.off < y.rank.off || q.usedUp(x) < q.usedUp(y) ||
		x.rank.foreign < y.rank.foreign || x.rank.halves < y.rank.halves
}

// alternatives returns the best and up to four alternatives, of all that may be chosen from.
func (q *question) alternatives(all []outcome) []*outcome {
	best := q.bestOver(all, func(*outcome) bool { return true })
	parts := []func(o *outcome) bool{
		func(o *outcome) bool { return o.rank.readings < best.rank.readings },
		func(o *outcome) bool { return o.miss() <= 0.75*best.miss()+tie },
		func(o *outcome) bool { return o.rank.off < best.rank.off },
		func(o *outcome) bool { return 20*o.total <= 19*best.total },
	}
	for _, name := range q.names(&best.action) {
		parts = append(parts, func(o *outcome) bool { return !slices.Contains(q.names(&o.action), name) })
	}
	// Only choices of at most two readings more than the best are looked at.
	all = slices.DeleteFunc(slices.Clone(all), func(o outcome) bool { return o.rank.readings-best.rank.readings > 2 })
	var some []*outcome
	for _, in := range parts {
		if o := q.bestOver(all, in); o != nil && !in(best) {
			some = append(some, o)
		}
	}
	slices.SortStableFunc(some, func(x, y *outcome) int {
		switch {
		case q.better(x, y, 0):
			return -1
		case q.better(y, x, 0):
			return 1
		}
		return 0
	})
	given := []*outcome{best}
	for _, o := range some {
		more := q.gains(o, best)
		for _, g := range given[1:] {
			more = more && q.gains(o, g) && q.gains(g, o) // each over every other
		}
		if more && len(given) <= measure.MaxAlternatives {
			given = append(given, o)
		}
	}
	return given
}

// TestAlternatives compares the alternatives with the oracle's, by all that the order of choice looks at.
func TestAlternatives(t *testing.T) {
	most := 1000
	if testing.Short() {
		most = 40
	}
	compared, two, given := 0, 0, map[int]int{}
	for seed := 0; compared < most; seed++ {
		p := randomProblem(seed)
		q := newQuestion(p)
		if !q.small() || q.best() == nil {
			continue
		}
		compared++
		expected := q.alternatives(q.choices())
		given[len(expected)-1]++
		if q.chemicals == 2 && len(expected) > 1 {
			two++
		}
		compareAlternatives(t, q, seed, expected)
	}
	t.Logf("%d problems compared, %d of two chemicals with alternatives; given, and how often: %v", compared, two, given)
	for n := range measure.MaxAlternatives + 1 {
		if given[n] == 0 && !testing.Short() {
			t.Errorf("no problem had %d alternatives", n)
		}
	}
	if two < 20 && !testing.Short() {
		t.Errorf("only %d problems of two chemicals had alternatives", two)
	}
}

// alternativesBench draws a bath, and a usual bench that is small enough to be gone through.
func alternativesBench(seed int) measure.Problem {
	p, jug, small := benchProblem(seed), litreJug(), cylinder100()
	small.Scales = []measure.Scale{scale(quantity.UnitML, 20, 100, 20, 20)}
	if len(p.Dilution.Chemicals) == 2 || seed%2 == 0 {
		jug.Scales = jug.Scales[:1]
	}
	p.Vessels = []measure.Vessel{jug}
	if seed%2 == 0 {
		p.Vessels = append(p.Vessels, small)
	}
	return p
}

// TestAlternativesOnUsualBenches does the same on real scales where the best is of grade A with few readings: then the
// oracle need not look beyond two more.
func TestAlternativesOnUsualBenches(t *testing.T) {
	most := 24
	if testing.Short() {
		most = 4
	}
	compared, two, given := 0, 0, 0
	for seed := 0; compared < most; seed++ {
		q := newQuestion(alternativesBench(seed))
		best := q.bestWithin(1 + q.chemicals)
		if best == nil {
			continue
		}
		compared++
		k := keeper{q: q, every: true}
		q.explore(best.rank.readings+2, &k)
		expected := q.alternatives(k.good)
		given += len(expected) - 1
		if q.chemicals == 2 && len(expected) > 1 {
			two++
		}
		compareAlternatives(t, q, seed, expected)
	}
	t.Logf("%d benches compared, %d alternatives; %d benches of two chemicals had some", compared, given, two)
	if !testing.Short() && (given < most || two == 0) {
		t.Errorf("%d alternatives, %d benches of two chemicals had some: too few", given, two)
	}
}

// compareAlternatives solves the question and compares all choices with those that are expected.
func compareAlternatives(t *testing.T, q *question, seed int, expected []*outcome) {
	t.Helper()
	r, err := measure.Solve(t.Context(), q.Problem, measure.Options{NoAdvice: true, Alternatives: measure.MaxAlternatives})
	if err != nil {
		t.Fatal(err)
	}
	var got, want string
	for _, c := range r.Choices {
		a, err := q.trace(c)
		if err != nil {
			t.Fatal(err)
		}
		o := q.work(a)
		if what := q.misstated(c, &o) + q.misordered(c, &a); what != "" || !q.holds(a) {
			t.Errorf("seed %d: %s outside the space or misstated: %s", seed, q.sayOutcome(&o), what)
		}
		got += fmt.Sprintf("\n  %+v %v", o.rank, q.names(&a))
	}
	for _, o := range expected {
		want += fmt.Sprintf("\n  %+v %v", o.rank, q.names(&o.action))
	}
	if got != want {
		t.Errorf("seed %d: got %s\nwant %s\n%s", seed, got, want, describe(q.Problem))
	}
}
