package bath_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"wetside/trade/bath"
	"wetside/trade/material"
)

// label is a rapid fixer's as many are: 2.5 m² of RC, 1 m² of FB or 16 rolls a litre.
func label() *bath.Label {
	return &bath.Label{material.RC: {Area: 2.5}, material.FB: {Area: 1}, material.Film: {Rolls: 16}}
}

// Two litres after 20 sheets RC and 10 FB of 8×10.
func ExampleLabelUsed() {
	used, _ := bath.LabelUsed(label(), 2,
		bath.Done{Of: material.RC, Area: 20 * area8x10}, bath.Done{Of: material.FB, Area: 10 * area8x10})
	left, _ := bath.LabelLeft(label(), 2, used.Result.Value, bath.Done{Of: material.FB, Area: area8x10})
	fmt.Printf("%.0f %% used, %.0f FB left\n", 100*used.Result.Value, left.Result.Value)
	// Output: 46 % used, 20 FB left
}

func TestLabelUsed(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		litres  float64
		done    []bath.Done
		want    float64
		unknown []material.Material
	}{
		{"nothing", 1, nil, 0, nil},
		{"all of one", 1, []bath.Done{{Of: material.RC, Area: 2.5}}, 1, nil},
		{"half of each", 2, []bath.Done{{Of: material.RC, Area: 2.5}, {Of: material.FB, Area: 1}}, 1, nil},
		{"the same twice", 2, []bath.Done{{Of: material.FB, Area: 0.5}, {Of: material.FB, Area: 0.5}}, 0.5, nil},
		{"rolls", 0.5, []bath.Done{{Of: material.Film, Rolls: 4, Area: 0.2}}, 0.5, nil},
		{"sheet film against rolls", 1, []bath.Done{{Of: material.Film, Area: 0.2}}, 0, []material.Material{material.Film}},
		{"over", 1, []bath.Done{{Of: material.FB, Area: 1.5}}, 1.5, nil},
		{"no litres", 0, []bath.Done{{Of: material.FB, Area: 1.5}}, 0, []material.Material{material.FB}},
		{"no material", 1, []bath.Done{{Area: 1}}, 0, []material.Material{material.None}},
	} {
		got, unknown := bath.LabelUsed(label(), c.litres, c.done...)
		if math.Abs(got.Result.Value-c.want) > 1e-12 || !slices.Equal(unknown, c.unknown) {
			t.Errorf("%s: %g, unknown %v; want %g, %v", c.name, got.Result.Value, unknown, c.want, c.unknown)
		}
		if parts := len(got.Puts) - 1; parts != len(c.done)-len(c.unknown) {
			t.Errorf("%s: the reckoning names %d parts", c.name, parts)
		}
	}
}

func TestLabelLeft(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name         string
		litres, used float64
		sheet        bath.Done
		want         float64
		ok           bool
	}{
		// 1 m² a litre is 19.375 sheets of 8×10.
		{"FB fresh", 1, 0, bath.Done{Of: material.FB, Area: area8x10}, 19, true},
		{"FB half used", 2, 0.5, bath.Done{Of: material.FB, Area: area8x10}, 19, true},
		{"an even count is not lost in rounding", 1, 0.9, bath.Done{Of: material.FB, Area: 0.02}, 5, true},
		{"spent", 1, 1.2, bath.Done{Of: material.FB, Area: area8x10}, 0, true},
		{"a roll", 0.5, 0.25, bath.Done{Of: material.Film, Rolls: 1}, 6, true},
		{"sheet of nothing", 1, 0, bath.Done{Of: material.FB}, 0, false},
		{"not said", 1, 0, bath.Done{Of: material.None, Area: 1}, 0, false},
	} {
		got, ok := bath.LabelLeft(label(), c.litres, c.used, c.sheet)
		if ok != c.ok || got.Result.Value != c.want {
			t.Errorf("%s: %g, %v; want %g, %v", c.name, got.Result.Value, ok, c.want, c.ok)
		}
	}
}
