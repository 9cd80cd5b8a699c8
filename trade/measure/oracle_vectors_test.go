package measure_test

import (
	"fmt"
	"math"
	"testing"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// perfect makes a jug err by nothing to speak of, so that what is left of U is that of the chemical's reading.
func perfect(v measure.Vessel) measure.Vessel {
	v.Own = &measure.Permissible{Rel: 1e-15}
	v.InnerWidth = 1e-6
	return v
}

// halfDivision sets the vessel's setting error to half a division, as the vectors have it.
func halfDivision(v measure.Vessel) measure.Vessel {
	v.Setting = measure.Setting{OnMark: 0.5, Between: 0.5}
	v.NotForWater = true
	return v
}

// chemicalAlone makes the problem "so much chemical made up to a litre in a perfect jug", whose U × S is 2u of S.
func chemicalAlone(t *testing.T, chemical quantity.Ratio, tolerance float64, vs ...measure.Vessel) measure.Problem {
	t.Helper()
	water, err := quantity.Int(1000).Sub(chemical)
	if err != nil {
		t.Fatal(err)
	}
	p := measure.Problem{Window: ml(1000, 1000, 1000), Tolerance: tolerance}
	p.Dilution.Chemicals, p.Dilution.Water = []quantity.Ratio{chemical}, water
	jug := measure.Vessel{Name: "jug", Kind: measure.Jug, Scales: []measure.Scale{scale(quantity.UnitML, 1000, 1000, 1000, 0)}}
	jug.NotForChemical = false
	p.Vessels = append([]measure.Vessel{perfect(jug)}, vs...)
	return p
}

// one returns a scale in mL with one mark, in thousandths.
func one(mark, step int64) measure.Scale {
	return measure.Scale{Unit: quantity.UnitML, From: ratio(mark, 1000), To: ratio(mark, 1000), Step: ratio(step, 1000)}
}

// upTo returns a scale with the mark wanted and the capacity, in thousandths of a mL.
func upTo(mark, capacity, step int64) measure.Scale {
	s := one(mark, step)
	s.To = ratio(capacity, 1000)
	return s
}

// TestVectors checks worked uncertainties: tolerance and half a division, both rectangular, in quadrature.
// Sources: JCGM 100:2008 4.3.7 and F.2.2.1 (half-widths); ASTM E1272-02(2012) Table 1 (class B tolerances).
func TestVectors(t *testing.T) {
	cylinder := func(name string, s measure.Scale) measure.Vessel {
		return halfDivision(measure.Vessel{Name: name, Kind: measure.Cylinder, Class: measure.ClassB, Scales: []measure.Scale{s}})
	}
	beaker := halfDivision(measure.Vessel{Name: "beaker", Kind: measure.Beaker, Own: &measure.Permissible{Abs: 50}})
	beaker.Scales = []measure.Scale{upTo(750_000, 1_000_000, 50_000)}
	hundred := func(name string) measure.Vessel { return cylinder(name, one(100_000, 1000)) }
	for _, tc := range []struct {
		name      string
		chemical  int64   // mL
		u         float64 // mL, as printed
		within    float64
		tolerance float64
		vessels   []measure.Vessel
	}{
		{"10 mL", 10, 0.1291, 5e-5, 1, []measure.Vessel{cylinder("ten", upTo(10_000, 10_000, 200))}},
		{"25 mL", 25, 0.2437, 5e-5, 1, []measure.Vessel{cylinder("twenty-five", upTo(25_000, 25_000, 500))}},
		{"48 of 50 mL", 48, 0.4082, 5e-5, 1, []measure.Vessel{cylinder("fifty", upTo(48_000, 50_000, 1000))}},
		{"48 of 100 mL", 48, 0.6455, 5e-5, 1, []measure.Vessel{cylinder("hundred", upTo(48_000, 100_000, 1000))}},
		{"200 of 250 mL", 200, 1.2910, 5e-5, 1, []measure.Vessel{cylinder("quarter", upTo(200_000, 250_000, 2000))}},
		{"400 of 500 mL", 400, 2.7234, 5e-5, 1, []measure.Vessel{cylinder("half", upTo(400_000, 500_000, 5000))}},
		{"750 mL in a litre beaker", 750, 32.27, 5e-3, 1, []measure.Vessel{beaker}},
		{"200 mL, a cylinder of 100 mL twice", 200, 1.2247, 5e-5, 1, []measure.Vessel{hundred("one")}},
		{"200 mL, two cylinders of 100 mL", 200, 0.913, 5e-4, 0.01, []measure.Vessel{hundred("one"), hundred("other")}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := solved(t, chemicalAlone(t, quantity.Int(tc.chemical), tc.tolerance, tc.vessels...))
			if got := c.Uncertainty / 2 * float64(tc.chemical); math.Abs(got-tc.u) > tc.within {
				t.Errorf("u = %.5f mL, want %.5f: %+v", got, tc.u, c.Steps)
			}
		})
	}
}

// TestFlask checks the worked example of a 50 mL flask from the University of Tartu's course on measurement
// uncertainty: tolerance 0.06 mL, repeatability 0.09 mL, and the water's expansion over ±4 °C (2.1e-4 a degree), all
// rectangular; u = 0.0669925368977769 mL. There is one temperature here, so the expansion, which like the tolerance
// is the same for the whole vessel, goes into its own permissible error, in quadrature; the repeatability is the setting.
func TestFlask(t *testing.T) {
	flask := halfDivision(measure.Vessel{Name: "flask", Kind: measure.Cylinder, Scales: []measure.Scale{one(50_000, 180)}})
	flask.Own = &measure.Permissible{Abs: math.Hypot(0.06, 50*2.1e-4*4)}
	c := solved(t, chemicalAlone(t, quantity.Int(50), 1, flask))
	if got, want := c.Uncertainty/2*50, 0.0669925368977769; math.Abs(got-want) > 1e-8 {
		t.Errorf("u = %.10f mL, want %.10f", got, want)
	}
}

// TestPermissibleErrors checks the errors by kind through U: with a setting error of next to nothing U × S is 2t/√3.
func TestPermissibleErrors(t *testing.T) {
	type reading struct {
		name           string
		kind           measure.Kind
		class          measure.Class
		mark, capacity int64 // thousandths of a mL
		t              float64
	}
	var all []reading
	for _, row := range astmE1272 {
		size := int64(row[0] * 1000)
		if size > 500_000 {
			continue // does not go into the litre
		}
		all = append(
			all,
			reading{"class A, full", measure.Cylinder, measure.ClassA, size, size, row[1]},
			reading{"class B, full", measure.Cylinder, measure.ClassB, size, size, row[2]},
			reading{"no class, half", measure.Cylinder, measure.NoClass, size / 2, size, row[2]},
		)
	}
	all = append(
		all,
		// A capacity not listed takes the next smaller one's tolerance: ASTM E1272-02(2012).
		reading{"30 mL as 25 mL", measure.Cylinder, measure.ClassB, 30_000, 30_000, 0.34},
		reading{"200 mL as 100 mL", measure.Cylinder, measure.ClassA, 200_000, 200_000, 0.5},
		// ISO 7886-1:2017 table 1, worked in a laboratory's note: 4 mL from a 10 mL syringe ±0.19 mL; 1 mL: ±5 % from half up.
		reading{"syringe, 4 of 10 mL", measure.Syringe, 0, 4000, 10_000, 0.19},
		reading{"syringe, 1 of 1 mL", measure.Syringe, 0, 1000, 1000, 0.05},
		reading{"syringe, half of 1 mL", measure.Syringe, 0, 500, 1000, 0.025},
		reading{"syringe, 0.4 of 1 mL", measure.Syringe, 0, 400, 1000, 0.015 + 0.02*0.4},
		// From memory: 4 % from half up.
		reading{"syringe, 8 of 10 mL", measure.Syringe, 0, 8000, 10_000, 0.32},
		reading{"syringe, 5 of 10 mL", measure.Syringe, 0, 5000, 10_000, 0.20},
		// A household standard, and for a beaker from memory: 5 %.
		reading{"jug", measure.Jug, 0, 200_000, 400_000, 10},
		reading{"beaker", measure.Beaker, 0, 200_000, 400_000, 10},
		// From memory: half a step.
		reading{"pipette", measure.Pipette, 0, 5000, 10_000, 2.5},
	)
	for _, r := range all {
		t.Run(fmt.Sprintf("%s, %d of %d", r.name, r.mark, r.capacity), func(t *testing.T) {
			step := r.capacity - r.mark
			if step == 0 {
				step = r.mark
			}
			v := measure.Vessel{
				Name: "small", Kind: r.kind, Class: r.class, InnerWidth: 1e-6, NotForWater: true,
				Scales: []measure.Scale{upTo(r.mark, r.capacity, step)},
			}
			c := solved(t, chemicalAlone(t, ratio(r.mark, 1000), 1, v))
			if got := c.Uncertainty / 2 * float64(r.mark) / 1000 * math.Sqrt(3); math.Abs(got-r.t) > 1e-9 {
				t.Errorf("t = %.6f mL, want %.6f", got, r.t)
			}
		})
	}
}
