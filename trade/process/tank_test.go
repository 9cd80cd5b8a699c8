package process_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

func TestCovers(t *testing.T) {
	covers := []quantity.Volume{ml(290), ml(500)}
	for reels, want := range map[int]float64{1: 290, 2: 500, 3: 0, 0: 0, -1: 0} {
		if got, ok := process.Covers(covers, reels); got != ml(want) || ok != (want > 0) {
			t.Errorf("%d reels: %v mL, %v, want %v", reels, got.ML(), ok, want)
		}
	}
	if _, ok := process.Covers([]quantity.Volume{0, ml(500)}, 1); ok {
		t.Error("a reel that nothing is said of is covered")
	}
	for rolls, want := range map[int][]int{0: nil, 1: {1}, 2: {2}, 3: {2, 1}, 4: {2, 2}, 5: {2, 2, 1}} {
		if got := process.Runs(covers, rolls); !slices.Equal(got, want) {
			t.Errorf("%d rolls: %v, want %v", rolls, got, want)
		}
	}
	if got := process.Runs(nil, 3); got != nil {
		t.Errorf("in a tank of no reels: %v", got)
	}
}

// TestLeast: where a label names none, 5 mL of concentrate or 100 mL of stock a roll, from memory and marked so.
func TestLeast(t *testing.T) {
	for kind, want := range map[process.Kind]float64{process.Concentrate: 5, process.Stock: 100} {
		if f := process.LeastPerRoll(kind); f.Value != want || f.Unit != reckoning.ML || f.Origin != reckoning.FromMemory {
			t.Errorf("kind %d: %+v, want %v mL from memory", kind, f, want)
		}
	}
}

// TestTwoRolls is common practice: two rolls at 1+50 in 500 mL with 10 mL of concentrate are 5 mL a roll, which is just
// the least where no label says more. A label that asks for 6 mL is told 600 mL, or one roll.
func TestTwoRolls(t *testing.T) {
	s := share(t, 10, 500, 2, process.LeastPerRoll(process.Concentrate))
	if !s.Enough || s.PerRoll != ml(5) || s.Lacks != 0 || s.Figure.Value != 5 || s.Total != 0 || s.Rolls != 0 {
		t.Errorf("5 mL a roll: %+v, want just enough", s)
	}
	label := reckoning.Figure{Name: "least_per_roll", Value: 6, Unit: reckoning.ML, Origin: reckoning.Label}
	s = share(t, 10, 500, 2, label)
	if s.Enough || s.Lacks != ml(1) || math.Abs(s.Total.ML()-600) > 1e-6 || s.Rolls != 1 || math.Abs(s.Strength-12./500) > 1e-12 {
		t.Errorf("against 6 mL: %+v, want 1 mL lacking, 600 mL, one roll, 12 in 500", s)
	}
	if put := s.Figure.By.Puts; put[len(put)-1].Origin != reckoning.Label {
		t.Errorf("the label's least is said to be from %v", put[len(put)-1].Origin)
	}
}

// TestTooThin is common practice: one roll in 300 mL at 1+100 has 3 mL, under most products' least: a warning before
// pouring. 505 mL would do, or 1+59.
func TestTooThin(t *testing.T) {
	third, err := quantity.NewRatio(1, 101)
	if err != nil {
		t.Fatal(err)
	}
	chemical, err := third.Of(ml(300))
	if err != nil {
		t.Fatal(err)
	}
	s, err := process.ShareOf(chemical, ml(300), 1, process.LeastPerRoll(process.Concentrate))
	if err != nil || s.Enough || math.Abs(s.PerRoll.ML()-2.97) > 0.01 || s.Rolls != 0 {
		t.Errorf("%+v, %v, want 2.97 mL a roll, too little, not even for one", s, err)
	}
	if math.Abs(s.Total.ML()-505) > 1e-3 || math.Abs(1/s.Strength-60) > 1e-9 {
		t.Errorf("helps: %v mL, 1 in %v; want 505 mL (5 × 101), 1 in 60", s.Total.ML(), 1/s.Strength)
	}
}

// TestShares: each help, followed, is just enough; and a working solution of nothing but chemical that still is not
// has no strength to go to.
func TestShares(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		total := ml(rapid.Float64Range(100, 3000).Draw(rt, "total"))
		chemical := quantity.Volume(rapid.Float64Range(0.002, 1).Draw(rt, "strength") * float64(total))
		rolls := rapid.IntRange(1, 12).Draw(rt, "rolls")
		least := reckoning.Figure{Value: rapid.Float64Range(0, 200).Draw(rt, "least")}
		s, err := process.ShareOf(chemical, total, rolls, least)
		if err != nil {
			rt.Fatal(err)
		}
		if enough := chemical.ML()/float64(rolls) >= least.Value-0.001; s.Enough != enough {
			rt.Errorf("%v mL for %d rolls of %v: %+v", chemical.ML(), rolls, least.Value, s)
		}
		if s.Enough {
			return
		}
		try := func(what string, chemical, total quantity.Volume, rolls int) {
			if again, err := process.ShareOf(chemical, total, rolls, least); err != nil || !again.Enough {
				rt.Errorf("%s %+v is not enough after all: %+v, %v", what, s, again, err)
			}
		}
		grown := quantity.Volume(float64(chemical) / float64(total) * float64(s.Total))
		try("more", grown+1000, s.Total+1000, rolls)
		if s.Strength > 0 {
			try("stronger", min(quantity.Volume(s.Strength*float64(total))+1000, total), total, rolls)
		} else if least.Value*float64(rolls) <= total.ML() {
			rt.Errorf("%v mL would hold %d rolls' chemical, and no strength is named: %+v", total.ML(), rolls, s)
		}
		if s.Rolls > 0 {
			try("fewer", chemical, total, s.Rolls)
		}
		if more := s.Rolls + 1; more < rolls {
			if again, _ := process.ShareOf(chemical, total, more, least); again.Enough {
				rt.Errorf("%d rolls would do, %+v", more, s)
			}
		}
	})
}

func TestShareRefused(t *testing.T) {
	least := process.LeastPerRoll(process.Concentrate)
	for _, c := range []struct {
		chemical, total float64
		rolls           int
		least           float64
	}{
		{0, 500, 1, 5},
		{-1, 500, 1, 5},
		{600, 500, 1, 5},
		{10, 500, 0, 5},
		{10, 500, 1, math.NaN()},
		{10, 500, 1, -1},
		{10, 500, 1, math.Inf(1)},
	} {
		least.Value = c.least
		if s, err := process.ShareOf(ml(c.chemical), ml(c.total), c.rolls, least); !errors.Is(err, quantity.ErrRange) || s.Figure.Name != "" {
			t.Errorf("%+v: %+v, %v, want ErrRange", c, s, err)
		}
	}
}

func share(t *testing.T, chemical, total float64, rolls int, least reckoning.Figure) process.Share {
	t.Helper()
	s, err := process.ShareOf(ml(chemical), ml(total), rolls, least)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func ExampleShareOf() {
	least := reckoning.Figure{Name: "least_per_roll", Value: 125, Unit: reckoning.ML, Origin: reckoning.Label}
	s, err := process.ShareOf(200*quantity.Millilitre, 400*quantity.Millilitre, 2, least)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("enough: %v; %.0f mL a roll; %.0f mL of working solution would do\n", s.Enough, s.PerRoll.ML(), s.Total.ML())
	// Output: enough: false; 100 mL a roll; 500 mL of working solution would do
}
