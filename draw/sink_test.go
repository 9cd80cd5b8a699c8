package draw_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/quantity"
)

func tray(name, colour string, place int, wide, high quantity.Length) draw.Tray {
	return draw.Tray{Name: name, Colour: colour, Pattern: draw.PatternAt(place), Wide: wide, High: high}
}

func evening(width float64, n int) draw.Sink {
	trays := []draw.SinkTray{
		{Tray: tray("white", "white", 0, 380, 300), Role: "Developer", Volume: "2 L", Tongs: "white tongs", Filled: true},
		{Tray: tray("red", "red", 1, 380, 300), Role: "Stop bath", Volume: "2 L", Tongs: "red tongs", Filled: true},
		{Tray: tray("grey", "grey", 2, 380, 300), Role: "Fixer 1", Volume: "2 L", Tongs: "grey tongs", Filled: true},
		{Tray: tray("grey two", "grey", 3, 380, 300), Role: "Fixer 2", Volume: "2 L", Filled: true},
		{Tray: tray("blue", "blue", 4, 450, 350), Role: "Holding bath"},
		{Tray: tray("clear", "clear", 5, 600, 500), Role: "Wash"},
	}
	return draw.Sink{Trays: trays[:n], Width: width, Label: "the sink from above"}
}

func TestSinkGolden(t *testing.T) {
	for name, s := range map[string]draw.Sink{
		"phone": evening(0, 5), "desk": evening(1000, 6), "narrow-desk": evening(620, 6), "three": evening(0, 3),
	} {
		t.Run(name, func(t *testing.T) { checkPicture(t, "sink-"+name, s) })
	}
}

func TestTrayGolden(t *testing.T) {
	for name, p := range map[string]draw.Tray{
		"white": tray("white", "white", 0, 380, 300), "clear": tray("the old one", "clear", 5, 0, 0), "upright": tray("grey two", "grey two", 3, 300, 380),
	} {
		t.Run(name, func(t *testing.T) { checkPicture(t, "tray-"+name, p) })
	}
	t.Run("section", func(t *testing.T) {
		checkPicture(t, "tray-section", draw.Section{
			Tray: tray("white", "white", 0, 380, 300), Deep: 80, Fill: 15, Bath: draw.MadeUp,
			Say: draw.SectionWords{Label: "15 mm in the white tray", Number: "15", Unit: "mm", Stop: "deep", Volume: "2 L"},
		})
	})
}

func TestEmptySinkAndTrayAreRefused(t *testing.T) {
	for _, p := range []picture{draw.Sink{}, draw.Section{}} {
		if _, err := p.Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%T: Scene gives %v, want ErrModel", p, err)
		}
		if _, err := p.Text(draw.TextOptions{}); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%T: Text gives %v, want ErrModel", p, err)
		}
	}
}

// Trays stand in working order, to one scale, and none lies over another.
func TestSinkProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := draw.Sink{Label: "x", Width: rapid.SampledFrom([]float64{0, 346, 600, 820, 1200}).Draw(t, "width")}
		side := rapid.IntRange(180, 900)
		for i := range rapid.IntRange(1, 9).Draw(t, "trays") {
			s.Trays = append(s.Trays, draw.SinkTray{
				Tray: tray(fmt.Sprintf("tray %d", i), rapid.SampledFrom([]string{"white", "red", "odd"}).Draw(t, "colour"), i,
					quantity.Length(side.Draw(t, "wide")), quantity.Length(side.Draw(t, "high"))),
				Role: "Second fixer", Volume: rapid.SampledFrom([]string{"", "1.5 L"}).Draw(t, "volume"),
				Tongs: rapid.SampledFrom([]string{"", "own tongs"}).Draw(t, "tongs"), Filled: rapid.Bool().Draw(t, "filled"),
			})
		}
		drawn, err := s.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		checkScene(t, drawn)
		var outer []scene.Rect
		for _, it := range drawn.Items {
			if r, ok := it.(scene.Rect); ok {
				outer = append(outer, r)
			}
		}
		if len(outer) != 2*len(s.Trays) { // each has an outer edge and an inner one
			t.Fatalf("%d rectangles, want two of each of %d trays", len(outer), len(s.Trays))
		}
		for i, tr := range s.Trays {
			got, want := outer[2*i].W/outer[0].W, float64(tr.Tray.Wide/s.Trays[0].Tray.Wide)
			if math.Abs(got-want) > 1e-6 {
				t.Errorf("tray %d is drawn %.4f times as wide as the first, want %.4f", i, got, want)
			}
			if got, want := outer[2*i].H/outer[2*i].W, float64(tr.Tray.High/tr.Tray.Wide); math.Abs(got-want) > 1e-6 {
				t.Errorf("tray %d is drawn %.4f times as high as wide, want %.4f", i, got, want)
			}
			for j := range i {
				if outer[2*i].Box().Overlaps(outer[2*j].Box()) {
					t.Errorf("trays %d and %d lie over one another", i, j)
				}
			}
		}
		checkOrder(t, drawn)
	})
}

// checkOrder: names are read in working order, from the top down or from left to right in rows.
func checkOrder(t *rapid.T, s scene.Scene) {
	t.Helper()
	next := 0
	for _, text := range texts(s) {
		if !strings.HasPrefix(text.Text, "tray ") {
			continue
		}
		if want := fmt.Sprintf("tray %d", next); text.Text != want {
			t.Errorf("%q is drawn where %q is due", text.Text, want)
		}
		next++
	}
}

func TestPatternsOfTheFirstEightDiffer(t *testing.T) {
	seen := map[draw.Pattern]bool{}
	for i := range 8 {
		seen[draw.PatternAt(i)] = true
	}
	if len(seen) != 8 {
		t.Errorf("%d patterns in the first eight places, want 8", len(seen))
	}
}

func TestProgressGolden(t *testing.T) {
	for name, p := range map[string]draw.Progress{
		"2-of-9": {At: 2, Of: 9, Say: "2 of 9", Label: "step 2 of 9"}, "9-of-9": {At: 9, Of: 9, Say: "9 of 9"}, "17-of-60": {At: 17, Of: 60, Say: "17 of 60"},
	} {
		t.Run(name, func(t *testing.T) { checkPicture(t, "progress-"+name, p) })
	}
}

func TestProgressProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := rapid.IntRange(1, 80).Draw(t, "of")
		p := draw.Progress{Of: of, At: rapid.IntRange(1, of).Draw(t, "at")}
		p.Say = fmt.Sprintf("%d of %d", p.At, p.Of)
		s, err := p.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		checkScene(t, s)
		before, after := 0, 0
		at := stops(s)[0].A.X
		for _, it := range s.Items {
			l, ok := it.(scene.Line)
			switch {
			case !ok || l.Stroke == scene.Accent || l.Stroke == scene.Hair:
			case l.A.X < at:
				before++
			default:
				after++
			}
		}
		if before != p.At-1 || after != p.Of-p.At {
			t.Errorf("%d ticks before and %d after the present one, want %d and %d", before, after, p.At-1, p.Of-p.At)
		}
	})
	for _, p := range []draw.Progress{{}, {At: 3, Of: 2}, {At: 0, Of: 2}} {
		if _, err := p.Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%+v: error %v, want ErrModel", p, err)
		}
	}
}
