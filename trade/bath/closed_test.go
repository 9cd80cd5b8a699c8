package bath_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/bath"
	"wetside/trade/material"
)

// aChain draws a usual chain, fresh or worked: a stop bath or a rinse, one to three fixers, alike or not, some holding
// silver already, with limits that can be met.
func aChain(t *rapid.T) (bath.Past, bath.Ask) {
	litres := rapid.Float64Range(0.5, 5)
	l := litres.Draw(t, "litres")
	p := bath.Past{Prior: bath.DefaultPrior(), Baths: []bath.Bath{bath.NewDeveloper(l)}}
	ask := bath.Ask{
		Sheet: bath.Sheet{
			Of:   rapid.SampledFrom([]material.Material{material.RC, material.FB, material.Film}).Draw(t, "material"),
			Area: rapid.Float64Range(0.03, 0.2).Draw(t, "area"),
		},
		Through: []int{0}, Limits: []bath.Limits{{}},
	}
	if rapid.Bool().Draw(t, "stop") {
		p.Baths = append(p.Baths, bath.NewStop(l, nil))
		ask.Limits = append(ask.Limits, bath.Limits{Developer: rapid.Float64Range(0.05, 0.7).Draw(t, "share")})
	}
	alike := rapid.Bool().Draw(t, "alike")
	for range rapid.IntRange(1, 3).Draw(t, "fixers") {
		if !alike {
			l = litres.Draw(t, "litres")
		}
		f := bath.NewFixer(l, rapid.Float64Range(70, 200).Draw(t, "thiosulfate"))
		f.Made[bath.Silver] = l * rapid.SampledFrom([]float64{0, 0, 0.2, 0.6}).Draw(t, "silver")
		p.Baths = append(p.Baths, f)
		ask.Limits = append(ask.Limits, bath.Limits{
			Silver: rapid.Float64Range(0.2, 3).Draw(t, "limit"), FilmStrength: 158,
			Thiosulfate: rapid.SampledFrom([]float64{20, 35, 65}).Draw(t, "least"),
		})
	}
	for i := range p.Baths[1:] {
		ask.Through = append(ask.Through, i+1)
	}
	if n := rapid.IntRange(0, 30).Draw(t, "before"); n > 0 {
		p.Steps = []bath.Step{bath.Worked{Sheet: ask.Sheet, Sheets: float64(n), Through: ask.Through}}
	}
	return p, ask
}

// Where a closed form is taken it counts what doubling and going sheet by sheet count, in every room.
func TestThreeWaysAgree(t *testing.T) {
	t.Parallel()
	var closed, all int
	rapid.Check(t, func(t *rapid.T) {
		p, ask := aChain(t)
		rooms, err := p.Draw(12, 3)
		if err != nil {
			t.Fatal(err)
		}
		for place := 1; place < len(ask.Through); place++ {
			fast, doubled, followed := rooms.Ways(ask, place)
			for i := range fast {
				all++
				if fast[i].N >= 0 {
					closed++
				} else {
					fast[i] = doubled[i]
				}
				if followed[i] != doubled[i] || fast[i] != doubled[i] {
					t.Errorf("place %d, room %d: %+v closed, %+v doubled, %+v sheet by sheet", place, i, fast[i], doubled[i], followed[i])
				}
			}
		}
	})
	t.Logf("%d of %d counts have a closed form", closed, all)
	if closed < all/2 {
		t.Errorf("only %d of %d counts have a closed form", closed, all)
	}
}

// Of the usual chains of the model no count needs another way.
func TestUsualChainIsClosed(t *testing.T) {
	t.Parallel()
	for _, behind := range []int{0, 40} {
		p, asks := room12(t, behind)
		rooms, err := p.Draw(400, 1)
		if err != nil {
			t.Fatal(err)
		}
		for c, ask := range asks {
			for place := 1; place < len(ask.Through); place++ {
				closed, doubled, followed := rooms.Ways(ask, place)
				if slices.ContainsFunc(closed, func(f bath.Found) bool { return f.N < 0 }) {
					t.Errorf("chain %d, place %d, %d behind: a count has no closed form", c, place, behind)
				}
				if !slices.Equal(closed, doubled) || !slices.Equal(closed, followed) {
					t.Errorf("chain %d, place %d, %d behind: closed, doubled and followed counts differ", c, place, behind)
				}
			}
		}
	}
}

// Pairs in which closed forms could go wrong: a second fixer that holds more silver than the first is thinned before it
// fills; one that is stronger than the first grows weaker later than it loads; two limits may be passed at once.
func TestOddPairs(t *testing.T) {
	t.Parallel()
	film := bath.FilmStrength().Value
	for _, c := range []struct {
		name           string
		first, second  float64 // g/L of silver
		strong, litres float64 // of the second: thiosulfate in film strengths, volume in that of the first
		most, least    float64 // silver at film strength, g/L; thiosulfate as a share of the made
		place          int
	}{
		{"more silver in the second", 0, 0.28, 1, 1, 0.3, 0.5, 3},
		{"second stronger", 0.5, 0, 1.6, 1, 0.3, 0.5, 3},
		{"second weaker", 0.5, 0, 0.6, 1, 0.3, 0.5, 3},
		{"second a little larger", 0.2, 0, 1, 1.0005, 0.3, 0.5, 3},
		{"second larger", 0.2, 0.1, 1, 1.5, 0.3, 0.5, 3},
		{"first laden beyond what sheets bring", 12, 0, 1, 1, 0.3, 0.5, 3},
		{"second too thin before it is laden", 0, 0, 1, 1, 2, 0.97, 3},
		{"second too thin or laden", 0, 0, 1, 1, 0.3, 0.955, 3},
		{"first too thin or laden", 0, 0, 1, 1, 2, 0.775, 2},
		{"a bath for a town", 0, 0, 1, 60000, 2, 0.5, 3},
	} {
		p := fixers(1, c.litres)
		p.Baths[2].Made[bath.Silver] = c.first
		p.Baths[3].Made[bath.Silver] = c.second * c.litres
		p.Baths[3].Made[bath.Thiosulfate] *= c.strong
		ask := bath.Ask{Sheet: bath.Sheet{Of: material.FB, Area: area8x10}, Through: []int{0, 1, 2, 3}, Limits: make([]bath.Limits, 4)}
		ask.Limits[c.place] = bath.Limits{Silver: c.most, FilmStrength: film, Thiosulfate: film * c.strong * c.least}
		rooms, err := p.Draw(300, 2)
		if err != nil {
			t.Fatal(err)
		}
		e, err := rooms.Ends(ask)
		if err != nil {
			t.Fatal(err)
		}
		if c.litres > 1000 { // too many to go one by one
			if got := e.Of(c.place); got != (bath.Counts{P10: bath.Most, P50: bath.Most, P90: bath.Most}) {
				t.Errorf("%s: %+v, want the most that is counted to", c.name, got)
			}
			continue
		}
		_, _, want := rooms.Ways(ask, c.place)
		for i, n := range e.Each(c.place) {
			if got := (bath.Found{N: int(n), By: e.ByEach(c.place)[i]}); got != want[i] {
				t.Errorf("%s, room %d: %+v, sheet by sheet %+v", c.name, i, got, want[i])
				break
			}
		}
	}
}

// A first guess far beyond the end once found nothing there, and the next limit was told in its place: 385 sheets in
// place of 84.
func TestClosedFromFarOff(t *testing.T) {
	t.Parallel()
	p := bath.Past{Prior: bath.DefaultPrior(), Baths: []bath.Bath{
		bath.NewDeveloper(1), bath.NewFixer(0.8125, 135.5), bath.NewFixer(5, 128), bath.NewFixer(1, 70),
	}}
	sheet := bath.Sheet{Of: material.FB, Area: 0.15625}
	path := []int{0, 1, 2, 3}
	p.Steps = []bath.Step{bath.Worked{Sheet: sheet, Sheets: 1, Through: path}}
	rooms, err := p.Draw(200, 3)
	if err != nil {
		t.Fatal(err)
	}
	limit := bath.Limits{Silver: 2.01513671875, FilmStrength: 158, Thiosulfate: 20}
	ask := bath.Ask{Sheet: sheet, Through: path, Limits: []bath.Limits{{}, limit, limit, limit}}
	fast, doubled, followed := rooms.Ways(ask, 2)
	for i := range fast {
		if fast[i].N >= 0 && fast[i] != doubled[i] || followed[i] != doubled[i] {
			t.Errorf("room %d: %+v closed, %+v doubled, %+v sheet by sheet", i, fast[i], doubled[i], followed[i])
		}
	}
}
