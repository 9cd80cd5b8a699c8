package hazard_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/dilution"
	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
	"wetside/trade/quantity"
)

// A plain share of a substance of generic classes, in tenths of a per cent, so that the oracle counts in whole numbers.
type tenths struct {
	class ghs.Class
	n     int
}

// skinAndEyes is the rule text itself (SOR/2015-17 8.2.11, TRGS and GESI on eyes; NZ Table 11.2), written as
// inequalities over whole numbers, apart from the package's weights.
func skinAndEyes(parts []tenths) string {
	var a, b, c, irritates, damages, eyes int
	for _, p := range parts {
		if p.n < 10 {
			continue // below 1 %
		}
		switch p.class {
		case ghs.SkinCorr1A:
			a += p.n
		case ghs.SkinCorr1B:
			b += p.n
		case ghs.SkinCorr1C:
			c += p.n
		case ghs.SkinIrrit2:
			irritates += p.n
		case ghs.EyeDam1:
			damages += p.n
		case ghs.EyeIrrit2:
			eyes += p.n
		default:
		}
	}
	var out []string
	corr := a + b + c
	switch {
	case a >= 50:
		out = append(out, "1A")
	case a+b >= 50:
		out = append(out, "1B")
	case corr >= 50:
		out = append(out, "1C")
	case corr >= 10 || irritates >= 100 || 10*corr+irritates >= 100:
		out = append(out, "irritates")
	}
	all := corr + damages
	switch {
	case corr >= 50: // said already
	case all >= 30:
		out = append(out, "eyes damaged")
	case all >= 10 || eyes >= 100 || 10*all+eyes >= 100:
		out = append(out, "eyes irritated")
	}
	return strings.Join(out, ", ")
}

func TestSkinAndEyesAgainstTheRuleText(t *testing.T) {
	said := map[ghs.Class]string{
		ghs.SkinCorr1A: "1A", ghs.SkinCorr1B: "1B", ghs.SkinCorr1C: "1C", ghs.SkinIrrit2: "irritates", ghs.EyeDam1: "eyes damaged",
		ghs.EyeIrrit2: "eyes irritated",
	}
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		var in []tenths
		var parts []hazard.Part
		for range rapid.IntRange(1, 5).Draw(t, "ingredients") {
			x := tenths{
				class: rapid.SampledFrom([]ghs.Class{
					ghs.SkinCorr1A, ghs.SkinCorr1B, ghs.SkinCorr1C, ghs.SkinIrrit2, ghs.EyeDam1, ghs.EyeIrrit2,
				}).Draw(t, "class"),
				n: rapid.OneOf(rapid.IntRange(0, 60), rapid.SampledFrom([]int{9, 10, 29, 30, 49, 50, 99, 100})).Draw(t, "tenths"),
			}
			in = append(in, x)
			parts = append(parts, hazard.Part{Substance: of("x", x.class), Share: float64(x.n) / 10})
		}
		var got []string
		for _, c := range hazard.Judge(parts, 0, hazard.EU).Classes {
			got = append(got, said[c])
		}
		want := skinAndEyes(in)
		seen[want]++
		if strings.Join(got, ", ") != want {
			t.Fatalf("%v: %q, want %q", in, strings.Join(got, ", "), want)
		}
	})
	if len(seen) < 8 {
		t.Errorf("only %d outcomes were drawn: %v", len(seen), seen)
	}
}

// inWater is the summation of UN-4.1a and ADR 2.2.9.1.10.4.6 in thousandths of a per cent.
func inWater(parts []aquatic) string {
	var acute, one, oneM, two, three, four int
	for _, p := range parts {
		m := p.m
		switch p.class {
		case ghs.AquaticAcute1:
			if p.n*m >= 100 {
				acute += m * p.n
			}
		case ghs.AquaticChronic1:
			if p.n*m >= 100 {
				one, oneM = one+p.n, oneM+m*p.n
			}
		case ghs.AquaticChronic2:
			two += counted(p.n)
		case ghs.AquaticChronic3:
			three += counted(p.n)
		case ghs.AquaticChronic4:
			four += counted(p.n)
		default:
		}
	}
	const limit = 25_000
	var out []string
	if acute >= limit {
		out = append(out, "H400")
	}
	switch {
	case oneM >= limit:
		out = append(out, "H410")
	case 10*oneM+two >= limit:
		out = append(out, "H411")
	case 100*oneM+10*two+three >= limit:
		out = append(out, "H412")
	case one+two+three+four >= limit:
		out = append(out, "H413")
	}
	return strings.Join(out, " ")
}

type aquatic struct {
	class ghs.Class
	n, m  int
}

func counted(n int) int {
	if n >= 1000 {
		return n
	}
	return 0
}

func TestWaterAgainstTheRuleText(t *testing.T) {
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		var in []aquatic
		var parts []hazard.Part
		for range rapid.IntRange(1, 4).Draw(t, "ingredients") {
			x := aquatic{
				class: rapid.SampledFrom([]ghs.Class{
					ghs.AquaticAcute1, ghs.AquaticChronic1, ghs.AquaticChronic2, ghs.AquaticChronic3, ghs.AquaticChronic4,
				}).Draw(t, "class"),
				n: rapid.OneOf(rapid.IntRange(0, 2000), rapid.IntRange(0, 30_000), rapid.SampledFrom([]int{10, 99, 100, 250, 999, 1000, 2500, 24_999, 25_000})).
					Draw(t, "thousandths"),
				m: rapid.SampledFrom([]int{1, 1, 10, 100}).Draw(t, "m"),
			}
			in = append(in, x)
			s := of("x", x.class)
			s.MAcute, s.MChronic = float64(x.m), float64(x.m)
			parts = append(parts, hazard.Part{Substance: s, Share: float64(x.n) / 1000})
		}
		var got []string
		for _, c := range hazard.Judge(parts, 0, hazard.EU).Classes {
			got = append(got, c.Code())
		}
		want := inWater(in)
		seen[want]++
		if strings.Join(got, " ") != want {
			t.Fatalf("%v: %v, want %q", in, got, want)
		}
	})
	if len(seen) < 6 {
		t.Errorf("only %d outcomes were drawn: %v", len(seen), seen)
	}
}

// drawn draws a mixture of the table's substances whose upper ends stay within the whole.
func drawn(t *rapid.T) hazard.Mixture {
	all := substance.All()
	left := 100.0
	m := hazard.Mixture{Law: rapid.SampledFrom([]hazard.Law{hazard.EU, hazard.US}).Draw(t, "law")}
	for range rapid.IntRange(1, 5).Draw(t, "ingredients") {
		high := rapid.Float64Range(0, left).Draw(t, "high")
		if rapid.Bool().Draw(t, "little") {
			high /= 20
		}
		low := rapid.Float64Range(0, high).Draw(t, "low")
		left -= high
		name := all[rapid.IntRange(0, len(all)-1).Draw(t, "substance")].Name
		m.Ingredients = append(m.Ingredients, hazard.Ingredient{Name: name, Share: hazard.Share{Low: low, High: high}})
	}
	return m
}

// milder tells whether every class of a is one of b's, or milder than one of its kind; what burns damages eyes, too.
func milder(a, b []ghs.Class) (ghs.Class, bool) {
	for _, c := range a {
		if !slices.ContainsFunc(b, func(d ghs.Class) bool {
			return c == d || d.Severer(c) || c.Kind() == ghs.Eyes && d.Code() == "H314"
		}) {
			return c, false
		}
	}
	return ghs.None, true
}

func TestMoreWaterIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		before, err := hazard.Classify(m)
		if err != nil {
			t.Fatal(err)
		}
		d, err := dilution.New(quantity.Int(int64(rapid.IntRange(0, 100).Draw(t, "water"))), quantity.Int(1))
		if err != nil {
			t.Fatal(err)
		}
		if m.Ingredients, err = hazard.Dilute(m.Ingredients, d, rapid.SampledFrom([]float64{0, 1, 1.2, 1.8}).Draw(t, "density")); err != nil {
			t.Fatal(err)
		}
		after, err := hazard.Classify(m)
		if err != nil {
			t.Fatal(err)
		}
		if c, ok := milder(after.Classes, before.Classes); !ok {
			t.Fatalf("thinned by %s it became %s; before %v", d, c, before.Classes)
		}
	})
}

func TestMoreOfItIsNeverMilder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		before, err := hazard.Classify(m)
		if err != nil {
			t.Fatal(err)
		}
		i := rapid.IntRange(0, len(m.Ingredients)-1).Draw(t, "which")
		s := &m.Ingredients[i].Share
		s.High = rapid.Float64Range(s.High, 100).Draw(t, "more")
		after, err := hazard.Classify(m)
		if err != nil {
			t.Fatal(err)
		}
		if c, ok := milder(before.Classes, after.Classes); !ok {
			t.Fatalf("with more it lost %s: %v", c, after.Classes)
		}
	})
}

// At any point of the ranges the result is no worse than at their worse ends, and no milder than at the other.
func TestWorseEndIsTheWorst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		ends, err := hazard.Classify(m)
		if err != nil {
			t.Fatal(err)
		}
		at := hazard.Mixture{Law: m.Law}
		for _, i := range m.Ingredients {
			i.Share = hazard.Exactly(rapid.Float64Range(i.Share.Low, i.Share.High).Draw(t, "at"))
			at.Ingredients = append(at.Ingredients, i)
		}
		r, err := hazard.Classify(at)
		if err != nil {
			t.Fatal(err)
		}
		if c, ok := milder(r.Classes, ends.Classes); !ok {
			t.Fatalf("%s within the range, not at its end: %v", c, ends.Classes)
		}
		if c, ok := milder(ends.Milder, r.Classes); !ok {
			t.Fatalf("%s at the milder end, not within: %v", c, r.Classes)
		}
	})
}
