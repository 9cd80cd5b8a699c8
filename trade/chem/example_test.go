package chem_test

import (
	"fmt"

	"wetside/trade/chem"
)

func ExampleParseFormula() {
	hypo, err := chem.ParseFormula("Na2S2O3·5H2O")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s %.2f g/mol\n", hypo, hypo.MolarMass())
	_, err = chem.ParseFormula("SO42-")
	fmt.Println(err)
	// Output:
	// Na2S2O3·5H2O 248.18 g/mol
	// formula "SO42-": count_or_charge at 3, try SO4^2-
}

func ExampleLookup() {
	soda, err := chem.Lookup("Sodium Carbonate, monohydrate")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: for 52.5 g take %.1f g of the decahydrate\n", soda.Formula(),
		52.5*chem.Substitution(soda.Formula(), soda.Hydrates()[3].Formula()))
	_, err = chem.Lookup("sodum sulphite")
	fmt.Println(err)
	// Output:
	// Na2CO3·H2O: for 52.5 g take 121.1 g of the decahydrate
	// substance "sodum sulphite": unknown_substance at 1, try sodium sulfite
}

func ExampleSubstitution() {
	called, _ := chem.ParseFormula("Na2S2O3·5H2O")
	held, _ := chem.ParseFormula("Na2S2O3")
	fmt.Printf("240 g of crystals are %.1f g dry\n", 240*chem.Substitution(called, held))
	// Output: 240 g of crystals are 152.9 g dry
}

func ExamplePH() {
	var mix []chem.Amount
	for _, text := range []string{"acetic acid 0.05 mol/kg", "sodium acetate 0.2 mol/kg"} {
		a, err := chem.ParseAmount(text)
		if err != nil {
			fmt.Println(err)
			return
		}
		mix = append(mix, a)
	}
	s, err := chem.PH(20, mix...)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("pH %.2f, ionic strength %.3f mol/kg, indicative %v\n", s.PH, s.IonicStrength, s.Indicative)
	// Output: pH 5.23, ionic strength 0.200 mol/kg, indicative false
}

// A stop bath of 2 L that a print leaves 9 mL of developer in, until its indicator turns.
func ExampleMixture_Replace() {
	acid, _ := chem.Lookup("acetic acid")
	carbonate, _ := chem.Lookup("sodium carbonate")
	sulfite, _ := chem.Lookup("sodium sulfite")
	bath, err := chem.Prepare(20, acid, carbonate, sulfite)
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := bath.Set(0, 0.232); err != nil {
		fmt.Println(err)
		return
	}
	developer := []float64{0, 0.2123, 0.1190}
	prints := 0
	for bath.Solve().PH < 5.2 {
		if err := bath.Replace(0.009/2.009, developer); err != nil {
			fmt.Println(err)
			return
		}
		prints++
	}
	fmt.Println(prints, "prints")
	// Output: 67 prints
}

// The same by a curve that is tabulated once and looked up by any number of draws.
func ExampleMixture_CarryIn() {
	var mix []chem.Amount
	for _, text := range []string{"acetic acid 0.232 mol/kg", "sodium carbonate 0 mol/kg", "sodium sulfite 0 mol/kg"} {
		a, err := chem.ParseAmount(text)
		if err != nil {
			fmt.Println(err)
			return
		}
		mix = append(mix, a)
	}
	bath, err := chem.Mix(20, mix...)
	if err != nil {
		fmt.Println(err)
		return
	}
	curve, err := bath.CarryIn([]float64{0, 0.2123, 0.1190}, 1, 0.005)
	if err != nil {
		fmt.Println(err)
		return
	}
	spent, _ := curve.Reaches(5.2)
	fmt.Printf("pH %.2f with a tenth of developer in it; spent with %.0f %%\n", curve.At(0.1), 100*spent)
	// Output: pH 4.21 with a tenth of developer in it; spent with 26 %
}

func ExampleMixture_Titrate() {
	acid, _ := chem.Lookup("citric acid")
	alkali, _ := chem.Lookup("sodium hydroxide")
	bath, err := chem.Mix(20, chem.Amount{Substance: acid, Molality: 0.0781}, chem.Amount{Substance: alkali})
	if err != nil {
		fmt.Println(err)
		return
	}
	n, err := bath.Titrate(1, 5.2)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f mol/kg\n", n)
	// Output: 0.164 mol/kg
}

func ExampleMixture_Buffer() {
	acid, _ := chem.Lookup("boric acid")
	salt, _ := chem.Lookup("sodium metaborate")
	m, err := chem.Prepare(20, acid, salt)
	if err != nil {
		fmt.Println(err)
		return
	}
	boric, metaborate, err := m.Buffer(0.05, 9.0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f and %.4f mol/kg, buffer capacity %.3f\n", boric, metaborate, m.Solve().Capacity)
	// Output: 0.0312 and 0.0188 mol/kg, buffer capacity 0.027
}
