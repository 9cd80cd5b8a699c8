package material_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

func TestRead(t *testing.T) {
	for _, c := range []struct {
		text string
		want material.Material
	}{
		{"RC paper", material.RC},
		{"rc PAPER", material.RC},
		{"  RC \t paper ", material.RC},
		{"RC", material.RC},
		{"resin-coated paper", material.RC},
		{"FB paper", material.FB},
		{"fibre-base paper", material.FB},
		{"Fiber paper", material.FB},
		{"film", material.Film},
		{"Film", material.Film},
	} {
		if got, err := material.Read(c.text); err != nil || got != c.want {
			t.Errorf("Read(%q) = %v, %v, want %v", c.text, got, err, c.want)
		}
	}
}

// TestReadRefused names what was found, why it is nothing, and the nearest right word where one is near.
func TestReadRefused(t *testing.T) {
	for _, c := range []struct {
		text string
		want quantity.ReadError
	}{
		{"", quantity.ReadError{Want: "material", Why: quantity.WhyEmpty}},
		{" ", quantity.ReadError{Want: "material", Why: quantity.WhyEmpty}},
		{"RC papr", quantity.ReadError{Text: "RC papr", Want: "material", Why: material.WhyUnknownWord, Near: "RC paper"}},
		{"flim", quantity.ReadError{Text: "flim", Want: "material", Why: material.WhyUnknownWord, Near: "film"}},
		{"films", quantity.ReadError{Text: "films", Want: "material", Why: material.WhyUnknownWord, Near: "film"}},
		{"foam", quantity.ReadError{Text: "foam", Want: "material", Why: material.WhyUnknownWord}},
		{"wood", quantity.ReadError{Text: "wood", Want: "material", Why: material.WhyUnknownWord}},
		{
			strings.Repeat("é", 200),
			quantity.ReadError{Text: strings.Repeat("é", 80), Want: "material", Why: material.WhyUnknownWord},
		},
	} {
		m, err := material.Read(c.text)
		var got *quantity.ReadError
		if !errors.As(err, &got) || m != material.None {
			t.Errorf("Read(%q) = %v, %v, want a ReadError", c.text, m, err)
			continue
		}
		if d := cmp.Diff(c.want, *got); d != "" {
			t.Errorf("Read(%q) (-want +got):\n%s", c.text, d)
		}
	}
}

// TestWords: what is written is read again as the same, for every material and roll; and None writes nothing.
func TestWords(t *testing.T) {
	for _, m := range material.All() {
		if got, err := material.Read(m.String()); err != nil || got != m {
			t.Errorf("Read(%q) = %v, %v", m, got, err)
		}
	}
	for _, r := range material.Rolls() {
		if got, err := material.ReadSize(r.String()); err != nil || got != (material.Size{Roll: r}) {
			t.Errorf("ReadSize(%q) = %v, %v", r, got, err)
		}
	}
	if d := cmp.Diff([]string{"135-36", "135-24", "120"}, said(material.Rolls())); d != "" {
		t.Errorf("rolls (-want +got):\n%s", d)
	}
	if d := cmp.Diff([]string{"RC paper", "FB paper", "film"}, said(material.All())); d != "" {
		t.Errorf("materials (-want +got):\n%s", d)
	}
	if none := material.None.String() + material.NoRoll.String() + (material.Size{}).String(); none != "" {
		t.Errorf("nothing is written %q", none)
	}
	if material.RC.Paper() != true || material.FB.Paper() != true || material.Film.Paper() || material.None.Paper() {
		t.Error("RC and FB are papers, and nothing else is")
	}
	for r, want := range map[material.Roll]string{
		material.Roll135x36: "135", material.Roll135x24: "135", material.Roll120: "120", material.NoRoll: "",
	} {
		if got := r.Reel(); got != want {
			t.Errorf("%v winds on %q, want %q", r, got, want)
		}
	}
}

func said[T fmt.Stringer](all []T) []string {
	var words []string
	for _, t := range all {
		words = append(words, t.String())
	}
	return words
}

func TestReadSize(t *testing.T) {
	for _, c := range []struct {
		text string
		w, h float64 // mm; an inch is 25.4, NIST HB 44 App. C
		say  string
	}{
		{"8x10 in", 203.2, 254, "8x10 in"},
		{`8×10"`, 203.2, 254, "8x10 in"},
		{"10x8 in", 254, 203.2, "10x8 in"},
		{"9½x12 in", 241.3, 304.8, "9.5x12 in"},
		{"24x30 cm", 240, 300, "24x30 cm"},
		{"24 x 30.5 cm", 240, 305, "24x30.5 cm"},
		{"8.9x12.7 cm", 89, 127, "8.9x12.7 cm"},
		{"12.7x17.8 cm", 127, 178, "12.7x17.8 cm"},
		{"240x300 mm", 240, 300, "24x30 cm"},
	} {
		got, err := material.ReadSize(c.text)
		if err != nil || math.Abs(float64(got.Width)-c.w) > 1e-9 || math.Abs(float64(got.Height)-c.h) > 1e-9 || got.Roll != 0 {
			t.Errorf("ReadSize(%q) = %+v, %v, want %v × %v mm", c.text, got, err, c.w, c.h)
		}
		if say := got.String(); say != c.say {
			t.Errorf("ReadSize(%q) is written %q, want %q", c.text, say, c.say)
		}
	}
	for _, text := range []string{"", "8x10", "8 in", "0x10 in", "-8x10 in", "120x10 in", "10x120 in", "0.01x1 mm", "135-37", "8x10 in in", "x"} {
		got, err := material.ReadSize(text)
		var why *quantity.ReadError
		if !errors.As(err, &why) || got != (material.Size{}) {
			t.Errorf("ReadSize(%q) = %+v, %v, want a ReadError", text, got, err)
		}
	}
}

// TestAreas holds sheets against inches multiplied out, at 6.4516e-4 m² the square inch (NIST HB 44 App. C), and
// counting units against 80 in² (The Darkroom Cookbook, 3rd ed., p. 108).
func TestAreas(t *testing.T) {
	for _, c := range []struct {
		size      string
		m2, units float64
	}{
		{"4x5 in", 0.012903, 0.25},
		{"5x7 in", 0.022581, 0.4375},
		{"8x10 in", 0.051613, 1},
		{"10x8 in", 0.051613, 1},
		{"9.5x12 in", 0.073548, 1.425},
		{"11x14 in", 0.099355, 1.925},
		{"12x16 in", 0.123871, 2.4},
		{"16x20 in", 0.206451, 4},
		{"20x24 in", 0.309677, 6},
	} {
		s := read(t, c.size)
		area, fa := s.Area()
		units, fu := s.Units80()
		if math.Abs(float64(area)-c.m2) > 5.1e-7 || math.Abs(units-c.units) > 1e-9 {
			t.Errorf("%s: %.6f m², %v units, want %v and %v", c.size, area, units, c.m2, c.units)
		}
		if fa.Value != float64(area) || fa.Unit != reckoning.M2 || fu.Value != units || fa.By == nil || fu.By == nil {
			t.Errorf("%s: figures %+v and %+v", c.size, fa, fu)
		}
	}
}

// TestRolls: one 135-36, one 120 and one sheet of 8×10 count the same by convention (brodie-tyrrell.org, Fixer
// Capacity), while their areas are 0.055 to 0.057 m² and 0.0504 m² (lengths from memory), within a
// tenth of the unit's. A figure that is from memory says so.
func TestRolls(t *testing.T) {
	for _, c := range []struct {
		roll      material.Roll
		low, high float64
		units     float64
		origin    reckoning.Origin
		source    string
	}{
		{material.Roll135x36, 0.055, 0.057, 1, reckoning.Standard, "BT-fixer"},
		{material.Roll135x24, 0.036, 0.042, 2. / 3, reckoning.FromMemory, ""},
		{material.Roll120, 0.0503, 0.0505, 1, reckoning.Standard, "BT-fixer"},
	} {
		s := material.Size{Roll: c.roll}
		area, f := s.Area()
		if float64(area) < c.low || float64(area) > c.high {
			t.Errorf("%v: %.4f m², want %v to %v", c.roll, area, c.low, c.high)
		}
		for _, put := range f.By.Puts {
			if put.Origin != reckoning.FromMemory {
				t.Errorf("%v: %s is from memory, and says %v", c.roll, put.Name, put.Origin)
			}
		}
		units, u := s.Units80()
		if math.Abs(units-c.units) > 1e-12 || u.Origin != c.origin || u.Source != c.source {
			t.Errorf("%v: %v units, %+v, want %v", c.roll, units, u, c.units)
		}
		if off := float64(area)/float64(material.Unit80)/units - 1; math.Abs(off) > 0.2 {
			t.Errorf("%v: its area is %.0f %% off what it counts for", c.roll, 100*off)
		}
	}
}

// TestUsual: all of the usual sizes are written and read again, smallest first, none twice.
func TestUsual(t *testing.T) {
	seen := map[string]bool{}
	last := quantity.Area(0)
	for _, s := range material.Usual() {
		name := s.String()
		if seen[name] {
			t.Errorf("%s stands twice", name)
		}
		seen[name] = true
		got := read(t, name)
		if math.Abs(float64(got.Width-s.Width)) > 1e-9 || math.Abs(float64(got.Height-s.Height)) > 1e-9 {
			t.Errorf("%s is read again as %+v", name, got)
		}
		area, _ := s.Area()
		if area < last {
			t.Errorf("%s is smaller than the one before", name)
		}
		last = area
	}
	for _, name := range []string{"8x10 in", "9.5x12 in", "20x24 in", "18x24 cm", "24x30 cm", "30x40 cm", "50x60 cm"} {
		if !seen[name] {
			t.Errorf("%s is not among the usual", name)
		}
	}
	if n := len(material.InchSizes()); n != 8 {
		t.Errorf("%d inch sizes, want 8", n)
	}
}

// TestTurned: turning a sheet keeps its area, and twice is the sheet again.
func TestTurned(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := material.Sheet(
			quantity.Length(rapid.Float64Range(1, 3000).Draw(rt, "w")), quantity.Length(rapid.Float64Range(1, 3000).Draw(rt, "h")))
		a, _ := s.Area()
		b, _ := s.Turned().Area()
		if a != b || s.Turned().Turned() != s || s.Turned().Width != s.Height {
			rt.Errorf("%v turned: %v and %v m²", s, a, b)
		}
	})
}

func read(t *testing.T, text string) material.Size {
	t.Helper()
	s, err := material.ReadSize(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func FuzzReadSize(f *testing.F) {
	for _, s := range []string{"8x10 in", "24x30 cm", "135-36", "120", `8×10"`, "9½x12 in", "0x0 in", "8x10", "1e9x1 cm", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := material.ReadSize(text)
		if err != nil {
			if s != (material.Size{}) {
				t.Errorf("ReadSize(%q) has %+v beside its error", text, s)
			}
			return
		}
		say := s.String()
		again, err := material.ReadSize(say)
		if err != nil {
			t.Fatalf("ReadSize(%q) is written %q, which is not read: %v", text, say, err)
		}
		if again.String() != say || again.Roll != s.Roll {
			t.Errorf("ReadSize(%q) is written %q, then %q", text, say, again)
		}
		if math.Abs(float64(again.Width-s.Width)) > 1e-3 || math.Abs(float64(again.Height-s.Height)) > 1e-3 {
			t.Errorf("ReadSize(%q) = %+v, by way of %q %+v", text, s, say, again)
		}
	})
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{"RC paper", "FB", "film", "", "fllm", "\xff\xfe", strings.Repeat("x", 1000)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := material.Read(text)
		if (err == nil) != (m != material.None) {
			t.Fatalf("Read(%q) = %v, %v", text, m, err)
		}
		if err == nil {
			if again, err := material.Read(m.String()); err != nil || again != m {
				t.Errorf("Read(%q) = %v, written and read again %v, %v", text, m, again, err)
			}
		}
	})
}

func ExampleSize_Area() {
	size, err := material.ReadSize("24x30 cm")
	if err != nil {
		fmt.Println(err)
		return
	}
	area, _ := size.Area()
	units, _ := size.Units80()
	fmt.Printf("%s: %.3f m², counts for %.2f sheets of 8x10\n", size, area, units)
	// Output: 24x30 cm: 0.072 m², counts for 1.40 sheets of 8x10
}
