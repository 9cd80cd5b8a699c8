package bath_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"wetside/trade/bath"
	"wetside/trade/material"
)

// unfit is the tail under which a strip is said not to fit what was counted, on either side.
const unfit = 0.005

// stripIn reads a strip in an invented room, with the error that strips are believed to have; one in a hundred is noted
// down anyhow.
func stripIn(t *testing.T, told *bath.Past, r *rand.Rand) bath.StripRead {
	t.Helper()
	if r.Float64() < 0.01 {
		return bath.StripRead{Steps: steps, Class: r.IntN(len(steps) + 1)}
	}
	now, err := told.Draw(1, 1)
	if err != nil {
		t.Fatal(err)
	}
	silver, class := now.Now(1, bath.Silver).P50*math.Exp(0.20*r.NormFloat64()), 0
	edges := []float64{steps[0] * math.Sqrt(steps[0]/steps[1])}
	for i := 1; i < len(steps); i++ {
		edges = append(edges, math.Sqrt(steps[i-1]*steps[i]))
	}
	for class < len(edges) && silver >= edges[class] {
		class++
	}
	return bath.StripRead{Steps: steps, Class: class}
}

// In rooms that nobody can know, where everything was counted, a strip is said not to fit in 2 of 100 at the most: half of
// one on each side by the definition of a tail, and one where a wrong step is noted down. Where 60 sheets of
// 80 were not counted, it is said in most: in a litre, where the silver passes the strip's wide steps, more than in two.
func TestTail(t *testing.T) {
	t.Parallel()
	n := 2 * *synthetic
	odd := func(litres, counted, forgotten float64) (share float64) {
		r := rand.New(rand.NewPCG(31, uint64(counted)))
		for range n {
			prior := bath.DefaultPrior()
			truth := invent(&prior, r)
			past := bath.Past{Prior: prior, Baths: []bath.Bath{bath.NewDeveloper(litres), bath.NewFixer(litres, bath.FilmStrength().Value)}}
			work := func(p *bath.Past, sheets float64) {
				p.Steps = append(p.Steps, bath.Worked{Sheet: bath.Sheet{Of: material.RC, Area: area8x10}, Sheets: sheets, Through: []int{0, 1}})
			}
			told := past
			told.Prior = sure(prior, truth)
			work(&past, counted)
			work(&told, counted+forgotten)
			rooms, err := past.Draw(500, 3)
			if err != nil {
				t.Fatal(err)
			}
			chance, high := rooms.Tail(1, stripIn(t, &told, r))
			if chance < unfit && (high || forgotten == 0) {
				share += 1 / float64(n)
			}
		}
		return share
	}
	for _, counted := range []float64{5, 20, 40, 80} {
		share := odd(2, counted, 0)
		t.Logf("%.0f sheets, all counted: %.1f %% of rooms are said not to fit", counted, 100*share)
		if share > 0.02 {
			t.Errorf("%.0f sheets, all counted: %.1f %%, want 2 at most", counted, 100*share)
		}
	}
	for _, c := range []struct{ litres, least float64 }{{1, 0.85}, {2, 0.55}} {
		share := odd(c.litres, 20, 60)
		t.Logf("%.0f L, 20 sheets counted of 80: %.1f %%", c.litres, 100*share)
		if share < c.least {
			t.Errorf("%.0f L, 20 sheets counted of 80: %.1f %%, want %.0f at least", c.litres, 100*share, 100*c.least)
		}
	}
}

// Strip after strip in one fixer, each held against rooms that learned of those before it, no more are said not to fit than of
// first strips, and what the rooms hold is what rooms drawn anew hold: to within a tenth of a strip's own error.
func TestTailOfManyStrips(t *testing.T) {
	t.Parallel()
	const strips = 10
	n := max(*synthetic/4, 1)
	r := rand.New(rand.NewPCG(32, 0))
	odd, apart := 0, 0.0
	for range n {
		prior := bath.DefaultPrior()
		past := bath.Past{Prior: prior, Baths: []bath.Bath{bath.NewDeveloper(2), bath.NewFixer(2, bath.FilmStrength().Value)}}
		told := past
		told.Prior = sure(prior, invent(&prior, r))
		rooms, err := past.Draw(500, 3)
		if err != nil {
			t.Fatal(err)
		}
		var last []bath.Step
		for range strips {
			worked := bath.Worked{Sheet: bath.Sheet{Of: material.RC, Area: area8x10}, Sheets: 8, Through: []int{0, 1}}
			told.Steps = append(told.Steps, worked)
			if rooms, err = rooms.Learn(append(last, worked)...); err != nil {
				t.Fatal(err)
			}
			past.Steps = append(append(past.Steps, last...), worked)
			last = nil
			read := stripIn(t, &told, r)
			if chance, _ := rooms.Tail(1, read); chance < unfit {
				odd++
				continue
			}
			last = []bath.Step{bath.Seen{Bath: 1, Test: read}}
		}
		anew, err := past.Draw(4000, 3)
		if err != nil {
			t.Fatal(err)
		}
		apart += math.Abs(math.Log(rooms.Now(1, bath.Silver).P50/anew.Now(1, bath.Silver).P50)) / float64(n)
	}
	share := float64(odd) / float64(n*strips)
	t.Logf("%.1f %% of %d strips are said not to fit; silver %.1f %% off that of rooms drawn anew", 100*share, n*strips, 100*apart)
	if share > 0.02 || apart > 0.02 {
		t.Errorf("%.1f %% of strips, silver %.1f %% off; want 2 at most of either", 100*share, 100*apart)
	}
}

// A strip with nothing on it fits a fresh fixer, and one that shows its last step does not; a spent fixer has it the other
// way round.
func TestTailEdges(t *testing.T) {
	t.Parallel()
	past := bath.Past{Prior: bath.DefaultPrior(), Baths: []bath.Bath{bath.NewFixer(1, 158)}}
	fresh, err := past.Draw(100, 0)
	if err != nil {
		t.Fatal(err)
	}
	if chance, _ := fresh.Tail(0, bath.StripRead{Steps: steps}); chance < 0.98 {
		t.Errorf("nothing on a strip in a fresh fixer: a tail of %.3f, want all", chance)
	}
	if chance, high := fresh.Tail(0, bath.StripRead{Steps: steps, Class: len(steps)}); chance > unfit || !high {
		t.Errorf("the last step in a fresh fixer: a tail of %.4f, high %t", chance, high)
	}
	past.Steps = []bath.Step{bath.Worked{Sheet: bath.Sheet{Of: material.RC, Area: area8x10}, Sheets: 200, Through: []int{0}}}
	spent, err := past.Draw(100, 0)
	if err != nil {
		t.Fatal(err)
	}
	if chance, high := spent.Tail(0, bath.StripRead{Steps: steps}); chance > unfit || high {
		t.Errorf("nothing on a strip in a spent fixer: a tail of %.4f, high %t", chance, high)
	}
}
