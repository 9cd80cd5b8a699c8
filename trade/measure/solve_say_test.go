package measure_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// TestSteps holds the order of doing: what a careful printer does with his hands, rinsing, tipping and stirring included.
func TestSteps(t *testing.T) {
	pitcher, quarter := pitcherAndQuarter()
	plain := jugOfLitre()
	plain.Scales = plain.Scales[:1]
	small := measure.Vessel{Name: "small jug", Kind: measure.Jug, Scales: []measure.Scale{inML(50, 500, 50, 100)}}
	fine := measure.Vessel{Name: "fine cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(1, 10, 0.2, 1)}}
	balance := measure.Vessel{Name: "balance", Kind: measure.Balance, Scales: []measure.Scale{inML(0, 500, 0.1, 0)}}
	balance.Scales[0].Step = fraction(0.1)
	heavy := mix("1+9", 900, 1000, 0.15, jugOfLitre(), balance)
	heavy.Density = 1.25
	acid := mix("1+19", 1900, 2000, 0.15, jugOfLitre(), cylinderOf100())
	acid.WaterFirst = true
	thin := mix("1+500", 450, 500, 0.2, small, fine, cylinderOf100())
	thin.Vessels[1].Scales[0] = inML(5, 10, 0.2, 1)
	thin.Vessels[2].Scales[0] = inML(50, 100, 1, 10)
	for _, tc := range []struct {
		name string
		p    measure.Problem
		want string
	}{
		{
			"two parts in one jug", mix("1+1+8", 900, 1000, 0.25, plain),
			"pour A 100 mL litre jug; pour B 200 mL litre jug; fill water 1000 mL litre jug",
		},
		{
			"two parts out of one cylinder, rinsed between", mix("1+1+8", 900, 1000, 0.15, jugOfLitre(), cylinderOf100()),
			"pour A 100 mL cylinder; rinse water; pour B 100 mL cylinder; rinse water; fill water 1000 mL litre jug",
		},
		{
			"an acid in two jugfuls", acid,
			"start water; pour chemical 100 mL cylinder; rinse water; fill water 1000 mL litre jug; tip mix; " +
				"fill water 1000 mL litre jug; tip water; stir mix",
		},
		{
			"jugfuls alike where the chemical fits the measure",
			mix("1+4", 2000, 2000, 0.15, pitcher, quarter),
			"pour chemical 200 mL quarter cylinder x2; rinse water x2; fill water 1000 mL pitcher x2; tip mix x2",
		},
		{"weighed", heavy, "weigh chemical 125 g balance; rinse water; fill water 1000 mL litre jug"},
		{
			"apart, water last where it need not be first", mix("1+1", 1000, 1000, 0.15, small),
			"pour chemical 500 mL small jug; tip chemical; pour water 500 mL small jug; tip water; stir mix",
		},
		{
			"thinned first", thin,
			"pour chemical 10 mL fine cylinder; rinse water; fill water 100 mL cylinder; stir thinned; " +
				"pour thinned 10 mL fine cylinder; rinse water; fill water 500 mL small jug",
		},
	} {
		r := solve(t, tc.p, measure.Options{NoAdvice: true})
		if len(r.Choices) == 0 {
			t.Errorf("%s: nothing can be made", tc.name)
			continue
		}
		if got := told(tc.p, r.Choices[0]); got != tc.want {
			t.Errorf("%s:\ngot  %s\nwant %s", tc.name, got, tc.want)
		}
	}
}

// TestStartIsThreeQuartersOfTheWater: about three quarters of the water go in first.
func TestStartIsThreeQuartersOfTheWater(t *testing.T) {
	p := mix("1+9", 1000, 1000, 0.15, jugOfLitre(), cylinderOf100())
	p.WaterFirst = true
	s := solve(t, p, measure.Options{}).Choices[0].Steps[0]
	if s.Do != measure.Start || s.Volume != 675*quantity.Millilitre || s.Vessel != 0 {
		t.Errorf("%+v, want a start with 675 mL in the jug", s)
	}
}

// TestRoundsOfJugfuls: the steps of like jugfuls are one group, done in turn.
func TestRoundsOfJugfuls(t *testing.T) {
	pitcher, quarter := pitcherAndQuarter()
	p := mix("1+4", 2000, 2000, 0.15, pitcher, quarter)
	for i, s := range solve(t, p, measure.Options{}).Choices[0].Steps {
		if s.Group != 0 || s.Rounds != 2 || s.Times != 2 {
			t.Errorf("step %d: %+v, want two rounds of one group", i, s)
		}
	}
	p = mix("1+4", 1000, 1000, 0.15, pitcher, cylinderOf100())
	p.WaterFirst = true
	c := solve(t, p, measure.Options{}).Choices[0]
	if s := c.Steps[1]; s.Do != measure.Pour || s.Times != 2 || s.Rounds != 1 {
		t.Errorf("%+v, want two pours in one round", s)
	}
}

// pitcherAndQuarter returns a pitcher with one mark, at a litre, and a cylinder of a quarter.
func pitcherAndQuarter() (pitcher, quarter measure.Vessel) {
	pitcher = measure.Vessel{Name: "pitcher", Kind: measure.Jug, Scales: []measure.Scale{inML(1000, 1000, 10, 1000)}}
	quarter = measure.Vessel{Name: "quarter cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(20, 250, 2, 20)}}
	return pitcher, quarter
}

// put returns a figure of a reckoning by its name.
func put(t *rapid.T, r reckoning.Reckoning, name string) float64 {
	for _, f := range r.Puts {
		if f.Name == name {
			return f.Value
		}
	}
	t.Fatalf("%s has no %s", r.Rule, name)
	return 0
}

// redo works a term of U again from the figures that are put in.
func redo(t *rapid.T, f reckoning.Figure) float64 {
	if f.By == nil {
		t.Fatalf("%s has no reckoning", f.Name)
	}
	puts := f.By.Puts
	if f.Name == "setting_error" {
		return math.Sqrt(put(t, *f.By, "times")) * math.Abs(put(t, *f.By, "weight_in_share")) * puts[0].Value
	}
	var sum float64
	for i := 0; i < len(puts); i += 3 {
		limited, weight, times := puts[i], puts[i+1], puts[i+2]
		sum += limited.Value * weight.Value * times.Value
		by := *limited.By
		at := put(t, by, "reading")
		var limit float64
		for _, g := range by.Puts {
			switch g.Name {
			case "permissible_fixed":
				limit += g.Value
			case "permissible_part":
				limit += g.Value * at
			}
		}
		if math.Abs(limit/at-limited.Value) > 1e-9 {
			t.Errorf("%s of %s: %g, its figures give %g", limited.Name, limited.Of, limited.Value, limit/at)
		}
	}
	return math.Abs(sum)
}

// TestReckoningCanBeRedone: from the figures of a choice's reckoning a reader gets the same uncertainty, and each that is
// from a standard names it.
func TestReckoningCanBeRedone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawnProblem(t)
		for _, c := range solvedDrawn(t, p, measure.Options{NoAdvice: true, Alternatives: measure.MaxAlternatives}).Choices {
			var farthest float64
			var us []float64
			for _, r := range c.Reckoning {
				namesItsSources(t, r)
				if r.Rule == "allowed" {
					farthest = r.Result.Value
				}
				if r.Rule != "uncertainty" {
					continue
				}
				var squares float64
				for _, f := range r.Puts {
					if f.Name == "coverage" {
						continue
					}
					term := redo(t, f)
					squares += term * term
					if math.Abs(term-f.Value) > 1e-9 {
						t.Errorf("%s of %s: %g, redone %g", f.Name, f.Of, f.Value, term)
					}
				}
				u := 2 * math.Sqrt(squares/3)
				if math.Abs(u-r.Result.Value) > 1e-9 {
					t.Errorf("U %g, redone %g", r.Result.Value, u)
				}
				us = append(us, u)
			}
			if !slices.ContainsFunc(us, func(u float64) bool { return math.Abs(u-c.Uncertainty) < 1e-9 }) ||
				len(us) != len(p.Dilution.Chemicals) || math.Abs(farthest-math.Abs(c.Bias)-c.Uncertainty) > 1e-9 {
				t.Errorf("U %g of the choice, redone %v; farthest %g", c.Uncertainty, us, farthest)
			}
		}
	})
}

func namesItsSources(t *rapid.T, r reckoning.Reckoning) {
	for _, f := range append(slices.Clone(r.Puts), r.Result) {
		if (f.Origin == reckoning.Standard) != (f.Source != "") || f.Name == "" || math.IsNaN(f.Value) {
			t.Errorf("%s: %+v", r.Rule, f)
		}
		if f.By != nil {
			namesItsSources(t, *f.By)
		}
	}
}

// TestAlternativesGainSomething: of three ways with jug, cylinder and syringe each has something for it.
func TestAlternativesGainSomething(t *testing.T) {
	p := mix("1+9", 770, 1000, 0.15, jugOfLitre(), cylinderOf100())
	r := solve(t, p, measure.Options{Alternatives: 4, NoAdvice: true})
	if len(r.Choices) < 2 {
		t.Fatalf("%d choices, want alternatives", len(r.Choices))
	}
	alone := false
	for _, c := range r.Choices[1:] {
		if len(c.Differs) == 0 || !c.Differs[0].Gain {
			t.Errorf("%s: gains nothing: %+v", told(p, c), c.Differs)
		}
		// The jug alone does it, too: one vessel less to wash, and less exact.
		if told(p, c) == "pour chemical 100 mL litre jug; fill water 1000 mL litre jug" {
			alone = slices.ContainsFunc(c.Differs, func(d measure.Difference) bool {
				return d.Aspect == measure.VesselCount && d.Gain && d.From == 2 && d.To == 1
			}) && slices.ContainsFunc(c.Differs, func(d measure.Difference) bool {
				return d.Aspect == measure.Accuracy && !d.Gain
			})
		}
	}
	if !alone {
		t.Error("the jug alone is not among the alternatives")
	}
}
