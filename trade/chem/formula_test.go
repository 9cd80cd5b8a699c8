package chem_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/internal/outside"
	"wetside/trade/chem"
)

func formula(tb testing.TB, text string) chem.Formula {
	tb.Helper()
	f, err := chem.ParseFormula(text)
	if err != nil {
		tb.Fatal(err)
	}
	return f
}

// masses reads lines of a formula and a molar mass.
func masses(t *testing.T, text string) map[string]float64 {
	t.Helper()
	all := map[string]float64{}
	for line := range strings.Lines(text) {
		f := strings.Fields(line)
		if len(f) == 0 || f[0] == "#" {
			continue
		}
		if len(f) != 2 {
			t.Fatalf("no formula and mass: %q", line)
		}
		x, err := strconv.ParseFloat(f[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		all[f[0]] = x
	}
	return all
}

func holdMasses(t *testing.T, want map[string]float64) {
	t.Helper()
	for text, mass := range want {
		if got := formula(t, text).MolarMass(); !(math.Abs(got-mass) <= 1e-5) {
			t.Errorf("%s: %.6f g/mol, periodictable %.6f", text, got, mass)
		}
	}
	t.Logf("%d molar masses", len(want))
}

func TestMolarMasses(t *testing.T) {
	golden, err := os.ReadFile("testdata/molar_masses.txt")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(golden, []byte("# Molar masses, g/mol, by python3-periodictable ")) {
		t.Error("the table does not say what it was made with")
	}
	want := masses(t, string(golden))
	if len(want) < 90 {
		t.Fatalf("%d molar masses", len(want))
	}
	holdMasses(t, want)
}

// TestMolarMassesLive asks python3-periodictable itself, for the table's substances with their waters too.
func TestMolarMassesLive(t *testing.T) {
	python := outside.Python(t, "periodictable")
	golden, err := os.ReadFile("testdata/molar_masses.txt")
	if err != nil {
		t.Fatal(err)
	}
	var in strings.Builder
	n := 0
	for f := range masses(t, string(golden)) {
		in.WriteString(f + "\n")
	}
	for _, s := range chem.Substances() {
		for _, h := range s.Hydrates() {
			in.WriteString(h.Formula().String() + "\n")
			n++
		}
	}
	cmd := exec.CommandContext(t.Context(), python, "testdata/molar_masses.py")
	cmd.Stdin = strings.NewReader(in.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	want := masses(t, string(out))
	if len(want) < n {
		t.Fatalf("%d answers to %d substances", len(want), n)
	}
	holdMasses(t, want)
}

func TestFormulaWritten(t *testing.T) {
	tests := []struct {
		text, want string
		charge     int
		mass       float64 // by hand from H 1.00794, O 15.9994, Na 22.98977, S 32.065, C 12.0107, Ag 107.8682
	}{
		{"Na2S2O3·5H2O", "Na2S2O3·5H2O", 0, 248.1841},
		{"Na2CO3.H2O", "Na2CO3·H2O", 0, 124.0037},
		{"Na₂CO₃ · 10 H₂O", "Na2CO3·10H2O", 0, 286.1412},
		{"K2CO3.1.5H2O", "K2CO3·1.5H2O", 0, 165.2284},
		{"K2CO3*1.50H2O", "K2CO3·1.5H2O", 0, 165.2284},
		{"S2O3^2-", "S2O3^2-", -2, 112.1282},
		{"S₂O₃²⁻", "S2O3^2-", -2, 112.1282},
		{"Na+", "Na^+", 1, 22.98977},
		{"SO3--", "SO3^2-", -2, 80.0632},
		{"[Ag(S2O3)2]^3-", "[Ag(S2O3)2]^3-", -3, 332.1246},
		{"NH4^+", "NH4^+", 1, 18.03846},
		{"H1O1H", "HOH", 0, 18.01528},
		{"((CH3)2)1", "((CH3)2)", 0, 30.06904},
	}
	for _, tt := range tests {
		f := formula(t, tt.text)
		if f.String() != tt.want || f.Charge() != tt.charge || !(math.Abs(f.MolarMass()-tt.mass) <= 6e-5) {
			t.Errorf("%s: %s, charge %d, %.5f g/mol; want %s, %d, %.5f", tt.text, f, f.Charge(), f.MolarMass(),
				tt.want, tt.charge, tt.mass)
		}
	}
}

func TestFormulaErrors(t *testing.T) {
	type bad struct {
		At   int
		Why  chem.Why
		Near string
	}
	tests := map[string]bad{
		"":                       {0, chem.WhyEmpty, "Na2CO3·H2O"},
		"  ":                     {0, chem.WhyEmpty, "Na2CO3·H2O"},
		"Na2Xy3":                 {3, chem.WhyUnknownElement, ""},
		"na2CO3":                 {0, chem.WhyUnknownElement, "Na"},
		"2NaOH":                  {0, chem.WhyNoElement, "NaOH"},
		"Na0":                    {2, chem.WhyBadCount, ""},
		"Na02":                   {2, chem.WhyBadCount, ""},
		"Na99999":                {2, chem.WhyBadCount, ""},
		"Na2CO3·0H2O":            {8, chem.WhyBadCount, ""},
		"Na2CO3·1.2345H2O":       {10, chem.WhyBadCount, ""},
		"KAl(SO4":                {3, chem.WhyUnclosed, ")"},
		"KAl(SO4]2":              {7, chem.WhyUnopened, ")"},
		"KAlSO4)2":               {6, chem.WhyUnopened, ""},
		"Na()":                   {3, chem.WhyEmptyBrackets, ""},
		"(((((((((H)))))))))":    {8, chem.WhyTooDeep, ""},
		"SO42-":                  {2, chem.WhyCountOrCharge, "SO4^2-"},
		"NH4+":                   {2, chem.WhyCountOrCharge, "NH4^+"},
		"Ca2+":                   {2, chem.WhyCountOrCharge, "Ca^2+"},
		"S2O3^2":                 {4, chem.WhyBadCharge, ""},
		"S2O3^0-":                {4, chem.WhyBadCharge, ""},
		"Na+Cl-":                 {3, chem.WhyAfterCharge, ""},
		"Na2CO3·":                {8, chem.WhyNoElement, ""},
		"Na2CO3 & H2O":           {7, chem.WhyNoElement, ""},
		strings.Repeat("H", 201): {80, chem.WhyTooLong, ""},
		"Na\xff":                 {0, chem.WhyNotText, ""},
	}
	for text, want := range tests {
		f, err := chem.ParseFormula(text)
		var re *chem.ReadError
		if !errors.As(err, &re) || f != (chem.Formula{}) {
			t.Errorf("%q: %v, %v, want a ReadError", text, f, err)
			continue
		}
		if diff := cmp.Diff(want, bad{re.At, re.Why, re.Near}); diff != "" {
			t.Errorf("%q: want −, got +\n%s", text, diff)
		}
		if re.Error() == "" || re.Want != "formula" {
			t.Errorf("%q: %q of %q", text, re.Error(), re.Want)
		}
	}
}

func TestSubstitution(t *testing.T) {
	// Handbook factors; those of Anchell 2008 pp. 329 and 330 to the digits printed there, the others reckoned apart.
	tests := []struct {
		called, held string
		want, within float64
	}{
		{"Na2SO3", "Na2SO3·7H2O", 2.0, 0.005},
		{"Na2S2O3", "Na2S2O3·5H2O", 1.57, 0.005},
		{"Na2S2O3·5H2O", "Na2S2O3", 0.64, 0.005},
		{"Na2B4O7·10H2O", "Na2B4O7·5H2O", 0.76, 0.005},
		{"K2CO3", "Na2CO3·H2O", 0.90, 0.005},
		{"NaBr", "KBr", 1.16, 0.005},
		{"Na2SO4·10H2O", "Na2SO4", 0.44, 0.005},
		{"Na2CO3·H2O", "Na2CO3·10H2O", 121.1 / 52.5, 0.001}, // a worked formula prints 121 g for 52.5 g
		{"Na2CO3", "Na2CO3·H2O", 52.65 / 45, 0.0002},        // 45 g; printed 52.6
		{"KOH", "NaOH", 0.7129, 0.00005},
		{"Na2S2O5", "K2S2O5", 1.1695, 0.00005},
	}
	for _, tt := range tests {
		if got := chem.Substitution(formula(t, tt.called), formula(t, tt.held)); !(math.Abs(got-tt.want) <= tt.within) {
			t.Errorf("%s for %s: ×%.4f, want %.4f", tt.held, tt.called, got, tt.want)
		}
	}
	if got := chem.Substitution(chem.Formula{}, formula(t, "H2O")); got != 0 {
		t.Errorf("in place of nothing: %v", got)
	}
}

func TestMassFraction(t *testing.T) {
	// Reckoned apart with python3-periodictable 1.6.0.
	for text, want := range map[string]float64{"AgBr": 0.57446, "AgCl": 0.75263, "AgNO3": 0.63499, "Ag2S": 0.87060} {
		if got := formula(t, text).MassFraction("Ag"); !(math.Abs(got-want) <= 6e-6) {
			t.Errorf("silver in %s: %.6f, want %.5f", text, got, want)
		}
	}
	if got := formula(t, "AgBr").MassFraction("Xx"); got != 0 {
		t.Errorf("of no element: %v", got)
	}
}
