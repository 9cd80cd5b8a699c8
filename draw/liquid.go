package draw

import "wetside/draw/scene"

// pour paints layers. band gives the outline between two levels in mL, which must be convex or at least without
// holes. In the red form nothing is filled.
func pour(layers []layer, f scene.Form, band func(from, to float64) []scene.Point) []scene.Item {
	var out []scene.Item
	for i, l := range layers {
		if l.to <= l.from {
			continue
		}
		outline := band(l.from, l.to)
		if f != scene.Red {
			fill := scene.Polygon(outline...)
			fill.Fill = scene.Liquid
			out = append(out, fill)
		}
		if l.what == Concentrate {
			out = append(out, scene.Hatched(outline, hatchGap))
		}
		if i+1 < len(layers) {
			out = append(out, scene.Line{A: outline[1], B: outline[2], Stroke: scene.Mark, Width: plainWidth})
		}
	}
	return out
}

// onLiquid puts a text where liquid may be: what is hatched is wiped away under it.
func onLiquid(t scene.Text, f scene.Form, wet bool) []scene.Item {
	if !wet {
		return []scene.Item{t}
	}
	b := t.Box()
	wipe := scene.Rect{
		At: scene.Point{X: b.Min.X - 3, Y: b.Min.Y - 3}, W: b.Max.X - b.Min.X + 6, H: b.Max.Y - b.Min.Y + 6, Fill: scene.Liquid,
	}
	if f == scene.Red {
		wipe.Fill = scene.Paper
	}
	return []scene.Item{wipe, t}
}
