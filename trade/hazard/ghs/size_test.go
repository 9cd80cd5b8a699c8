package ghs_test

import (
	"testing"

	"wetside/trade/hazard/ghs"
	"wetside/trade/quantity"
)

// The table of CLP Annex I, 1.2.1, at both sides of each step; each pictogram covers a fifteenth of its
// label (the table itself rounds that down, by up to 1.2 %), and 1 cm².
func TestLabelSizes(t *testing.T) {
	for _, c := range []struct{ ml, wide, side, wished float64 }{
		{0, 74, 10, 16},
		{3000, 74, 10, 16},
		{3001, 105, 23, 23},
		{50_000, 105, 23, 23},
		{50_001, 148, 32, 32},
		{500_000, 148, 32, 32},
		{500_001, 210, 46, 46},
	} {
		v, err := quantity.VolumeOfML(c.ml)
		if err != nil {
			t.Fatal(err)
		}
		got := ghs.SizeFor(v)
		if got.Wide != c.wide || got.Side != c.side || got.Wished != c.wished || got.Firm != (c.ml > 3000) {
			t.Errorf("%g mL: %+v, want %g wide, side %g, wished %g", c.ml, got, c.wide, c.side, c.wished)
		}
		if got.Wished*got.Wished < got.Wide*got.High/15*0.985 || got.Side*got.Side < 100 {
			t.Errorf("%g mL: a pictogram of %g mm covers less than a fifteenth of %g × %g", c.ml, got.Wished, got.Wide, got.High)
		}
	}
}
