package scene_test

import (
	"math"
	"strings"
	"testing"

	"wetside/draw/scene"
)

func TestOwn(t *testing.T) {
	for words, want := range map[string]scene.Role{
		"white": "own-white", "Red": "own-red", "grey two": "own-grey", "gray": "own-grey", "dark blue": "own-blue",
		"light-green": "own-green", "yellow": "own-yellow", "black": "own-black", "orange": "own-orange", "brown": "own-brown",
		"clear": scene.None, "": scene.None, "the old one": scene.None, "redwood": scene.None, "stainless steel": "own-steel",
	} {
		if got := scene.Own(words); got != want {
			t.Errorf("Own(%q) = %q, want %q", words, got, want)
		}
	}
}

// luminance is the relative luminance of WCAG 2.2 (sRGB, threshold 0.04045).
func luminance(c scene.Colour) float64 {
	f := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
}

// Contrast: WCAG 2.2, 1.4.3 asks 4.5:1 of text, 1.4.11 asks 3:1 of what a picture needs to be understood.
func TestPalettesHaveContrast(t *testing.T) {
	pairs := []struct {
		over, under scene.Role
		least       float64
	}{
		{scene.Ink, scene.Paper, 7},
		{scene.Soft, scene.Paper, 4.5},
		{scene.Ink, scene.Liquid, 7},
		{scene.Soft, scene.Liquid, 4.5},
		{scene.Mark, scene.Paper, 4.5},
		{scene.Mark, scene.Liquid, 4.5},
		{scene.Accent, scene.Paper, 4.5},
		{scene.Accent, scene.Liquid, 3},
		{scene.Hatch, scene.Liquid, 2.4},
	}
	for _, form := range []scene.Form{scene.Light, scene.Dark, scene.Red} {
		p := scene.PaletteFor(form)
		for _, pair := range pairs {
			a, b := luminance(p[pair.over]), luminance(p[pair.under])
			got := (max(a, b) + 0.05) / (min(a, b) + 0.05)
			least := pair.least
			if form == scene.Red {
				least = min(least, 4.5) // pure red on black reaches 5.25:1 at most
			}
			if got < least {
				t.Errorf("form %d: %s on %s = %.2f:1, want %.1f:1", form, pair.over, pair.under, got, least)
			}
		}
	}
}

func TestRedHasNoGreenOrBlue(t *testing.T) {
	for role, c := range scene.PaletteFor(scene.Red) {
		if c.G != 0 || c.B != 0 {
			t.Errorf("%s = %s, want red alone", role, c.Hex())
		}
	}
}

func TestEveryPaletteHasEveryRole(t *testing.T) {
	for _, form := range []scene.Form{scene.Light, scene.Dark, scene.Red} {
		p := scene.PaletteFor(form)
		for _, role := range scene.Roles() {
			if _, ok := p[role]; !ok {
				t.Errorf("form %d has no %s", form, role)
			}
			if want := "--" + string(role) + ":" + p[role].Hex() + ";"; !strings.Contains(p.CSS(), want) {
				t.Errorf("form %d: CSS lacks %q", form, want)
			}
		}
	}
}
