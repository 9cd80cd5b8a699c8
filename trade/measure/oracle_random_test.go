package measure_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// casesEnv sets how many random problems are compared; a long run takes some thousand.
const casesEnv = "MEASURE_ORACLE_CASES"

func caseCount(t *testing.T) int {
	t.Helper()
	n := 600
	if testing.Short() {
		n = 90
	}
	if s := os.Getenv(casesEnv); s != "" {
		var err error
		if n, err = strconv.Atoi(s); err != nil {
			t.Fatalf("%s: %v", casesEnv, err)
		}
	}
	return n
}

// randomProblem returns problem number seed; the same for ever.
func randomProblem(seed int) measure.Problem {
	all := flavours()
	return dice{rand.New(rand.NewPCG(uint64(seed), 7)), all[seed%len(all)]}.problem()
}

// small says whether the whole space of a question is soon gone through.
func (q *question) small() bool {
	doses := len(q.pours)
	if q.chemicals == 2 {
		doses *= doses
	}
	return doses*max(len(q.fills), 1) < 1_500_000
}

// A tally counts what the random problems came to.
type tally map[string]int

func (c tally) count(q *question, o *outcome) {
	if o == nil {
		lack, short, _ := q.lacking()
		c["impossible"]++
		c[fmt.Sprintf("lack %d of %d", lack, short)]++
		return
	}
	for _, step := range q.decisive() {
		c[fmt.Sprintf("decided by step %d", step)]++
	}
	c["manner "+mannerName(o.manner)]++
	c["grade "+string('A'+rune(o.rank.grade))]++
	if q.chemicals == 2 {
		c["two chemicals "+mannerName(o.manner)]++
	}
	if o.rank.halves > 0 {
		c["half marks"]++
	}
	if q.WaterFirst {
		c["water first"]++
	}
	if o.rank.twoScales > 0 {
		c["two scales of one vessel"]++
	}
}

// mustHit lists what the random problems have to come to, each at least once.
func mustHit() []string {
	all := []string{
		"manner in jug", "manner poured", "manner first jug", "manner apart", "manner weighed", "manner intermediate",
		"grade A", "grade B", "grade C", "impossible", "half marks", "water first", "two scales of one vessel",
		"two chemicals in jug", "two chemicals poured", "two chemicals first jug", "two chemicals apart",
	}
	for step := 2; step <= steps; step++ {
		all = append(all, fmt.Sprintf("decided by step %d", step))
	}
	return append(all, "lack 1 of 0", "lack 2 of 0", "lack 2 of 1")
}

// TestSolveAgainstTheWholeSpace compares the search with the oracle on small random problems.
func TestSolveAgainstTheWholeSpace(t *testing.T) {
	hits, compared, failed := tally{}, 0, 0
	for seed := 0; compared < caseCount(t); seed++ {
		p := randomProblem(seed)
		q := newQuestion(p)
		if !q.small() {
			continue
		}
		compared++
		want := q.best()
		hits.count(q, want)
		got, err := measure.Solve(t.Context(), p, measure.Options{NoAdvice: true})
		if err != nil {
			t.Fatalf("seed %d: %v\n%s", seed, err, describe(p))
		}
		if what := q.disagreement(got, want); what != "" {
			failed++
			t.Errorf("seed %d: %s\n%s", seed, what, describe(p))
		}
		if failed == 10 {
			t.Fatal("and so on")
		}
	}
	t.Logf("%d problems compared: %v", compared, hits)
	for _, what := range mustHit() {
		if hits[what] == 0 && !testing.Short() {
			t.Errorf("no problem came to %q: the check has not run", what)
		}
	}
}

// describe writes a problem so that it can be made again by hand.
func describe(p measure.Problem) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  parts")
	for _, a := range p.Dilution.Chemicals {
		fmt.Fprintf(&b, " %v +", ratOf(a).RatString())
	}
	fmt.Fprintf(&b, " %v, window %.10g to %.10g mL, wanted %.10g, tolerance %g, water first %v, density %g, system %v",
		ratOf(p.Dilution.Water).RatString(), p.Window.Min.ML(), p.Window.Max.ML(), p.Window.Want.ML(), p.Tolerance,
		p.WaterFirst, float64(p.Density), p.System)
	for i, v := range p.Available {
		fmt.Fprintf(&b, ", available %d: %.10g mL", i, v.ML())
	}
	for _, v := range p.Vessels {
		fmt.Fprintf(&b, "\n  %q kind %d class %d half marks %v width %g setting %v", v.Name, v.Kind, v.Class, v.HalfMarks,
			float64(v.InnerWidth), v.Setting)
		if v.Own != nil {
			fmt.Fprintf(&b, " own %+v", *v.Own)
		}
		if v.NotForChemical || v.NotForWater {
			fmt.Fprintf(&b, " not for chemical %v, not for water %v", v.NotForChemical, v.NotForWater)
		}
		for _, s := range v.Scales {
			fmt.Fprintf(&b, "\n    %s %s to %s by %s, numbered %s", unitName(v, s.Unit), ratOf(s.From).RatString(),
				ratOf(s.To).RatString(), ratOf(s.Step).RatString(), ratOf(s.Numbered).RatString())
		}
	}
	return b.String()
}

// TestOracleFromFewReadingsUp checks that the oracle's short way gives what its long way gives.
func TestOracleFromFewReadingsUp(t *testing.T) {
	compared := 0
	for seed := 0; compared < 60; seed++ {
		q := newQuestion(randomProblem(seed))
		if !q.small() {
			continue
		}
		compared++
		long, short := q.best(), q.bestByReadings()
		if (long == nil) != (short == nil) {
			t.Fatalf("seed %d: one way finds nothing", seed)
		}
		if long != nil && (q.better(long, short, 0) || q.better(short, long, 0)) {
			t.Errorf("seed %d: %s\nand %s", seed, q.sayOutcome(long), q.sayOutcome(short))
		}
	}
}

// TestEqualChemicals checks that where two chemicals miss by the same, but for the last bit, the first one's bias is told.
func TestEqualChemicals(t *testing.T) {
	c := solved(t, measure.Problem{
		Dilution: parts(2, 4, 2), Tolerance: 0.325, Window: ml(85, 100, 86),
		Vessels: []measure.Vessel{{Name: "jug", Kind: measure.Jug, Scales: []measure.Scale{
			scale(quantity.UnitML, 50, 100, 50, 0), scale(quantity.UnitUSOunce, 1, 9, 8, 0),
		}}},
	})
	if want := 1.0 / 3; math.Abs(c.Bias-want) > 1e-12 {
		t.Errorf("bias %v, want the first one's %v: %+v", c.Bias, want, c.Steps)
	}
}
