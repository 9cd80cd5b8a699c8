package measure_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// benchVessels is what a well-stocked bench is drawn from, each with two scales.
func benchVessels() []measure.Vessel {
	return []measure.Vessel{
		{Name: "litre jug", Kind: measure.Jug, Scales: []measure.Scale{inML(100, 1000, 50, 100), inOz(1, 32, 1, 4)}},
		{Name: "two-litre jug", Kind: measure.Jug, Scales: []measure.Scale{inML(200, 2000, 100, 500), inOz(8, 64, 2, 8)}},
		{Name: "small jug", Kind: measure.Jug, Scales: []measure.Scale{inML(50, 500, 25, 100), inOz(2, 16, 1, 4)}},
		{Name: "mixing beaker", Kind: measure.Beaker, Scales: []measure.Scale{inML(100, 600, 50, 100), inOz(4, 20, 1, 4)}},
		{Name: "tall cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(100, 1000, 10, 100), inOz(4, 32, 1, 4)}},
		{Name: "half-litre cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(50, 500, 5, 50), inOz(2, 16, 0.5, 1)}},
		{Name: "quarter cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(20, 250, 2, 20), inOz(1, 8, 0.25, 1)}},
		{Name: "hundred cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(2, 100, 1, 10), inOz(0.25, 3, 0.125, 1)}},
		{Name: "fifty cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(2, 50, 1, 10), inOz(0.25, 1.5, 0.125, 0.5)}},
		{Name: "small cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(2, 25, 0.5, 5), inOz(0.125, 0.75, 0.0625, 0.25)}},
		{Name: "fine cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(1, 10, 0.2, 1), inOz(0.0625, 0.3125, 0.0625, 0.125)}},
		{Name: "syringe", Kind: measure.Syringe, Scales: []measure.Scale{inML(0.2, 10, 0.2, 1), inOz(0.0625, 0.3125, 0.0625, 0.125)}},
		{Name: "large syringe", Kind: measure.Syringe, Scales: []measure.Scale{inML(1, 20, 1, 5), inOz(0.0625, 0.625, 0.0625, 0.125)}},
	}
}

// instance draws a problem as a darkroom has it: eight vessels of two scales, a dilution, a tray or tank.
func instance(r *rand.Rand) measure.Problem {
	vs := benchVessels()
	r.Shuffle(len(vs), func(i, j int) { vs[i], vs[j] = vs[j], vs[i] })
	vs = vs[:8]
	p := measure.Problem{Vessels: vs, System: quantity.System(r.IntN(2))}
	waters := []int64{1, 2, 3, 4, 4, 7, 9, 9, 9, 14, 14, 19, 19, 25, 29, 31, 31, 50, 63, 100}
	p.Dilution = dilution.Dilution{Chemicals: []quantity.Ratio{quantity.Int(1)}, Water: quantity.Int(waters[r.IntN(len(waters))])}
	if r.IntN(25) == 0 {
		p.Dilution.Chemicals = append(p.Dilution.Chemicals, quantity.Int(1))
	}
	want := quantity.Volume(300+100*r.IntN(28)) * quantity.Millilitre
	p.Window = quantity.Window{Min: want - want/quantity.Volume(4+r.IntN(7)), Max: want, Want: want}
	p.Tolerance = []float64{0.1, 0.15, 0.15, 0.15, 0.2, 0.3}[r.IntN(6)]
	p.WaterFirst = r.IntN(4) == 0
	if r.IntN(2) == 0 {
		for range p.Dilution.Chemicals {
			p.Available = append(p.Available, quantity.Volume(100+50*r.IntN(40))*quantity.Millilitre)
		}
	}
	for i := range vs {
		vs[i].HalfMarks = r.IntN(10) == 0
	}
	return p
}

func instances(n int) []measure.Problem {
	r := rand.New(rand.NewPCG(11, 8))
	list := make([]measure.Problem, n)
	for i := range list {
		list[i] = instance(r)
	}
	return list
}

// BenchmarkSolve goes through 1,000 problems with eight vessels of two scales each; an op is one problem.
func BenchmarkSolve(b *testing.B) {
	list := instances(1000)
	for _, o := range []measure.Options{
		{NoAdvice: true}, {}, {Alternatives: measure.MaxAlternatives},
	} {
		b.Run(fmt.Sprintf("alternatives=%d/advice=%v", o.Alternatives, !o.NoAdvice), func(b *testing.B) {
			b.ReportAllocs()
			took := make([]time.Duration, 0, b.N)
			least := make([]time.Duration, len(list))
			for i := 0; b.Loop(); i++ {
				from := time.Now()
				if _, err := measure.Solve(b.Context(), list[i%len(list)], o); err != nil {
					b.Fatal(err)
				}
				d := time.Since(from)
				took = append(took, d)
				if at := &least[i%len(list)]; *at == 0 || d < *at {
					*at = d
				}
			}
			if len(took) >= 3*len(list) { // each problem's own time, without what else the machine did meanwhile
				slices.Sort(least)
				b.ReportMetric(float64(least[len(least)*99/100].Microseconds()), "p99-of-least-µs")
			}
			slices.Sort(took)
			b.ReportMetric(float64(took[len(took)/2].Microseconds()), "p50-µs")
			b.ReportMetric(float64(took[len(took)*99/100].Microseconds()), "p99-µs")
			b.ReportMetric(float64(took[len(took)-1].Microseconds()), "max-µs")
		})
	}
}
