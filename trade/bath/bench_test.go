package bath_test

import (
	"fmt"
	"math"
	"os/exec"
	"regexp"
	"strconv"
	"testing"
	"time"

	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// room12 is three chains of four baths: FB in 2 L, RC in 2 L, RC in 1 L, each with so many sheets behind it.
func room12(tb testing.TB, behind int) (bath.Past, []bath.Ask) {
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
		for range behind / 4 {
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

// forecast is what a page of all baths asks: 4,000 possible rooms, the past and all ends.
func forecast(tb testing.TB, p *bath.Past, asks []bath.Ask) []bath.Counts {
	tb.Helper()
	rooms, err := p.Draw(4000, 1)
	if err != nil {
		tb.Fatal(err)
	}
	var all []bath.Counts
	for _, ask := range asks {
		e, err := rooms.Ends(ask)
		if err != nil {
			tb.Fatal(err)
		}
		for place := 1; place < len(ask.Through); place++ {
			all = append(all, e.Of(place))
		}
	}
	return all
}

func BenchmarkTwelveBaths(b *testing.B) {
	for _, behind := range []int{0, 40} {
		b.Run(fmt.Sprintf("past=%d", behind), func(b *testing.B) {
			p, asks := room12(b, behind)
			b.ReportAllocs()
			for b.Loop() {
				forecast(b, &p, asks)
			}
		})
	}
}

// BenchmarkAgainstNumpy does the same work here and in numpy, in turns, and tells the best of each and their ratio: the
// numpy model draws, reckons its closed forms on whole arrays and takes the quantiles, best of twenty a turn.
func BenchmarkAgainstNumpy(b *testing.B) {
	python := numpy(b)
	p, asks := room12(b, 0)
	here, there := math.Inf(1), math.Inf(1)
	for b.Loop() {
		for range 20 {
			start := time.Now()
			forecast(b, &p, asks)
			here = min(here, time.Since(start).Seconds()*1000)
		}
		out, err := exec.CommandContext(b.Context(), python, "-B", "testdata/oracle/model.py", "bench").Output()
		if err != nil {
			b.Fatal(err)
		}
		found := regexp.MustCompile(`([0-9.]+) ms with drawing`).FindSubmatch(out)
		if found == nil {
			b.Fatalf("no time in %q", out)
		}
		took, err := strconv.ParseFloat(string(found[1]), 64)
		if err != nil {
			b.Fatal(err)
		}
		there = min(there, took)
	}
	b.ReportMetric(here, "go-ms")
	b.ReportMetric(there, "numpy-ms")
	b.ReportMetric(here/there, "go/numpy")
	b.ReportMetric(0, "ns/op")
}

// BenchmarkLoads shows what a past of so many unlike loads costs: in proportion to their number.
func BenchmarkLoads(b *testing.B) {
	for _, loads := range []int{10, 100, 1000} {
		b.Run(fmt.Sprintf("loads=%d", loads), func(b *testing.B) {
			p, asks := room12(b, 0)
			for i := range loads {
				ask := &asks[i%len(asks)]
				p.Steps = append(p.Steps, bath.Worked{Sheet: ask.Sheet, Sheets: 1, Through: ask.Through})
			}
			for b.Loop() {
				if _, err := p.Draw(1000, 1); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(loads), "ns/load")
		})
	}
}
