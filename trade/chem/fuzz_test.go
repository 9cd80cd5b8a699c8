package chem_test

import (
	"testing"

	"wetside/trade/chem"
)

// seeds are what the fuzzers start from.
func seeds() []string {
	return []string{
		"", " ", "H2O", "Na2S2O3·5H2O", "Na2CO3.H2O", "K2CO3·1.5H2O", "KAl(SO4)2·12H2O", "[Ag(S2O3)2]^3-", "S₂O₃²⁻",
		"Na+", "SO42-", "Ca++", "2NaOH", "((((((((((H", "H2O)", "Na0", "Na2CO3·", "C6H4(OH)2", "{Fe[CN]6}^4-", "Xx", "na",
		"acetic acid 0.05 mol/kg", "sodium acetate 200 mmol/kg", "0.1 mol/kg borax", "Na2CO3.10H2O 0,5mol/kg", "NaCl 1 mol/L",
		"NaCl 1 g", "NaCl -1 mol/kg", "NaCl 1,000 mol/kg", "NaCl", "mol/kg", "1 mol/kg", "hypo 1e3 mol/kg", "\xff",
		"\u00a0\u2009", "NaCl 0.0000000000000000001 mmol/kg", "sodium sulphite heptahydrate 1 mol/kg", "hipo 1 mol/kg",
	}
}

func TestFuzzersHaveSeeds(t *testing.T) {
	if n := len(seeds()); n < 30 {
		t.Errorf("%d seeds", n)
	}
}

// whole holds an error to its contract.
func whole(t *testing.T, text string, err error) {
	t.Helper()
	re, ok := err.(*chem.ReadError) //nolint:errorlint // the contract is the type itself.
	if !ok || re.Why == "" || re.Want == "" || re.At < 0 || re.At > len(re.Text) || len([]rune(re.Text)) > 80 {
		t.Fatalf("%q: not a whole error: %#v", text, err)
	}
}

func FuzzParseFormula(f *testing.F) {
	for _, s := range seeds() {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := chem.ParseFormula(text)
		if err != nil {
			if v != (chem.Formula{}) {
				t.Fatalf("%q: %v beside the error %v", text, v, err)
			}
			whole(t, text, err)
			return
		}
		if !(v.MolarMass() > 0) {
			t.Fatalf("%q weighs %v", text, v.MolarMass())
		}
		if again, err := chem.ParseFormula(v.String()); err != nil || again != v {
			t.Fatalf("%q is %q, read back as %q, %v", text, v, again, err)
		}
	})
}

func FuzzParseAmount(f *testing.F) {
	for _, s := range seeds() {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := chem.ParseAmount(text)
		if err != nil {
			if v != (chem.Amount{}) {
				t.Fatalf("%q: %v beside the error %v", text, v, err)
			}
			whole(t, text, err)
			return
		}
		if !(v.Molality >= 0 && v.Molality <= chem.MostAmount) || v.Substance == (chem.Substance{}) {
			t.Fatalf("%q is %v", text, v)
		}
		if again, err := chem.ParseAmount(v.String()); err != nil || again != v {
			t.Fatalf("%q is %q, read back as %q, %v", text, v, again, err)
		}
	})
}
