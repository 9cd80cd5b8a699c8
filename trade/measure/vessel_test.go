package measure_test

import (
	"errors"
	"math"
	"testing"

	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// fraction returns a figure that is a multiple of 1/1000 or of 1/64.
func fraction(x float64) quantity.Ratio {
	for _, den := range []int64{1, 64, 1000} {
		if n := int64(x*float64(den) + 0.5); float64(n)/float64(den) == x {
			r, err := quantity.NewRatio(n, den)
			if err != nil {
				panic(err)
			}
			return r
		}
	}
	panic("no such figure in these tests")
}

func scaleIn(u quantity.VolumeUnit, from, to, step, numbered float64) measure.Scale {
	return measure.Scale{Unit: u, From: fraction(from), To: fraction(to), Step: fraction(step), Numbered: fraction(numbered)}
}

func inML(from, to, step, numbered float64) measure.Scale {
	return scaleIn(quantity.UnitML, from, to, step, numbered)
}

func inOz(from, to, step, numbered float64) measure.Scale {
	return scaleIn(quantity.UnitUSOunce, from, to, step, numbered)
}

func jugOfLitre() measure.Vessel {
	return measure.Vessel{
		Name: "litre jug", Kind: measure.Jug, Scales: []measure.Scale{inML(100, 1000, 50, 100), inOz(1, 32, 1, 4)},
	}
}

func cylinderOf100() measure.Vessel {
	return measure.Vessel{Name: "cylinder", Kind: measure.Cylinder, Scales: []measure.Scale{inML(2, 100, 1, 10)}}
}

func syringeOf10() measure.Vessel {
	return measure.Vessel{Name: "syringe", Kind: measure.Syringe, Scales: []measure.Scale{inML(0.2, 10, 0.2, 1)}}
}

// TestPermissibleErrorOfCylinders holds ASTM E1272-02(2012) Table 1, its rule for sizes that are not listed (the next
// smaller listed one's), and class B as what a cylinder without a class has.
func TestPermissibleErrorOfCylinders(t *testing.T) {
	for _, tc := range []struct {
		size  float64
		class measure.Class
		want  float64
	}{
		{5, measure.ClassA, 0.05},
		{5, measure.ClassB, 0.10},
		{10, measure.ClassA, 0.10},
		{10, measure.ClassB, 0.20},
		{25, measure.ClassA, 0.17},
		{25, measure.ClassB, 0.34},
		{50, measure.ClassA, 0.25},
		{50, measure.NoClass, 0.50},
		{100, measure.ClassA, 0.50},
		{100, measure.NoClass, 1.00},
		{150, measure.NoClass, 1.00}, // not listed
		{200, measure.ClassA, 0.50},  // not listed
		{250, measure.ClassA, 1.00},
		{250, measure.ClassB, 2.00},
		{500, measure.ClassA, 2.00},
		{500, measure.ClassB, 4.00},
		{999, measure.ClassB, 4.00},  // not listed
		{1000, measure.ClassB, 6.00}, // from memory, as all above
	} {
		v := measure.Vessel{Kind: measure.Cylinder, Class: tc.class, Scales: []measure.Scale{inML(1, tc.size, 1, 0)}}
		if got := v.Error(0, tc.size/2); got != tc.want {
			t.Errorf("%g mL class %d: %g mL, want %g", tc.size, tc.class, got, tc.want)
		}
		origin, source := v.Limit(0).From(tc.size / 2)
		if tc.size <= 500 && (origin != reckoning.Standard || source != measure.SourceCylinders) {
			t.Errorf("%g mL: origin %v %q, want the standard", tc.size, origin, source)
		}
		if tc.size >= 1000 && (origin != reckoning.FromMemory || source != "") {
			t.Errorf("%g mL: origin %v %q, want from memory", tc.size, origin, source)
		}
	}
}

// TestPermissibleErrorOfSyringes holds what is printed of ISO 7886-1:2017 table 1 (4 mL from 10 mL is 0.19 mL; a 1 mL
// syringe is 5 % from half its size up and 1.5 % of the size + 2 % of the reading below), and 4 % from half up for
// larger ones, from memory.
func TestPermissibleErrorOfSyringes(t *testing.T) {
	for _, tc := range []struct{ size, at, want float64 }{
		{10, 4, 0.19},
		{10, 1, 0.16},
		{10, 5, 0.20},
		{10, 10, 0.40},
		{20, 5, 0.35},
		{5, 2.5, 0.10},
		{1, 0.25, 0.02},
		{1, 0.5, 0.025},
		{1, 1, 0.05},
	} {
		v := measure.Vessel{Kind: measure.Syringe, Scales: []measure.Scale{inML(0.25, tc.size, 0.25, 0)}}
		if got := v.Error(0, tc.at); math.Abs(got-tc.want) > 1e-12 {
			t.Errorf("%g mL from %g mL: %g mL, want %g", tc.at, tc.size, got, tc.want)
		}
	}
}

// TestPermissibleErrorOfOthers holds 5 % of household measures (productknowledge.com, liquid measuring utensils), 5 %
// of beakers and half a step of pipettes and balances (from memory), and that the room's own takes their place.
func TestPermissibleErrorOfOthers(t *testing.T) {
	scales := []measure.Scale{inML(0.5, 500, 0.5, 0)}
	own := &measure.Permissible{Abs: 5, Rel: 0.02}
	for _, tc := range []struct {
		v        measure.Vessel
		at, want float64
	}{
		{measure.Vessel{Kind: measure.Jug, Scales: scales}, 400, 20},
		{measure.Vessel{Kind: measure.Beaker, Scales: scales}, 100, 5},
		{measure.Vessel{Kind: measure.Pipette, Scales: scales}, 100, 0.25},
		{measure.Vessel{Kind: measure.Balance, Scales: scales}, 100, 0.25},
		{measure.Vessel{Kind: measure.Jug, Scales: scales, Own: own}, 100, 5},
		{measure.Vessel{Kind: measure.Cylinder, Scales: scales, Own: own}, 400, 8},
	} {
		if got := tc.v.Error(0, tc.at); math.Abs(got-tc.want) > 1e-12 {
			t.Errorf("kind %d at %g: %g, want %g", tc.v.Kind, tc.at, got, tc.want)
		}
	}
}

func TestSettingError(t *testing.T) {
	jug := jugOfLitre()
	wide := jug
	wide.InnerWidth = 100
	own := jug
	own.Setting = measure.Setting{OnMark: 0.1}
	for _, tc := range []struct {
		name    string
		v       measure.Vessel
		scale   int
		between bool
		want    float64
	}{
		{"a quarter of 50 mL", jug, 0, false, 12.5},
		{"half of 50 mL between", jug, 0, true, 25},
		{"a quarter of an ounce", jug, 1, false, 7.393382390625},
		{"a tenth where the room says so", own, 0, false, 5},
		{"half between where it says nothing of that", own, 0, true, 25},
		// One millimetre in 100 mm: 7.9 mL, by π/4·d²·1 mm.
		{"one millimetre of level", wide, 0, false, 7.853981633974483},
		{"one millimetre between, too", wide, 1, true, 7.853981633974483},
	} {
		if got := tc.v.SettingError(tc.scale, tc.between); math.Abs(got-tc.want) > 1e-9 {
			t.Errorf("%s: %g mL, want %g", tc.name, got, tc.want)
		}
	}
}

func TestMalformedProblems(t *testing.T) {
	good := func() measure.Problem { return mix("1+9", 770, 1000, 0.15, jugOfLitre(), cylinderOf100()) }
	half := func(v float64) *measure.Permissible { return &measure.Permissible{Abs: v} }
	for _, tc := range []struct {
		want   measure.Trouble
		change func(*measure.Problem)
	}{
		{measure.NoVessel, func(p *measure.Problem) { p.Vessels = nil }},
		{measure.TooManyVessels, func(p *measure.Problem) { p.Vessels = make([]measure.Vessel, measure.MaxVessels+1) }},
		{measure.NoName, func(p *measure.Problem) { p.Vessels[0].Name = "" }},
		{measure.SameName, func(p *measure.Problem) { p.Vessels[1].Name = "litre jug" }},
		{measure.UnknownKind, func(p *measure.Problem) { p.Vessels[0].Kind = 99 }},
		{measure.NoScale, func(p *measure.Problem) { p.Vessels[0].Scales = nil }},
		{measure.BadUnit, func(p *measure.Problem) { p.Vessels[0].Scales[0].Unit = 99 }},
		{measure.BadStep, func(p *measure.Problem) { p.Vessels[0].Scales[0].Step = quantity.Int(0) }},
		{measure.BadFrom, func(p *measure.Problem) { p.Vessels[0].Scales[0].From = quantity.Int(0) }},
		{measure.BadNumbered, func(p *measure.Problem) { p.Vessels[0].Scales[0].Numbered = quantity.Int(-1) }},
		{measure.ToBelowFrom, func(p *measure.Problem) { p.Vessels[0].Scales[0].To = quantity.Int(50) }},
		{measure.DoesNotDivide, func(p *measure.Problem) { p.Vessels[0].Scales[0].Step = quantity.Int(70) }},
		{measure.TooManyMarks, func(p *measure.Problem) { p.Vessels[0].Scales[0].Step = fraction(0.5) }},
		{measure.TooLarge, func(p *measure.Problem) { p.Vessels[0].Scales[0] = inML(1000, 900_000, 1000, 0) }},
		{measure.BadPermissible, func(p *measure.Problem) { p.Vessels[0].Own = half(math.NaN()) }},
		{measure.BadPermissible, func(p *measure.Problem) { p.Vessels[0].Own = half(-1) }},
		{measure.BadSetting, func(p *measure.Problem) { p.Vessels[0].Setting.Between = -0.5 }},
		{measure.BadWidth, func(p *measure.Problem) { p.Vessels[0].InnerWidth = quantity.Length(math.Inf(1)) }},
		{measure.EmptyWindow, func(p *measure.Problem) { p.Window.Max = p.Window.Min - 1 }},
		{measure.EmptyWindow, func(p *measure.Problem) { p.Window = quantity.Window{} }},
		{measure.WantOutside, func(p *measure.Problem) { p.Window.Want = p.Window.Max + 1 }},
		{measure.BadTolerance, func(p *measure.Problem) { p.Tolerance = 0 }},
		{measure.BadTolerance, func(p *measure.Problem) { p.Tolerance = math.NaN() }},
		{measure.BadDilution, func(p *measure.Problem) { p.Dilution.Chemicals = nil }},
		{measure.BadDilution, func(p *measure.Problem) { p.Dilution.Chemicals[0] = quantity.Int(0) }},
		{measure.BadAvailable, func(p *measure.Problem) { p.Available = []quantity.Volume{-1} }},
		{measure.BadAvailable, func(p *measure.Problem) { p.Available = []quantity.Volume{1, 1} }},
		{measure.BadDensity, func(p *measure.Problem) { p.Density = -1 }},
	} {
		p := good()
		tc.change(&p)
		_, err := measure.Solve(t.Context(), p, measure.Options{})
		var got *measure.ProblemError
		if !errors.Is(err, measure.ErrProblem) || !errors.As(err, &got) || got.What != tc.want {
			t.Errorf("error %v, want %s", err, tc.want)
		}
	}
	if _, err := measure.Solve(t.Context(), good(), measure.Options{Alternatives: 5}); !errors.Is(err, measure.ErrProblem) {
		t.Errorf("five alternatives: error %v, want ErrProblem", err)
	}
	if _, err := measure.Solve(t.Context(), good(), measure.Options{}); err != nil {
		t.Errorf("the unchanged problem: %v", err)
	}
}
