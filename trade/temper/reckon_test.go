package temper_test

import (
	"math"
	"testing"

	"wetside/trade/reckoning"
	"wetside/trade/temper"
)

// TestReckoning opens every figure: a standard names its source, and the results are those of Result.
func TestReckoning(t *testing.T) {
	for _, p := range []temper.Problem{
		{Cold: 8, Hot: 45, Want: 20, Total: 2 * litre, Chemical: litre / 5, ChemicalAt: 18},
		{Cold: 8, Hot: 45, Want: 52, Total: litre, Kettle: true},
		{Cold: 26, Hot: 45, Want: 20, Total: litre, Ice: true},
		{Cold: 26, Hot: 45, Want: 20, Total: litre},
	} {
		r := solve(t, p)
		want := map[string]float64{
			"water": float64(r.Water), "at_marks": float64(r.AtMarks), "hot": r.Hot.ML(), "cold": r.Cold.ML(),
			"kettle": r.Kettle.ML(), "ice": float64(r.Ice), "nearest": float64(r.Nearest),
			"mass": density(t, p.Want) * p.Total.ML(),
		}
		seen := map[string]bool{}
		for _, k := range r.Reckoning {
			seen[k.Result.Name] = true
			if got := k.Result.Value; math.Abs(got-want[k.Result.Name]) > 1e-6 {
				t.Errorf("%s: %s is %v, the result has %v", k.Rule, k.Result.Name, got, want[k.Result.Name])
			}
			for _, f := range append(k.Puts, k.Result) {
				if (f.Origin == reckoning.Standard) != (f.Source != "") {
					t.Errorf("%s: %s has origin %v and source %q", k.Rule, f.Name, f.Origin, f.Source)
				}
			}
		}
		for name, v := range map[string]bool{
			"hot": r.Hot > 0, "cold": r.Cold > 0, "kettle": r.Kettle > 0, "ice": r.Ice > 0, "water": true,
			"nearest": r.Status == temper.OutOfReach,
		} {
			if v != seen[name] {
				t.Errorf("%v: %s reckoned: %v, want %v", r.Status, name, seen[name], v)
			}
		}
	}
}
