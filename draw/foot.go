package draw

import "wetside/draw/scene"

// The foot of a tray, in the units of a drawing: as wide as a phone's page, as high as one line.
const (
	footWide = 330
	footHigh = 20
	footRim  = 5 // of the tray's own colour
)

// Foot returns the near edge of the tray from above, for a tray whose inside is the page's own: its pattern, and under it
// the rim in its colour, which the red form has not.
func (t Tray) Foot(f scene.Form) scene.Scene {
	s := scene.Scene{Width: footWide, Height: footHigh, Label: t.label()}
	s.Add(t.Pattern.row(4, footWide-4, 7)...)
	if own := scene.Own(t.Colour); own != scene.None && f != scene.Red {
		s.Add(scene.Rect{
			At: scene.Point{X: 1, Y: footHigh - footRim - 1}, W: footWide - 2, H: footRim, Fill: own, Stroke: scene.Mark, Width: 0.8,
		})
	}
	return s
}
