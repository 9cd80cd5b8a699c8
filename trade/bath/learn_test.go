package bath_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"wetside/trade/bath"
	"wetside/trade/material"
)

var synthetic = flag.Int("synthetic", 200, "how many synthetic rooms the learning is checked in")

// invent makes a room that nobody can know, out of the prior.
func invent(p *bath.Prior, r *rand.Rand) bath.Room {
	log := func(g bath.Guess) float64 { return g.Median * math.Exp(g.Spread*r.NormFloat64()) }
	var room bath.Room
	for m := material.RC; m <= material.Film; m++ {
		s := p[m]
		room[m] = bath.Rates{Coating: log(s.Coating), Undeveloped: math.Min(1, log(s.Undeveloped)), Carry: log(s.Carry)}
	}
	return room
}

// sure returns a prior that believes in one room alone.
func sure(p bath.Prior, room bath.Room) bath.Prior {
	for m := range p {
		p[m].Coating = bath.Guess{Median: room[m].Coating}
		p[m].Undeveloped = bath.Guess{Median: room[m].Undeveloped}
		p[m].Carry = bath.Guess{Median: room[m].Carry}
	}
	return p
}

// evening lets FB sheets through and tests now and then: strips of the first fixer, pH paper, the developer's level.
// What the tests say is drawn from the invented room with the errors that the readings are believed to have.
func evening(t *testing.T, truth bath.Room, r *rand.Rand, tests int) (past bath.Past, told bath.Past) {
	t.Helper()
	stop, err := bath.NewTitration(func(share float64) (float64, error) { return 2.7 + 5*math.Sqrt(share), nil })
	if err != nil {
		t.Fatal(err)
	}
	film := bath.FilmStrength().Value
	past = bath.Past{Prior: bath.DefaultPrior(), Baths: []bath.Bath{
		bath.NewDeveloper(2), bath.NewStop(2, stop), bath.NewFixer(2, film), bath.NewFixer(2, film),
	}}
	told = past
	told.Prior = sure(past.Prior, truth)
	for i := range max(tests, 10) {
		w := bath.Worked{Sheet: bath.Sheet{Of: material.FB, Area: area8x10}, Sheets: 3, Through: []int{0, 1, 2, 3}}
		past.Steps, told.Steps = append(past.Steps, w), append(told.Steps, w)
		if i >= tests {
			continue
		}
		now, err := told.Draw(1, 1)
		if err != nil {
			t.Fatal(err)
		}
		past.Steps = append(past.Steps, read(now, stop, r, i))
	}
	return past, told
}

var steps = []float64{0.25, 0.5, 1, 1.5, 2, 3}

// read makes a reading with its error.
func read(now *bath.Rooms, stop *bath.Titration, r *rand.Rand, i int) bath.Seen {
	switch i % 3 {
	case 0:
		silver := now.Now(2, bath.Silver).P50 * math.Exp(0.20*r.NormFloat64())
		class := 0
		for class < len(steps) {
			edge := math.Sqrt(steps[class] * steps[max(class-1, 0)])
			if class == 0 {
				edge = steps[0] * math.Sqrt(steps[0]/steps[1])
			}
			if silver < edge {
				break
			}
			class++
		}
		return bath.Seen{Bath: 2, Test: bath.StripRead{Steps: steps, Class: class}}
	case 1:
		return bath.Seen{Bath: 1, Test: bath.PHRead{PH: stop.PH(now.Now(1, bath.Developer).P50) + 0.25*r.NormFloat64()}}
	default:
		return bath.Seen{Bath: 0, Test: bath.LevelRead{Litres: now.Litres(0).P50 + 0.02*2*r.NormFloat64()}}
	}
}

// ask is for the exhibition limit of a first fixer, counted from now.
func ask() bath.Ask {
	film := bath.FilmStrength().Value
	return bath.Ask{Sheet: bath.Sheet{Of: material.FB, Area: area8x10}, Through: []int{0, 1, 2}, Limits: []bath.Limits{
		{}, {}, {Silver: 2.0, FilmStrength: film, Thiosulfate: film / 2},
	}}
}

func leftIn(t *testing.T, p *bath.Past, n int) ([]int32, bath.Counts, *bath.Rooms) {
	t.Helper()
	rooms, err := p.Draw(n, 11)
	if err != nil {
		t.Fatal(err)
	}
	e, err := rooms.Ends(ask())
	if err != nil {
		t.Fatal(err)
	}
	return e.Each(2), e.Of(2), rooms
}

// In many rooms that nobody can know, the 80 % interval holds the truth in about 80 of 100, before and after learning,
// and is narrower after ten readings. Ranks are randomised among equal counts, so that they are flat where the forecast
// is right (Talts et al. 2018, Validating Bayesian inference algorithms with simulation-based calibration).
func TestLearns(t *testing.T) {
	t.Parallel()
	n, before := *synthetic, 0.0
	for _, tests := range []int{0, 10} {
		r := rand.New(rand.NewPCG(20, uint64(tests)))
		held, width, least := 0, 0.0, math.Inf(1)
		bins := make([]int, 10)
		for range n {
			prior := bath.DefaultPrior()
			truth := invent(&prior, r)
			past, told := evening(t, truth, r, tests)
			counts, span, rooms := leftIn(t, &past, 2000)
			want, _, _ := leftIn(t, &told, 1)
			u := rank(counts, want[0], r)
			bins[min(int(u*10), 9)]++
			if u >= 0.1 && u < 0.9 {
				held++
			}
			width += float64(span.P90 - span.P10)
			least = min(least, rooms.Effective)
		}
		share := float64(held) / float64(n)
		chi := 0.0
		for _, b := range bins {
			d := float64(b) - float64(n)/10
			chi += d * d / (float64(n) / 10)
		}
		t.Logf("%d readings: %.1f %% hold the truth, χ² of ranks %.1f, mean width %.1f, least effective size %.0f", tests, 100*share, chi, width/float64(n), least)
		// Three standard errors of a share of 0.8 in n rooms: 3 % in a thousand and more, 8.5 % in 200.
		if tolerance := max(0.03, 3*math.Sqrt(0.16/float64(n))); math.Abs(share-0.8) > tolerance {
			t.Errorf("%d readings: %.1f %% hold the truth, want 80 ± %.1f", tests, 100*share, 100*tolerance)
		}
		// 27.88 is passed by one flat histogram of ten bins in a thousand (χ², nine degrees of freedom).
		if chi > 27.88 {
			t.Errorf("%d readings: ranks are not flat, χ² %.1f, %v", tests, chi, bins)
		}
		if tests > 0 && width > 0.75*before {
			t.Errorf("after %d readings the interval is %.1f wide, before %.1f", tests, width/float64(n), before/float64(n))
		}
		before = width
		if least < 200 {
			t.Errorf("effective sample size fell to %.0f", least)
		}
	}
}

// rank is the share of rooms under the truth, equal ones at random.
func rank(counts []int32, truth int32, r *rand.Rand) float64 {
	under, equal := 0, 0
	for _, c := range counts {
		switch {
		case c < truth:
			under++
		case c == truth:
			equal++
		}
	}
	return (float64(under) + r.Float64()*float64(equal+1)) / float64(len(counts)+1)
}
