package chem_test

import (
	"errors"
	"strings"
	"testing"

	"wetside/trade/chem"
)

func TestLookup(t *testing.T) {
	tests := map[string]string{
		"acetic acid":                       "CH3COOH",
		"Acetic  Acid":                      "CH3COOH",
		"citric acid":                       "C6H8O7",
		"citric acid monohydrate":           "C6H8O7·H2O",
		"boric acid":                        "H3BO3",
		"carbonic acid":                     "H2CO3",
		"phosphoric acid":                   "H3PO4",
		"sodium hydroxide":                  "NaOH",
		"caustic soda":                      "NaOH",
		"potassium hydroxide":               "KOH",
		"ammonia":                           "NH3",
		"ammonium hydroxide":                "NH3",
		"ammonium chloride":                 "NH4Cl",
		"sodium acetate":                    "CH3COONa",
		"sodium acetate trihydrate":         "CH3COONa·3H2O",
		"sodium carbonate":                  "Na2CO3",
		"Sodium Carbonate, anhydrous":       "Na2CO3",
		"anhydrous sodium carbonate":        "Na2CO3",
		"sodium carbonate monohydrate":      "Na2CO3·H2O",
		"sodium carbonate decahydrate":      "Na2CO3·10H2O",
		"washing soda":                      "Na2CO3·10H2O",
		"sodium bicarbonate":                "NaHCO3",
		"sodium hydrogen carbonate":         "NaHCO3",
		"sodium hydrogencarbonate":          "NaHCO3",
		"baking soda":                       "NaHCO3",
		"sodium sulfite":                    "Na2SO3",
		"Sodium Sulphite":                   "Na2SO3",
		"sodium sulfite heptahydrate":       "Na2SO3·7H2O",
		"sodium bisulfite":                  "NaHSO3",
		"sodium bisulphite":                 "NaHSO3",
		"sodium metabisulfite":              "Na2S2O5",
		"potassium metabisulphite":          "K2S2O5",
		"sodium thiosulfate":                "Na2S2O3",
		"sodium thiosulfate, dry":           "Na2S2O3",
		"sodium thiosulphate anhydrous":     "Na2S2O3",
		"hypo":                              "Na2S2O3·5H2O",
		"ammonium thiosulfate":              "(NH4)2S2O3",
		"potassium carbonate":               "K2CO3",
		"potassium carbonate sesquihydrate": "K2CO3·1.5H2O",
		"disodium phosphate":                "Na2HPO4",
		"disodium hydrogen phosphate":       "Na2HPO4",
		"disodium phosphate dodecahydrate":  "Na2HPO4·12H2O",
		"potassium dihydrogen phosphate":    "KH2PO4",
		"trisodium phosphate":               "Na3PO4",
		"trisodium citrate":                 "Na3C6H5O7",
		"trisodium citrate dihydrate":       "Na3C6H5O7·2H2O",
		"sodium citrate":                    "Na3C6H5O7",
		"borax":                             "Na2B4O7·10H2O",
		"Borax anhydrous":                   "Na2B4O7",
		"sodium tetraborate decahydrate":    "Na2B4O7·10H2O",
		"sodium metaborate":                 "NaBO2",
		"sodium metaborate tetrahydrate":    "NaBO2·2H2O",
		"sodium metaborate dihydrate":       "NaBO2·2H2O",
		"sodium metaborate octahydrate":     "NaBO2·4H2O",
		"NaBO2.4H2O":                        "NaBO2·4H2O",
		"Na2CO3.H2O":                        "Na2CO3·H2O",
		"na2s2o3·5h2o":                      "Na2S2O3·5H2O",
		"NA2B4O7*10H2O":                     "Na2B4O7·10H2O",
		"K2CO3.1.5H2O":                      "K2CO3·1.5H2O",
		"naoh":                              "NaOH",
		"KHP":                               "KC8H5O4",
		"CO2":                               "H2CO3",
	}
	for name, want := range tests {
		s, err := chem.Lookup(name)
		if err != nil || s.Formula().String() != want {
			t.Errorf("%q: %v, %v, want %s", name, s.Formula(), err, want)
		}
	}
}

func TestLookupErrors(t *testing.T) {
	tests := map[string]struct {
		why  chem.Why
		near string
	}{
		"":                           {chem.WhyEmpty, "acetic acid"},
		"acetik acid":                {chem.WhyUnknown, "acetic acid"},
		"sodium carbonat":            {chem.WhyUnknown, "sodium carbonate"},
		"sodum sulphite":             {chem.WhyUnknown, "sodium sulfite"},
		"hipo":                       {chem.WhyUnknown, "hypo"},
		"unobtainium":                {chem.WhyUnknown, ""},
		"Na2CO3·4H2O":                {chem.WhyNoSuchHydrate, "sodium carbonate decahydrate"},
		"sodium sulfite decahydrate": {chem.WhyNoSuchHydrate, "sodium sulfite heptahydrate"},
		"sodium hydroxide\xff":       {chem.WhyNotText, ""},
		strings.Repeat("x", 300):     {chem.WhyTooLong, ""},
		"Na2CO3·":                    {chem.WhyUnknown, ""},
		"Na2CO3·NaCl":                {chem.WhyUnknown, ""},
	}
	for name, want := range tests {
		s, err := chem.Lookup(name)
		var re *chem.ReadError
		if !errors.As(err, &re) || s != (chem.Substance{}) {
			t.Errorf("%q: %v, %v, want a ReadError", name, s, err)
			continue
		}
		if re.Why != want.why || re.Near != want.near {
			t.Errorf("%q: %s, near %q; want %s, %q", name, re.Why, re.Near, want.why, want.near)
		}
	}
}

func TestNamesFindThemselves(t *testing.T) {
	seen := map[string]string{}
	n := 0
	for _, s := range chem.Substances() {
		for _, name := range s.Names() {
			got, err := chem.Lookup(name)
			if err != nil || got.Dry() != s {
				t.Errorf("%q finds %q, %v, want %q", name, got.Name(), err, s.Name())
			}
			key := strings.ToLower(name)
			if other, ok := seen[key]; ok {
				t.Errorf("%q stands for %q and %q", name, other, s.Name())
			}
			seen[key] = s.Name()
			n++
		}
		for _, h := range s.Hydrates() {
			for _, name := range []string{h.Name(), h.Formula().String(), strings.ToUpper(h.Name())} {
				if got, err := chem.Lookup(name); err != nil || got.Dry() != s && name != h.Formula().String() {
					t.Errorf("%q finds %q, %v, want %q", name, got.Name(), err, h.Name())
				} else if name == h.Name() && got != h {
					t.Errorf("%q finds %q", name, got.Name())
				}
			}
		}
	}
	t.Logf("%d names of %d substances", n, len(chem.Substances()))
}

// TestTableAgainstFormulas holds what a substance is said to become in water against the atoms of its formula:
// sodium, potassium and the halides one for one, the acids by their own element, and no atom lost but H and O.
func TestTableAgainstFormulas(t *testing.T) {
	for _, s := range chem.Substances() {
		f := s.Formula()
		if f.MolarMass() == 0 || f.Charge() != 0 {
			t.Errorf("%s: formula %q", s.Name(), f)
		}
		m, err := chem.Mix(25, chem.Amount{Substance: s, Molality: 0.001})
		if err != nil {
			t.Fatal(err)
		}
		have := map[string]float64{}
		for _, d := range m.Species() {
			g, err := chem.ParseFormula(d.Name)
			if err != nil || g.Charge() != d.Charge {
				t.Errorf("%s: a species %q of charge %d: %v", s.Name(), d.Name, d.Charge, err)
			}
			for _, e := range []string{"Na", "K", "Cl", "Br", "I", "C", "N", "P", "S", "B"} {
				have[e] += 1000 * d.Molality * g.Atoms(e)
			}
		}
		for e, n := range have {
			if want := f.Atoms(e); !(n > want-1e-9 && n < want+1e-9) {
				t.Errorf("%s: %v of %s in water, %v in %s", s.Name(), n, e, want, f)
			}
		}
	}
}

func TestMemory(t *testing.T) {
	for name, want := range map[string]bool{
		"acetic acid": false, "borax": false, "sodium hydroxide": false, "ascorbic acid": true, "hydroquinone": true,
	} {
		s, err := chem.Lookup(name)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Memory(); got != want {
			t.Errorf("%s: from memory %v, want %v", name, got, want)
		}
	}
}

// TestNothing holds the zero substance to what its methods say.
func TestNothing(t *testing.T) {
	var s chem.Substance
	if s.Name() != "" || s.MolarMass() != 0 || s.PKs(20) != nil || s.Names() != nil || s.Hydrates() != nil || s.Memory() {
		t.Error("the zero substance is something")
	}
	if _, err := chem.Prepare(20, s); !errors.Is(err, chem.ErrNoSubstance) {
		t.Errorf("prepared with no substance: %v", err)
	}
}
