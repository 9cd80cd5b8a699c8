package draw_test

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/internal/outside"
)

// painted paints a code's scene as a screen would: its ground, then the runs of its modules.
func painted(t *testing.T, s scene.Scene, p scene.Palette) string {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, int(s.Width), int(s.Height)))
	fill := func(from, to scene.Point, r scene.Role) {
		for y := int(from.Y); y < int(to.Y); y++ {
			for x := int(from.X); x < int(to.X); x++ {
				img.Set(x, y, color.RGBA{p[r].R, p[r].G, p[r].B, 255})
			}
		}
	}
	for _, it := range s.Items {
		switch it := it.(type) {
		case scene.Rect:
			fill(it.At, scene.Point{X: it.At.X + it.W, Y: it.At.Y + it.H}, it.Fill)
		case scene.Path:
			for i := 0; i+4 < len(it.Segs); i += 5 {
				fill(it.Segs[i].To, it.Segs[i+2].To, it.Fill)
			}
		default:
			t.Fatalf("a code has a %T", it)
		}
	}
	name := filepath.Join(t.TempDir(), "code.png")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(png.Encode(f, img), f.Close()); err != nil {
		t.Fatal(err)
	}
	return name
}

// Every length that goes into a code, in every form, is read by another program as it was written (zbarimg, Debian's
// zbar-tools). A longer one is refused.
func TestQRIsRead(t *testing.T) {
	zbarimg := outside.Program(t, "zbarimg", "zbar-tools")
	address := "http://192.168.178.20:8460/join/7K3MX92PQD"
	for i, n := range []int{10, 16, 22, 28, 34, 40, 46, 58, 70, 82, 94, 106, 180, 331, 2331} {
		text := (address + strings.Repeat("/abcXYZ-019", 210))[:n]
		form := scene.Form(i % 3) //nolint:gosec // 0 to 2
		s, err := draw.QR{Text: text, Say: "join"}.Scene(form)
		if err != nil {
			t.Fatal(err)
		}
		out, err := exec.CommandContext(t.Context(), zbarimg, "--quiet", "--raw", painted(t, s, scene.PaletteFor(form))).Output()
		if got := strings.TrimSpace(string(out)); err != nil || got != text {
			t.Errorf("%d bytes in form %d are read as %q, %v; want %q", n, form, got, err, text)
		}
	}
	if _, err := (draw.QR{Text: strings.Repeat("x", 2332), Say: "join"}).Scene(scene.Light); !errors.Is(err, draw.ErrTooLong) {
		t.Errorf("2332 bytes: %v, want too long", err)
	}
}

// In the red form a code has no other colour than the red page's own.
func TestQRInRed(t *testing.T) {
	s, err := draw.QR{Text: "http://192.168.178.20:8460/join/7K3MX92PQD", Say: "join", Size: draw.Wall}.Scene(scene.Red)
	if err != nil {
		t.Fatal(err)
	}
	if svg := s.SVG(); strings.Contains(svg, "own-") || !strings.Contains(svg, `aria-label="join"`) {
		t.Errorf("the red code has a colour of its own, or no words: %.200s", svg)
	}
	if fmt.Sprint(s.Width, s.Height) != fmt.Sprint(37*8, 37*8) { // version 3 is 29 modules, with four round it
		t.Errorf("it is %v × %v, want 37 modules of 8", s.Width, s.Height)
	}
}
