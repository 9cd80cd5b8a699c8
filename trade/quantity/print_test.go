package quantity_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetside/trade/quantity"
)

// plainly makes the spaces of a printed amount ordinary, so that the tables below can be typed.
func plainly(text string) string {
	return strings.NewReplacer(quantity.NoBreak, " ", quantity.Thin, " ").Replace(text)
}

func ml(t *testing.T, ml float64) quantity.Volume {
	t.Helper()
	v, err := quantity.VolumeOfML(ml)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestVolumeInASystem(t *testing.T) {
	const us, imp = quantity.USOunce, quantity.ImperialOunce
	for _, c := range []struct {
		v    quantity.Volume
		sys  quantity.System
		want string // empty: cannot be said
	}{
		{0, quantity.Metric, "0 mL"},
		{ml(t, 1000), quantity.Metric, "1 L"},
		{ml(t, 999.6), quantity.Metric, "1 L"},
		{ml(t, 999.4), quantity.Metric, "999 mL"},
		{ml(t, 1250), quantity.Metric, "1.25 L"},
		{ml(t, 12340), quantity.Metric, "12.3 L"},
		{ml(t, 123456), quantity.Metric, "123 L"},
		{ml(t, 236.588), quantity.Metric, "237 mL"},
		{ml(t, 29.57), quantity.Metric, "30 mL"},
		{ml(t, 9.96), quantity.Metric, "10 mL"},
		{ml(t, 9.94), quantity.Metric, "9.9 mL"},
		{ml(t, 4.8000000001), quantity.Metric, "4.8 mL"},
		{ml(t, 0.996), quantity.Metric, "1 mL"},
		{ml(t, 0.25), quantity.Metric, "0.25 mL"},
		{ml(t, 0.05), quantity.Metric, "0.05 mL"},
		{ml(t, 0.0149), quantity.Metric, ""}, // 0.01 would be a third less
		{ml(t, 0.004), quantity.Metric, ""},  // would be nothing
		{1, quantity.Metric, ""},
		{-quantity.Litre, quantity.Metric, ""},
		{0, quantity.US, "0 US fl oz"},
		{us / 8, quantity.US, "1/8 US fl oz"}, // never a whole one
		{us / 2, quantity.US, "1/2 US fl oz"},
		{5 * us / 4, quantity.US, "1 1/4 US fl oz"},
		{31 * us, quantity.US, "31 US fl oz"},
		{16 * us, quantity.US, "16 US fl oz"},
		{32 * us, quantity.US, "1 US qt"},
		{48 * us, quantity.US, "1 1/2 US qt"},
		{40 * us, quantity.US, "40 US fl oz"},
		{128 * us, quantity.US, "1 US gal"},
		{ml(t, 250), quantity.US, "8.45 US fl oz"}, // 8 of them would be 236.6 mL
		{ml(t, 1000), quantity.US, "33.8 US fl oz"},
		{ml(t, 10000), quantity.US, "2.64 US gal"},
		{ml(t, 0.1), quantity.US, ""}, // 0.0034
		{us / 1000, quantity.US, ""},
		{-us, quantity.US, ""},
		{imp, quantity.Imperial, "1 imp fl oz"},
		{20 * imp, quantity.Imperial, "20 imp fl oz"},
		{40 * imp, quantity.Imperial, "1 imp qt"},
		{160 * imp, quantity.Imperial, "1 imp gal"},
		{ml(t, 1000), quantity.Imperial, "35.2 imp fl oz"},
		{ml(t, 10000), quantity.Imperial, "2.2 imp gal"},
	} {
		got, ok := c.v.In(c.sys)
		if plainly(got) != c.want || ok != (c.want != "") {
			t.Errorf("%v in system %d: got %q, %v, want %q", c.v, c.sys, got, ok, c.want)
		}
	}
}

func TestStyle(t *testing.T) {
	metric, us := quantity.Style{}, quantity.Style{System: quantity.US}
	imp := quantity.Style{System: quantity.Imperial}
	type say struct {
		name string
		text string
		ok   bool
		want string // empty: cannot be said
	}
	var said []say
	note := func(name, want string) func(string, bool) {
		return func(text string, ok bool) { said = append(said, say{name, text, ok, want}) }
	}
	const us1 = quantity.USOunce
	note("short", "1/2 fl oz")(quantity.Style{System: quantity.US, Short: true}.Volume(us1 / 2))
	note("four figures", "33.81 US fl oz")(quantity.Style{System: quantity.US, Figures: 4}.Volume(ml(t, 1000)))
	note("two figures", "2.6 US gal")(quantity.Style{System: quantity.US, Figures: 2}.Volume(ml(t, 10000)))
	note("on a mark", "27.5 mL")(metric.On(ml(t, 27.5), quantity.UnitML))
	note("on an ounce mark", "2 1/2 US fl oz")(metric.On(5*us1/2, quantity.UnitUSOunce))
	note("on no mark", "")(metric.On(ml(t, 250), quantity.UnitUSOunce))
	note("window", "900 mL–1 L")(metric.Window(quantity.Window{Min: ml(t, 900), Max: ml(t, 1000)}))
	note("window of one unit", "1.4–1.6 L")(metric.Window(quantity.Window{Min: ml(t, 1400), Max: ml(t, 1600)}))
	note("window in ounces", "8 1/2–9 US fl oz")(us.Window(quantity.Window{Min: 17 * us1 / 2, Max: 9 * us1}))
	note("window of nothing", "")(metric.Window(quantity.Window{Min: 1, Max: ml(t, 1600)}))
	note("mass", "52.5 g")(metric.Mass(52.54))
	note("small mass", "0.25 g")(metric.Mass(0.25))
	note("kilograms", "1.25 kg")(metric.Mass(1250))
	note("just a kilogram", "1 kg")(metric.Mass(999.96))
	note("mass of nothing", "")(metric.Mass(0.004))
	note("mass below 0", "")(metric.Mass(-1))
	note("grains", "50 gr")(us.Mass(50 * 0.06479891))
	note("ounces", "1.85 oz av")(us.Mass(52.5))
	note("pounds", "2.2 lb")(imp.Mass(1000))
	note("depth", "15 mm")(metric.Length(15.2))
	note("shallow", "9.5 mm")(metric.Length(9.51))
	note("tray", "38 cm")(metric.Length(380))
	note("half centimetre", "30.5 cm")(metric.Length(304.8))
	note("bench", "12.3 m")(metric.Length(12345))
	note("depth in inches", "5/8 in")(us.Length(15.9))
	note("tray in inches", "14 15/16 in")(us.Length(380))
	note("sheet in inches", "8 in")(us.Length(203.2))
	note("less than a sixteenth", "")(us.Length(0.5))
	note("too long", "")(us.Length(1e12))
	note("no length", "")(us.Length(quantity.Length(math.NaN())))
	note("sheet", "516 cm²")(metric.Area(0.0516128))
	note("tray area", "0.114 m²")(metric.Area(0.114))
	note("sheet in inches", "80 in²")(us.Area(0.0516128))
	note("feet", "10.8 ft²")(us.Area(1))
	note("temperature", "20 °C")(metric.Temperature(20.2))
	note("half degree", "20.5 °C")(metric.Temperature(20.26))
	note("below zero", "−4.5 °C")(metric.Temperature(-4.4))
	note("no minus zero", "0 °C")(metric.Temperature(-0.2))
	note("Fahrenheit", "68 °F")(us.Temperature(20))
	note("Fahrenheit whole", "125 °F")(imp.Temperature(51.6667))
	note("as it was read", "20.4 °C")(metric.TemperatureRead(20.41))
	note("Fahrenheit as it was read", "68.7 °F")(us.TemperatureRead(20.4)) // 9/5·20.4 + 32 = 68.72
	note("read below zero", "0 °C")(metric.TemperatureRead(-0.04))
	note("read hotter than any", "")(us.TemperatureRead(1001))
	note("hotter than any", "")(metric.Temperature(1001))
	note("colder than any", "")(metric.Temperature(-274))
	note("absolute zero", "−273 °C")(metric.Temperature(-273.15))
	note("no temperature", "")(metric.Temperature(quantity.Celsius(math.NaN())))
	note("difference", "18 °F")(us.TemperatureDifference(10))
	note("difference metric", "−1.5 °C")(metric.TemperatureDifference(-1.6))
	note("difference of nothing", "")(metric.TemperatureDifference(0.2))
	note("no difference", "0 °C")(metric.TemperatureDifference(0))
	note("infinite difference", "")(metric.TemperatureDifference(quantity.Celsius(math.Inf(1))))
	note("duration", "1 min 30 s")(metric.Duration(90*time.Second + 300*time.Millisecond))
	note("short duration", "1.5 s")(metric.Duration(1480 * time.Millisecond))
	note("hours", "3 h")(metric.Duration(3 * time.Hour))
	note("up to a minute", "1 min")(metric.Duration(59700 * time.Millisecond))
	note("no time at all", "0 s")(metric.Duration(0))
	note("duration of nothing", "")(metric.Duration(time.Millisecond))
	note("duration below 0", "")(metric.Duration(-time.Second))
	note("density", "1.1 g/mL")(metric.Density(1.1))
	note("share", "7 %")(metric.Share(0.07))
	note("tenths of a percent", "6.4 %")(metric.Share(0.0641))
	note("whole from ten", "15 %")(metric.Share(0.1451))
	note("just ten", "10 %")(metric.Share(0.0999))
	note("share below 0", "−4 %")(metric.Share(-0.04))
	note("share of nothing", "")(metric.Share(0.0003))
	note("no share", "0 %")(metric.Share(0))
	note("not a share", "")(metric.Share(math.NaN()))
	note("uncertainty", "±7 %")(metric.PlusMinus(0.07))
	note("large uncertainty", "±28 %")(metric.PlusMinus(0.284))
	note("uncertainty of nothing", "")(metric.PlusMinus(0.0001))
	for _, s := range said {
		if plainly(s.text) != s.want || s.ok != (s.want != "") {
			t.Errorf("%s: got %q, %v, want %q", s.name, s.text, s.ok, s.want)
		}
	}
}

func TestSpacesDoNotBreak(t *testing.T) {
	for _, text := range []string{
		first(quantity.Style{System: quantity.US}.Volume(5 * quantity.USOunce / 4)),
		first(quantity.Style{}.Duration(90 * time.Second)),
		first(quantity.Style{}.PlusMinus(0.07)),
		first(quantity.Style{System: quantity.US}.Length(380)),
		first(quantity.Style{System: quantity.US}.Mass(52.5)),
	} {
		if text == "" || strings.Contains(text, " ") {
			t.Errorf("%q has a space that breaks", text)
		}
	}
}

func first(text string, _ bool) string { return text }

func TestMark(t *testing.T) {
	for _, c := range []struct {
		n    quantity.Ratio
		u    quantity.VolumeUnit
		want string // empty: no mark
	}{
		{ratio(100, 1), quantity.UnitML, "100"},
		{ratio(55, 2), quantity.UnitML, "27.5"},
		{ratio(1, 5), quantity.UnitML, "0.2"},
		{ratio(1, 3), quantity.UnitML, "1/3"},
		{ratio(3, 2), quantity.UnitLitre, "1.5"},
		{ratio(1, 1), quantity.UnitUSOunce, "1"},
		{ratio(1, 2), quantity.UnitUSOunce, "1/2"},
		{ratio(5, 4), quantity.UnitImperialOunce, "1 1/4"},
		{ratio(17, 8), quantity.UnitUSOunce, "2 1/8"},
		{ratio(1, 5), quantity.UnitUSOunce, "0.2"},
		{quantity.Ratio{}, quantity.UnitML, "0"},
		{ratio(-1, 2), quantity.UnitML, ""},
		{ratio(1, 997), quantity.UnitML, ""},
	} {
		if got, ok := c.u.Mark(c.n); got != c.want || ok != (c.want != "") {
			t.Errorf("%v %v: got %q, %v, want %q", c.n, c.u, got, ok, c.want)
		}
	}
}

func TestNearest(t *testing.T) {
	for _, c := range []struct {
		v    quantity.Volume
		u    quantity.VolumeUnit
		step quantity.Ratio
		want quantity.Ratio
		ok   bool
	}{
		{ml(t, 612), quantity.UnitML, ratio(50, 1), ratio(600, 1), true},
		{ml(t, 625), quantity.UnitML, ratio(50, 1), ratio(650, 1), true},
		{ml(t, 1000), quantity.UnitUSOunce, ratio(1, 2), ratio(34, 1), true},
		{ml(t, 20), quantity.UnitML, ratio(50, 1), quantity.Ratio{}, false}, // nothing
		{ml(t, 30), quantity.UnitML, ratio(50, 1), ratio(50, 1), false},     // another amount
		{0, quantity.UnitML, ratio(50, 1), quantity.Ratio{}, true},
		{ml(t, 30), quantity.UnitML, quantity.Ratio{}, quantity.Ratio{}, false},
		{-quantity.Litre, quantity.UnitML, ratio(50, 1), quantity.Ratio{}, false},
	} {
		got, ok := c.v.Nearest(c.u, c.step)
		if ok != c.ok || ok && got != c.want {
			t.Errorf("%v by %v %v: got %v, %v, want %v, %v", c.v, c.step, c.u, got, ok, c.want, c.ok)
		}
	}
}

// Whatever is printed reads back to within 5 % of what it stands for, and needs no ounce to be read.
func TestPrintedIsTheSameAmount(t *testing.T) {
	near := func(got, want float64) bool { return math.Abs(got-want) <= 0.05*want*(1+1e-9) }
	styles := rapid.Custom(func(t *rapid.T) quantity.Style {
		return quantity.Style{
			System:  rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.US, quantity.Imperial}).Draw(t, "system"),
			Figures: rapid.SampledFrom([]int{0, 2, 3, 4, 5}).Draw(t, "figures"),
		}
	})
	magnitudes := rapid.Custom(func(t *rapid.T) float64 {
		return math.Pow(10, rapid.Float64Range(-4, 5).Draw(t, "exponent"))
	})
	printed := 0
	rapid.Check(t, func(t *rapid.T) {
		st, x := styles.Draw(t, "style"), magnitudes.Draw(t, "x")
		v, err := quantity.VolumeOfML(x)
		if err != nil {
			t.Fatal(err)
		}
		if text, ok := st.Volume(v); ok {
			printed++
			if got, err := volumeAnyOunce(text); err != nil || !near(got.ML(), x) {
				t.Fatalf("%v mL: printed %q, which is %v, %v", x, text, got.ML(), err)
			}
		} else if x >= 3 {
			t.Fatalf("%v mL cannot be said", x)
		}
		if text, ok := st.Mass(quantity.Mass(x)); ok {
			if got, err := quantity.ReadMass(text); err != nil || !near(float64(got), x) {
				t.Fatalf("%v g: printed %q, which is %v, %v", x, text, got, err)
			}
		}
		if text, ok := st.Length(quantity.Length(x)); ok {
			if got, err := quantity.ReadLength(text); err != nil || !near(float64(got), x) {
				t.Fatalf("%v mm: printed %q, which is %v, %v", x, text, got, err)
			}
		}
		if text, ok := st.Area(quantity.Area(x)); ok {
			if got, err := quantity.ReadArea(text); err != nil || !near(float64(got), x) {
				t.Fatalf("%v m²: printed %q, which is %v, %v", x, text, got, err)
			}
		}
		if text, ok := st.PlusMinus(x); ok {
			if got, err := quantity.ReadShare(text); err != nil || !near(got, x) {
				t.Fatalf("share %v: printed %q, which is %v, %v", x, text, got, err)
			}
		}
		d := time.Duration(x * float64(time.Second))
		if text, ok := st.Duration(d); ok {
			if got, err := quantity.ReadDuration(text); err != nil || !near(float64(got), float64(d)) {
				t.Fatalf("%v: printed %q, which is %v, %v", d, text, got, err)
			}
		}
	})
	if printed == 0 {
		t.Error("nothing was printed")
	}
}
