package bath_test

import (
	"math"
	"testing"

	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// area8x10 is a sheet of 8×10 in, 80 in² of 25.4² mm².
const area8x10 = 80 * 25.4 * 25.4 / 1e6

func limits(t *testing.T, m material.Material, s process.Standard, p bath.Place) bath.Limits {
	t.Helper()
	silver, ok := bath.SilverLimit(m, s, p)
	if !ok {
		t.Fatalf("SilverLimit(%v, %v, %v): none", m, s, p)
	}
	film := bath.FilmStrength().Value
	return bath.Limits{Silver: silver.Value, FilmStrength: film, Thiosulfate: film * bath.LeastThiosulfate().Value}
}

// fixers returns a developer, a stop bath and so many fixers of so many litres at film strength.
func fixers(litres ...float64) bath.Past {
	p := bath.Past{Prior: bath.DefaultPrior(), Baths: []bath.Bath{bath.NewDeveloper(2), bath.NewStop(2, nil)}}
	for _, l := range litres {
		p.Baths = append(p.Baths, bath.NewFixer(l, bath.FilmStrength().Value))
	}
	return p
}

func ends(t *testing.T, p *bath.Past, n int, m material.Material, l ...bath.Limits) *bath.Ends {
	t.Helper()
	rooms, err := p.Draw(n, 1)
	if err != nil {
		t.Fatal(err)
	}
	ask := bath.Ask{Sheet: bath.Sheet{Of: m, Area: area8x10}}
	for i := range p.Baths {
		ask.Through = append(ask.Through, i)
	}
	ask.Limits = append(make([]bath.Limits, len(p.Baths)-len(l)), l...)
	e, err := rooms.Ends(ask)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// The figures worked by hand for the model: coatings of 1.0 g/m² (RC) and 1.5 (FB), seven tenths undeveloped,
// carry-over of 1.8 mL (RC) and 8 mL (FB) a sheet of 8×10.
func TestWorkedFigures(t *testing.T) {
	t.Parallel()
	const ex, ar = process.Exhibition, process.Archival
	for _, c := range []struct {
		name   string
		baths  []float64
		m      material.Material
		s      process.Standard
		places []int
		want   bath.Counts
	}{
		{"1 L, RC, exhibition", []float64{1}, material.RC, ex, []int{2}, bath.Counts{P10: 35, P50: 47, P90: 64}},
		{"1 L, FB, exhibition, one bath", []float64{1}, material.FB, ex, []int{2}, bath.Counts{P10: 6, P50: 8, P90: 12}},
		{"2 L and 2 L, FB, exhibition", []float64{2, 2}, material.FB, ex, []int{2, 3}, bath.Counts{P10: 48, P50: 64, P90: 85}},
		{"1 L and 1 L, FB, exhibition", []float64{1, 1}, material.FB, ex, []int{2, 3}, bath.Counts{P10: 24, P50: 32, P90: 42}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := fixers(c.baths...)
			l := []bath.Limits{limits(t, c.m, c.s, bath.Alone)}
			if len(c.baths) == 2 {
				l = []bath.Limits{limits(t, c.m, c.s, bath.First), limits(t, c.m, c.s, bath.Second)}
			}
			if got := ends(t, &p, 4000, c.m, l...).First(c.places...); got != c.want {
				t.Errorf("got %+v, want %+v", got, c.want)
			}
		})
	}
	p := fixers(2, 2)
	e := ends(t, &p, 4000, material.FB, limits(t, material.FB, ar, bath.First), limits(t, material.FB, ar, bath.Second))
	if first, second := e.Of(2).P50, e.Of(3).P50; first != 27 || second != 31 {
		t.Errorf("archival: first %d, second %d; want 27, 31", first, second)
	}
}

// What is put in is there or went out: each amount closes to 1e-9.
func TestCloses(t *testing.T) {
	t.Parallel()
	p := fixers(2, 2)
	p.Steps = []bath.Step{
		bath.Worked{Sheet: bath.Sheet{Of: material.FB, Area: area8x10}, Sheets: 31.25, Through: []int{0, 1, 2, 3}},
		bath.ToppedUp{Bath: 0, With: bath.NewDeveloper(0.3).Made},
		bath.Taken{Bath: 2, Litres: 0.1},
	}
	b, err := p.Balance(p.Prior.Median())
	if err != nil {
		t.Fatal(err)
	}
	for a := range b.Put {
		if d := math.Abs(b.Put[a] - b.Held[a] - b.Left[a]); d > 1e-9*(1+b.Put[a]) {
			t.Errorf("amount %d: put %g, held %g, left %g", a, b.Put[a], b.Held[a], b.Left[a])
		}
	}
}

// Of every gram of silver that is developed 0.7408 g of bromide come free (atomic masses 79.904 and 107.8682), and the
// developer keeps what the sheets do not carry out.
func TestBromide(t *testing.T) {
	t.Parallel()
	p := fixers(1)
	p.Steps = []bath.Step{bath.Worked{Sheet: bath.Sheet{Of: material.FB, Area: 0.05}, Sheets: 20, Through: []int{0, 1, 2}}}
	b, err := p.Balance(p.Prior.Median())
	if err != nil {
		t.Fatal(err)
	}
	// 20 sheets of 0.05 m² are 1 m², with 1.5 g of silver of which three tenths are developed.
	if got, want := b.Put[bath.Bromide], 1.5*0.3*0.7408; math.Abs(got-want) > 1e-4 {
		t.Errorf("%.4f g of bromide came free, want %.4f", got, want)
	}
	if got := b.Each[0][bath.Bromide]; got > b.Put[bath.Bromide] || got < 0.9*b.Put[bath.Bromide] {
		t.Errorf("the developer holds %.4f g of %.4f", got, b.Put[bath.Bromide])
	}
}

// No more is poured off than there is.
func TestTakenAtMostAll(t *testing.T) {
	t.Parallel()
	p := fixers(1)
	p.Steps = []bath.Step{bath.Taken{Bath: 2, Litres: 3}}
	b, err := p.Balance(p.Prior.Median())
	if err != nil {
		t.Fatal(err)
	}
	if b.Each[2] != (bath.Contents{}) || b.Left[bath.Liquid] != 1 {
		t.Errorf("held %v, left %v", b.Each[2], b.Left)
	}
	rooms, err := p.Draw(10, 1)
	if err != nil {
		t.Fatal(err)
	}
	if got := rooms.Litres(2); got != (bath.Span{}) {
		t.Errorf("litres %+v, want none", got)
	}
}

// What ends a bath in most rooms is named with the place that ends first in them.
func TestBy(t *testing.T) {
	t.Parallel()
	film := bath.FilmStrength().Value
	p := fixers(2, 2)
	first := bath.Limits{Silver: 2, FilmStrength: film, Thiosulfate: film / 2}
	for _, c := range []struct {
		name          string
		first, second bath.Limits
		place         int
		by            bath.Ending
	}{
		{"exhibition", first, bath.Limits{Silver: 0.3, FilmStrength: film, Thiosulfate: film / 2}, 2, bath.BySilver},
		{"second stricter", first, bath.Limits{Silver: 0.03, FilmStrength: film}, 3, bath.BySilver},
		{"strength first", bath.Limits{Silver: 20, FilmStrength: film, Thiosulfate: 0.9 * film}, bath.Limits{}, 2, bath.ByThiosulfate},
		{"nothing ends", bath.Limits{}, bath.Limits{}, 2, bath.NoEnding},
	} {
		e := ends(t, &p, 500, material.FB, c.first, c.second)
		if place, by := e.By(2, 3); place != c.place || by != c.by {
			t.Errorf("%s: place %d by %d, want %d by %d", c.name, place, by, c.place, c.by)
		}
	}
}
