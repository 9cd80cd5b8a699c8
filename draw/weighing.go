package draw

import "wetside/draw/scene"

// weighing draws a balance from the front: a beaker on its pan, and the reading on its display, underlined heavily.
func (r Reading) weighing(f scene.Form) scene.Scene {
	out := scene.Scene{Width: sceneWidth, Height: 236, Label: r.Say.Label}
	const mid, pan = sceneWidth / 2.0, 98.0
	cup := glass{full: 1, mid: mid, bottom: pan - 4, tall: 50, foot: 42, mouth: 42}
	out.Add(pour([]layer{{r.Pour, 0, 0.62}}, f, cup.band)...)
	side := wall()
	side.Move(cup.left(34), 34).Line(cup.left(pan), pan-4).Line(cup.right(pan), pan-4).Line(cup.right(34), 34)
	plate := wall()
	plate.Move(mid-84, pan).Line(mid+84, pan).Move(mid-14, pan).Line(mid-14, pan+16).Move(mid+14, pan).Line(mid+14, pan+16)
	body := wall()
	body.Move(mid-104, pan+16).Line(mid+104, pan+16).Line(mid+120, 222).Line(mid-120, 222).Shut()
	out.Add(side, plate, body)
	number := r.Say.number(r.Mark)
	unit := r.Say.unit(r.Scale)
	size := scene.Fit(number, 54, 24, 150, true)
	w := scene.TextWidth(number, size, true)
	u := scene.TextWidth(unit, 24, false)
	x := mid - (w+u+8)/2
	out.Add(
		scene.Text{At: scene.Point{X: x + w, Y: 176}, Text: number, Size: size, Bold: true, Anchor: scene.End, Fill: scene.Ink},
		scene.Text{At: scene.Point{X: x + w + 8, Y: 176}, Text: unit, Size: 24, Fill: scene.Soft},
		scene.Line{A: scene.Point{X: mid - 84, Y: 188}, B: scene.Point{X: mid + 84, Y: 188}, Stroke: scene.Accent, Width: stopWidth},
	)
	if r.Say.Stop != "" {
		out.Add(scene.Text{
			At: scene.Point{X: mid, Y: 209}, Text: r.Say.Stop, Size: scene.Fit(r.Say.Stop, 15, 10, 190, false), Anchor: scene.Middle, Fill: scene.Soft,
		})
	}
	return out
}
