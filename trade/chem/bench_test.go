package chem_test

import (
	"testing"

	"wetside/trade/chem"
)

// A developer, a buffer and a stop bath, cold: prepared and solved from the start, as the command line does.
func BenchmarkPH(b *testing.B) {
	for name, texts := range map[string][]string{
		"stop":      {"acetic acid 0.232 mol/kg"},
		"buffer":    {"acetic acid 0.05 mol/kg", "sodium acetate 0.2 mol/kg"},
		"citrate":   {"citric acid 0.08 mol/kg", "NaOH 0.16 mol/kg"},
		"developer": {"metol 0.006 mol/kg", "hydroquinone 0.1 mol/kg", "Na2SO3 0.4 mol/kg", "Na2CO3 0.4 mol/kg", "KBr 0.02 mol/kg"},
		"fixer":     {"ammonium thiosulfate 1 mol/kg", "Na2SO3 0.1 mol/kg", "acetic acid 0.2 mol/kg", "sodium acetate 0.2 mol/kg"},
	} {
		mix := amounts(b, texts...)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := chem.PH(20, mix...); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A stop bath, print by print: changed in place and solved from where it was.
func BenchmarkCarriedIn(b *testing.B) {
	m, developer := stopBath(b)
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		if n++; n%200 == 0 {
			if err := m.Replace(1, []float64{0.232, 0, 0}); err != nil {
				b.Fatal(err)
			}
		}
		if err := m.Replace(0.005, developer); err != nil {
			b.Fatal(err)
		}
		m.Solve()
	}
}

func BenchmarkTitrate(b *testing.B) {
	m := mix(b, 20, "acetic acid 0.232 mol/kg", "NaOH 0 mol/kg")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.Titrate(1, 5.2); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCurve(b *testing.B) {
	m, developer := stopBath(b)
	curve, err := m.CarryIn(developer, 1, 0.005)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("make", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := m.CarryIn(developer, 1, 0.005); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("look up", func(b *testing.B) {
		b.ReportAllocs()
		x := 0.0
		for b.Loop() {
			if x += 0.001; x > 1 {
				x = 0
			}
			curve.At(x)
		}
	})
}

func BenchmarkParseAmount(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := chem.ParseAmount("trisodium citrate dihydrate 0.05 mol/kg"); err != nil {
			b.Fatal(err)
		}
	}
}
