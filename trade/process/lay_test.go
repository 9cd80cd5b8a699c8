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

// eleven is a tray sold for 11×14 in, 38 by 30 cm inside.
func eleven() process.Tray { return process.Tray{Width: 380, Height: 300, Depth: 80} }

// TestSideBySide goes by a ruler: with 10 mm to the walls and between sheets, two sheets of 127 × 178 mm (5×7 in) lie
// along 380 mm (2·127 + 10 + 20 = 284; a third needs 421) and one across 300 (178 + 20; two need 386).
func TestSideBySide(t *testing.T) {
	room, _ := process.TongsRoom()
	twenty := process.NominalTray(material.Inches(20, 24))
	for _, c := range []struct {
		name  string
		tray  process.Tray
		sheet string
		want  process.Layout
	}{
		{"5x7", eleven(), "5x7 in", process.Layout{Sheets: 2, Across: 2, Down: 1}},
		{"7x5", eleven(), "7x5 in", process.Layout{Sheets: 2, Across: 1, Down: 2}},
		{"8x10", eleven(), "8x10 in", process.Layout{Sheets: 1, Across: 1, Down: 1}},
		{"11x14 goes turned", eleven(), "11x14 in", process.Layout{Sheets: 1, Across: 1, Down: 1, Turned: true}},
		{"12x16", eleven(), "12x16 in", process.Layout{}},
		{"10x15 cm", eleven(), "10x15 cm", process.Layout{Sheets: 4, Across: 2, Down: 2, Turned: true}},
		{"four 8x10 in the largest", twenty, "8x10 in", process.Layout{Sheets: 4, Across: 2, Down: 2}},
		{"8x10 in its own tray", process.NominalTray(material.Inches(8, 10)), "8x10 in", process.Layout{Sheets: 1, Across: 1, Down: 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := process.SideBySide(c.tray, size(t, c.sheet), room)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
		})
	}
}

// TestSideBySideFits puts the sheets down, one by one: those that are counted lie within the walls, and one more
// row or column either way does not.
func TestSideBySideFits(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		length := func(name string, from, to float64) quantity.Length {
			return quantity.Length(rapid.IntRange(int(from), int(to)).Draw(rt, name)) // whole millimetres, exact in a float
		}
		tray := process.Tray{Width: length("tray w", 50, 900), Height: length("tray h", 50, 900)}
		sheet := material.Sheet(length("w", 50, 700), length("h", 50, 700))
		c := process.Clearance{Wall: length("wall", 0, 30), Between: length("between", 0, 30)}
		best := 0
		for _, s := range []material.Size{sheet, sheet.Turned()} {
			best = max(best, row(tray.Width, s.Width, c)*row(tray.Height, s.Height, c))
		}
		got, err := process.SideBySide(tray, sheet, c)
		if err != nil || got.Sheets != best || got.Sheets != got.Across*got.Down {
			rt.Errorf("%v in %v: %+v, %v, want %d sheets", sheet, tray, got, err, best)
		}
		turned, err := process.SideBySide(tray, sheet.Turned(), c)
		if err != nil || turned.Sheets != best {
			rt.Errorf("%v turned in %v: %+v, %v, want %d sheets", sheet, tray, turned, err, best)
		}
	})
}

// row lays sheets down in a row, from one wall on, until the next would come too near to the other.
func row(inside, side quantity.Length, c process.Clearance) int {
	n := 0
	for at := c.Wall; at+side+c.Wall <= inside; at += side + c.Between {
		n++
	}
	return n
}

// TestFit: whether a sheet lies in a tray at all, and by how much it does not.
func TestFit(t *testing.T) {
	for _, c := range []struct {
		sheet string
		want  process.Fit
	}{
		{"30x38 cm", process.Fit{Fits: true, Turned: true}},
		{"38x30 cm", process.Fit{Fits: true}},
		{"12x16 in", process.Fit{Turned: true, LacksWidth: 26.4, LacksHeight: 4.8}},
		{"40x30 cm", process.Fit{LacksWidth: 20}},
		{"30x40 cm", process.Fit{Turned: true, LacksWidth: 20}},
	} {
		got, err := process.FitOf(eleven(), size(t, c.sheet))
		got.LacksWidth = quantity.Length(math.Round(float64(got.LacksWidth)*1e6) / 1e6)
		got.LacksHeight = quantity.Length(math.Round(float64(got.LacksHeight)*1e6) / 1e6)
		if d := cmp.Diff(c.want, got); err != nil || d != "" {
			t.Errorf("%s: %v (-want +got):\n%s", c.sheet, err, d)
		}
	}
}

// TestSchoolHour is a careful printer's answer (common practice): in trays for 11×14, one or two sheets of 8×10 in the
// developer, four to six shuffled in stop bath and fixer.
func TestSchoolHour(t *testing.T) {
	room, _ := process.TongsRoom()
	sheet := size(t, "8x10 in")
	dev, err := process.InDeveloper(eleven(), sheet, room)
	if err != nil || dev.Usual != 1 || dev.Most != 2 || dev.Figure.Origin != reckoning.FromMemory || dev.Figure.Value != 2 {
		t.Errorf("in the developer %+v, %v, want one or two, from memory", dev, err)
	}
	fix, err := process.Shuffled(eleven(), sheet)
	if err != nil || fix.Usual != 4 || fix.Most != 6 || fix.Figure.Origin != reckoning.FromMemory || fix.Figure.Value != 6 {
		t.Errorf("shuffled %+v, %v, want four to six, from memory", fix, err)
	}
}

// TestHeld: what is held in one tray, by size of sheet and tray.
func TestHeld(t *testing.T) {
	room, _ := process.TongsRoom()
	nominal := func(w, h float64) process.Tray { return process.NominalTray(material.Inches(w, h)) }
	for _, c := range []struct {
		name             string
		tray             process.Tray
		sheet            string
		dev, devMost     int
		fixUsual, fixTop int
	}{
		{"its own size", nominal(8, 10), "8x10 in", 1, 1, 1, 2},
		{"no room for tongs", process.Tray{Width: 204, Height: 255}, "8x10 in", 1, 1, 1, 1},
		{"one larger", nominal(9.5, 12), "8x10 in", 1, 2, 4, 6},
		{"large in its own", nominal(16, 20), "16x20 in", 1, 1, 1, 2},
		{"large in one larger", nominal(20, 24), "16x20 in", 1, 2, 2, 2},
		{"middling in one larger", nominal(16, 20), "11x14 in", 1, 2, 3, 4},
		{"small in large", nominal(20, 24), "5x7 in", 9, 9, 9, 9},
		{"too large", nominal(8, 10), "11x14 in", 0, 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			dev, err := process.InDeveloper(c.tray, size(t, c.sheet), room)
			if err != nil || dev.Usual != c.dev || dev.Most != c.devMost {
				t.Errorf("in the developer %+v, %v, want %d to %d", dev, err, c.dev, c.devMost)
			}
			fix, err := process.Shuffled(c.tray, size(t, c.sheet))
			if err != nil || fix.Usual != c.fixUsual || fix.Most != c.fixTop {
				t.Errorf("shuffled %+v, %v, want %d to %d", fix, err, c.fixUsual, c.fixTop)
			}
		})
	}
}

// TestLargePrints is a careful printer's sum (common practice): four prints of 16×20 in trays for 20×24 take some 5 L a
// tray at 15 mm; a tray for 16×20 takes them one at a time, with 3 L at the least depth.
func TestLargePrints(t *testing.T) {
	room, _ := process.TongsRoom()
	sheet := size(t, "16x20 in")
	v, _, err := process.NominalTray(size(t, "20x24 in")).VolumeFor(15)
	if err != nil || math.Abs(v.ML()-5000) > 150 {
		t.Errorf("20×24 tray, 15 mm: %.0f mL, %v, want some 5 L", v.ML(), err)
	}
	name, tray, ok := process.TrayFor(sheet, room)
	if !ok || name.String() != "16x20 in" {
		t.Fatalf("a tray for 16×20: %v, %v", name, ok)
	}
	v, _, err = tray.VolumeFor(quantity.Length(process.LeastDepth().Value))
	if err != nil || math.Abs(v.ML()-3000) > 50 {
		t.Errorf("16×20 tray, least depth: %.0f mL, %v, want 3 L", v.ML(), err)
	}
	if _, _, ok := process.TrayFor(size(t, "30x40 in"), room); ok {
		t.Error("a usual tray for 30×40 in")
	}
}

func TestNextSize(t *testing.T) {
	for sheet, want := range map[string]string{
		"8x10 in": "9.5x12 in", "10x8 in": "9.5x12 in", "11x14 in": "12x16 in", "16x20 in": "20x24 in",
		"24x30 cm": "11x14 in", "20x24 in": "24x28 in",
	} {
		if got := process.NextSize(size(t, sheet)).String(); got != want {
			t.Errorf("one larger than %s: %s, want %s", sheet, got, want)
		}
	}
}

func TestLayRefused(t *testing.T) {
	room, figures := process.TongsRoom()
	if len(figures) != 2 || figures[0].Origin != reckoning.FromMemory || figures[0].Value != float64(room.Wall) {
		t.Errorf("clearance %+v", figures)
	}
	for name, c := range map[string]struct {
		tray  process.Tray
		sheet material.Size
	}{
		"no inside":     {process.Tray{LitreDepth: 9}, size(t, "8x10 in")},
		"a roll":        {eleven(), material.Size{Roll: material.Roll120}},
		"not a number":  {process.Tray{Width: quantity.Length(math.NaN()), Height: 1}, size(t, "8x10 in")},
		"without bound": {process.Tray{Width: quantity.Length(math.Inf(1)), Height: 1}, size(t, "8x10 in")},
	} {
		_, err1 := process.SideBySide(c.tray, c.sheet, room)
		_, err2 := process.FitOf(c.tray, c.sheet)
		_, err3 := process.InDeveloper(c.tray, c.sheet, room)
		_, err4 := process.Shuffled(c.tray, c.sheet)
		for i, err := range []error{err1, err2, err3, err4} {
			if !errors.Is(err, process.ErrNoInside) {
				t.Errorf("%s, %d: %v, want ErrNoInside", name, i, err)
			}
		}
	}
}

func ExampleSideBySide() {
	room, _ := process.TongsRoom()
	tray := process.Tray{Width: 380, Height: 300}
	l, err := process.SideBySide(tray, material.Centimetres(13, 18), room)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(l.Sheets, "side by side")
	// Output: 2 side by side
}
