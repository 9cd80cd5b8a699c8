package quantity_test

import (
	"math"
	"math/big"
	"testing"

	"wetside/trade/quantity"
)

// The exact definitions. Sources: NIST Handbook 44, Appendix C (US gallon of 231 cubic inches, 4 quarts, 8 pints, 128
// fluid ounces; international inch of 25.4 mm); UK Weights and Measures Act 1985, Schedule 1 (gallon of 4.54609 dm³,
// 4 quarts, 8 pints, 160 fluid ounces).
func TestUnitsAreTheirDefinitions(t *testing.T) {
	inch := big.NewRat(254, 100) // cm
	usGallon := new(big.Rat).Mul(new(big.Rat).Mul(inch, inch), inch)
	usGallon.Mul(usGallon, big.NewRat(231, 1)) // mL
	gallon := big.NewRat(454609, 100)
	part := func(whole *big.Rat, n int64) *big.Rat { return new(big.Rat).Quo(whole, big.NewRat(n, 1)) }
	want := map[quantity.VolumeUnit]*big.Rat{
		quantity.UnitML:             big.NewRat(1, 1),
		quantity.UnitLitre:          big.NewRat(1000, 1),
		quantity.UnitUSOunce:        part(usGallon, 128),
		quantity.UnitUSPint:         part(usGallon, 8),
		quantity.UnitUSQuart:        part(usGallon, 4),
		quantity.UnitUSGallon:       usGallon,
		quantity.UnitImperialOunce:  part(gallon, 160),
		quantity.UnitImperialPint:   part(gallon, 8),
		quantity.UnitImperialQuart:  part(gallon, 4),
		quantity.UnitImperialGallon: gallon,
	}
	for _, u := range quantity.VolumeUnits() {
		if got := big.NewRat(int64(u.Volume()), int64(quantity.Millilitre)); got.Cmp(want[u]) != 0 {
			t.Errorf("%v: got %v mL, want %v", u, got, want[u])
		}
	}
	if got := len(want); got != len(quantity.VolumeUnits()) {
		t.Errorf("%d units defined, %d exist", got, len(quantity.VolumeUnits()))
	}
}

// Halves of 128ths of both ounces and thirds of a millilitre are whole numbers of the unit of Volume.
func TestVolumeHoldsMarksWithoutLoss(t *testing.T) {
	for _, c := range []struct {
		name string
		one  quantity.Volume
		into quantity.Volume
	}{
		{"128ths of a US ounce", quantity.USOunce, 128},
		{"128ths of an imperial ounce", quantity.ImperialOunce, 128},
		{"thirds of a millilitre", quantity.Millilitre, 3},
		{"thousandths of a millilitre", quantity.Millilitre, 1000},
	} {
		if c.one%c.into != 0 {
			t.Errorf("%s: %d is left over", c.name, c.one%c.into)
		}
	}
}

// Published figures of single amounts, to the figures given. Source of all: GNU units 2.22 with its data file,
// from the definitions above and the avoirdupois pound of 453.59237 g.
func TestPublishedFigures(t *testing.T) {
	volume := func(s string) float64 {
		v, err := quantity.ReadVolume(s, quantity.NoOunce)
		if err != nil {
			t.Error(err)
		}
		return v.ML()
	}
	mass := func(s string) float64 {
		m, err := quantity.ReadMass(s)
		if err != nil {
			t.Error(err)
		}
		return float64(m)
	}
	for _, c := range []struct {
		name      string
		got, want float64
		within    float64
	}{
		{"1 US fl oz, mL", volume("1 US fl oz"), 29.5735295625, 0},
		{"1 US qt, mL", volume("1 US qt"), 946.352946, 0},
		{"1 US pt, mL", volume("1 US pt"), 473.176473, 0},
		{"1 US gal, mL", volume("1 US gal"), 3785.411784, 0},
		{"1 imperial fl oz, mL", volume("1 imp fl oz"), 28.4130625, 0},
		{"1 imperial pt, mL", volume("1 imp pt"), 568.26125, 0},
		{"1 imperial qt, mL", volume("1 imp qt"), 1136.5225, 0},
		{"1 imperial gal, mL", volume("1 imp gal"), 4546.09, 0},
		{"imperial ounce in US ounces", volume("1 imp fl oz") / volume("1 US fl oz"), 0.9607599404, 5e-11},
		{"US gallon in imperial gallons", volume("1 US gal") / volume("1 imp gal"), 0.8326741846, 5e-11},
		{"250 mL in US ounces", volume("250 mL") / volume("1 US fl oz"), 8.4535, 5e-5},
		{"1 oz av, g", mass("1 oz av"), 28.349523125, 1e-14},
		{"1 grain, mg", mass("1 gr") * 1000, 64.79891, 1e-12},
		{"grains in an ounce", mass("1 oz av") / mass("1 gr"), 437.5, 1e-12},
		{"1 oz av per US quart, g/L", mass("1 oz av") / volume("1 US qt") * 1000, 29.95660683, 5e-9},
		{"1 lb per US gallon, g/L", mass("1 lb") / volume("1 US gal") * 1000, 119.8264273, 5e-8},
		{"1 grain per 32 US fl oz, g/L", mass("1 gr") / volume("32 US fl oz") * 1000, 0.06847224, 5e-9},
		// The Wellington Photographic Handbook, p. 130, prints the same as 1 g in 500 mL, 12 % less.
		{"20 gr in 20 imperial fl oz, g/L", mass("20 gr") / volume("20 imp fl oz") * 1000, 2.2806, 5e-5},
		{"200 gr in 80 imperial fl oz, g/L", mass("200 gr") / volume("80 imp fl oz") * 1000, 5.70, 5e-3},
		{"8x10 in, m²", float64(quantity.AreaOf(203.2, 254)), 0.0516128, 1e-16},
	} {
		if math.Abs(c.got-c.want) > c.within {
			t.Errorf("%s: got %.12g, want %.12g", c.name, c.got, c.want)
		}
	}
}

// A handbook's conversion table that equates 250 mL with 8 fl oz (31.25 mL an ounce) must not creep in.
func TestTheOunceIsNot31Millilitres(t *testing.T) {
	eight, _ := quantity.VolumeOf(quantity.Int(8), quantity.UnitUSOunce)
	if got := eight.ML(); math.Abs(got-250) < 10 {
		t.Errorf("8 US fl oz = %v mL", got)
	}
}

// Source: (F − 32)/1.8, as GNU units gives it to four decimals.
func TestFahrenheit(t *testing.T) {
	for f, want := range map[float64]float64{
		65: 18.3333, 68: 20, 70: 21.1111, 72: 22.2222, 75: 23.8889, 80: 26.6667, 90: 32.2222, 125: 51.6667,
	} {
		if got := float64(quantity.Fahrenheit(f)); math.Abs(got-want) > 5e-5 {
			t.Errorf("%v °F: got %v °C, want %v", f, got, want)
		}
	}
	for c, want := range map[quantity.Celsius]float64{18: 64.4, 20: 68, 24: 75.2, 27: 80.6, 38: 100.4, 52: 125.6} {
		if got := c.Fahrenheit(); math.Abs(got-want) > 1e-12 {
			t.Errorf("%v: got %v °F, want %v", c, got, want)
		}
	}
	got, err := quantity.ReadCelsiusDifference("18 °F")
	if got != 10 || err != nil { // no offset: a trap
		t.Errorf("a difference of 18 °F: got %v, %v, want 10 °C", got, err)
	}
}
