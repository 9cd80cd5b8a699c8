package temper_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/temper"
)

const litre = quantity.Litre

func ml(v float64) quantity.Volume { return quantity.Volume(v * float64(quantity.Millilitre)) }

func solve(tb testing.TB, p temper.Problem) temper.Result {
	tb.Helper()
	r, err := temper.Solve(context.Background(), p)
	if err != nil {
		tb.Fatalf("Solve(%+v): %v", p, err)
	}
	return r
}

// density in g/mL and enthalpy in kJ/kg of water.
func density(tb testing.TB, at quantity.Celsius) float64 {
	tb.Helper()
	d, err := temper.Density(at)
	if err != nil {
		tb.Fatal(err)
	}
	return float64(d)
}

func enthalpy(tb testing.TB, at quantity.Celsius) float64 {
	tb.Helper()
	h, err := temper.Enthalpy(at)
	if err != nil {
		tb.Fatal(err)
	}
	return h
}

// TestVectors holds Solve against tempering vectors computed by mass and enthalpy balance with IAPWS-95 (iapws
// 1.5.3), printed to 0.01 mL, and, as a check of sense, against the rule of volume fractions,
// (want − cold) ÷ (hot − cold), printed to 0.01 mL, too, which leaves out expansion: within 0.5 % of the whole.
func TestVectors(t *testing.T) {
	for _, c := range []struct {
		name                  string
		hot, cold, want       quantity.Celsius
		total                 quantity.Volume
		exactHot, exactCold   float64
		simpleHot, simpleCold float64
	}{
		{"TW1", 50, 10, 20, litre, 252.96, 748.50, 250.00, 750.00},
		{"TW2", 60, 15, 52, 750 * quantity.Millilitre, 619.07, 131.79, 616.67, 133.33},
		{"TW3", 45, 18, 24, 2 * litre, 447.93, 1553.23, 444.44, 1555.56},
		{"TW4", 40, 8, 20, quantity.USGallon, 1430.18, 2359.93, 1419.53, 2365.88},
		{"TW5", 55, 12, 38, litre / 2, 304.62, 196.32, 302.33, 197.67},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := solve(t, temper.Problem{Cold: c.cold, Hot: c.hot, Want: c.want, Total: c.total})
			if r.Status != temper.Reached || r.Nearest != c.want {
				t.Errorf("status %v, nearest %v, want reached %v", r.Status, r.Nearest, c.want)
			}
			const printed = 0.0051 // mL: two decimals
			if math.Abs(r.Hot.ML()-c.exactHot) > printed || math.Abs(r.Cold.ML()-c.exactCold) > printed {
				t.Errorf("hot %.3f, cold %.3f mL, want %.2f and %.2f", r.Hot.ML(), r.Cold.ML(), c.exactHot, c.exactCold)
			}
			sense := 0.005 * c.total.ML()
			if math.Abs(r.Hot.ML()-c.simpleHot) > sense || math.Abs(r.Cold.ML()-c.simpleCold) > sense {
				t.Errorf("hot %.3f, cold %.3f mL, by volume fractions %.2f and %.2f",
					r.Hot.ML(), r.Cold.ML(), c.simpleHot, c.simpleCold)
			}
		})
	}
}

// TestWaterForStock is vector TW6: 250 mL of stock at 10 °C and 750 mL of water make 1 L at 20 °C where the water is at
// 23.333 °C, by volume fractions; expansion and heat capacity move that by some hundredths. So it takes 311 mL
// from the hot tap (15.333/37 of 750), not the 243 that water at 20 °C would: the mark is 300.
func TestWaterForStock(t *testing.T) {
	r := solve(t, temper.Problem{
		Cold: 8, Hot: 45, Want: 20, Total: litre, Chemical: litre / 4, ChemicalAt: 10,
	})
	if math.Abs(float64(r.Water)-23.333) > 0.02 {
		t.Errorf("water at %.3f °C, want 23.333", r.Water)
	}
	want := []temper.Mark{
		{From: temper.HotTap, To: 300 * quantity.Millilitre}, {From: temper.ColdTap, To: 750 * quantity.Millilitre},
	}
	if d := cmp.Diff(want, r.Marks); d != "" {
		t.Errorf("marks (-want +got):\n%s", d)
	}
}

// TestTable holds the table against printed values of IAPWS-95 at 101.325 kPa (iapws 1.5.3): density to 0.001
// kg/m³, enthalpy to 0.001 kJ/kg.
func TestTable(t *testing.T) {
	for _, c := range []struct {
		at     quantity.Celsius
		rho, h float64
	}{
		{4, 999.975, 16.914},
		{15, 999.103, 63.077},
		{20, 998.207, 84.007},
		{25, 997.048, 104.920},
		{38, 992.966, 159.258},
		{52, 987.117, 217.782},
		{80, 971.790, 335.055},
	} {
		if rho, h := density(t, c.at)*1000, enthalpy(t, c.at); math.Abs(rho-c.rho) > 5.1e-4 || math.Abs(h-c.h) > 5.1e-4 {
			t.Errorf("%v °C: %.4f kg/m³, %.4f kJ/kg, want %v and %v", c.at, rho, h, c.rho, c.h)
		}
	}
	for _, at := range []quantity.Celsius{-0.001, 100.001, quantity.Celsius(math.NaN()), quantity.Celsius(math.Inf(1))} {
		if _, err := temper.Density(at); !errors.Is(err, quantity.ErrRange) {
			t.Errorf("Density(%v): %v, want ErrRange", at, err)
		}
		if _, err := temper.Enthalpy(at); !errors.Is(err, quantity.ErrRange) {
			t.Errorf("Enthalpy(%v): %v, want ErrRange", at, err)
		}
	}
}

// TestConcentrate is a careful printer's way (common practice): cold 8 °C, hot 45 °C, 2 L at 20 °C, 200 mL of
// concentrate at 18 °C: hot to the 600 mark, cold to 1800, the thermometer, then the concentrate.
func TestConcentrate(t *testing.T) {
	r := solve(t, temper.Problem{
		Cold: 8, Hot: 45, Want: 20, Total: 2 * litre, Chemical: litre / 5, ChemicalAt: 18,
	})
	want := []temper.Mark{
		{From: temper.HotTap, To: 600 * quantity.Millilitre}, {From: temper.ColdTap, To: 1800 * quantity.Millilitre},
	}
	if d := cmp.Diff(want, r.Marks); d != "" {
		t.Errorf("marks (-want +got):\n%s", d)
	}
	if math.Abs(float64(r.AtMarks)-20) > 0.05 || math.Abs(float64(r.Water)-20.22) > 0.01 || r.Scald {
		t.Errorf("at marks %v, water %v, scald %v; want 20, 20.22 (20·2000 − 18·200 over 1800), no", r.AtMarks, r.Water, r.Scald)
	}
}

// TestWarmTap: the cold tap at 26 °C, 20 wanted. No refusal: the nearest is the tap as it is, with the ice
// that would do; with ice, ice by weight as part of the water (common practice). By hand: 1 kg·4.18·6 K over
// (333 + 4.18·20 + ...) is some 57 g.
func TestWarmTap(t *testing.T) {
	p := temper.Problem{Cold: 26, Hot: 50, Want: 20, Total: litre}
	r := solve(t, p)
	if r.Status != temper.OutOfReach || r.Nearest != 26 || r.Cold != litre || len(r.Helps) != 1 {
		t.Fatalf("without ice: %+v, want 1 L of cold, 26 °C, one help", r)
	}
	if h := r.Helps[0]; h.What != temper.IceByWeight || h.At != 20 || math.Abs(float64(h.Grams)-56.6) > 0.1 {
		t.Errorf("help %+v, want 56.6 g of ice for 20 °C", h)
	}
	p.Ice = true
	r = solve(t, p)
	want := []temper.Mark{{From: temper.IceByWeight, Grams: 57}, {From: temper.ColdTap, To: litre}}
	if d := cmp.Diff(want, r.Marks); r.Status != temper.WithIce || d != "" {
		t.Errorf("with ice: %v, marks (-want +got):\n%s", r.Status, d)
	}
	if math.Abs(float64(r.AtMarks)-20) > 0.1 || r.Nearest != 20 || r.Helps != nil {
		t.Errorf("with ice: %v at the marks, nearest %v, helps %v", r.AtMarks, r.Nearest, r.Helps)
	}
}

// TestPowder: taps of 8 and 45 °C, a powder at 52 °C. The hot tap does not reach it: a kettle, and a caution.
func TestPowder(t *testing.T) {
	p := temper.Problem{Cold: 8, Hot: 45, Want: 52, Total: 3 * litre}
	r := solve(t, p)
	if r.Status != temper.OutOfReach || math.Abs(float64(r.Nearest)-45) > 1e-6 || r.Scald || len(r.Helps) != 1 {
		t.Fatalf("without kettle: %+v", r)
	}
	// By volume fractions (52 − 45) ÷ (100 − 45) of 3 L is 382 mL.
	if h := r.Helps[0]; h.What != temper.KettleWater || h.At != 52 || math.Abs(h.Volume.ML()-382) > 15 {
		t.Errorf("help %+v, want some 382 mL from the kettle", h)
	}
	p.Kettle = true
	r = solve(t, p)
	if r.Status != temper.WithKettle || !r.Scald || r.Kettle != solveKettle(t, p) {
		t.Errorf("with kettle: %+v", r)
	}
	want := []temper.Mark{
		{From: temper.HotTap, To: 2600 * quantity.Millilitre}, {From: temper.KettleWater, To: 3 * litre},
	}
	if d := cmp.Diff(want, r.Marks); d != "" {
		t.Errorf("marks (-want +got):\n%s", d)
	}
}

// TestScald: the caution stands wherever water of 50 °C or more is handled, whatever the whole comes to.
func TestScald(t *testing.T) {
	for _, c := range []struct {
		name string
		p    temper.Problem
		want bool
	}{
		{"a little from the kettle", temper.Problem{Cold: 8, Hot: 30, Want: 35, Total: litre, Kettle: true}, true},
		{"a hot tap", temper.Problem{Cold: 8, Hot: 50, Want: 20, Total: litre}, true},
		{"a hot tap that is not used", temper.Problem{Cold: 20, Hot: 60, Want: 20, Total: litre}, false},
		{"hand-warm taps", temper.Problem{Cold: 8, Hot: 49, Want: 20, Total: litre}, false},
		{"a kettle that is not needed", temper.Problem{Cold: 8, Hot: 49, Want: 20, Total: litre, Kettle: true}, false},
		{"hot from both taps", temper.Problem{Cold: 55, Hot: 55, Want: 55, Total: litre}, true},
	} {
		if r := solve(t, c.p); r.Scald != c.want {
			t.Errorf("%s: scald %v, want %v", c.name, r.Scald, c.want)
		}
	}
}

// TestLevel: plain water goes to the nearest mark; with a chemical to come the level leaves room for it, but for a
// tenth of a division; what is less than a mark has none.
func TestLevel(t *testing.T) {
	for _, c := range []struct {
		total, chemical, want float64
	}{
		{3785.4, 0, 3800},
		{3770, 0, 3750},
		{1000, 20, 950},
		{1000, 50, 950},
		{1000, 200, 800},
		{1000, 203, 800},
		{20, 0, 0},
		{70, 26, 0},
	} {
		r := solve(t, temper.Problem{
			Cold: 20, Hot: 40, Want: 20, Total: ml(c.total), Chemical: ml(c.chemical), ChemicalAt: 20,
		})
		var got float64
		for _, m := range r.Marks {
			got = m.To.ML()
		}
		if got != c.want {
			t.Errorf("%v mL with %v of chemical: level %v, want %v", c.total, c.chemical, got, c.want)
		}
		if math.Abs(float64(r.AtMarks)-20) > 1e-6 {
			t.Errorf("%v mL with %v of chemical: %v at the marks, want 20", c.total, c.chemical, r.AtMarks)
		}
	}
}

// solveKettle is the kettle's share by the balance written apart, in kJ and g.
func solveKettle(t *testing.T, p temper.Problem) quantity.Volume {
	t.Helper()
	mass := density(t, p.Want) * p.Total.ML()
	share := (enthalpy(t, p.Want) - enthalpy(t, p.Hot)) / (enthalpy(t, 100) - enthalpy(t, p.Hot))
	return quantity.Volume(math.Round(mass * share / density(t, 100) * float64(quantity.Millilitre)))
}

// TestOutOfReach goes in all four directions: above and below the taps, where kettle or ice would do and where
// neither does. The nearest is what can be had, with the whole at its volume.
func TestOutOfReach(t *testing.T) {
	cold := temper.Problem{Cold: 8, Hot: 45, Want: 97, Total: litre, Chemical: litre / 4, ChemicalAt: 10}
	hot := temper.Problem{Cold: 8, Hot: 45, Want: 5, Total: litre, Chemical: 9 * litre / 10, ChemicalAt: 80}
	for _, c := range []struct {
		name    string
		p       temper.Problem
		near    quantity.Celsius
		within  quantity.Celsius
		helps   temper.Source
		reaches bool
	}{
		{"above", temper.Problem{Cold: 8, Hot: 45, Want: 60, Total: litre}, 45, 1e-6, temper.KettleWater, true},
		{"below", temper.Problem{Cold: 24, Hot: 45, Want: 18, Total: litre}, 24, 1e-6, temper.IceByWeight, true},
		{"above a kettle", cold, 0.75*45 + 0.25*10, 0.2, temper.KettleWater, false},
		{"below ice", hot, 0.9*80 + 0.1*8, 0.5, temper.IceByWeight, false},
		{"above, with a kettle", kettle(cold), 0.75*100 + 0.25*10, 0.6, temper.KettleWater, false},
		// 1 L less 900 mL of 0.972 g/mL: 107 g of ice (−79.7 kelvin's worth) into 875 g at 80 °C.
		{"below, with ice", ice(hot), (875*80 - 107*79.7) / 982, 0.5, temper.IceByWeight, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := solve(t, c.p)
			if r.Status != temper.OutOfReach || math.Abs(float64(r.Nearest-c.near)) > float64(c.within) {
				t.Errorf("%v, nearest %v, want out of reach, %v", r.Status, r.Nearest, c.near)
			}
			if len(r.Helps) != 1 || r.Helps[0].What != c.helps || (r.Helps[0].At == c.p.Want) != c.reaches {
				t.Errorf("helps %+v, want %v, reaching %v", r.Helps, c.helps, c.reaches)
			}
			mass := massOf(t, c.p, r)
			if got := mass / density(t, r.Nearest); math.Abs(got-c.p.Total.ML()) > 0.01 {
				t.Errorf("the whole is %v mL at %v, want %v", got, r.Nearest, c.p.Total.ML())
			}
		})
	}
}

func kettle(p temper.Problem) temper.Problem { p.Kettle = true; return p }

func ice(p temper.Problem) temper.Problem { p.Ice = true; return p }

func TestEqualTaps(t *testing.T) {
	r := solve(t, temper.Problem{Cold: 20, Hot: 20, Want: 20, Total: litre})
	want := []temper.Mark{{From: temper.ColdTap, To: litre}}
	if d := cmp.Diff(want, r.Marks); r.Status != temper.Reached || r.Cold != litre || r.Hot != 0 || d != "" {
		t.Errorf("equal taps: %+v\n%s", r, d)
	}
	if r := solve(t, temper.Problem{Cold: 19, Hot: 19, Want: 20, Total: litre}); r.Status != temper.OutOfReach ||
		r.Helps[0].What != temper.KettleWater || math.Abs(float64(r.Nearest)-19) > 1e-6 {
		t.Errorf("equal taps below: %+v", r)
	}
}

func TestProblems(t *testing.T) {
	good := temper.Problem{Cold: 12, Hot: 50, Want: 20, Total: litre}
	with := func(change func(*temper.Problem)) temper.Problem { p := good; change(&p); return p }
	for _, c := range []struct {
		name string
		p    temper.Problem
		want temper.ProblemError
	}{
		{
			"cold hotter than hot", with(func(p *temper.Problem) { p.Cold = 55 }),
			temper.ProblemError{Why: temper.WhyColdAboveHot, Field: "cold", Got: 55, Limit: 50, Unit: reckoning.C},
		},
		{
			"frozen tap", with(func(p *temper.Problem) { p.Cold = -2 }),
			temper.ProblemError{Why: temper.WhyNotLiquid, Field: "cold", Got: -2, Limit: 0, Unit: reckoning.C},
		},
		{
			"steam", with(func(p *temper.Problem) { p.Hot = 101 }),
			temper.ProblemError{Why: temper.WhyNotLiquid, Field: "hot", Got: 101, Limit: 100, Unit: reckoning.C},
		},
		{
			"want steam", with(func(p *temper.Problem) { p.Want = 140 }),
			temper.ProblemError{Why: temper.WhyNotLiquid, Field: "want", Got: 140, Limit: 100, Unit: reckoning.C},
		},
		{
			"hot chemical", with(func(p *temper.Problem) { p.Chemical, p.ChemicalAt = 1, 200 }),
			temper.ProblemError{Why: temper.WhyNotLiquid, Field: "chemical_at", Got: 200, Limit: 100, Unit: reckoning.C},
		},
		{
			"nothing", with(func(p *temper.Problem) { p.Total = 0 }),
			temper.ProblemError{Why: temper.WhyNothing, Field: "total", Unit: reckoning.ML},
		},
		{
			"a lake", with(func(p *temper.Problem) { p.Total = quantity.MaxVolume + quantity.Litre }),
			temper.ProblemError{Why: temper.WhyTooMuch, Field: "total", Got: 100_001_000, Limit: 100_000_000, Unit: reckoning.ML},
		},
		{
			"less than no chemical", with(func(p *temper.Problem) { p.Chemical = -litre }),
			temper.ProblemError{Why: temper.WhyNegative, Field: "chemical", Got: -1000, Unit: reckoning.ML},
		},
		{
			"all chemical", with(func(p *temper.Problem) { p.Chemical, p.ChemicalAt = litre, 60 }),
			temper.ProblemError{Why: temper.WhyNoWater, Field: "chemical", Got: 1000, Limit: 1000, Unit: reckoning.ML},
		},
		{
			"step", with(func(p *temper.Problem) { p.Step = -litre }),
			temper.ProblemError{Why: temper.WhyNegative, Field: "step", Got: -1000, Unit: reckoning.ML},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := temper.Solve(t.Context(), c.p)
			var got *temper.ProblemError
			if !errors.As(err, &got) || !errors.Is(err, temper.ErrProblem) {
				t.Fatalf("error %v, want a ProblemError that wraps ErrProblem", err)
			}
			if d := cmp.Diff(c.want, *got); d != "" {
				t.Errorf("error (-want +got):\n%s", d)
			}
			if d := cmp.Diff(temper.Result{}, r); d != "" {
				t.Errorf("a result beside an error: %s", d)
			}
		})
	}
	p := good
	p.Want = quantity.Celsius(math.NaN())
	if _, err := temper.Solve(t.Context(), p); !errors.Is(err, temper.ErrProblem) {
		t.Errorf("not a number: %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := temper.Solve(ctx, good); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}
