package draw_test

import (
	"strings"
	"testing"

	"wetside/draw"
	"wetside/draw/scene"
)

// The foot of a tray has its colour in the light and never in the red, and its pattern in both.
func TestFoot(t *testing.T) {
	tray := draw.Tray{Name: "grey two", Colour: "grey", Pattern: draw.Crosses}
	light, red := tray.Foot(scene.Light).SVG(), tray.Foot(scene.Red).SVG()
	if !strings.Contains(light, "own-grey") || strings.Contains(red, "own-") {
		t.Errorf("light:\n%s\nred:\n%s", light, red)
	}
	for name, svg := range map[string]string{"light": light, "red": red} {
		if n := strings.Count(svg, "<path"); n < 15 {
			t.Errorf("%s: %d figures of the pattern", name, n)
		}
	}
}
