package plan_test

import (
	"testing"
	"time"

	"wetside/plan"
	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

func TestZZUsual(t *testing.T) {
	var vs []measure.Vessel
	one, err := plan.MakeOne(t.Context(), plan.OneRequest{Dilution: must(dilution.Read("1+9", dilution.Options{})), Window: must(quantity.ReadWindow("1 L", quantity.NoOunce))})
	if err != nil {
		t.Fatal(err)
	}
	vs = one.Vessels
	for _, d := range []string{"1+1+10", "1+1+20", "1+1+2", "1+2+7", "1+1+100", "2+1+3", "1+1", "1+1+0"} {
		for _, v := range []string{"1.5 to 2 L", "1 L", "500 to 550 mL", "2 to 2.2 L", "3.8 to 4 L", "900 mL to 950 mL"} {
			dd, err := dilution.Read(d, dilution.Options{})
			if err != nil {
				t.Log(d, err)
				break
			}
			w := must(quantity.ReadWindow(v, quantity.NoOunce))
			for _, wf := range []bool{false, true} {
				from := time.Now()
				r, err := measure.Solve(t.Context(), measure.Problem{Dilution: dd, Window: w, Tolerance: 0.15, Vessels: vs, WaterFirst: wf}, measure.Options{Alternatives: 4})
				took := time.Since(from)
				if err != nil {
					t.Fatal(err)
				}
				n, g := 0, measure.Grade(9)
				if len(r.Choices) > 0 {
					n, g = r.Choices[0].Readings, r.Choices[0].Grade
				}
				t.Log(d, v, wf, took, len(r.Choices), "readings", n, "grade", g)
			}
		}
	}
}

func must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}
