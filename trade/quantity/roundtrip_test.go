package quantity_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetside/trade/quantity"
)

// back reads what was written, and fails where it is another value.
func back[T comparable](t *rapid.T, v T, text string, read func(string) (T, error)) {
	t.Helper()
	got, err := read(text)
	if err != nil || got != v {
		t.Fatalf("%v was written %q and read back as %v, %v", v, text, got, err)
	}
}

func volumeAnyOunce(s string) (quantity.Volume, error) {
	return quantity.ReadVolume(s, quantity.NoOunce)
}

// aVolume draws what people have: marks of every unit; and what computations have.
func aVolume() *rapid.Generator[quantity.Volume] {
	return rapid.Custom(func(t *rapid.T) quantity.Volume {
		if rapid.Bool().Draw(t, "computed") {
			return quantity.Volume(rapid.Int64Range(0, int64(quantity.MaxVolume)).Draw(t, "v"))
		}
		u := rapid.SampledFrom(quantity.VolumeUnits()).Draw(t, "unit")
		den := rapid.SampledFrom([]int64{1, 2, 3, 4, 5, 8, 10, 16, 128, 1000}).Draw(t, "den")
		v, err := quantity.VolumeOf(ratio(rapid.Int64Range(0, 5000).Draw(t, "num"), den), u)
		if err != nil {
			t.Fatal(err)
		}
		return v
	})
}

func TestWrittenIsReadBack(t *testing.T) {
	t.Run("ratio", rapid.MakeCheck(func(t *rapid.T) {
		r := anyRatio().Filter(func(r quantity.Ratio) bool { return r.Sign() >= 0 }).Draw(t, "r")
		back(t, r, r.String(), quantity.ReadRatio)
	}))
	t.Run("volume", rapid.MakeCheck(func(t *rapid.T) {
		v := aVolume().Draw(t, "v")
		back(t, v, v.String(), volumeAnyOunce)
	}))
	t.Run("window", rapid.MakeCheck(func(t *rapid.T) {
		a := aVolume().Filter(func(v quantity.Volume) bool { return v > 0 }).Draw(t, "a")
		b := aVolume().Filter(func(v quantity.Volume) bool { return v >= a }).Draw(t, "b")
		w := quantity.Window{Min: a, Max: b, Want: b}
		read := func(s string) (quantity.Window, error) { return quantity.ReadWindow(s, quantity.NoOunce) }
		back(t, w, w.String(), read)
		if alone, err := read(a.String()); err == nil {
			back(t, alone, alone.String(), read)
		}
	}))
	t.Run("mass", rapid.MakeCheck(func(t *rapid.T) {
		m := quantity.Mass(rapid.Float64Range(1e-9, 1e7).Draw(t, "g"))
		back(t, m, m.String(), quantity.ReadMass)
	}))
	t.Run("temperature", rapid.MakeCheck(func(t *rapid.T) {
		c := quantity.Celsius(rapid.Float64Range(1e-9, 1000).Draw(t, "c"))
		back(t, c, c.String(), quantity.ReadCelsius)
		if cold := -c / 4; cold > -273 {
			back(t, cold, cold.String(), quantity.ReadCelsius)
		}
	}))
	t.Run("length, size, area", rapid.MakeCheck(func(t *rapid.T) {
		l, h := aLength().Draw(t, "width"), aLength().Draw(t, "height")
		back(t, l, l.String(), quantity.ReadLength)
		back(t, [2]quantity.Length{l, h}, quantity.Size(l, h), func(s string) ([2]quantity.Length, error) {
			w, h, err := quantity.ReadSize(s)
			return [2]quantity.Length{w, h}, err
		})
		a := quantity.AreaOf(l, h)
		back(t, a, a.String(), quantity.ReadArea)
	}))
	t.Run("density", rapid.MakeCheck(func(t *rapid.T) {
		d := quantity.Density(rapid.Float64Range(1e-9, 25).Draw(t, "d"))
		back(t, d, d.String(), quantity.ReadDensity)
	}))
	t.Run("share", rapid.MakeCheck(func(t *rapid.T) {
		f := rapid.Float64Range(1e-9, 100).Draw(t, "f")
		if rapid.Bool().Draw(t, "round") {
			f = float64(rapid.IntRange(1, 1000).Draw(t, "thousandths")) / 1000
		}
		back(t, f, quantity.Share(f), quantity.ReadShare)
	}))
	t.Run("duration", rapid.MakeCheck(func(t *rapid.T) {
		d := time.Duration(rapid.Int64Range(0, int64(10_000*time.Hour)).Draw(t, "d"))
		if rapid.Bool().Draw(t, "whole") {
			d = d.Truncate(time.Second)
		}
		back(t, d, quantity.Duration(d), quantity.ReadDuration)
	}))
	t.Run("period", rapid.MakeCheck(func(t *rapid.T) {
		n := rapid.IntRange(1, 100_000).Draw(t, "n")
		p := rapid.SampledFrom([]quantity.Period{{Months: n}, {Days: n}, {Hours: n}}).Draw(t, "p")
		back(t, p, p.String(), quantity.ReadPeriod)
	}))
}

// aLength draws sheet sizes, whole millimetres and anything.
func aLength() *rapid.Generator[quantity.Length] {
	return rapid.OneOf(
		rapid.Map(rapid.IntRange(1, 400), func(n int) quantity.Length { return quantity.Length(float64(n) * 25.4 / 8) }),
		rapid.Map(rapid.IntRange(1, 5000), func(n int) quantity.Length { return quantity.Length(n) }),
		rapid.Map(rapid.Float64Range(0.1, 1e6), func(f float64) quantity.Length { return quantity.Length(f) }),
	)
}

// What is written for files, and stays.
func TestWritten(t *testing.T) {
	volume := func(n int64, den int64, u quantity.VolumeUnit) string {
		v, err := quantity.VolumeOf(ratio(n, den), u)
		if err != nil {
			t.Error(err)
		}
		return v.String()
	}
	for _, c := range []struct{ got, want string }{
		{volume(0, 1, quantity.UnitML), "0 mL"},
		{volume(900, 1, quantity.UnitML), "900 mL"},
		{volume(1000, 1, quantity.UnitML), "1 L"},
		{volume(1250, 1, quantity.UnitML), "1.25 L"},
		{volume(1023, 1, quantity.UnitML), "1023 mL"},
		{volume(5, 2, quantity.UnitML), "2.5 mL"},
		{volume(9464, 10, quantity.UnitML), "946.4 mL"},
		{volume(1, 3, quantity.UnitML), "1/3 mL"},
		{volume(1, 2, quantity.UnitUSOunce), "1/2 US fl oz"},
		{volume(31, 1, quantity.UnitUSOunce), "31 US fl oz"},
		{volume(32, 1, quantity.UnitUSOunce), "1 US qt"},
		{volume(1, 1, quantity.UnitUSGallon), "1 US gal"},
		{volume(5, 1, quantity.UnitImperialOunce), "5 imp fl oz"},
		{volume(30, 1, quantity.UnitImperialOunce), "1 1/2 imp pt"},
		{volume(1, 1, quantity.UnitImperialGallon), "1 imp gal"},
		{quantity.Volume(1).String(), "1/6144000000 mL"},
		{quantity.Window{Min: 900 * quantity.Millilitre, Max: quantity.Litre, Want: quantity.Litre}.String(), "900 mL to 1 L"},
		{quantity.Window{Min: 900 * quantity.Millilitre, Max: 1100 * quantity.Millilitre, Want: quantity.Litre}.String(), "1 L"},
		{quantity.Mass(52.5).String(), "52.5 g"},
		{quantity.Density(1.1).String(), "1.1 g/mL"},
		{quantity.Celsius(20).String(), "20 °C"},
		{quantity.Celsius(-0.5).String(), "-0.5 °C"},
		{quantity.Length(15).String(), "15 mm"},
		{quantity.Length(380).String(), "38 cm"},
		{quantity.Length(203.2).String(), "8 in"},
		{quantity.Size(203.2, 254), "8x10 in"},
		{quantity.Size(215.9, 279.4), "8 1/2x11 in"},
		{quantity.Size(240, 300), "24x30 cm"},
		{quantity.Size(241, 300.5), "24.1x30.05 cm"},
		{quantity.Area(0.0516128).String(), "0.0516128 m2"},
		{quantity.Share(0.07), "7 %"},
		{quantity.Share(0.064), "6.4 %"},
		{quantity.Share(0), "0 %"},
		{quantity.Duration(0), "0 s"},
		{quantity.Duration(90 * time.Second), "1 min 30 s"},
		{quantity.Duration(3 * time.Hour), "3 h"},
		{quantity.Duration(100 * time.Millisecond), "0.1 s"},
		{quantity.Period{Months: 24}.String(), "24 months"},
		{quantity.Period{Months: 1}.String(), "1 month"},
		{quantity.Period{Days: 28}.String(), "4 weeks"},
		{quantity.Period{Days: 7}.String(), "1 week"},
		{quantity.Period{Days: 10}.String(), "10 days"},
		{quantity.Period{Hours: 24}.String(), "24 h"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
