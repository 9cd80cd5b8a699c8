package signs_test

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/draw/scene"
	"wetside/draw/signs"
	"wetside/trade/fault"
)

var update = flag.Bool("update", false, "write the golden files anew")

func draw(t *testing.T, s fault.Sign, f scene.Form) scene.Scene {
	t.Helper()
	got, err := signs.Picture{Sign: s, Label: string(s)}.Scene(f)
	if err != nil {
		t.Fatalf("%s: %v", s, err)
	}
	return got
}

// Every sign has a picture of its own, of one size, inside its bounds, without a colour of its own.
func TestEverySignHasAPicture(t *testing.T) {
	colour := regexp.MustCompile(`(?i)#[0-9a-f]{3,8}\b|rgba?\(`)
	seen := map[string]fault.Sign{}
	for _, s := range fault.Signs() {
		for _, f := range []scene.Form{scene.Light, scene.Dark, scene.Red} {
			got := draw(t, s, f)
			if got.Width != signs.Wide || got.Height != signs.High || got.Label == "" {
				t.Errorf("%s: %g by %g, called %q", s, got.Width, got.Height, got.Label)
			}
			for _, it := range got.Items {
				if !it.Box().Within(got.Bounds()) {
					t.Errorf("%s: %T reaches %v", s, it, it.Box())
				}
			}
			if found := colour.FindString(got.SVG()); found != "" {
				t.Errorf("%s holds the colour %s", s, found)
			}
		}
		got := draw(t, s, scene.Red)
		got.Label = ""
		if other := seen[got.SVG()]; other != "" {
			t.Errorf("%s looks like %s", s, other)
		}
		seen[got.SVG()] = s
	}
	if len(seen) < 40 {
		t.Errorf("%d pictures only", len(seen))
	}
	if _, err := (signs.Picture{Sign: "of a later program"}).Scene(scene.Light); !errors.Is(err, signs.ErrNoPicture) {
		t.Errorf("a sign that is not known: %v", err)
	}
}

// In the red form nothing is filled but with the ground, dots apart, and no tray has a colour.
func TestRedIsOutlines(t *testing.T) {
	for _, s := range fault.Signs() {
		for _, it := range draw(t, s, scene.Red).Items {
			fill := scene.None
			switch it := it.(type) {
			case scene.Rect:
				fill = it.Fill
			case scene.Path:
				fill = it.Fill
			case scene.Circle:
				if fill = it.Fill; it.R <= 3 {
					fill = scene.None
				}
			}
			if fill != scene.None && fill != scene.Paper {
				t.Errorf("%s fills %T with %s", s, it, fill)
			}
		}
	}
}

func TestPicturesAsTheyAre(t *testing.T) {
	for _, s := range []fault.Sign{fault.BrownPatches, fault.FilmEdgeBand, fault.StopTurned} {
		for form, f := range map[string]scene.Form{"": scene.Light, ".red": scene.Red} {
			got := strings.ReplaceAll(draw(t, s, f).SVG(), "><", ">\n<") + "\n"
			path := filepath.Join("testdata", string(s)+form+".svg")
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("%s (-want +got):\n%s", path, diff)
			}
		}
	}
}
