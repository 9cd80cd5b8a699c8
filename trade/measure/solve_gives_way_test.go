package measure_test

import (
	"testing"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// An intermediate dilution of four readings gives way to eight readings without one, once a vessel allows them: (f) is
// there only where (a) to (e) reach neither grade A nor B.
func TestIntermediateGivesWay(t *testing.T) {
	litre, small, two, fine := benchVessels()[0], benchVessels()[2], benchVessels()[1], benchVessels()[10]
	litre.HalfMarks, litre.Own = true, &measure.Permissible{Abs: 1, Rel: 0.03}
	small.Scales, small.Own, small.NotForWater = small.Scales[:1], &measure.Permissible{Abs: 1.125, Rel: 0.0068}, true
	two.HalfMarks = true
	p := mix("1+22", 930, 1200, 0.0955, litre, small, two)
	p.WaterFirst = true
	p.Available = []quantity.Volume{519 * quantity.Millilitre}
	for _, c := range []struct {
		vessels  []measure.Vessel
		thinned  bool
		readings int
	}{{p.Vessels, true, 4}, {append(p.Vessels[:3:3], fine), false, 8}} {
		p.Vessels = c.vessels
		r, err := measure.Solve(t.Context(), p, measure.Options{NoAdvice: true})
		if err != nil {
			t.Fatal(err)
		}
		got := r.Choices[0]
		if got.Grade != measure.GradeA || (got.Manner == measure.Intermediate) != c.thinned || got.Readings != c.readings {
			t.Errorf("%d vessels: grade %d, manner %d, %d readings; want A, thinned %v, %d readings",
				len(c.vessels), got.Grade, got.Manner, got.Readings, c.thinned, c.readings)
		}
	}
}
