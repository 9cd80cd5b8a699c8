package bath_test

import (
	"testing"

	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// room12 is three chains of four baths: FB in 2 L, RC in 2 L, RC in 1 L, each with forty sheets behind it.
func room12(tb testing.TB) (bath.Past, []bath.Ask) {
	tb.Helper()
	p := bath.Past{Prior: bath.DefaultPrior()}
	var asks []bath.Ask
	film := bath.FilmStrength().Value
	stop, err := bath.NewTitration(func(share float64) (float64, error) { return 2.7 + 8*share, nil })
	if err != nil {
		tb.Fatal(err)
	}
	for _, c := range []struct {
		m      material.Material
		litres float64
	}{{material.FB, 2}, {material.RC, 2}, {material.RC, 1}} {
		at := len(p.Baths)
		p.Baths = append(p.Baths, bath.NewDeveloper(c.litres), bath.NewStop(c.litres, stop),
			bath.NewFixer(c.litres, film), bath.NewFixer(c.litres, film))
		path := []int{at, at + 1, at + 2, at + 3}
		sheet := bath.Sheet{Of: c.m, Area: area8x10}
		for range 10 {
			p.Steps = append(p.Steps, bath.Worked{Sheet: sheet, Sheets: 4, Through: path})
		}
		first, _ := bath.SilverLimit(c.m, process.Exhibition, bath.First)
		second, _ := bath.SilverLimit(c.m, process.Exhibition, bath.Second)
		asks = append(asks, bath.Ask{Sheet: sheet, Through: path, Limits: []bath.Limits{
			{},
			{Developer: stop.ShareAt(bath.SpentPH)},
			{Silver: first.Value, FilmStrength: film, Thiosulfate: film / 2},
			{Silver: second.Value, FilmStrength: film, Thiosulfate: film / 2},
		}})
	}
	return p, asks
}

// BenchmarkTwelveBaths is what a page of all baths asks: 12 baths, 4,000 possible rooms, the past and the ends.
func BenchmarkTwelveBaths(b *testing.B) {
	p, asks := room12(b)
	for b.Loop() {
		rooms, err := p.Draw(4000, 1)
		if err != nil {
			b.Fatal(err)
		}
		for _, ask := range asks {
			e, err := rooms.Ends(ask)
			if err != nil {
				b.Fatal(err)
			}
			for place := range ask.Through {
				e.Of(place)
			}
		}
	}
}
