package chem_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/trade/chem"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

func TestSolveAllocatesNothing(t *testing.T) {
	m, developer := stopBath(t)
	if n := testing.AllocsPerRun(100, func() {
		if err := m.Replace(0.005, developer); err != nil {
			t.Fatal(err)
		}
		m.Solve()
	}); n != 0 {
		t.Errorf("%v allocations a print", n)
	}
}

// TestStrongest holds the solver where it has least room: everything there is at the most there may be, and at
// nothing.
func TestStrongest(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 14))
	all := chem.Substances()
	for range 2000 {
		m, err := chem.Prepare(quantity.Celsius(10+30*rng.Float64()), all...)
		if err != nil {
			t.Fatal(err)
		}
		for range 1 + rng.IntN(4) {
			n := chem.MostAmount * math.Pow(10, -14*rng.Float64()*float64(rng.IntN(2)))
			if err := m.Set(rng.IntN(m.Len()), n); err != nil {
				t.Fatal(err)
			}
		}
		s := m.Solve()
		var charge, charges float64
		for _, d := range m.Species() {
			charge += float64(d.Charge) * d.Molality
			charges += math.Abs(float64(d.Charge)) * d.Molality
		}
		if !(s.PH > -3 && s.PH < 18) || !(math.Abs(charge) <= 1e-10*charges) {
			t.Fatalf("%+v: %v of %v charges left over", s, charge, charges)
		}
	}
}

func TestPureWater(t *testing.T) {
	s := mix(t, 25, "NaCl 0 mol/kg").Solve()
	if !(math.Abs(s.PH-6.9975) <= 0.0005) || !(math.Abs(s.IonicStrength-1.006e-7) <= 1e-10) {
		t.Errorf("%+v, want half of pKw 13.995", s)
	}
	none, err := chem.PH(25)
	if err != nil || none != s {
		t.Errorf("nothing at all: %+v, %v, want %+v", none, err, s)
	}
}

func TestCapacity(t *testing.T) {
	// Van Slyke 1922: at its most a buffer of one acid has ln 10/4 = 0.576 of its molality, between pH 4 and 10.
	m := mix(t, 25, "acetic acid 0.05 mol/kg", "sodium acetate 0.05 mol/kg")
	if got := m.Solve().Capacity; !(math.Abs(got-0.0576) <= 0.0002) {
		t.Errorf("acetate 0.1: %v, want 0.0576", got)
	}
	// Standard buffers, Bates 1973, from memory; real borax, with its polyborates, and phthalate, of which the ionic
	// strength changes with the base, are further away than the others.
	for _, tt := range []struct {
		mix          []string
		want, within float64
	}{
		{[]string{"KH2PO4 0.025 mol/kg", "Na2HPO4 0.025 mol/kg"}, 0.029, 0.001},
		{[]string{"NaHCO3 0.025 mol/kg", "Na2CO3 0.025 mol/kg"}, 0.029, 0.001},
		{[]string{"KHP 0.05 mol/kg"}, 0.016, 0.002},
		{[]string{"borax 0.01 mol/kg"}, 0.020, 0.004},
	} {
		if got := mix(t, 25, tt.mix...).Solve().Capacity; !(math.Abs(got-tt.want) <= tt.within) {
			t.Errorf("%v: %v, want %v", tt.mix, got, tt.want)
		}
	}
	salt := amounts(t, "NaCl 2 mol/kg", "NaOH 0 mol/kg")
	// Against a little base, in salt enough that the ionic strength stays.
	rapid.Check(t, func(t *rapid.T) {
		amounts := append(anyMixture(t), salt...)
		m := mixed(t, anyTemperature(t), amounts...)
		s := m.Solve()
		d := 1e-6 * s.Capacity
		if err := m.Set(m.Len()-1, d); err != nil {
			t.Fatal(err)
		}
		if got := d / (m.Solve().PH - s.PH); s.Capacity > 1e-4 && !(math.Abs(got-s.Capacity) <= 1e-3*s.Capacity) {
			t.Fatalf("%v: capacity %v, by a little base %v", amounts, s.Capacity, got)
		}
	})
}

func TestBufferAndHenderson(t *testing.T) {
	m := mix(t, 20, "acetic acid 0 mol/kg", "sodium acetate 0 mol/kg", "NaCl 0.1 mol/kg")
	for _, want := range []float64{4, 4.5, 5, 5.5} {
		acid, base, err := m.Buffer(0.2, want)
		if err != nil {
			t.Fatal(err)
		}
		if got := m.Solve().PH; !(math.Abs(got-want) <= 1e-6) || !(math.Abs(acid+base-0.2) <= 1e-12) {
			t.Errorf("pH %v: %v and %v give %v", want, acid, base, got)
		}
		if rule := chem.Henderson(4.76, acid, base); !(rule > want && rule < want+0.25) {
			t.Errorf("pH %v: by the rule of thumb %v", want, rule)
		}
	}
	var out *chem.RangeError
	if _, _, err := m.Buffer(0.2, 12); !errors.As(err, &out) || out.Of != "ph" || !(out.High < 9) {
		t.Errorf("acetate at pH 12: %v", err)
	}
	if _, _, err := m.Buffer(0, 5); !errors.As(err, &out) || out.Of != "amount" {
		t.Errorf("of nothing: %v", err)
	}
	// Phosphate 1:1, Green 1933 and every textbook: pK itself where there is as much acid as base.
	if got := chem.Henderson(7.2, 0.1, 0.1); got != 7.2 {
		t.Errorf("equal parts: %v", got)
	}
	if got := chem.Henderson(7.2, 0, 0.1); !math.IsNaN(got) {
		t.Errorf("without acid: %v", got)
	}
}

func TestMixtureErrors(t *testing.T) {
	var out *chem.RangeError
	for _, at := range []quantity.Celsius{9, 41, quantity.Celsius(math.NaN()), quantity.Celsius(math.Inf(1))} {
		if _, err := chem.PH(at, amounts(t, "NaCl 1 mol/kg")...); !errors.As(err, &out) || out.Of != "temperature" {
			t.Errorf("at %v °C: %v", at, err)
		}
	}
	m, developer := stopBath(t)
	want := m.Solve()
	for _, n := range []float64{-1, 21, math.NaN(), math.Inf(1)} {
		if err := m.Set(0, n); !errors.As(err, &out) || out.Of != "amount" {
			t.Errorf("%v mol/kg: %v", n, err)
		}
	}
	for _, s := range []float64{-0.1, 1.1, math.NaN()} {
		if err := m.Replace(s, developer); !errors.As(err, &out) || out.Of != "share" {
			t.Errorf("a share of %v: %v", s, err)
		}
		if _, err := m.CarryIn(developer, s, 0.01); !errors.As(err, &out) {
			t.Errorf("a curve to a share of %v: %v", s, err)
		}
	}
	for _, carried := range [][]float64{nil, {1, 2}, {0, 0, -1}, {0, 0, math.NaN()}} {
		if err := m.Replace(0.5, carried); !errors.As(err, &out) {
			t.Errorf("carried %v: %v", carried, err)
		}
		if _, err := m.CarryIn(carried, 1, 0.01); !errors.As(err, &out) {
			t.Errorf("a curve of %v carried: %v", carried, err)
		}
	}
	if _, err := m.Titrate(1, 14.5); !errors.As(err, &out) || out.Of != "ph" || !(out.High > 11 && out.High < 14.5) {
		t.Errorf("carbonate to pH 14.5: %v", err)
	}
	if _, err := m.Titrate(1, 1); !errors.As(err, &out) {
		t.Errorf("carbonate to pH 1: %v", err)
	}
	if _, err := m.Titration(1, 0, 0.01); !errors.As(err, &out) {
		t.Errorf("a curve to nothing: %v", err)
	}
	if got := m.Solve(); !(math.Abs(got.PH-want.PH) <= 1e-9) {
		t.Errorf("refusals changed the mixture from %+v to %+v", want, got)
	}
}

func TestCurve(t *testing.T) {
	// Against the mixture itself between the points, across a steep end of a titration.
	m := mix(t, 20, "citric acid 0.0781 mol/kg", "NaOH 0 mol/kg")
	curve, err := m.Titration(1, 0.3, 0.002)
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(1, 1))
	c := m.Clone()
	for range 2000 {
		x := 0.3 * rng.Float64()
		if err := c.Set(1, x); err != nil {
			t.Fatal(err)
		}
		if got, want := curve.At(x), c.Solve().PH; !(math.Abs(got-want) <= 0.002) {
			t.Fatalf("at %v: %v by the curve, %v by the mixture", x, got, want)
		}
	}
	n, err := m.Titrate(1, 5.2)
	if err != nil {
		t.Fatal(err)
	}
	if x, ok := curve.Reaches(5.2); !ok || !(math.Abs(x-n) <= 1e-4) {
		t.Errorf("pH 5.2 at %v, %v by the curve, %v by titration", x, ok, n)
	}
	if x, ok := curve.Reaches(14); ok {
		t.Errorf("pH 14 at %v", x)
	}
	x, ph := curve.Points()
	if len(x) != len(ph) || len(x) > 500 || curve.At(-1) != ph[0] || curve.At(9) != ph[len(ph)-1] || !math.IsNaN(curve.At(math.NaN())) {
		t.Errorf("%d and %d points, ends %v and %v, at NaN %v", len(x), len(ph), curve.At(-1), curve.At(9), curve.At(math.NaN()))
	}
	for i := 1; i < len(x); i++ {
		if !(x[i] > x[i-1] && ph[i] > ph[i-1]) {
			t.Fatalf("from %v, %v to %v, %v", x[i-1], ph[i-1], x[i], ph[i])
		}
	}
}

func TestClone(t *testing.T) {
	m, developer := stopBath(t)
	c := m.Clone()
	if err := c.Replace(1, developer); err != nil {
		t.Fatal(err)
	}
	if a, b := m.Solve().PH, c.Solve().PH; !(a < 3 && b > 11) {
		t.Errorf("pH %v and, of the clone, %v", a, b)
	}
}

func TestNotes(t *testing.T) {
	tests := []struct {
		mix  []string
		want []chem.Note
	}{
		{[]string{"acetic acid 0.2 mol/kg"}, nil},
		{[]string{"boric acid 0.1 mol/kg"}, []chem.Note{chem.NotePolyborates}},
		{[]string{"NaCl 0.6 mol/kg"}, []chem.Note{chem.NoteIonicStrength}},
		{[]string{"acetic acid 0.2 mol/kg", "Na2CO3 0.05 mol/kg"}, []chem.Note{chem.NoteCarbonDioxide}},
		{[]string{"Na2CO3 0.1 mol/kg"}, nil},
		{[]string{"sodium thiosulfate 0.1 mol/kg", "acetic acid 0.2 mol/kg"}, []chem.Note{chem.NoteSulfur}},
		{[]string{"sodium thiosulfate 0.1 mol/kg"}, nil},
		{[]string{"KHP 0.05 mol/kg"}, []chem.Note{chem.NoteFromMemory}},
		{[]string{"Na2SO4 0.05 mol/kg"}, nil},
	}
	for _, tt := range tests {
		if diff := cmp.Diff(tt.want, mix(t, 20, tt.mix...).Explain().Notes); diff != "" {
			t.Errorf("%v: want −, got +\n%s", tt.mix, diff)
		}
	}
	if len(chem.Notes()) != 5 {
		t.Errorf("%d notes", len(chem.Notes()))
	}
}

// sound walks a reckoning: every figure has a name and a finite value, what is from a standard says which.
func sound(t *testing.T, r *reckoning.Reckoning, have map[string]float64) {
	t.Helper()
	figures := append([]reckoning.Figure{r.Result}, r.Puts...)
	for _, f := range figures {
		if f.Name == "" || math.IsNaN(f.Value) || (f.Origin == reckoning.Standard) != (f.Source != "") {
			t.Errorf("%s: %+v", r.Rule, f)
		}
		have[f.Name+" "+f.Of] = f.Value
		if f.By != nil {
			sound(t, f.By, have)
		}
	}
}

func TestExplain(t *testing.T) {
	m := mix(t, 20, "acetic acid 0.05 mol/kg", "sodium acetate 0.2 mol/kg", "citric acid 0 mol/kg")
	r := m.Explain()
	have := map[string]float64{}
	for i := range r.Reckoning {
		sound(t, &r.Reckoning[i], have)
	}
	for name, want := range map[string]float64{
		"ph ": r.PH, "ionic_strength ": r.IonicStrength, "amount acetic acid": 0.05, "amount sodium acetate": 0.2,
		"temperature ": 20, "pk_25 acetic": 4.756, "pk_25 water": 13.995, "pk acetic": 4.7556, "enthalpy water": 55.815,
		"heat_capacity acetic": -142, "debye_huckel ": 0.50554, "davies_linear ": 0.3, "activity_coefficient ": 0.748,
		"ion Na^+": 0.2,
	} {
		if got, ok := have[name]; !ok || !(math.Abs(got-want) <= 0.002) {
			t.Errorf("%q is %v, %v, want %v", name, got, ok, want)
		}
	}
	if _, ok := have["pk citric 1"]; ok {
		t.Error("the constant of an acid that is not there is put in")
	}
	n, err := mix(t, 20, "acetic acid 0.232 mol/kg", "NaOH 0 mol/kg").TitrateExplained(1, 5.2)
	if err != nil {
		t.Fatal(err)
	}
	have = map[string]float64{}
	sound(t, &n.Reckoning, have)
	if !(math.Abs(n.Amount.Molality-0.1826) <= 0.0001) || have["needed sodium hydroxide"] != n.Amount.Molality || have["wanted_ph "] != 5.2 {
		t.Errorf("%v by %v", n.Amount, have)
	}
}
