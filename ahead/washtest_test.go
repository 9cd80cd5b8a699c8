package ahead_test

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/wash"
)

// TestLastWashTest: the newest drop on a washed batch of a material, with what the book says of that wash: its minutes from the
// last print put in to its end, its way, its water, what was in it.
func TestLastWashTest(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	look := func() (ahead.WashTest, bool) {
		t.Helper()
		s, err := book.Fold("room", r.all)
		if err != nil || len(s.Unread()) > 0 {
			t.Fatal(err, s.Unread())
		}
		return ahead.LastWashTest(s, material.FB)
	}
	prints := func(m string, n int) book.Prints { return book.Prints{Material: m, Size: "8x10 in", Sheets: n} }
	one := prints("FB paper", 1)
	drop := func(batch, result string) *book.Tested {
		return &book.Tested{Batch: batch, Test: book.HypoDrop, Result: result}
	}
	r.at(0, 1, &book.Held{Batch: "a", Prints: prints("FB paper", 3)})
	r.at(0, 2, drop("a", "failed")) // never washed
	if got, ok := look(); ok {
		t.Fatalf("not washed: %+v", got)
	}
	r.at(0, 10, &book.Washed{Batch: "a", Step: book.WashStarted, Way: "running", Water: "12 °C"})
	r.at(0, 30, &book.Washed{Batch: "a", Step: book.WashMore, Put: &one})
	r.at(0, 70, &book.Washed{Batch: "a", Step: book.WashDone})
	r.at(0, 80, drop("a", "0.05 g/m2"))
	const sheet = 0.0516128
	got, ok := look()
	if !ok || got.Time != 40*time.Minute || got.Way != wash.Running || got.Water.Value != 12 || got.Found != wash.Measured(0.05) ||
		math.Abs(float64(got.Area)-4*sheet) > 1e-9 || got.Batch != "a" {
		t.Errorf("a print put in after 20 min: %+v, %v", got, ok)
	}
	r.at(0, 90, &book.Washed{Batch: "a", Step: book.WashStarted}) // and on, with nothing put in
	r.at(0, 95, drop("a", "passed"))
	if got, _ = look(); got.Time != 45*time.Minute {
		t.Errorf("washed on for 5 min: %+v", got)
	}
	r.at(0, 100, &book.Washed{Batch: "a", Step: book.WashDone})
	r.at(0, 105, drop("a", "passed"))
	if got, _ = look(); got.Time != 50*time.Minute || got.Found.Stain != wash.NoStain {
		t.Errorf("washed on for 10 min: %+v", got)
	}
	r.at(1, 0, &book.Washed{Batch: "b", Step: book.WashStarted, Put: &one})
	r.at(1, 60, &book.Washed{Batch: "b", Step: book.WashStopped, Changes: 6})
	r.at(1, 61, drop("b", "stain"))
	rc := prints("RC paper", 2)
	r.at(2, 0, &book.Washed{Batch: "c", Step: book.WashStarted, Put: &rc})
	r.at(2, 5, drop("c", "passed")) // RC paper tells nothing of FB
	if got, _ = look(); got.Batch != "b" || got.Changes != 6 || got.Found != wash.AnyStain() || got.Way != wash.NoWay {
		t.Fatalf("by changes: %+v", got)
	}
	asked := wash.Request{
		Load:    wash.Load{Material: material.FB, Area: 0.5, Water: 18, Aid: true},
		Setting: wash.Setting{Vessel: 4 * quantity.Litre, Flow: quantity.Litre}, Limit: wash.Limit{Standard: process.Exhibition},
	}
	want := wash.Test{Load: asked.Load, Setting: asked.Setting, Way: wash.StillChanges, Time: time.Hour, Found: wash.AnyStain()}
	want.Load.Area, want.Setting.Contact = got.Area, 10*time.Minute
	if diff := cmp.Diff(want, got.In(asked)); diff != "" {
		t.Errorf("as a test of a wash like that (-want +got):\n%s", diff)
	}
	r.at(3, 0, &book.Held{Batch: "d", Prints: rc})
	r.at(3, 1, &book.Washed{Batch: "d", Step: book.WashStarted, Put: &one})
	r.at(3, 30, drop("d", "passed")) // on which of them?
	if got, _ = look(); got.Batch != "b" {
		t.Errorf("of a mixed batch, on nobody knows which: %+v", got)
	}
	x := drop("d", "passed")
	x.Material = "FB paper"
	r.at(3, 31, x)
	if got, _ = look(); got.Batch != "d" || got.Time != 30*time.Minute {
		t.Errorf("of a mixed batch, on FB: %+v", got)
	}
}
