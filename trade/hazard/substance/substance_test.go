package substance_test

import (
	"strings"
	"testing"

	"wetside/trade/chem"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
)

// checkDigit is the rule of CAS numbers: the last digit is the sum of the others, each times its place from the right, modulo ten.
func checkDigit(cas string) bool {
	digits := strings.ReplaceAll(cas, "-", "")
	sum := 0
	for i := range len(digits) - 1 {
		sum += int(digits[len(digits)-2-i]-'0') * (i + 1)
	}
	return len(digits) > 4 && sum%10 == int(digits[len(digits)-1]-'0')
}

func TestRows(t *testing.T) {
	all := substance.All()
	if len(all) < 60 {
		t.Errorf("%d substances", len(all))
	}
	numbers, memory := map[string]string{}, 0
	for _, s := range all {
		if s.CAS != "" && !checkDigit(s.CAS) {
			t.Errorf("%s: CAS %s has a wrong check digit", s.Name, s.CAS)
		}
		if s.CAS != "" && numbers[s.CAS] != "" {
			t.Errorf("%s has the CAS number of %s", s.Name, numbers[s.CAS])
		}
		numbers[s.CAS] = s.Name
		for i, c := range s.Classes {
			for _, d := range s.Classes[:i] {
				if c.Kind() == d.Kind() {
					t.Errorf("%s is both %s and %s", s.Name, c, d)
				}
			}
		}
		for _, l := range s.Limits {
			if l.From <= 0 || l.From > 100 {
				t.Errorf("%s: limit %+v", s.Name, l)
			}
		}
		if (s.Has(ghs.Repr1B) || s.Has(ghs.Repr2)) != (s.Effects != "") {
			t.Errorf("%s: effects %q", s.Name, s.Effects)
		}
		if (s.Basis.Status == substance.Memory) != (s.Basis.Source == "") || (s.Limited.Status == substance.Memory) != (s.Limited.Source == "") {
			t.Errorf("%s: a status without its source, or the other way round: %+v %+v", s.Name, s.Basis, s.Limited)
		}
		if s.Basis.Status == substance.Memory {
			memory++
		}
	}
	t.Logf("%d substances, %d of them from memory", len(all), memory)
}

// Every name leads to its own row, and no two rows share one.
func TestEveryNameIsFound(t *testing.T) {
	of := map[string]string{}
	for _, s := range substance.All() {
		for _, name := range append([]string{s.Name, s.CAS}, s.Also...) {
			if name == "" {
				continue
			}
			if before, ok := of[strings.ToLower(name)]; ok && before != s.Name {
				t.Errorf("%q is both %s and %s", name, before, s.Name)
			}
			of[strings.ToLower(name)] = s.Name
			if got, ok := substance.Lookup(name); !ok || got.Name != s.Name {
				t.Errorf("%q is found as %q", name, got.Name)
			}
		}
	}
}

func TestLookup(t *testing.T) {
	for name, want := range map[string]string{
		"Hydroquinone": "hydroquinone", "  ACETIC  acid ": "acetic acid", "Sodium Sulphite": "sodium sulfite", "sodium carbonate, monohydrate": "sodium carbonate",
		"borax decahydrate": "borax", "Na2CO3·H2O": "sodium carbonate", "Na2S2O3·5H2O": "sodium thiosulfate", "123-31-9": "hydroquinone",
		"potassium aluminium sulfate": "potassium aluminum sulfate", "hydrogen peroxide solution": "hydrogen peroxide", "acetic acid (glacial)": "acetic acid",
		"sodium thiosulfate pentahydrate": "sodium thiosulfate", "copper sulphate": "copper sulfate", "anhydrous sodium sulfite": "sodium sulfite",
		"potassium ferricyanide": "potassium ferricyanide", "potassium ferrocyanide": "potassium ferrocyanide",
	} {
		if got, ok := substance.Lookup(name); !ok || got.Name != want {
			t.Errorf("%q: %q, want %q", name, got.Name, want)
		}
	}
	// A name that is nearly one is none: a sulfide is no sulfite.
	for _, name := range []string{"", " ", "sodium", "sodium sulfit", "acid", "solution", "developer", "氢醌", strings.Repeat("x", 2000), "\xff", "(", "·H2O"} {
		if got, ok := substance.Lookup(name); ok {
			t.Errorf("%q is found as %q", name, got.Name)
		}
	}
}

// What trade/chem knows by a name is the same substance here: no name of a row leads there to another formula than its others.
func TestAgreesWithTheChemistry(t *testing.T) {
	both := 0
	for _, s := range substance.All() {
		first := ""
		for _, name := range append([]string{s.Name}, s.Also...) {
			c, err := chem.Lookup(name)
			if err != nil {
				continue
			}
			dry := c.Dry().Formula().String()
			if first == "" {
				first = dry
				both++
			} else if dry != first {
				t.Errorf("%s: %q is %s there, another name %s", s.Name, name, dry, first)
			}
		}
	}
	if both < 30 {
		t.Errorf("%d rows are known there", both)
	}
}

func FuzzLookup(f *testing.F) {
	for _, name := range []string{"hydroquinone", "Na2CO3·H2O", "acetic acid (glacial)", "50-00-0", "\xff(", "·h2o"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		s, ok := substance.Lookup(name)
		if ok != (s.Name != "") {
			t.Fatalf("%q: %q, %v", name, s.Name, ok)
		}
		if again, _ := substance.Lookup(s.Name); ok && again.Name != s.Name {
			t.Fatalf("%q leads to %q, and that to %q", name, s.Name, again.Name)
		}
	})
}
