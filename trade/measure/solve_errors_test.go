package measure_test

import (
	"math"
	"testing"

	"wetside/trade/measure"
)

// exactly returns a vessel with one scale that errs by nothing.
func exactly(name string, kind measure.Kind, from, to, step float64) measure.Vessel {
	return measure.Vessel{
		Name: name, Kind: kind, Own: &measure.Permissible{}, Setting: measure.Setting{OnMark: 1e-12},
		Scales: []measure.Scale{inML(from, to, step, 0)},
	}
}

// TestErrorsDecideTheGrade holds two terms of the errors where the search itself needs them: the grade tells whether it
// reckoned with them, the stated U what they come to, by hand from JCGM 100 as the package comment has it.
func TestErrorsDecideTheGrade(t *testing.T) {
	chemical := exactly("cylinder", measure.Cylinder, 500, 500, 1)
	chemical.NotForWater = true
	coarse := exactly("jug", measure.Jug, 500, 500, 1)
	coarse.NotForChemical, coarse.Own = true, &measure.Permissible{Rel: 0.05}

	fifty := exactly("small cylinder", measure.Cylinder, 50, 50, 1)
	fifty.NotForWater = true
	two := exactly("two-scale jug", measure.Jug, 1000, 1000, 4)
	two.Scales = append(two.Scales, inML(250, 250, 250, 0))
	two.Setting = measure.Setting{}

	for _, tc := range []struct {
		name   string
		p      measure.Problem
		told   string
		grade  measure.Grade
		u      float64
		within bool
	}{
		{ // δf/f = (1 − S/T)·(δS/S − δW/W): the jug's 5 % counts by half
			"half the total is chemical", mix("1+1", 1000, 1000, 0.05, chemical, coarse),
			"pour chemical 500 mL cylinder; tip chemical; rinse mix; pour water 500 mL jug; tip water; stir mix",
			measure.GradeA, 2 * 0.5 * 0.05 / math.Sqrt(3), true,
		},
		{ // a quarter of 250 mL in the second fill, of 4 mL in the first, both of 1250 mL
			"the second fill is to a coarse mark", mix("1+24", 1250, 1250, 0.05, fifty, two),
			"pour chemical 50 mL small cylinder; rinse water; fill water 1000 mL two-scale jug; tip mix; " +
				"fill water 250 mL two-scale jug; tip water; stir mix",
			measure.GradeC, 2 * math.Hypot(62.5, 1) / 1250 / math.Sqrt(3), false,
		},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := solve(t, tc.p, measure.Options{NoAdvice: true})
			if len(r.Choices) == 0 {
				t.Fatal("nothing can be made")
			}
			c := r.Choices[0]
			if got := told(tc.p, c); got != tc.told {
				t.Errorf("got  %s\nwant %s", got, tc.told)
			}
			if c.Grade != tc.grade || math.Abs(c.Uncertainty-tc.u) > 5e-6 || c.Bias != 0 || c.Within != tc.within {
				t.Errorf("grade %v, bias %g, U %.6f, within %v; want %v, 0, %.6f, %v", c.Grade, c.Bias, c.Uncertainty, c.Within,
					tc.grade, tc.u, tc.within)
			}
		})
	}
}
