package measure_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// mix returns a problem with whole parts ("1+9", "1+1+10") and a window in mL, its upper end wanted.
func mix(parts string, least, most, tolerance float64, vs ...measure.Vessel) measure.Problem {
	p := measure.Problem{Tolerance: tolerance, Vessels: vs}
	fields := strings.Split(parts, "+")
	for i, f := range fields {
		var n int64
		if _, err := fmt.Sscan(f, &n); err != nil {
			panic(err)
		}
		if i == len(fields)-1 {
			p.Dilution.Water = quantity.Int(n)
		} else {
			p.Dilution.Chemicals = append(p.Dilution.Chemicals, quantity.Int(n))
		}
	}
	ml := func(x float64) quantity.Volume { return quantity.Volume(math.Round(x * float64(quantity.Millilitre))) }
	p.Window = quantity.Window{Min: ml(least), Max: ml(most), Want: ml(most)}
	return p
}

// solve solves a problem without advice.
func solve(t *testing.T, p measure.Problem, o measure.Options) measure.Result {
	t.Helper()
	r, err := measure.Solve(t.Context(), p, o)
	if err != nil {
		t.Fatalf("Solve: %v", err)
	}
	return r
}

// told writes the steps of a choice in short.
func told(p measure.Problem, c measure.Choice) string {
	dos := map[measure.Do]string{
		measure.Pour: "pour", measure.Fill: "fill", measure.Weigh: "weigh", measure.Start: "start", measure.Tip: "tip",
		measure.Rinse: "rinse", measure.Stir: "stir",
	}
	whats := map[measure.What]string{
		measure.Chemical: "chemical", measure.PartA: "A", measure.PartB: "B", measure.Water: "water",
		measure.Made: "thinned", measure.Mix: "mix",
	}
	var out []string
	for _, s := range c.Steps {
		text := dos[s.Do] + " " + whats[s.What]
		if s.Do == measure.Pour || s.Do == measure.Fill || s.Do == measure.Weigh {
			v := p.Vessels[s.Vessel]
			unit := v.Scales[s.Scale].Unit.String()
			if v.Kind == measure.Balance {
				unit = "g"
			}
			text += fmt.Sprintf(" %g %s %s", s.Mark.Float(), unit, v.Name)
		}
		if s.Times > 1 {
			text += fmt.Sprintf(" x%d", s.Times)
		}
		out = append(out, text)
	}
	return strings.Join(out, "; ")
}

// TestUsualKits holds the kit table of the model: what a careful printer does with usual kits, with bias and U as printed
// there, and the ordinary cases of common practice.
func TestUsualKits(t *testing.T) {
	acid := func(p measure.Problem) measure.Problem {
		p.WaterFirst = true
		return p
	}
	for _, tc := range []struct {
		name      string
		p         measure.Problem
		want      string
		grade     measure.Grade
		biasInPct float64 // rounded
		uInPct    float64 // rounded as printed
		decimals  int
	}{
		{
			"jug, 1+9, 770 mL to 1 L", mix("1+9", 770, 1000, 0.15, jugOfLitre()),
			"pour chemical 100 mL litre jug; fill water 1000 mL litre jug", measure.GradeA, 0, 14.5, 1,
		},
		{
			"jug and cylinder, 1+9, 770 mL to 1 L", mix("1+9", 770, 1000, 0.15, jugOfLitre(), cylinderOf100()),
			"pour chemical 100 mL cylinder; rinse water; fill water 1000 mL litre jug", measure.GradeA, 0, 6, 0,
		},
		{
			"jug, 1+9, 2 L", mix("1+9", 1900, 2000, 0.15, jugOfLitre()),
			"pour chemical 200 mL litre jug; fill water 1000 mL litre jug; tip mix; fill water 1000 mL litre jug; " +
				"tip water; stir mix", measure.GradeA, 0, 7, 0,
		},
		{
			"jug and cylinder, 1+9, 2 L", mix("1+9", 1900, 2000, 0.15, jugOfLitre(), cylinderOf100()),
			"pour chemical 200 mL litre jug; fill water 1000 mL litre jug; tip mix; fill water 1000 mL litre jug; " +
				"tip water; stir mix", measure.GradeA, 0, 7, 0,
		},
		{
			"jug, 1+4, 1 L", mix("1+4", 900, 1000, 0.15, jugOfLitre()),
			"pour chemical 200 mL litre jug; fill water 1000 mL litre jug", measure.GradeA, 0, 7, 0,
		},
		{
			"jug, 1+31, no acid", mix("1+31", 900, 1000, 0.3, jugOfLitre()),
			"pour chemical 1 US fl oz litre jug; fill water 32 US fl oz litre jug", measure.GradeA, 0, 29, 0,
		},
		{
			"jug and cylinder, 1+31, acid", acid(mix("1+31", 900, 1000, 0.3, jugOfLitre(), cylinderOf100())),
			"start water; pour chemical 30 mL cylinder; rinse water; fill water 1000 mL litre jug", measure.GradeA, -4, 7, 0,
		},
		{
			"jug and cylinder, 1+14, 1.4 to 1.6 L", mix("1+14", 1400, 1600, 0.15, jugOfLitre(), cylinderOf100()),
			"pour chemical 100 mL cylinder; rinse water; fill water 750 mL litre jug; tip mix; fill water 750 mL litre jug; " +
				"tip water; stir mix", measure.GradeA, 0, 6, 0,
		},
		{
			"jug, cylinder and syringe, 1+50, 500 mL, film",
			mix("1+50", 500, 500, 0.1, jugOfLitre(), cylinderOf100(), syringeOf10()),
			"pour chemical 10 mL syringe; rinse water; fill water 500 mL litre jug", measure.GradeA, 2, 8, 0,
		},
		{
			"jug, cylinder and syringe, 1+50, a tank of 500 mL", mix("1+50", 500, 550, 0.1, jugOfLitre(), cylinderOf100(), syringeOf10()),
			"pour chemical 10 mL syringe; rinse water; fill water 500 mL litre jug", measure.GradeA, 2, 8, 0,
		},
		// Common practice, with a litre jug alone and an acid: the water apart, then the chemical.
		{
			"jug, 1+31, acid", acid(mix("1+31", 900, 1000, 0.3, jugOfLitre())),
			"pour water 31 US fl oz litre jug; tip water; pour chemical 1 US fl oz litre jug; tip chemical; rinse mix; stir mix",
			measure.GradeA, 0, 28, 0,
		},
		// Common practice: a large tray takes two litre jugs, and one makes them alike where both must be mixed.
		{
			"jug, 1+4, 2 L", mix("1+4", 1900, 2000, 0.15, jugOfLitre()),
			"pour chemical 400 mL litre jug; fill water 1000 mL litre jug; tip mix; fill water 1000 mL litre jug; " +
				"tip water; stir mix", measure.GradeA, 0, 4, 0,
		},
		// A stock used 1+2: two litres take 667 mL, to the nearest mark of the jug.
		{
			"jug, 1+2, 2 L", mix("1+2", 2000, 2000, 0.15, jugOfLitre()),
			"pour chemical 650 mL litre jug; fill water 1000 mL litre jug; tip mix; fill water 1000 mL litre jug; " +
				"tip water; stir mix", measure.GradeA, -2, 2, 0,
		},
		{
			"undiluted, half a litre", mix("1+0", 450, 500, 0.15, jugOfLitre()),
			"pour chemical 500 mL litre jug; tip chemical", measure.GradeA, 0, 0, 0,
		},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := solve(t, tc.p, measure.Options{NoAdvice: true})
			if len(r.Choices) == 0 {
				t.Fatal("nothing can be made")
			}
			c := r.Choices[0]
			if got := told(tc.p, c); got != tc.want {
				t.Errorf("got  %s\nwant %s", got, tc.want)
			}
			round := func(x float64) float64 {
				k := math.Pow(10, float64(tc.decimals))
				return math.Round(x*100*k)/k + 0 // no -0
			}
			if c.Grade != tc.grade || round(c.Bias) != tc.biasInPct || round(c.Uncertainty) != tc.uInPct {
				t.Errorf("grade %d, bias %.4f, U %.4f, want %d, %g %%, %g %%", c.Grade, c.Bias, c.Uncertainty, tc.grade,
					tc.biasInPct, tc.uInPct)
			}
		})
	}
}

// TestContractExample holds the figures that scripts rely on.
func TestContractExample(t *testing.T) {
	p := mix("1+31", 900, 1000, 0.3, jugOfLitre())
	c := solve(t, p, measure.Options{}).Choices[0]
	got := []any{
		c.Total.ML(), c.Chemical[0].ML(), c.ChemicalUsed[0].ML(), c.Strength, c.Bias, math.Round(c.Uncertainty*1000) / 1000,
		c.Within, c.Readings, c.Vessels, len(c.Steps), c.Grade,
	}
	want := []any{946.352946, 29.5735295625, 29.5735295625, 0.03125, 0.0, 0.289, true, 2, []int{0}, 2, measure.GradeA}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

// TestHalfDivisionVectors holds u = √((t² + h²)/3) of single readings with h half a division, as tabulated from JCGM 100,
// and one cylinder used twice, whose own error does not average. The vessel that is filled up errs by nothing here.
func TestHalfDivisionVectors(t *testing.T) {
	cylinder := func(size, step float64) measure.Vessel {
		return measure.Vessel{Kind: measure.Cylinder, Scales: []measure.Scale{inML(step, size, step, 0)}}
	}
	beaker := measure.Vessel{
		Kind: measure.Beaker, Scales: []measure.Scale{inML(50, 1000, 50, 0)}, Own: &measure.Permissible{Abs: 50},
	}
	for _, tc := range []struct {
		name    string
		v       measure.Vessel
		at      float64
		pours   int
		u       float64 // mL
		decimal float64
	}{
		{"10 mL class B, 0.2, at 10", cylinder(10, 0.2), 10, 1, 0.1291, 1e-4},
		{"25 mL class B, 0.5, at 25", cylinder(25, 0.5), 25, 1, 0.2437, 1e-4},
		{"50 mL class B, 1, at 48", cylinder(50, 1), 48, 1, 0.4082, 1e-4},
		{"100 mL class B, 1, at 48", cylinder(100, 1), 48, 1, 0.6455, 1e-4},
		{"250 mL class B, 2, at 200", cylinder(250, 2), 200, 1, 1.2910, 1e-4},
		{"500 mL class B, 5, at 400", cylinder(500, 5), 400, 1, 2.7234, 1e-4},
		{"1 L beaker, 50, at 750", beaker, 750, 1, 32.27, 1e-2},
		{"one 100 mL class B, twice 100", cylinder(100, 1), 100, 2, 1.2247, 1e-4},
	} {
		total := 2 * tc.at * float64(tc.pours)
		full := measure.Vessel{
			Name: "marked bottle", Kind: measure.Jug, Own: &measure.Permissible{}, Setting: measure.Setting{OnMark: 1e-12},
			Scales: []measure.Scale{inML(total, total, total, 0)},
		}
		tc.v.Name, tc.v.Setting, tc.v.NotForWater = "measure", measure.Setting{OnMark: 0.5}, true
		r := solve(t, mix("1+1", total, total, 0.2, tc.v, full), measure.Options{NoAdvice: true})
		c := r.Choices[0]
		got := c.Uncertainty / 2 * total / 2
		if math.Abs(got-tc.u) > tc.decimal/2 || c.Bias != 0 || c.Readings != tc.pours+1 {
			t.Errorf("%s: u %.5f mL, bias %g, %d readings, want u %g", tc.name, got, c.Bias, c.Readings, tc.u)
		}
	}
}

func TestTooLittleChemical(t *testing.T) {
	p := mix("1+9", 900, 1000, 0.15, jugOfLitre(), cylinderOf100())
	p.Available = []quantity.Volume{60 * quantity.Millilitre}
	r := solve(t, p, measure.Options{})
	if r.Status != measure.Impossible || r.Lack != measure.LackChemical || len(r.Choices) != 0 {
		t.Fatalf("status %v, lack %v, %d choices, want impossible for want of chemical", r.Status, r.Lack, len(r.Choices))
	}
	// 900 mL may be weaker by what U leaves of the tolerance: 15 % − 6 % from 90 mL.
	if ml := r.NeedAtLeast.ML(); ml < 80 || ml > 90 {
		t.Errorf("need at least %g mL, want 80 to 90", ml)
	}
	p.Available[0] = r.NeedAtLeast
	if r = solve(t, p, measure.Options{}); r.Status != measure.Optimal || r.Choices[0].Grade == measure.GradeC {
		t.Errorf("with just that: status %v", r.Status)
	}
	p = mix("1+1+10", 900, 1000, 0.15, jugOfLitre(), cylinderOf100())
	p.Available = []quantity.Volume{quantity.Litre, 20 * quantity.Millilitre}
	if r = solve(t, p, measure.Options{}); r.Lack != measure.LackChemical || r.Short != 1 {
		t.Errorf("two chemicals: lack %v of %d, want of the second", r.Lack, r.Short)
	}
}

func TestTooSmallVessel(t *testing.T) {
	small := measure.Vessel{Name: "cup", Kind: measure.Jug, Scales: []measure.Scale{inML(50, 250, 50, 0)}}
	r := solve(t, mix("1+9", 4000, 5000, 0.15, small), measure.Options{})
	if r.Status != measure.Impossible || r.Lack != measure.LackVessel {
		t.Fatalf("status %v, lack %v, want impossible for want of a vessel", r.Status, r.Lack)
	}
	if r.Advice == nil || r.Advice.Get.Name != "two-litre jug" {
		t.Errorf("advice %+v, want the two-litre jug, which takes fewer readings than a litre jug", r.Advice)
	}
}

// TestAmountOffTheMarksIsNotAnother: a jug from 100 mL can't measure 3 mL, and 100 mL is not said instead.
func TestAmountOffTheMarksIsNotAnother(t *testing.T) {
	jug := measure.Vessel{Name: "jug", Kind: measure.Jug, Scales: []measure.Scale{inML(100, 1000, 50, 100)}}
	r := solve(t, mix("1+300", 900, 1000, 0.15, jug), measure.Options{})
	if r.Status != measure.Impossible || r.Lack != measure.LackVessel || r.Advice == nil {
		t.Errorf("status %v, lack %v, advice %v, want impossible with advice", r.Status, r.Lack, r.Advice)
	}
}

// halfLitreAcid is a stop bath of a litre in a jug of half a litre, which its acid is not measured in.
func halfLitreAcid() measure.Problem {
	p := mix("1+19", 900, 1100, 0.3, measure.Vessel{Name: "my jug", Kind: measure.Jug, Scales: []measure.Scale{inML(100, 500, 50, 100)}})
	p.WaterFirst = true
	return p
}

// TestAdvice holds three pieces of advice that a careful printer gives.
func TestAdvice(t *testing.T) {
	for _, tc := range []struct {
		name string
		p    measure.Problem
		get  string
		u    float64 // to two places
	}{
		{"1+31 within 15 %, jug alone", mix("1+31", 900, 1000, 0.15, jugOfLitre()), "100 mL cylinder", 0.07},
		// Found with a half-litre jug alone: 50 mL are wanted, and a litre cylinder, which would save one reading, was told.
		{"1+19 of 1 L, an acid, jug of half a litre", halfLitreAcid(), "100 mL cylinder", 0.07},
		{"1+50 of 500 mL for film", mix("1+50", 500, 500, 0.1, jugOfLitre(), cylinderOf100()), "10 mL syringe", 0.08},
	} {
		r := solve(t, tc.p, measure.Options{})
		switch {
		case len(r.Choices) > 0 && (r.Choices[0].Grade != measure.GradeC || r.Choices[0].Within):
			t.Errorf("%s: grade %v, want C", tc.name, r.Choices[0].Grade)
		case r.Advice == nil || r.Advice.Get.Name != tc.get || math.Round(r.Advice.Uncertainty*100)/100 != tc.u:
			t.Errorf("%s: advice %+v, want %s with U %g", tc.name, r.Advice, tc.get, tc.u)
		}
	}
	if r := solve(t, mix("1+9", 900, 1000, 0.15, jugOfLitre(), cylinderOf100()), measure.Options{}); r.Advice != nil {
		t.Errorf("advice %v where all is well", r.Advice)
	}
}

func TestVesselsKeptForSomethingElse(t *testing.T) {
	p := mix("1+9", 770, 1000, 0.15, jugOfLitre(), cylinderOf100())
	p.Vessels[1].NotForChemical = true
	if got := told(p, solve(t, p, measure.Options{}).Choices[0]); strings.Contains(got, "cylinder") {
		t.Errorf("chemical in a vessel that is kept from it: %s", got)
	}
	p.Vessels[1].NotForChemical, p.Vessels[0].NotForChemical = false, true
	if got := told(p, solve(t, p, measure.Options{}).Choices[0]); !strings.HasPrefix(got, "pour chemical") ||
		strings.Contains(got, "fill water") || strings.Contains(got, "chemical 1000 mL litre jug") {
		t.Errorf("mixed in a jug that is kept from chemical: %s", got)
	}
	p.Vessels[0].NotForWater = true
	if r := solve(t, p, measure.Options{}); r.Status == measure.Optimal && strings.Contains(told(p, r.Choices[0]), "litre jug") {
		t.Errorf("a vessel kept from both is used: %s", told(p, r.Choices[0]))
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := measure.Solve(ctx, mix("1+9", 770, 1000, 0.15, jugOfLitre()), measure.Options{})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want context.Canceled", err)
	}
}

func ExampleSolve() {
	jug := measure.Vessel{
		Name: "litre jug", Kind: measure.Jug,
		Scales: []measure.Scale{{
			Unit: quantity.UnitML, From: quantity.Int(100), To: quantity.Int(1000), Step: quantity.Int(50),
			Numbered: quantity.Int(100),
		}},
	}
	p := measure.Problem{
		Dilution:  dilution.Dilution{Chemicals: []quantity.Ratio{quantity.Int(1)}, Water: quantity.Int(9)},
		Window:    quantity.Window{Min: 770 * quantity.Millilitre, Max: quantity.Litre, Want: quantity.Litre},
		Tolerance: 0.15, Vessels: []measure.Vessel{jug},
	}
	r, err := measure.Solve(context.Background(), p, measure.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	c := r.Choices[0]
	for _, s := range c.Steps {
		fmt.Printf("%s, to the %g mark\n", p.Vessels[s.Vessel].Name, s.Mark.Float())
	}
	fmt.Printf("%+.1f %% ± %.1f %%\n", 100*c.Bias, 100*c.Uncertainty)
	// Output:
	// litre jug, to the 100 mark
	// litre jug, to the 1000 mark
	// +0.0 % ± 14.5 %
}
