package plan_test

import (
	"testing"
	"time"

	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// Both answers stand side by side, and the evening that was asked about stays as it is.
func TestIf(t *testing.T) {
	t.Parallel()
	f, err := darkroom.Read([]byte(room("1+4", "exhibition", "one bath", "1 L")))
	if err != nil {
		t.Fatal(err)
	}
	nine, err := dilution.Read("1+9", dilution.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name   string
		change plan.Change
		// what a fresh fixer then does at the safe end; 35 as it is (see TestOutlookCases)
		safe, makings int
	}{
		{"nothing else", plan.Change{}, 35, 1},
		{"FB for RC", plan.Change{Material: material.FB}, 6, 2},
		{"two baths for one", plan.Change{Fixing: process.TwoBaths}, 38, 1},
		{"work prints", plan.Change{Standard: process.WorkPrint}, 57, 1},
		{"fixer 1+9", plan.Change{Role: process.Fixer, Dilution: darkroom.As[dilution.Dilution]{Value: nine, Text: "1+9"}}, 17, 1},
		{"2 L in the trays", plan.Change{Trays: darkroom.As[quantity.Volume]{Value: 2 * quantity.Litre, Text: "2 L"}}, 70, 1},
		{"thirty more sheets", plan.Change{More: 30}, 35, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			w, err := plan.If(t.Context(), plan.Request{File: f, Now: time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)}, c.change)
			if err != nil {
				t.Fatal(err)
			}
			for _, b := range w.Baths {
				if b.ID != "fixer" {
					continue
				}
				if b.LeftNow == nil || b.LeftThen == nil || b.LeftNow.P10 != 35 || abs(b.LeftThen.P10-c.safe) > 1 || b.MakingsThen != c.makings {
					t.Errorf("now %+v, then %+v, made %d times; want 35, %d, %d", b.LeftNow, b.LeftThen, b.MakingsThen, c.safe, c.makings)
				}
				return
			}
			t.Fatal("no fixer")
		})
	}
	if f.Session.ToMake[0].Material != material.RC || f.Session.ToMake[0].Sheets != 10 || f.Bench.Trays[2].Fill.Text != "1 L" {
		t.Errorf("the evening was changed: %+v", f.Session.ToMake[0])
	}
}
