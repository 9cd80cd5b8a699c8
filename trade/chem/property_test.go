package chem_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/chem"
	"wetside/trade/quantity"
)

// anyMixture draws one to five substances in amounts from a hair to 2 mol/kg.
func anyMixture(t *rapid.T) []chem.Amount {
	all := chem.Substances()
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) chem.Amount {
		return chem.Amount{
			Substance: all[rapid.IntRange(0, len(all)-1).Draw(t, "substance")],
			Molality:  2 * math.Pow(10, rapid.Float64Range(-7, 0).Draw(t, "log")),
		}
	}), 1, 5).Draw(t, "mixture")
}

func anyTemperature(t *rapid.T) quantity.Celsius {
	return quantity.Celsius(rapid.Float64Range(10, 40).Draw(t, "temperature"))
}

func mixed(t *rapid.T, at quantity.Celsius, amounts ...chem.Amount) *chem.Mixture {
	m, err := chem.Mix(at, amounts...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// brought adds up how much of an acid the amounts bring, from the atoms of their formulas: carbon for an acid of
// carbon, and so on, as independent of the solver's own table as can be.
func brought(amounts []chem.Amount) map[string]float64 {
	sums := map[string]float64{}
	for _, a := range amounts {
		for _, p := range a.Substance.PKs(25) {
			if p.Step == 1 {
				sums[p.Acid] += a.Molality * perUnit(a.Substance, p.Acid)
			}
		}
	}
	return sums
}

// perUnit counts an acid in one formula unit by the atoms that only it has there.
func perUnit(s chem.Substance, acid string) float64 {
	f := s.Formula()
	switch acid {
	case "acetic":
		return f.Atoms("C") / 2
	case "citric", "ascorbic", "hydroquinone":
		return f.Atoms("C") / 6
	case "phthalic":
		return f.Atoms("C") / 8
	case "carbonic":
		return f.Atoms("C")
	case "phosphoric":
		return f.Atoms("P")
	case "boric":
		return f.Atoms("B")
	case "sulfurous", "sulfuric":
		return f.Atoms("S")
	case "thiosulfuric":
		return f.Atoms("S") / 2
	case "ammonium":
		return f.Atoms("N")
	case "edta":
		return f.Atoms("N") / 2
	case "methylaminophenol":
		return f.Atoms("N")
	}
	return math.NaN()
}

func TestBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, amounts := anyTemperature(t), anyMixture(t)
		m := mixed(t, at, amounts...)
		got := m.Solve()
		var charge, charges, ionic float64
		of := map[string]float64{}
		for _, s := range m.Species() {
			if !(s.Molality >= 0) {
				t.Fatalf("%s: %v mol/kg", s.Name, s.Molality)
			}
			z := float64(s.Charge)
			charge += z * s.Molality
			charges += math.Abs(z) * s.Molality
			ionic += z * z * s.Molality / 2
			if s.Acid != "" {
				of[s.Acid] += s.Molality
			}
		}
		if !(math.Abs(charge) <= 1e-10*charges) {
			t.Fatalf("%v: charge %v of %v left over", amounts, charge, charges)
		}
		if !(math.Abs(ionic-got.IonicStrength) <= 1e-10*ionic) {
			t.Fatalf("%v: ionic strength %v, of the ions %v", amounts, got.IonicStrength, ionic)
		}
		for acid, want := range brought(amounts) {
			if !(math.Abs(of[acid]-want) <= 1e-10*want) {
				t.Fatalf("%v: %v of %s dissolved, %v put in", amounts, of[acid], acid, want)
			}
		}
	})
}

func TestMassAction(t *testing.T) {
	// Every acid step, and water, holds with activities by Davies written apart: pK = pH − log(base γ / acid γ).
	rapid.Check(t, func(t *rapid.T) {
		at, amounts := anyTemperature(t), anyMixture(t)
		m := mixed(t, at, amounts...)
		got := m.Solve()
		a, err := chem.DebyeHuckel(at)
		if err != nil {
			t.Fatal(err)
		}
		logActivity := func(s chem.Species) float64 {
			i := min(got.IonicStrength, 1)
			z := float64(s.Charge)
			return math.Log10(s.Molality) - a*z*z*(math.Sqrt(i)/(1+math.Sqrt(i))-0.3*i)
		}
		forms := map[string][]chem.Species{}
		for _, s := range m.Species() {
			forms[s.Acid] = append(forms[s.Acid], s)
		}
		if h := -logActivity(forms[""][0]); !(math.Abs(h-got.PH) <= 1e-9) {
			t.Fatalf("%v: pH %v, by H+ %v", amounts, got.PH, h)
		}
		for _, x := range amounts {
			for _, p := range x.Substance.PKs(at) {
				acid, base := forms[p.Acid][p.Step-1], forms[p.Acid][p.Step]
				if base.Molality < 1e-290 || acid.Molality < 1e-290 {
					continue
				}
				pk := got.PH - logActivity(base) + logActivity(acid)
				if !(math.Abs(pk-p.At) <= 1e-9) {
					t.Fatalf("%v: pK %d of %s is %v, want %v", amounts, p.Step, p.Acid, pk, p.At)
				}
			}
		}
	})
}

func TestRisesWithBase(t *testing.T) {
	hydroxide, err := chem.Lookup("sodium hydroxide")
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		at, amounts := anyTemperature(t), anyMixture(t)
		m := mixed(t, at, append(amounts, chem.Amount{Substance: hydroxide})...)
		base := math.Pow(10, rapid.Float64Range(-6, 0).Draw(t, "log of base"))
		last := m.Solve().PH
		for range 5 {
			if err := m.Add(m.Len()-1, base); err != nil {
				t.Fatal(err)
			}
			now := m.Solve().PH
			if !(now > last-1e-12) {
				t.Fatalf("%v: pH %v, with %v mol/kg of base more %v", amounts, last, base, now)
			}
			last = now
		}
	})
}

func TestOrderAndStartDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, amounts := anyTemperature(t), anyMixture(t)
		want := mixed(t, at, amounts...).Solve()
		turned := mixed(t, at, rapid.Permutation(amounts).Draw(t, "turned")...).Solve()
		warm := mixed(t, at, amounts...)
		for i := range warm.Len() { // another solution first
			if err := warm.Set(i, rapid.Float64Range(0, 1).Draw(t, "before")); err != nil {
				t.Fatal(err)
			}
		}
		warm.Solve()
		for i, a := range amounts {
			if err := warm.Set(i, a.Molality); err != nil {
				t.Fatal(err)
			}
		}
		for _, got := range []chem.State{turned, warm.Solve()} {
			if !(math.Abs(got.PH-want.PH) <= 1e-7) || !(math.Abs(got.IonicStrength-want.IonicStrength) <= 1e-9*want.IonicStrength) {
				t.Fatalf("%v: %+v, another way %+v", amounts, want, got)
			}
		}
	})
}

func TestTitrateReaches(t *testing.T) {
	hydroxide, err := chem.Lookup("NaOH")
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		at, amounts := anyTemperature(t), anyMixture(t)
		m := mixed(t, at, append(amounts, chem.Amount{Substance: hydroxide})...)
		start := m.Solve().PH
		want := start + rapid.Float64Range(0, 1).Draw(t, "up")*(14-start)
		if want < start {
			t.Skip("too alkaline")
		}
		i := m.Len() - 1
		n, err := m.Titrate(i, want)
		if err != nil {
			t.Fatal(err)
		}
		if m.Amount(i).Molality != 0 {
			t.Fatal("the mixture was changed")
		}
		if err := m.Set(i, n); err != nil {
			t.Fatal(err)
		}
		if got := m.Solve().PH; !(math.Abs(got-want) <= 1e-7) {
			t.Fatalf("%v: with %v mol/kg pH %v, want %v", amounts, n, got, want)
		}
	})
}

func TestAmountsRead(t *testing.T) {
	all := chem.Substances()
	rapid.Check(t, func(t *rapid.T) {
		s := all[rapid.IntRange(0, len(all)-1).Draw(t, "substance")]
		hydrates := s.Hydrates()
		s = hydrates[rapid.IntRange(0, len(hydrates)-1).Draw(t, "hydrate")]
		want := chem.Amount{Substance: s, Molality: float64(rapid.IntRange(0, 20_000_000).Draw(t, "µmol")) / 1e6}
		for _, text := range []string{want.String(), strings.ToUpper(want.String())} {
			if got, err := chem.ParseAmount(text); err != nil || got != want {
				t.Fatalf("%q: %v, %v, want %v", text, got, err, want)
			}
		}
	})
}
