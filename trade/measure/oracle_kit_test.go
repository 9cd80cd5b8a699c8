package measure_test

import (
	"math"
	"testing"

	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// scale returns a scale of whole numbers.
func scale(unit quantity.VolumeUnit, from, to, step, numbered int64) measure.Scale {
	return measure.Scale{
		Unit: unit, From: quantity.Int(from), To: quantity.Int(to), Step: quantity.Int(step),
		Numbered: quantity.Int(numbered),
	}
}

// tenths returns a scale in mL, its figures in tenths.
func tenths(from, to, step, numbered int64) measure.Scale {
	return measure.Scale{
		Unit: quantity.UnitML, From: ratio(from, 10), To: ratio(to, 10), Step: ratio(step, 10), Numbered: ratio(numbered, 10),
	}
}

// ratio returns num/den, which must not be too large.
func ratio(num, den int64) quantity.Ratio {
	r, err := quantity.NewRatio(num, den)
	if err != nil {
		panic(err)
	}
	return r
}

// litreJug is the usual litre jug: 50 mL marks from 100 up, every second one numbered, and fluid ounces.
func litreJug() measure.Vessel {
	return measure.Vessel{Name: "jug", Kind: measure.Jug, Scales: []measure.Scale{
		scale(quantity.UnitML, 100, 1000, 50, 100), scale(quantity.UnitUSOunce, 1, 32, 1, 4),
	}}
}

// cylinder100 is a 100 mL cylinder, class B.
func cylinder100() measure.Vessel {
	return measure.Vessel{
		Name: "cylinder", Kind: measure.Cylinder, Class: measure.ClassB,
		Scales: []measure.Scale{scale(quantity.UnitML, 2, 100, 1, 10)},
	}
}

// syringe10 is a 10 mL syringe in 0.2 mL.
func syringe10() measure.Vessel {
	return measure.Vessel{Name: "syringe", Kind: measure.Syringe, Scales: []measure.Scale{tenths(2, 100, 2, 10)}}
}

// oneTo returns the dilution 1+water.
func oneTo(water int64) dilution.Dilution {
	return dilution.Dilution{Chemicals: []quantity.Ratio{quantity.Int(1)}, Water: quantity.Int(water)}
}

// ml returns a window in mL.
func ml(least, most, want int64) quantity.Window {
	return quantity.Window{
		Min: quantity.Millilitre * quantity.Volume(least), Max: quantity.Millilitre * quantity.Volume(most),
		Want: quantity.Millilitre * quantity.Volume(want),
	}
}

// A kitCase is a case with the answer of common practice.
type kitCase struct {
	name    string
	problem measure.Problem
	want    string // as say writes it
	bias, u float64
	within  float64 // how far bias and U may be off: half of the last figure stated
}

// kitCases are the cases of the trade: common practice, no source, but that 1+9 and 1+4 with a
// litre jug are done so on every bench. Tolerances: paper developer 15 %, stop bath 30 %, film developer 10 %
// (common practice, no source). The figures follow from the permissible errors: jug 5 % (household standard),
// cylinder class B (ASTM E1272-02(2012) Table 1), syringe (ISO 7886-1:2017 table 1), a quarter of a division.
func kitCases() []kitCase {
	j, c, s := litreJug(), cylinder100(), syringe10()
	on := func(vs ...measure.Vessel) []measure.Vessel { return vs }
	return []kitCase{
		{
			"jug: 1+9, 770 mL to 1 L",
			measure.Problem{Dilution: oneTo(9), Window: ml(770, 1000, 1000), Tolerance: 0.15, Vessels: on(j)},
			"in jug: 1x 100 mL @jug | 1x 1000 mL @jug", 0, 0.145, 0.0005,
		},
		{
			"jug and cylinder: 1+9, 770 mL to 1 L",
			measure.Problem{Dilution: oneTo(9), Window: ml(770, 1000, 1000), Tolerance: 0.15, Vessels: on(j, c)},
			"poured: 1x 100 mL @cylinder | 1x 1000 mL @jug", 0, 0.06, 0.005,
		},
		{
			"jug: 1+9, 2 L",
			measure.Problem{Dilution: oneTo(9), Window: ml(1800, 2200, 2000), Tolerance: 0.15, Vessels: on(j)},
			"first jug: 1x 200 mL @jug | 2x 1000 mL @jug", 0, 0.07, 0.005,
		},
		{
			"jug and cylinder: 1+9, 2 L",
			measure.Problem{Dilution: oneTo(9), Window: ml(1800, 2200, 2000), Tolerance: 0.15, Vessels: on(j, c)},
			"first jug: 1x 200 mL @jug | 2x 1000 mL @jug", 0, 0.07, 0.005,
		},
		{
			"jug: 1+4, 1 L",
			measure.Problem{Dilution: oneTo(4), Window: ml(900, 1100, 1000), Tolerance: 0.15, Vessels: on(j)},
			"in jug: 1x 200 mL @jug | 1x 1000 mL @jug", 0, 0.07, 0.005,
		},
		{
			"jug: stop bath 1+31, 900 mL to 1 L, not an acid",
			measure.Problem{Dilution: oneTo(31), Window: ml(900, 1000, 1000), Tolerance: 0.30, Vessels: on(j)},
			"in jug: 1x 1 fl oz @jug | 1x 32 fl oz @jug", 0, 0.29, 0.005,
		},
		{
			"jug and cylinder: stop bath 1+31, 900 mL to 1 L, acid",
			measure.Problem{
				Dilution: oneTo(31), Window: ml(900, 1000, 1000), Tolerance: 0.30, Vessels: on(j, c), WaterFirst: true,
			},
			"poured: 1x 30 mL @cylinder | 1x 1000 mL @jug", -0.04, 0.07, 0.005,
		},
		{
			"jug: stop bath 1+31, 900 mL to 1 L, acid",
			measure.Problem{
				Dilution: oneTo(31), Window: ml(900, 1000, 1000), Tolerance: 0.30, Vessels: on(j), WaterFirst: true,
			},
			"apart: 1x 1 fl oz @jug | 1x 31 fl oz @jug", 0, 0.28, 0.005,
		},
		{
			"jug and cylinder: 1+14, 1.4 to 1.6 L",
			measure.Problem{Dilution: oneTo(14), Window: ml(1400, 1600, 1600), Tolerance: 0.15, Vessels: on(j, c)},
			"first jug: 1x 100 mL @cylinder | 2x 750 mL @jug", 0, 0.06, 0.005,
		},
		{
			"jug, cylinder and syringe: film developer 1+50, 500 mL",
			measure.Problem{Dilution: oneTo(50), Window: ml(450, 550, 500), Tolerance: 0.10, Vessels: on(j, c, s)},
			"poured: 1x 10 mL @syringe | 1x 500 mL @jug", 0.02, 0.08, 0.005,
		},
		{
			"jug, cylinder and syringe: film developer 1+50, a tank of 500 mL and up to 10 % more",
			measure.Problem{Dilution: oneTo(50), Window: ml(500, 550, 500), Tolerance: 0.10, Vessels: on(j, c, s)},
			"poured: 1x 10 mL @syringe | 1x 500 mL @jug", 0.02, 0.08, 0.005,
		},
		{
			"jug, cylinder and syringe: film developer 1+100, 300 mL",
			measure.Problem{Dilution: oneTo(100), Window: ml(270, 330, 300), Tolerance: 0.15, Vessels: on(j, c, s)},
			"poured: 1x 3 mL @syringe | 1x 300 mL @jug", 0.01, 0.10, 0.005,
		},
		{
			"jug: a stock used 1+2, 2 L and not less: 667 mL of stock, to the nearest mark",
			measure.Problem{Dilution: oneTo(2), Window: ml(2000, 2050, 2000), Tolerance: 0.15, Vessels: on(j)},
			"first jug: 1x 650 mL @jug | 2x 1000 mL @jug", -0.025, 0.0244, 0.0005,
		},
	}
}

// TestOracleKnowsTheKits checks the oracle itself, without the solver.
func TestOracleKnowsTheKits(t *testing.T) {
	for _, tc := range kitCases() {
		t.Run(tc.name, func(t *testing.T) {
			q := newQuestion(tc.problem)
			best := q.bestByReadings()
			if best == nil {
				t.Fatal("the oracle found nothing")
			}
			checkKit(t, q, tc, &best.action, best.bias, best.u)
		})
	}
}

// TestKits checks the solver's answers.
func TestKits(t *testing.T) {
	for _, tc := range kitCases() {
		t.Run(tc.name, func(t *testing.T) {
			q := newQuestion(tc.problem)
			c := solved(t, tc.problem)
			a, err := q.trace(c)
			if err != nil {
				t.Fatal(err)
			}
			checkKit(t, q, tc, &a, c.Bias, c.Uncertainty)
			if c.Grade != measure.GradeA || !c.Within {
				t.Errorf("grade %v", c.Grade)
			}
		})
	}
}

func checkKit(t *testing.T, q *question, tc kitCase, a *action, bias, u float64) {
	t.Helper()
	if got := q.say(a); got != tc.want {
		t.Errorf("got %s, want %s", got, tc.want)
	}
	if math.Abs(bias-tc.bias) > tc.within {
		t.Errorf("bias %.4f, want %.4f", bias, tc.bias)
	}
	if math.Abs(u-tc.u) > tc.within {
		t.Errorf("U %.4f, want %.4f", u, tc.u)
	}
}
