package reckoning_test

import (
	"testing"

	"wetside/trade/reckoning"
)

// A figure opens on the rule and the figures that made it, and on nothing that is changed afterwards.
func TestFigureOpens(t *testing.T) {
	r := reckoning.Reckoning{
		Rule:   "silver_per_sheet",
		Puts:   []reckoning.Figure{{Name: "coating", Value: 1.5, Unit: reckoning.GPerM2, Origin: reckoning.FromMemory}},
		Result: reckoning.Figure{Name: "silver_per_sheet", Value: 0.0542, Unit: reckoning.G},
	}
	f := r.Figure()
	r.Rule, r.Result.Value = "another", 7
	if f.Value != 0.0542 || f.By == nil || f.By.Rule != "silver_per_sheet" || f.By.Result.Value != 0.0542 {
		t.Errorf("got %+v by %+v", f, f.By)
	}
	if f.By.Result.By != nil {
		t.Error("the result in the reckoning opens on itself")
	}
	if got := f.By.Puts[0]; got.Name != "coating" || got.Origin != reckoning.FromMemory {
		t.Errorf("put in: %+v", got)
	}
}
