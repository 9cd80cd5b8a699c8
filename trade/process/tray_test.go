package process_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

func ml(v float64) quantity.Volume { return quantity.Volume(v * float64(quantity.Millilitre)) }

// TestVolumes holds volumes for a depth against inches multiplied out, 16.387064 mL the cubic inch: trays an inch larger
// than the sheet each way, and floors of the sheet's own size, at half an inch; and the fills at 15 and 20 mm of
// nominal trays, printed in litres to two decimals.
func TestVolumes(t *testing.T) {
	for _, c := range []struct {
		size        string
		larger, own float64 // mL at half an inch
		l15, l20    float64 // litres, own size
	}{
		{"8x10 in", 811, 655, 0.77, 1.03},
		{"11x14 in", 1475, 1262, 1.49, 1.99},
		{"16x20 in", 2925, 2622, 3.10, 4.13},
		{"20x24 in", 4302, 3933, 4.65, 6.19},
	} {
		s := size(t, c.size)
		larger := process.NominalTray(s)
		own := process.Tray{Width: s.Width, Height: s.Height}
		for _, v := range []struct {
			tray  process.Tray
			depth quantity.Length
			want  float64
			unit  float64
		}{{larger, 12.7, c.larger, 1}, {own, 12.7, c.own, 1}, {own, 15, 1000 * c.l15, 10}, {own, 20, 1000 * c.l20, 10}} {
			got, f, err := v.tray.VolumeFor(v.depth)
			if err != nil || math.Abs(got.ML()-v.want) > v.unit*0.51 {
				t.Errorf("%s, %v mm: %.1f mL, %v, want %v", c.size, v.depth, got.ML(), err, v.want)
			}
			if f.Value != got.ML() || f.By == nil || len(f.By.Puts) != 2 {
				t.Errorf("%s: figure %+v", c.size, f)
			}
			free, err := process.VolumeForDepth(v.tray.Width, v.tray.Height, v.depth)
			if err != nil || free != got {
				t.Errorf("%s: VolumeForDepth %v, %v, want %v", c.size, free.ML(), err, got.ML())
			}
		}
	}
}

// TestCalibrated: a litre that stands 9 mm deep has a floor of 1/9 m², whatever the tray's inside; 2 L stand 18 mm.
func TestCalibrated(t *testing.T) {
	tray := process.Tray{Width: 380, Height: 300, LitreDepth: 9}
	floor, f, err := tray.Floor()
	if err != nil || math.Abs(float64(floor)-1.0/9) > 1e-12 || f.By.Rule != "floor_from_litre" {
		t.Errorf("floor %v, %+v, %v, want 1/9 m² from the litre", floor, f, err)
	}
	if d, _, err := tray.DepthFor(2 * quantity.Litre); err != nil || math.Abs(float64(d)-18) > 1e-9 {
		t.Errorf("2 L stand %v mm, %v, want 18", d, err)
	}
	if v, _, err := tray.VolumeFor(9); err != nil || v != quantity.Litre {
		t.Errorf("9 mm hold %v mL, %v, want 1000", v.ML(), err)
	}
}

// TestDepthAndBack: a depth's volume stands that deep; twice the depth is twice the volume.
func TestDepthAndBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		length := func(name string, from, to float64) quantity.Length {
			return quantity.Length(rapid.Float64Range(from, to).Draw(rt, name))
		}
		tray := process.Tray{Width: length("w", 50, 1500), Height: length("h", 50, 1500)}
		if rapid.Bool().Draw(rt, "calibrated") {
			tray.LitreDepth = length("litre", 1, 100)
		}
		depth := length("depth", 1, 300)
		v, _, err := tray.VolumeFor(depth)
		if err != nil {
			rt.Fatal(err)
		}
		if d, _, err := tray.DepthFor(v); err != nil || math.Abs(float64(d-depth)) > 1e-6 {
			rt.Errorf("%+v: %v mm is %v mL, which stands %v mm, %v", tray, depth, v.ML(), d, err)
		}
		if twice, _, err := tray.VolumeFor(2 * depth); err != nil || math.Abs((twice-2*v).ML()) > 1e-6 {
			rt.Errorf("%+v: twice as deep is %v mL, want %v", tray, twice.ML(), 2*v.ML())
		}
	})
}

func TestTrayRefused(t *testing.T) {
	nan := quantity.Length(math.NaN())
	known := process.Tray{Width: 300, Height: 200}
	for _, c := range []struct {
		name string
		err  func() error
		want error
	}{
		{"no floor", func() error { _, _, err := (process.Tray{Width: 300}).VolumeFor(15); return err }, process.ErrNoFloor},
		{"nor depth", func() error { _, _, err := (process.Tray{}).DepthFor(ml(1)); return err }, process.ErrNoFloor},
		{"not a number", func() error { _, _, err := (process.Tray{Width: nan, Height: 3}).Floor(); return err }, process.ErrNoFloor},
		{"no depth", func() error { _, _, err := known.VolumeFor(0); return err }, process.ErrNoDepth},
		{"depth not a number", func() error { _, _, err := known.VolumeFor(nan); return err }, process.ErrNoDepth},
		{"a sea", func() error { _, _, err := known.VolumeFor(1e12); return err }, quantity.ErrRange},
		{"no inside", func() error { _, err := process.VolumeForDepth(0, 3, 4); return err }, process.ErrNoInside},
		{"no window", func() error { _, _, err := (process.Tray{}).Window(15); return err }, process.ErrNoFloor},
		{"too deep", func() error { _, _, err := known.Window(1e12); return err }, quantity.ErrRange},
		{"no rim", func() error { _, _, err := known.Freeboard(15); return err }, process.ErrNoDepth},
	} {
		if err := c.err(); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
}

// TestWindows: a tray from its wanted depth to 5 mm more, wanted the upper end; a tray with a fill of its own 10 %
// either way of it; a tank from what covers its reels to 10 % more, wanted what just covers.
func TestWindows(t *testing.T) {
	inside := process.Tray{Width: 203.2, Height: 254} // a nominal 8×10 tray: 0.77 L at 15 mm, 1.03 L at 20 mm
	for _, c := range []struct {
		name            string
		tray            process.Tray
		depth           quantity.Length
		least, most     float64
		want            float64
		rule            string
		depthFromMemory bool
	}{
		{"by depth", inside, 15, 774.2, 1032.3, 1032.3, "window_of_depth", false},
		{"by the default depth", inside, 0, 774.2, 1032.3, 1032.3, "window_of_depth", true},
		{"by depth, calibrated", process.Tray{LitreDepth: 10}, 20, 2000, 2500, 2500, "window_of_depth", false},
		{"its own fill", process.Tray{Width: 380, Height: 300, Fill: ml(2000)}, 15, 1800, 2200, 2000, "window_of_fill", false},
		{"its own fill alone", process.Tray{Fill: ml(1500)}, 0, 1350, 1650, 1500, "window_of_fill", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, f, err := c.tray.Window(c.depth)
			if err != nil {
				t.Fatal(err)
			}
			got := []float64{w.Min.ML(), w.Max.ML(), w.Want.ML()}
			for i, want := range []float64{c.least, c.most, c.want} {
				if math.Abs(got[i]-want) > 0.06 {
					t.Errorf("window %v, want %v to %v, %v wanted", got, c.least, c.most, c.want)
				}
			}
			if f.By.Rule != c.rule || f.Value != w.Want.ML() {
				t.Errorf("figure %+v by %v, want rule %s", f, f.By.Rule, c.rule)
			}
			memory := false
			for _, put := range f.By.Puts {
				memory = memory || put.Name == "fill_depth" && put.Origin == reckoning.FromMemory
			}
			if memory != c.depthFromMemory {
				t.Errorf("depth from memory: %v, want %v", memory, c.depthFromMemory)
			}
		})
	}
	w, f := process.TankWindow(ml(500))
	if d := cmp.Diff(quantity.Window{Min: ml(500), Max: ml(550), Want: ml(500)}, w); d != "" || f.Value != 500 {
		t.Errorf("a tank of 500 mL: %+v\n%s", f, d)
	}
	if w, _ := process.TankWindow(0); w != (quantity.Window{}) {
		t.Errorf("a tank that nothing covers: %v", w)
	}
}

// TestFreeboard: 25 mm to the rim, from memory; a tray 80 mm deep has it at 55 mm.
func TestFreeboard(t *testing.T) {
	tray := process.Tray{Depth: 80}
	for _, c := range []struct {
		liquid, left quantity.Length
		enough       bool
	}{{15, 65, true}, {55, 25, true}, {56, 24, false}, {90, -10, false}} {
		left, enough, err := tray.Freeboard(c.liquid)
		if err != nil || left != c.left || enough != c.enough {
			t.Errorf("%v mm of liquid leave %v, %v, %v, want %v, %v", c.liquid, left, enough, err, c.left, c.enough)
		}
	}
	for _, c := range []struct {
		f      reckoning.Figure
		want   float64
		origin reckoning.Origin
	}{
		{process.LeastDepth(), 13, reckoning.CommonPractice},
		{process.FillDepth(), 15, reckoning.FromMemory},
		{process.LeastFreeboard(), 25, reckoning.FromMemory},
		{process.TongsPerTray(), 1, reckoning.CommonPractice},
	} {
		if c.f.Value != c.want || c.f.Origin != c.origin {
			t.Errorf("%+v, want %v, origin %v", c.f, c.want, c.origin)
		}
	}
}

func size(t *testing.T, text string) material.Size {
	t.Helper()
	s, err := material.ReadSize(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func ExampleTray_Window() {
	tray := process.Tray{Width: 280, Height: 230}
	w, _, err := tray.Window(15)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f to %.0f mL\n", w.Min.ML(), w.Max.ML())
	// Output: 966 to 1288 mL
}
