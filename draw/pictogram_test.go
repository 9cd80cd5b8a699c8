package draw_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"wetside/draw"
	"wetside/draw/scene"
)

var symbols = []string{
	"exploding bomb", "flame", "flame over circle", "gas cylinder", "corrosion", "skull and crossbones", "exclamation mark",
	"health hazard", "environment",
}

func TestPictograms(t *testing.T) {
	for i, say := range symbols {
		p := draw.Pictogram{Code: fmt.Sprintf("GHS%02d", i+1), Say: say}
		checkPicture(t, p.Code, p)
	}
}

// The symbol stands inside the frame (its points, not the handles that pull its curves), in black or white alone, and nothing of it
// is as small as to close up where the square has 10 mm.
func TestPictogramSymbolInsideItsFrame(t *testing.T) {
	const inner = 50 - 100.0/16
	for i := range symbols {
		s, err := draw.Pictogram{Code: fmt.Sprintf("GHS%02d", i+1), Say: "x"}.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		if len(s.Items) < 3 {
			t.Errorf("GHS%02d has no symbol", i+1)
		}
		for _, it := range s.Items[2:] {
			p, ok := it.(scene.Path)
			if !ok || p.Fill != "own-black" && p.Fill != "own-white" || p.Stroke != scene.None {
				t.Errorf("GHS%02d: %+v is not black or white", i+1, it)
			}
			for _, g := range p.Segs {
				if far := math.Abs(g.To.X-50) + math.Abs(g.To.Y-50); g.Op != scene.Close && far > inner-1 {
					t.Errorf("GHS%02d: %v is %.1f from the middle, want at most %.1f", i+1, g.To, far, inner-1)
				}
			}
		}
	}
}

func TestNoSuchPictogram(t *testing.T) {
	for _, code := range []string{"", "GHS00", "GHS10", "ghs05"} {
		if _, err := (draw.Pictogram{Code: code, Say: "x"}).Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%q: %v, want ErrModel", code, err)
		}
	}
}
