package quantity_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"wetside/trade/quantity"
)

// A reading is a text and what it must come to: a value, or the reason and place of the refusal.
type reading[T comparable] struct {
	text string
	want T
	why  quantity.Why
	at   int
	near string
}

// check reads every text and compares, whole.
func check[T comparable](t *testing.T, read func(string) (T, error), readings []reading[T]) {
	t.Helper()
	for _, c := range readings {
		got, err := read(c.text)
		if got != c.want {
			t.Errorf("%q: got %v, want %v (error %v)", c.text, got, c.want, err)
		}
		if c.why == "" {
			if err != nil {
				t.Errorf("%q: %v", c.text, err)
			}
			continue
		}
		var re *quantity.ReadError
		if !errors.As(err, &re) {
			t.Errorf("%q: got error %v, want %s", c.text, err, c.why)
			continue
		}
		if re.Why != c.why || re.At != c.at || re.Near != c.near {
			t.Errorf("%q: got %s at %d near %q, want %s at %d near %q",
				c.text, re.Why, re.At, re.Near, c.why, c.at, c.near)
		}
	}
}

func good[T comparable](text string, want T) reading[T] { return reading[T]{text: text, want: want} }

func bad[T comparable](text string, why quantity.Why, at int) reading[T] {
	return reading[T]{text: text, why: why, at: at}
}

func slipped[T comparable](text string, at int, near string) reading[T] {
	return reading[T]{text: text, why: quantity.WhyUnknownUnit, at: at, near: near}
}

func ratio(num, den int64) quantity.Ratio {
	r, err := quantity.NewRatio(num, den)
	if err != nil {
		panic(err) // a mistake in the test
	}
	return r
}

func TestReadRatio(t *testing.T) {
	type r = quantity.Ratio
	check(t, quantity.ReadRatio, []reading[r]{
		good("0", r{}),
		good("10", ratio(10, 1)),
		good("007", ratio(7, 1)),
		good(" 7 ", ratio(7, 1)),
		good("\u00a07\u2009", ratio(7, 1)),
		good("0.125", ratio(1, 8)),
		good("0,125", ratio(1, 8)),
		good("0,5", ratio(1, 2)),
		good(",5", ratio(1, 2)),
		good(".5", ratio(1, 2)),
		good("1.000", ratio(1, 1)),
		good("1,5", ratio(3, 2)),
		good("1,25", ratio(5, 4)),
		good("1,0000", ratio(1, 1)),
		good("1000,125", ratio(8001, 8)),
		good("½", ratio(1, 2)),
		good("¼", ratio(1, 4)),
		good("¾", ratio(3, 4)),
		good("⅓", ratio(1, 3)),
		good("⅔", ratio(2, 3)),
		good("⅛", ratio(1, 8)),
		good("⅜", ratio(3, 8)),
		good("⅝", ratio(5, 8)),
		good("⅞", ratio(7, 8)),
		good("⅕", ratio(1, 5)),
		good("⅖", ratio(2, 5)),
		good("⅗", ratio(3, 5)),
		good("⅘", ratio(4, 5)),
		good("⅙", ratio(1, 6)),
		good("⅚", ratio(5, 6)),
		good("⅐", ratio(1, 7)),
		good("⅑", ratio(1, 9)),
		good("⅒", ratio(1, 10)),
		good("4½", ratio(9, 2)),
		good("4 ½", ratio(9, 2)),
		good("4-½", ratio(9, 2)),
		good("1/2", ratio(1, 2)),
		good("1⁄2", ratio(1, 2)),
		good("1∕2", ratio(1, 2)),
		good("4/2", ratio(2, 1)),
		good("1 1/2", ratio(3, 2)),
		good("1-1/2", ratio(3, 2)),
		good("1\u00a01/2", ratio(3, 2)),
		good("2 125/128", ratio(381, 128)),
		good("9223372036854775807", ratio(math.MaxInt64, 1)),

		bad[r]("", quantity.WhyEmpty, 0),
		bad[r](" \t\u00a0", quantity.WhyEmpty, 0),
		bad[r]("ten", quantity.WhyNoNumber, 0),
		bad[r](".", quantity.WhyNoNumber, 0),
		bad[r]("/2", quantity.WhyNoNumber, 0),
		bad[r]("+1", quantity.WhyNoNumber, 0),
		bad[r]("NaN", quantity.WhyNoNumber, 0),
		bad[r]("Inf", quantity.WhyNoNumber, 0),
		bad[r]("١", quantity.WhyNoNumber, 0), // an Arabic digit
		bad[r]("-1", quantity.WhyNegative, 0),
		bad[r](" −1", quantity.WhyNegative, 1),
		bad[r]("–1", quantity.WhyNegative, 0),
		bad[r]("- 1", quantity.WhyNegative, 0),
		bad[r]("-½", quantity.WhyNegative, 0),
		bad[r]("-.5", quantity.WhyNegative, 0),
		bad[r]("1/0", quantity.WhyNoFraction, 0),
		bad[r]("0/0", quantity.WhyNoFraction, 0),
		bad[r]("2 1/0", quantity.WhyNoFraction, 2),
		bad[r]("1 3/2", quantity.WhyNoFraction, 2),
		bad[r]("1 2/2", quantity.WhyNoFraction, 2),
		bad[r]("1-3/2", quantity.WhyTrailing, 1),
		bad[r]("0-½", quantity.WhyTrailing, 1),
		bad[r]("1,000", quantity.WhyGrouped, 0),
		bad[r]("12,500", quantity.WhyGrouped, 0),
		bad[r]("1,000,000", quantity.WhyGrouped, 0),
		bad[r]("1,000.5", quantity.WhyGrouped, 0),
		bad[r]("1.000.000", quantity.WhyGrouped, 0),
		bad[r]("1.000,5", quantity.WhyGrouped, 0),
		bad[r]("1 000", quantity.WhyGrouped, 0),
		bad[r]("1\u202f000", quantity.WhyGrouped, 0),
		bad[r]("1'000", quantity.WhyGrouped, 0),
		bad[r]("1e3", quantity.WhyTrailing, 1),
		bad[r]("0x10", quantity.WhyTrailing, 1),
		bad[r]("1_000", quantity.WhyTrailing, 1),
		bad[r]("1.", quantity.WhyTrailing, 1),
		bad[r]("1..5", quantity.WhyTrailing, 1),
		bad[r]("1.5 1/2", quantity.WhyTrailing, 4),
		bad[r]("½½", quantity.WhyTrailing, 2),
		bad[r]("1/2/3", quantity.WhyTrailing, 3),
		bad[r]("1 L", quantity.WhyTrailing, 2),
		bad[r]("9223372036854775808", quantity.WhyTooLong, 0),
		bad[r]("1/9223372036854775808", quantity.WhyTooLong, 0),
		bad[r]("9223372036854775807 ½", quantity.WhyTooLong, 0),
		bad[r]("0.1234567890123456789", quantity.WhyTooLong, 0),
		bad[r](strings.Repeat("1", 41), quantity.WhyTooLong, 0),
		bad[r](strings.Repeat("1", 201), quantity.WhyTooLong, 0),
		bad[r]("1\xff", quantity.WhyNotText, 0),
	})
}

func TestReadVolume(t *testing.T) {
	type v = quantity.Volume
	const ml, l, us, imp = quantity.Millilitre, quantity.Litre, quantity.USOunce, quantity.ImperialOunce
	none := func(s string) (v, error) { return quantity.ReadVolume(s, quantity.NoOunce) }
	check(t, none, []reading[v]{
		good("0 mL", v(0)),
		good("100 mL", 100*ml),
		good("100ml", 100*ml),
		good("100 ML", 100*ml),
		good("100\u00a0mL", 100*ml),
		good("100\u2009mL", 100*ml),
		good("100 mls", 100*ml),
		good("100 ml.", 100*ml),
		good("100 cc", 100*ml),
		good("100 c.c.", 100*ml),
		good("100 cm³", 100*ml),
		good("100 cm3", 100*ml),
		good("100 millilitres", 100*ml),
		good("100 milliliters", 100*ml),
		good("50 cl", 500*ml),
		good("5 dl", 500*ml),
		good("1 l", l),
		good("1L", l),
		good("1 litre", l),
		good("2 liters", 2*l),
		good("1,5 L", 1500*ml),
		good("1.000 L", l), // as a label prints it
		good("½ litre", 500*ml),
		good("1 1/2 L", 1500*ml),
		good("1/3 mL", ml/3),
		good("1 US fl oz", us),
		good("1 U.S. fl. oz.", us),
		good("1 us fl.oz", us),
		good("1/2 US oz", us/2),
		good("2½ US fluid ounces", 5*us/2),
		good("1 US pt", 16*us),
		good("1 US quart", 32*us),
		good("1 US gal", 128*us),
		good("1 imp fl oz", imp),
		good("1 imp. fl. oz.", imp),
		good("1 imperial ounce", imp),
		good("1 UK pint", 20*imp),
		good("1 U.K. qt", 40*imp),
		good("1 Imperial gallon", 160*imp),
		good("100000 L", quantity.MaxVolume),
		good("1/7 mL", v(877714286)), // 877714285.71…: to the nearest unit
		good("0.0000000001 mL", v(1)),

		bad[v]("", quantity.WhyEmpty, 0),
		bad[v]("mL", quantity.WhyNoNumber, 0),
		bad[v]("100", quantity.WhyNoUnit, 3),
		bad[v]("100 ", quantity.WhyNoUnit, 4),
		bad[v]("-5 mL", quantity.WhyNegative, 0),
		bad[v]("1 fl oz", quantity.WhyWhichOunce, 2),
		bad[v]("1 oz", quantity.WhyWhichOunce, 2),
		bad[v]("1 pint", quantity.WhyWhichOunce, 2),
		bad[v]("1 qt", quantity.WhyWhichOunce, 2),
		bad[v]("1 gal", quantity.WhyWhichOunce, 2),
		bad[v]("100 g", quantity.WhyIsMass, 4),
		bad[v]("5 oz av", quantity.WhyIsMass, 2),
		bad[v]("5 US lb", quantity.WhyIsMass, 5),
		bad[v]("1,000 mL", quantity.WhyGrouped, 0),
		bad[v]("1 000 mL", quantity.WhyGrouped, 0),
		bad[v]("1.000 mL", quantity.WhyGrouped, 0),
		bad[v]("1.250 mL", quantity.WhyGrouped, 0),
		bad[v]("1e3 mL", quantity.WhyUnknownUnit, 1),
		bad[v]("0x10 mL", quantity.WhyUnknownUnit, 1),
		bad[v]("1_000 mL", quantity.WhyUnknownUnit, 1),
		bad[v]("1 US mL", quantity.WhyUnknownUnit, 2),
		bad[v]("1 mL foo", quantity.WhyTrailing, 5),
		bad[v]("1 mL 2", quantity.WhyTrailing, 5),
		bad[v]("1 L 500 mL", quantity.WhyTrailing, 4),
		bad[v]("100001 L", quantity.WhyTooLarge, 0),
		bad[v]("9000000000000000000 gal", quantity.WhyWhichOunce, 20),
		bad[v]("9000000000000000000 L", quantity.WhyTooLarge, 0),
		bad[v]("0.00000000001 mL", quantity.WhyTooSmall, 0),
		bad[v]("1 mLл", quantity.WhyUnknownUnit, 2),
		slipped[v]("10 litter", 3, "liter"),
		slipped[v]("10 lites", 3, "litres"),
		slipped[v]("10 lm", 3, "ml"),
		slipped[v]("10 US galon", 6, "gallon"),
		slipped[v]("10 milliter", 3, "milliliter"),
		slipped[v]("10 fl zo", 3, "fl oz"),
		slipped[v]("10 qaurts", 3, "quarts"),
		slipped[v]("10 barrels", 3, ""),
		slipped[v]("10 xy", 3, ""),
		slipped[v]("10 %", 3, ""),
	})
	check(t, func(s string) (v, error) { return quantity.ReadVolume(s, quantity.OunceUS) }, []reading[v]{
		good("1/2 fl oz", us/2),
		good("1 oz", us),
		good("8 ozs", 8*us),
		good("1 quart", 32*us),
		good("1 gal", 128*us),
		good("1 imp gal", 160*imp), // the word rules
		good("1 mL", ml),
		bad[v]("1 oz av", quantity.WhyIsMass, 2),
	})
	check(t, func(s string) (v, error) { return quantity.ReadVolume(s, quantity.OunceImperial) }, []reading[v]{
		good("1 fl oz", imp),
		good("1 pint", 20*imp),
		good("1 gallon", 160*imp),
		good("1 US gallon", 128*us),
		good("1 L", l),
	})
}

func TestReadVolumeUnit(t *testing.T) {
	type u = quantity.VolumeUnit
	check(t, func(s string) (u, error) { return quantity.ReadVolumeUnit(s, quantity.NoOunce) }, []reading[u]{
		good("mL", quantity.UnitML),
		good("cc", quantity.UnitML),
		good("L", quantity.UnitLitre),
		good("US fl oz", quantity.UnitUSOunce),
		good("imp fl oz", quantity.UnitImperialOunce),
		good("US pt", quantity.UnitUSPint),
		good("UK pint", quantity.UnitImperialPint),
		bad[u]("fl oz", quantity.WhyWhichOunce, 0),
		bad[u]("g", quantity.WhyIsMass, 0),
		bad[u]("mL foo", quantity.WhyTrailing, 3),
		slipped[u]("cl", 0, "mL"),
		slipped[u]("m l", 0, ""),
	})
	check(t, func(s string) (u, error) { return quantity.ReadVolumeUnit(s, quantity.OunceImperial) }, []reading[u]{
		good("fl oz", quantity.UnitImperialOunce),
		good("qt", quantity.UnitImperialQuart),
		good("mL", quantity.UnitML),
	})
	for _, unit := range quantity.VolumeUnits() {
		if got, err := quantity.ReadVolumeUnit(unit.String(), quantity.NoOunce); got != unit || err != nil {
			t.Errorf("%v: read back as %v, %v", unit, got, err)
		}
	}
}

func TestReadWindow(t *testing.T) {
	type w = quantity.Window
	const ml, l, us = quantity.Millilitre, quantity.Litre, quantity.USOunce
	read := func(s string) (w, error) { return quantity.ReadWindow(s, quantity.OunceUS) }
	check(t, read, []reading[w]{
		good("900 mL to 1 L", w{900 * ml, l, l}),
		good("900-1000 mL", w{900 * ml, l, l}),
		good("900–1000 mL", w{900 * ml, l, l}),
		good("900—1000 mL", w{900 * ml, l, l}),
		good("900 − 1000 mL", w{900 * ml, l, l}),
		good("900mL-1L", w{900 * ml, l, l}),
		good("1.4 to 1.6 L", w{1400 * ml, 1600 * ml, 1600 * ml}),
		good("1.4 L TO 1.6 L", w{1400 * ml, 1600 * ml, 1600 * ml}),
		good("1 1/2 to 2 L", w{1500 * ml, 2 * l, 2 * l}),
		good("1½–2 L", w{1500 * ml, 2 * l, 2 * l}),
		good("1-1/2 to 2 L", w{1500 * ml, 2 * l, 2 * l}),
		good("32 to 36 fl oz", w{32 * us, 36 * us, 36 * us}),
		good("1 qt to 1.5 L", w{32 * us, 1500 * ml, 1500 * ml}),
		good("1 L to 1 L", w{l, l, l}),
		good("1 L", w{900 * ml, 1100 * ml, l}),
		good("1-1/2 L", w{1350 * ml, 1650 * ml, 1500 * ml}),

		bad[w]("", quantity.WhyEmpty, 0),
		bad[w]("1", quantity.WhyNoUnit, 1),
		bad[w]("900 to 1000", quantity.WhyNoUnit, 11),
		bad[w]("900 mL to 1", quantity.WhyNoUnit, 11), // one what?
		bad[w]("900 mL to", quantity.WhyNoNumber, 9),
		bad[w]("900 mL -", quantity.WhyNoNumber, 8),
		bad[w]("to 1 L", quantity.WhyNoNumber, 0),
		bad[w]("1 L to 900 mL", quantity.WhyReversed, 0),
		bad[w]("1000-900 mL", quantity.WhyReversed, 0),
		bad[w]("0 L", quantity.WhyNotPositive, 0),
		bad[w]("0 to 1 L", quantity.WhyNotPositive, 0),
		bad[w]("-1 L", quantity.WhyNegative, 0),
		bad[w]("1 to 2 to 3 L", quantity.WhyUnknownUnit, 7),
		bad[w]("1 to 2 L to 3 L", quantity.WhyTrailing, 9),
		bad[w]("1 L too", quantity.WhyTrailing, 4),
		bad[w]("100000 L", quantity.WhyTooLarge, 0),
		bad[w]("1 to 2 g", quantity.WhyIsMass, 7),
		bad[w]("0.00000000000001 to 1 L", quantity.WhyTooSmall, 0),
		bad[w]("1,000 to 1,100 mL", quantity.WhyGrouped, 0),
	})
}

func TestReadMass(t *testing.T) {
	type m = quantity.Mass
	check(t, quantity.ReadMass, []reading[m]{
		good("52.5 g", m(52.5)),
		good("0 g", m(0)),
		good("1 kg", m(1000)),
		good("500 mg", m(0.5)),
		good("1/2 g", m(0.5)),
		good("437.5 gr", m(28.349523125)),
		good("1 grain", m(0.06479891)),
		good("1 oz av", m(28.349523125)),
		good("1 oz. av.", m(28.349523125)),
		good("1 oz avoirdupois", m(28.349523125)),
		good("1 lb", m(453.59237)),
		good("2 lbs", m(907.18474)),

		bad[m]("1 oz", quantity.WhyIsVolume, 2).meant("oz av"),
		bad[m]("1 US fl oz", quantity.WhyIsVolume, 2).meant("oz av"),
		bad[m]("100 mL", quantity.WhyIsVolume, 4),
		bad[m]("100", quantity.WhyNoUnit, 3),
		bad[m]("1 stone", quantity.WhyUnknownUnit, 2),
		bad[m]("1 gran", quantity.WhyUnknownUnit, 2).meant("gram"),
		bad[m]("-1 g", quantity.WhyNegative, 0),
		bad[m]("10001 kg", quantity.WhyTooLarge, 0),
		bad[m]("0.0000000001 g", quantity.WhyTooSmall, 0),
		bad[m]("1 kg 200 g", quantity.WhyTrailing, 5),
		bad[m]("100,000 g", quantity.WhyGrouped, 0),
	})
}

func (r reading[T]) meant(near string) reading[T] {
	r.near = near
	return r
}

func TestReadCelsius(t *testing.T) {
	type c = quantity.Celsius
	check(t, quantity.ReadCelsius, []reading[c]{
		good("60 C", c(60)),
		good("60 °C", c(60)),
		good("60°C", c(60)),
		good("60 ° C", c(60)),
		good("60 ℃", c(60)),
		good("60 ºC", c(60)), // the ordinal sign of a keyboard
		good("12C", c(12)),
		good("12c", c(12)),
		good("20 deg C", c(20)),
		good("20 degrees Celsius", c(20)),
		good("20,5 °C", c(20.5)),
		good("20½ °C", c(20.5)),
		good("140 F", c(60)),
		good("68 °F", c(20)),
		good("68℉", c(20)),
		good("68 degrees Fahrenheit", c(20)),
		good("-5 °C", c(-5)),
		good("−5 °C", c(-5)),
		good("- 0 °C", c(0)),
		good("-40 F", c(-40)),
		good("-273.15 °C", c(-273.15)),
		good("1000 °C", c(1000)),

		bad[c]("20", quantity.WhyNoUnit, 2),
		bad[c]("20°", quantity.WhyNoUnit, 2),
		bad[c]("20 K", quantity.WhyUnknownUnit, 3),
		bad[c]("20 celcius", quantity.WhyUnknownUnit, 3).meant("celsius"),
		bad[c]("-274 °C", quantity.WhyTooSmall, 0),
		bad[c]("1001 °C", quantity.WhyTooLarge, 0),
		bad[c]("warm", quantity.WhyNoNumber, 0),
		bad[c]("20 °C ± 1", quantity.WhyTrailing, 7),
		bad[c]("--5 °C", quantity.WhyNoNumber, 0),
	})
	check(t, quantity.ReadCelsiusDifference, []reading[c]{
		good("2 °C", c(2)),
		good("18 °F", c(10)),
		good("-0.5 °C", c(-0.5)),
		bad[c]("2", quantity.WhyNoUnit, 1),
		bad[c]("1001 °C", quantity.WhyTooLarge, 0),
	})
}

func TestReadLengthAreaSize(t *testing.T) {
	type l = quantity.Length
	check(t, quantity.ReadLength, []reading[l]{
		good("15 mm", l(15)),
		good("8 cm", l(80)),
		good("1 m", l(1000)),
		good("8 in", l(203.2)),
		good("8 in.", l(203.2)),
		good("8 inches", l(203.2)),
		good(`8"`, l(203.2)),
		good("8″", l(203.2)),
		good("8''", l(203.2)),
		good("8½ in", l(215.9)),
		good("1 ft", l(304.8)),
		bad[l]("0 mm", quantity.WhyNotPositive, 0),
		bad[l]("-1 mm", quantity.WhyNegative, 0),
		bad[l]("15", quantity.WhyNoUnit, 2),
		bad[l]("15 yd", quantity.WhyUnknownUnit, 3),
		bad[l]("20000 m", quantity.WhyTooLarge, 0),
		bad[l]("0.0000000001 mm", quantity.WhyTooSmall, 0),
		bad[l]("15 mm deep", quantity.WhyTrailing, 6),
	})
	type a = quantity.Area
	check(t, quantity.ReadArea, []reading[a]{
		good("1 m2", a(1)),
		good("1 m²", a(1)),
		good("1 sq. m", a(1)),
		good("100 cm2", a(0.01)),
		good("80 sq in", a(0.0516128)),
		good("1 ft²", a(0.09290304)),
		bad[a]("1 m", quantity.WhyUnknownUnit, 2),
		bad[a]("0 m2", quantity.WhyNotPositive, 0),
		good("1 square metre", a(1)),
		slipped[a]("1 square metr", 2, "square metre"),
	})
	type size [2]l
	check(t, func(s string) (size, error) { w, h, err := quantity.ReadSize(s); return size{w, h}, err },
		[]reading[size]{
			good("8x10 in", size{203.2, 254}),
			good(`8×10"`, size{203.2, 254}),
			good(`8" x 10"`, size{203.2, 254}),
			good("8 X 10 inches", size{203.2, 254}),
			good("8*10 in", size{203.2, 254}),
			good("8 by 10 in", size{203.2, 254}),
			good("8½x11 in", size{215.9, 279.4}),
			good("8 1/2 x 11 in", size{215.9, 279.4}),
			good("24x30 cm", size{240, 300}),
			good("38 x 30 cm", size{380, 300}),
			good("24 cm × 300 mm", size{240, 300}),
			bad[size]("8x10", quantity.WhyNoUnit, 4),
			bad[size]("8 in x 10", quantity.WhyNoUnit, 9),
			bad[size]("8 in", quantity.WhyNoNumber, 4),
			bad[size]("8", quantity.WhyNoUnit, 1),
			bad[size]("x10 in", quantity.WhyNoNumber, 0),
			bad[size]("8x in", quantity.WhyNoNumber, 3),
			bad[size]("0x10 in", quantity.WhyNotPositive, 0),
			bad[size]("8x0 in", quantity.WhyNotPositive, 2),
			bad[size]("8x10x12 in", quantity.WhyUnknownUnit, 4),
			bad[size]("-8x10 in", quantity.WhyNegative, 0),
			bad[size]("8x99999 m", quantity.WhyTooLarge, 2),
		})
}

func TestReadDensity(t *testing.T) {
	type d = quantity.Density
	check(t, quantity.ReadDensity, []reading[d]{
		good("1.10 g/mL", d(1.1)),
		good("1.1 kg/L", d(1.1)),
		good("1.1 g / cm³", d(1.1)),
		good("1100 g per litre", d(1.1)),
		good("1,10 g/ml", d(1.1)),
		bad[d]("1.1", quantity.WhyNoUnit, 3),
		bad[d]("1.1 g", quantity.WhyNoUnit, 5),
		bad[d]("1.1 g/", quantity.WhyNoUnit, 6),
		bad[d]("1.1 g/h", quantity.WhyUnknownUnit, 6),
		bad[d]("1.1 mL/g", quantity.WhyIsVolume, 4),
		bad[d]("0 g/mL", quantity.WhyNotPositive, 0),
		bad[d]("-1 g/mL", quantity.WhyNegative, 0),
		bad[d]("110 g/mL", quantity.WhyTooLarge, 0),
		bad[d]("1 g/fl oz", quantity.WhyWhichOunce, 4),
	})
}

func TestReadShare(t *testing.T) {
	check(t, quantity.ReadShare, []reading[float64]{
		good("2 %", 0.02),
		good("10%", 0.1),
		good("15\u202f%", 0.15),
		good("±15 %", 0.15),
		good("6.4 %", 0.064),
		good("1/2 %", 0.005),
		good("0 %", 0.0),
		good("10 percent", 0.1),
		good("10 per cent", 0.1),
		bad[float64]("0.1", quantity.WhyNoUnit, 3),
		bad[float64]("-2 %", quantity.WhyNegative, 0),
		bad[float64]("2 %%", quantity.WhyTrailing, 3),
		bad[float64]("%", quantity.WhyNoNumber, 0),
		bad[float64]("2 ‰", quantity.WhyUnknownUnit, 2),
		bad[float64]("10000000000 %", quantity.WhyTooLarge, 0),
	})
	type ends [2]float64
	check(t, func(s string) (ends, error) { a, b, err := quantity.ReadShares(s); return ends{a, b}, err }, []reading[ends]{
		good("1 to 2 %", ends{0.01, 0.02}),
		good("1-2 %", ends{0.01, 0.02}),
		good("1 % – 2 %", ends{0.01, 0.02}),
		good("5 %", ends{0.05, 0.05}),
		bad[ends]("2 to 1 %", quantity.WhyReversed, 0),
		bad[ends]("1 % to 2", quantity.WhyNoUnit, 8),
		bad[ends]("1 to 2", quantity.WhyNoUnit, 6),
		bad[ends]("1", quantity.WhyNoUnit, 1),
		bad[ends]("1 to %", quantity.WhyNoNumber, 5),
	})
}

func TestReadDuration(t *testing.T) {
	type d = time.Duration
	const s, m, h = time.Second, time.Minute, time.Hour
	check(t, quantity.ReadDuration, []reading[d]{
		good("90 s", 90*s),
		good("90s", 90*s),
		good("90 sec.", 90*s),
		good("0 s", 0*s),
		good("1 min 30 s", 90*s),
		good("1m30s", 90*s),
		good("1:30", 90*s),
		good("0:05", 5*s),
		good("1:30:00", 90*m),
		good("9 min", 9*m),
		good("9 min 45 s", 9*m+45*s),
		good("1½ min", 90*s),
		good("1,5 min", 90*s),
		good("3 h", 3*h),
		good("1 h 30 min", 90*m),
		good("1 hour 30 minutes 5 seconds", 90*m+5*s),
		good("0.1 s", s/10),
		good("1/3 s", d(333333333)),

		bad[d]("90", quantity.WhyNoUnit, 2),
		bad[d]("1 min 30", quantity.WhyNoUnit, 8),
		bad[d]("30 s 1 min", quantity.WhyTrailing, 5),
		bad[d]("1 min 2 min", quantity.WhyTrailing, 6),
		bad[d]("1:3", quantity.WhyNoNumber, 2),
		bad[d]("1:75", quantity.WhyNoNumber, 2),
		bad[d]("1:", quantity.WhyNoNumber, 2),
		bad[d]("1:00:00:00", quantity.WhyNoNumber, 8),
		bad[d]("1:30 min", quantity.WhyTrailing, 5),
		bad[d]("9 minuts", quantity.WhyUnknownUnit, 2).meant("minute"),
		bad[d]("1 week", quantity.WhyUnknownUnit, 2),
		bad[d]("-1 s", quantity.WhyNegative, 0),
		bad[d]("10001 h", quantity.WhyTooLarge, 0),
		bad[d]("10000 h 1 s", quantity.WhyTooLarge, 8),
		bad[d]("99999999:00", quantity.WhyTooLarge, 0),
		bad[d]("9999999:00:00", quantity.WhyTooLarge, 0),
		bad[d]("99999999999999999999:00", quantity.WhyTooLarge, 0),
	})
}

func TestReadPeriod(t *testing.T) {
	type p = quantity.Period
	check(t, quantity.ReadPeriod, []reading[p]{
		good("24 months", p{Months: 24}),
		good("1 month", p{Months: 1}),
		good("2 years", p{Months: 24}),
		good("1½ years", p{Months: 18}),
		good("4 weeks", p{Days: 28}),
		good("1 week", p{Days: 7}),
		good("10 days", p{Days: 10}),
		good("24 h", p{Hours: 24}),
		good("24 hrs", p{Hours: 24}),
		bad[p]("24", quantity.WhyNoUnit, 2),
		bad[p]("0 days", quantity.WhyNotPositive, 0),
		bad[p]("-1 day", quantity.WhyNegative, 0),
		bad[p]("1/2 month", quantity.WhyNotWhole, 0),
		bad[p]("1.5 weeks", quantity.WhyNotWhole, 0),
		bad[p]("2 moths", quantity.WhyUnknownUnit, 2).meant("mths"),
		bad[p]("6 mins", quantity.WhyUnknownUnit, 2),
		bad[p]("100001 days", quantity.WhyTooLarge, 0),
		bad[p]("1 year 6 months", quantity.WhyTrailing, 7),
	})
}

func TestPeriodFrom(t *testing.T) {
	utc := func(y int, m time.Month, d, h int) time.Time { return time.Date(y, m, d, h, 0, 0, 0, time.UTC) }
	for _, c := range []struct {
		name string
		p    quantity.Period
		from time.Time
		want time.Time
	}{
		{"six months", quantity.Period{Months: 6}, utc(2026, 10, 14, 18), utc(2027, 4, 14, 18)},
		{"a month from the 31st", quantity.Period{Months: 1}, utc(2026, 1, 31, 0), utc(2026, 2, 28, 0)},
		{"a month from the 31st, leap year", quantity.Period{Months: 1}, utc(2028, 1, 31, 0), utc(2028, 2, 29, 0)},
		{"a year from a leap day", quantity.Period{Months: 12}, utc(2028, 2, 29, 0), utc(2029, 2, 28, 0)},
		{"four weeks", quantity.Period{Days: 28}, utc(2026, 2, 10, 9), utc(2026, 3, 10, 9)},
		{"a day's hours", quantity.Period{Hours: 24}, utc(2026, 12, 31, 9), utc(2027, 1, 1, 9)},
	} {
		if got := c.p.From(c.from); !got.Equal(c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

func TestScan(t *testing.T) {
	const text = "mix 1 1/2 fl oz now"
	r, end, err := quantity.ScanRatio(text, 4)
	if r != ratio(3, 2) || end != 9 || err != nil {
		t.Errorf("number: got %v ending at %d, %v", r, end, err)
	}
	one, end, err := quantity.ScanVolumeUnit(text, 10, quantity.OunceUS)
	if one != quantity.USOunce || end != 15 || err != nil {
		t.Errorf("unit: got %v ending at %d, %v", one, end, err)
	}
	if r, end, err := quantity.ScanRatio(text, 0); r != (quantity.Ratio{}) || end != 0 || err == nil {
		t.Errorf("no number: got %v ending at %d, %v", r, end, err)
	}
	if one, end, err := quantity.ScanVolumeUnit(text, 0, quantity.OunceUS); one != 0 || end != 0 || err == nil {
		t.Errorf("no unit: got %v ending at %d, %v", one, end, err)
	}
}

func TestReadErrorShowsWhatFits(t *testing.T) {
	long := strings.Repeat("é", 90) + "1"
	_, err := quantity.ReadRatio(long)
	var re *quantity.ReadError
	if !errors.As(err, &re) {
		t.Fatal(err)
	}
	if got := []rune(re.Text); len(got) != 80 {
		t.Errorf("%d characters shown, want 80", len(got))
	}
	if re.At > len(re.Text) {
		t.Errorf("trouble at %d of %d bytes", re.At, len(re.Text))
	}
	if got, want := quantity.NewReadError("5 xy", 2, "volume", quantity.WhyUnknownUnit).Error(),
		"volume 5 xy: unknown_unit"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	seen := map[quantity.Why]bool{}
	for _, w := range quantity.Whys() {
		if seen[w] {
			t.Errorf("%s twice", w)
		}
		seen[w] = true
	}
}
