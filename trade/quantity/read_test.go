package quantity_test

import (
	"errors"
	"math"
	"strings"
	"testing"

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

func (r reading[T]) meant(near string) reading[T] {
	r.near = near
	return r
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
		good("0.100000000000000001", ratio(100000000000000001, 1000000000000000000)),
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
		slipped[v]("10 %litre", 3, ""),
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
