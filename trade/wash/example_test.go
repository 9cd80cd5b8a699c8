package wash_test

import (
	"fmt"
	"testing"
	"time"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/wash"
)

// Ten 8×10 FB prints after a washing aid, to be hung: what a tray of 4 L and a hose of 2 L/min take.
func ExampleSolve() {
	a, err := wash.Solve(wash.Request{
		Load:    wash.Load{Material: material.FB, Area: 10 * 0.051613, Aid: true, Water: 18},
		Setting: wash.Setting{Vessel: 4 * quantity.Litre, Flow: 2 * quantity.Litre},
		Limit:   wash.Limit{Standard: process.Exhibition},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range a.Ways {
		fmt.Printf("%s: %.0f min, %d fillings, %.0f L, %.3f g/m² left\n", w.Way, w.Time.Minutes(), w.Changes,
			w.Water.ML()/1000, w.Left)
	}
	fmt.Println("least water:", a.Ways[a.Cheapest].Way)
	fmt.Println("least time:", a.Ways[a.Fastest].Way)
	// Output:
	// still_changes: 23 min, 4 fillings, 16 L, 0.008 g/m² left
	// long_changes: 22 min, 2 fillings, 8 L, 0.030 g/m² left
	// running: 19 min, 1 fillings, 42 L, 0.030 g/m² left
	// standing_tray: 19 min, 4 fillings, 53 L, 0.030 g/m² left
	// least water: long_changes
	// least time: standing_tray
}

// A print goes in 40 minutes after the others: all of them come out an hour after that one.
func ExampleTogether() {
	nine := time.Date(2026, time.December, 3, 21, 0, 0, 0, time.UTC)
	c, _ := wash.Together([]wash.Put{
		{At: nine, Material: material.FB},
		{At: nine.Add(40 * time.Minute), Material: material.FB},
	}, time.Hour)
	fmt.Println(c.Out.Format("15:04"), c.Restarts)
	// Output: 22:40 1
}

// A drop on the margin was tan where it should have been clean: this room's paper lets go more slowly.
func ExampleCalibrate() {
	own, err := wash.Calibrate(wash.Test{
		Load:    wash.Load{Material: material.FB, Area: 0.5, Water: 20},
		Setting: wash.Setting{Vessel: 4 * quantity.Litre, Flow: 2 * quantity.Litre},
		Way:     wash.Running, Time: 60 * time.Minute, Found: wash.Found{Stain: wash.ClearStain},
	})
	fmt.Printf("%.2f times the default, %.2f to %.2f, %v\n", own.Factor, own.Short, own.Long, err)
	// Output: 1.43 times the default, 1.01 to 1.65, <nil>
}

func BenchmarkSolve(b *testing.B) {
	r := tray(material.FB, process.Exhibition)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := wash.Solve(r); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCurve is a plot of 200 points with its band.
func BenchmarkCurve(b *testing.B) {
	r := tray(material.FB, process.Exhibition)
	for _, w := range solve(b, r).Ways {
		b.Run(w.Way.String(), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := wash.Curve(r, w, 90*time.Minute, 200); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
