package temper_test

import (
	"context"
	"fmt"
	"testing"

	"wetside/trade/quantity"
	"wetside/trade/temper"
)

func ExampleSolve() {
	r, err := temper.Solve(context.Background(), temper.Problem{
		Cold: 8, Hot: 45, Want: 20, Total: 2 * quantity.Litre, Chemical: 200 * quantity.Millilitre, ChemicalAt: 18,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range r.Marks {
		fmt.Printf("%s to %.0f mL\n", m.From, m.To.ML())
	}
	fmt.Printf("thermometer at %.1f °C, then the chemical\n", r.Water)
	// Output:
	// hot_tap to 600 mL
	// cold_tap to 1800 mL
	// thermometer at 20.2 °C, then the chemical
}

func BenchmarkSolve(b *testing.B) {
	p := temper.Problem{
		Cold: 8, Hot: 45, Want: 20, Total: 2 * quantity.Litre, Chemical: 200 * quantity.Millilitre, ChemicalAt: 18,
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := temper.Solve(b.Context(), p); err != nil {
			b.Fatal(err)
		}
	}
}
