package darkroom_test

import (
	"errors"
	"math"
	"testing"

	"wetside/darkroom"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// sheet8x10 is 80 in² of 25.4 mm an inch (NIST HB 44 App. C), in m².
const sheet8x10 = 80 * 25.4 * 25.4 / 1e6

// near reports whether two figures are the same but for rounding.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Max(1, math.Abs(b)) }

func TestReadCapacity(t *testing.T) {
	tests := []struct {
		text string
		want darkroom.Capacity
		why  quantity.Why // of the error
	}{
		{text: "50 8x10 in per L", want: darkroom.Capacity{Area: 50 * sheet8x10, Per: quantity.Litre}},
		{text: "50 sheets 8×10 in per litre", want: darkroom.Capacity{Area: 50 * sheet8x10, Per: quantity.Litre}},
		{text: "80 24x30 cm per 500 mL", want: darkroom.Capacity{Area: 80 * 0.24 * 0.30, Per: 500 * quantity.Millilitre}},
		{text: "1 m2 per L", want: darkroom.Capacity{Area: 1, Per: quantity.Litre}},
		{text: "0.5 m² per L", want: darkroom.Capacity{Area: 0.5, Per: quantity.Litre}},
		{text: "20 rolls per L", want: darkroom.Capacity{Rolls: 20, Per: quantity.Litre}},
		{text: "1 roll per 300 mL", want: darkroom.Capacity{Rolls: 1, Per: 300 * quantity.Millilitre}},
		{text: "30 8x10 in per bottle", want: darkroom.Capacity{Area: 30 * sheet8x10, PerBottle: true}},
		{text: "80 8x10 in per US gal", want: darkroom.Capacity{Area: 80 * sheet8x10, Per: quantity.USGallon}},
		{text: "80 8x10 in per gal", why: quantity.WhyWhichOunce},
		{text: "", why: "unreadable"},
		{text: "50 8x10 in", why: "unreadable"},
		{text: "8x10 in per L", why: quantity.WhyTrailing},
		{text: "50 8x10 per L", why: quantity.WhyNoUnit},
		{text: "0 rolls per L", why: quantity.WhyNotPositive},
		{text: "-5 rolls per L", why: quantity.WhyNegative},
		{text: "50 rolls per 0 L", why: quantity.WhyNotPositive},
		{text: "50 rolls per tray", why: quantity.WhyUnknownUnit},
		{text: "1e9 rolls per L", why: quantity.WhyTrailing},
		{text: "1000000 rolls per L", why: quantity.WhyTooLarge},
	}
	for _, tt := range tests {
		got, err := darkroom.ReadCapacity(tt.text, quantity.NoOunce)
		same := near(float64(got.Area), float64(tt.want.Area)) && got.Rolls == tt.want.Rolls && got.Per == tt.want.Per &&
			got.PerBottle == tt.want.PerBottle
		if !same || whyOf(err) != tt.why {
			t.Errorf("ReadCapacity(%q) = %+v, %v; want %+v, %q", tt.text, got, err, tt.want, tt.why)
		}
	}
}

// whyOf returns the reason of an error, empty for none.
func whyOf(err error) quantity.Why {
	if read, ok := errors.AsType[*quantity.ReadError](err); ok {
		return read.Why
	}
	if err != nil {
		return "another error"
	}
	return ""
}

func TestReadRange(t *testing.T) {
	tests := []struct {
		text string
		want darkroom.Range
		why  quantity.Why
	}{
		{text: "1 to 2 %", want: darkroom.Range{From: 0.01, To: 0.02}},
		{text: "1 % to 2 %", want: darkroom.Range{From: 0.01, To: 0.02}},
		{text: "1-2 %", want: darkroom.Range{From: 0.01, To: 0.02}},
		{text: "2.5–10 %", want: darkroom.Range{From: 0.025, To: 0.1}},
		{text: "5 %", want: darkroom.Range{From: 0.05, To: 0.05}},
		{text: "< 1 %", want: darkroom.Range{To: 0.01}},
		{text: "up to 5 %", want: darkroom.Range{To: 0.05}},
		{text: "100 %", want: darkroom.Range{From: 1, To: 1}},
		{text: "2 to 1 %", why: quantity.WhyReversed},
		{text: "101 %", why: quantity.WhyTooLarge},
		{text: "< 101 %", why: quantity.WhyTooLarge},
		{text: "1 to 2", why: quantity.WhyNoUnit},
		{text: "", why: quantity.WhyEmpty},
		{text: "-1 %", why: quantity.WhyNegative},
	}
	for _, tt := range tests {
		got, err := darkroom.ReadRange(tt.text)
		if !near(got.From, tt.want.From) || !near(got.To, tt.want.To) || whyOf(err) != tt.why {
			t.Errorf("ReadRange(%q) = %+v, %v; want %+v, %q", tt.text, got, err, tt.want, tt.why)
		}
	}
}

func TestReadPermissible(t *testing.T) {
	tests := []struct {
		text string
		want measure.Permissible
		mass bool
		why  quantity.Why
	}{
		{text: "5 mL", want: measure.Permissible{Abs: 5}},
		{text: "2 %", want: measure.Permissible{Rel: 0.02}},
		{text: "5 mL, 2 %", want: measure.Permissible{Abs: 5, Rel: 0.02}},
		{text: "2 %, 5 mL", want: measure.Permissible{Abs: 5, Rel: 0.02}},
		{text: "0,5 mL,2%", want: measure.Permissible{Abs: 0.5, Rel: 0.02}},
		{text: "0.1 g", want: measure.Permissible{Abs: 0.1}, mass: true},
		{text: "1/8 US fl oz", want: measure.Permissible{Abs: 29.5735295625 / 8}},
		{text: "1/8 fl oz", why: quantity.WhyWhichOunce},
		{text: "5", why: quantity.WhyNoUnit},
		{text: "0 mL", why: quantity.WhyNotPositive},
		{text: "120 %", why: quantity.WhyTooLarge},
		{text: "5 mL, 6 mL", why: "unreadable"},
		{text: "5 mL, 2 %, 1 %", why: "unreadable"},
		{text: "", why: quantity.WhyEmpty},
	}
	for _, tt := range tests {
		got, mass, err := darkroom.ReadPermissible(tt.text, quantity.NoOunce)
		if !near(got.Abs, tt.want.Abs) || !near(got.Rel, tt.want.Rel) || mass != tt.mass || whyOf(err) != tt.why {
			t.Errorf("ReadPermissible(%q) = %+v, mass %v, %v; want %+v, %q", tt.text, got, mass, err, tt.want, tt.why)
		}
	}
}

func TestReadReuse(t *testing.T) {
	tests := []struct {
		text string
		want darkroom.Reuse
		why  quantity.Why
	}{
		{text: "one-shot", want: darkroom.Reuse{OneShot: true}},
		{text: "One shot", want: darkroom.Reuse{OneShot: true}},
		{text: "+10 % per roll", want: darkroom.Reuse{Longer: 0.1}},
		{text: "10% per roll", want: darkroom.Reuse{Longer: 0.1}},
		{text: "replenish 20 mL per roll", want: darkroom.Reuse{Replenish: 20 * quantity.Millilitre}},
		{text: "replenish 1 oz per roll", why: quantity.WhyWhichOunce},
		{text: "replenish 20 per roll", why: quantity.WhyNoUnit},
		{text: "replenish 0 mL per roll", why: quantity.WhyNotPositive},
		{text: "replenish", why: "unreadable"},
		{text: "+0 % per roll", why: quantity.WhyNotPositive},
		{text: "+200 % per roll", why: quantity.WhyTooLarge},
		{text: "twice", why: "unreadable"},
		{text: "", why: "unreadable"},
	}
	for _, tt := range tests {
		got, err := darkroom.ReadReuse(tt.text, quantity.NoOunce)
		if got != tt.want || whyOf(err) != tt.why {
			t.Errorf("ReadReuse(%q) = %+v, %v; want %+v, %q", tt.text, got, err, tt.want, tt.why)
		}
	}
}

func TestReadSilver(t *testing.T) {
	tests := []struct {
		text string
		want float64
		why  quantity.Why
	}{
		{text: "0.5 g/L", want: 0.5},
		{text: "2 g per litre", want: 2},
		{text: "1,5 g/l", want: 1.5},
		{text: "0.5", why: quantity.WhyNoUnit},
		{text: "0.5 mg/L", why: quantity.WhyTrailing},
		{text: "g/L", why: quantity.WhyEmpty},
	}
	for _, tt := range tests {
		got, err := darkroom.ReadSilver(tt.text)
		if !near(got, tt.want) || whyOf(err) != tt.why {
			t.Errorf("ReadSilver(%q) = %v, %v; want %v, %q", tt.text, got, err, tt.want, tt.why)
		}
	}
}

// FuzzLabel holds that the readers of a label's words never panic, that an error means the zero value, and that
// figures are never negative, infinite or no numbers.
func FuzzLabel(f *testing.F) {
	for _, s := range []string{
		"50 8x10 in per L", "1 m2 per L", "20 rolls per L", "30 8x10 in per bottle", "1 to 2 %", "< 1 %", "5 mL, 2 %", "0.1 g",
		"one-shot", "+10 % per roll", "replenish 20 mL per roll", "0.5 g/L", "1/2 fl oz", ",", " per ", "-", "%",
	} {
		f.Add(s)
	}
	fine := func(x float64) bool { return x >= 0 && !math.IsInf(x, 0) && !math.IsNaN(x) }
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 200 {
			return // the reader of the file refuses them
		}
		c, err := darkroom.ReadCapacity(text, quantity.OunceUS)
		if err != nil && c != (darkroom.Capacity{}) || !fine(float64(c.Area)) || !fine(c.Rolls) || c.Per < 0 {
			t.Errorf("ReadCapacity(%q) = %+v, %v", text, c, err)
		}
		g, err := darkroom.ReadRange(text)
		if err != nil && g != (darkroom.Range{}) || g.From < 0 || g.From > g.To || g.To > 1 {
			t.Errorf("ReadRange(%q) = %+v, %v", text, g, err)
		}
		p, _, err := darkroom.ReadPermissible(text, quantity.OunceUS)
		if err != nil && p != (measure.Permissible{}) || !fine(p.Abs) || !fine(p.Rel) {
			t.Errorf("ReadPermissible(%q) = %+v, %v", text, p, err)
		}
		r, err := darkroom.ReadReuse(text, quantity.OunceUS)
		if err != nil && r != (darkroom.Reuse{}) || !fine(r.Longer) || r.Replenish < 0 {
			t.Errorf("ReadReuse(%q) = %+v, %v", text, r, err)
		}
		if s, err := darkroom.ReadSilver(text); err != nil && s != 0 || math.IsNaN(s) {
			t.Errorf("ReadSilver(%q) = %v, %v", text, s, err)
		}
	})
}
