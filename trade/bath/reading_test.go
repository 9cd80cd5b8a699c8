package bath_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/bath"
)

// aWorkedBath draws what a fixer or a stop bath may hold.
func aWorkedBath(t *rapid.T) (bath.Contents, *bath.Bath) {
	stop, err := bath.NewTitration(func(share float64) (float64, error) { return 2.7 + 8*share, nil })
	if err != nil {
		t.Fatal(err)
	}
	l := rapid.Float64Range(0.5, 5).Draw(t, "litres")
	b := bath.NewFixer(l, rapid.Float64Range(60, 200).Draw(t, "thiosulfate"))
	b.Titration = stop
	c := b.Made
	c[bath.Liquid] *= rapid.Float64Range(0.6, 1).Draw(t, "level")
	c[bath.Silver] = l * rapid.Float64Range(0, 8).Draw(t, "silver")
	c[bath.Thiosulfate] *= rapid.Float64Range(0.4, 0.95).Draw(t, "thinned")
	c[bath.Developer] = l * rapid.Float64Range(0.05, 0.6).Draw(t, "developer")
	return c, &b
}

// Something must have been read: over all classes of a test the likelihoods sum to 1, whatever the bath holds.
func TestClassesSumToOne(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		c, b := aWorkedBath(t)
		n := rapid.IntRange(0, 6).Draw(t, "steps")
		scale, step := make([]float64, n), 0.2
		for i := range scale {
			step *= rapid.Float64Range(1.1, 2.5).Draw(t, "ratio")
			scale[i] = step
		}
		strip := make([]bath.Reading, n+1)
		for class := range strip {
			strip[class] = bath.StripRead{Steps: scale, Class: class}
		}
		for name, classes := range map[string][]bath.Reading{
			"strip":      strip,
			"indicator":  {bath.IndicatorRead{}, bath.IndicatorRead{Turned: true}},
			"drop":       {bath.DropRead{}, bath.DropRead{Clouded: true}},
			"print drop": {bath.PrintDropRead{}, bath.PrintDropRead{Stained: true}},
		} {
			sum := 0.0
			for _, r := range classes {
				sum += math.Exp(bath.Likely(r, c, b))
			}
			if math.Abs(sum-1) > 1e-12 {
				t.Errorf("%s: the likelihoods of %d classes sum to %.15g, want 1", name, len(classes), sum)
			}
		}
	})
}

// A number's likelihood is a density but for a factor that is the same in every room: its integral does not depend on
// what the bath holds. A clearing time counts on the scale of ratios, on which it is told.
func TestNumbersIntegrateAlike(t *testing.T) {
	t.Parallel()
	integral := func(read func(x float64) bath.Reading, low, high float64, c bath.Contents, b *bath.Bath) float64 {
		const steps = 4000
		sum, width := 0.0, (high-low)/steps
		for i := range steps {
			sum += width * math.Exp(bath.Likely(read(low+(float64(i)+0.5)*width), c, b))
		}
		return sum
	}
	root := math.Sqrt(2 * math.Pi)
	rapid.Check(t, func(t *rapid.T) {
		c, b := aWorkedBath(t)
		for _, k := range []struct {
			name      string
			read      func(x float64) bath.Reading
			low, high float64
			want      float64 // √(2π) times the stated error of the test
		}{
			{"pH", func(x float64) bath.Reading { return bath.PHRead{PH: x} }, -1, 16, 0.25 * root},
			{"clearing", func(x float64) bath.Reading { return bath.ClearingRead{Times: math.Exp(x)} }, -3, 4, 0.20 * root},
			{"level", func(x float64) bath.Reading { return bath.LevelRead{Litres: x} }, 0, 7, 0.02 * root * b.Made[bath.Liquid]},
		} {
			if got := integral(k.read, k.low, k.high, c, b); math.Abs(got/k.want-1) > 1e-6 {
				t.Errorf("%s: integral %g, want %g", k.name, got, k.want)
			}
		}
	})
}

// A stain on a print says more silver in the last fixer, a clean margin less, and neither says much.
func TestPrintDropTeaches(t *testing.T) {
	t.Parallel()
	dissolved := func(tests ...bath.Reading) bath.Span {
		p := fixers(1)
		p.Steps = []bath.Step{bath.Worked{Sheet: bath.Sheet{Of: 2, Area: area8x10}, Sheets: 10, Through: []int{0, 1, 2}}}
		for _, r := range tests {
			p.Steps = append(p.Steps, bath.Seen{Bath: 2, Test: r})
		}
		rooms, err := p.Draw(4000, 1)
		if err != nil {
			t.Fatal(err)
		}
		return rooms.Now(2, bath.Silver)
	}
	none, stained, clean := dissolved(), dissolved(bath.PrintDropRead{Stained: true}), dissolved(bath.PrintDropRead{})
	if !(clean.P50 < none.P50 && none.P50 < stained.P50) {
		t.Errorf("silver: clean %+v, no test %+v, stained %+v", clean, none, stained)
	}
	if stained.P50 > 1.15*none.P50 || clean.P50 < none.P50/1.15 {
		t.Errorf("one drop says too much: clean %+v, no test %+v, stained %+v", clean, none, stained)
	}
}
