package draw

import (
	"fmt"
	"math"
	"strings"

	"wetside/ahead"
	"wetside/draw/scene"
	"wetside/trade/quantity"
	"wetside/trade/waste"
	"wetside/words"
)

// A Can is a waste can with what is in it and the mark at which it counts as full.
type Can struct {
	Holds, In, Mark quantity.Volume
	Say             CanWords
}

// CanWords are the words in a can.
type CanWords struct {
	Label  string // the picture in words
	Name   string
	Number string // of the full mark: "20"
	Unit   string // "L"
	Stop   string // what the mark is: "full"
	In     string // what is in it: "14 L"
}

// The can stands between these, in the scene's units.
const (
	canLeft, canRight   = 118.0, 262.0
	canTop, canBottom   = 52.0, 236.0
	canTicks            = 5 // shortest marks, of which there are twelve at most
	canWidth, canHeight = 358.0, 250.0
)

// Scene returns the can. The error wraps ErrModel for one that holds nothing.
func (c Can) Scene(f scene.Form) (scene.Scene, error) {
	if c.Holds <= 0 {
		return scene.Scene{}, fmt.Errorf("%w: a can that holds nothing", ErrModel)
	}
	out := scene.Scene{Width: canWidth, Height: canHeight, Label: c.Say.Label}
	level := c.y(c.In)
	if c.In > 0 && f != scene.Red {
		out.Add(scene.Rect{At: scene.Point{X: canLeft, Y: level}, W: canRight - canLeft, H: canBottom - level, Fill: scene.Liquid})
	}
	if c.In > 0 {
		out.Add(scene.Line{A: scene.Point{X: canLeft, Y: level}, B: scene.Point{X: canRight, Y: level}, Stroke: scene.Mark, Width: tickWidth})
	}
	out.Add(c.body()...)
	out.Add(c.ticks()...)
	mark := c.y(c.Mark)
	out.Add(scene.Line{A: scene.Point{X: canLeft - 14, Y: mark}, B: scene.Point{X: canRight + 10, Y: mark}, Stroke: scene.Accent, Width: stopWidth})
	out.Add(c.words(mark, level)...)
	return out, nil
}

// y is where a volume stands; what is over the brim stands there.
func (c Can) y(v quantity.Volume) float64 {
	part := min(1, max(0, v.ML()/c.Holds.ML()))
	return canBottom - (canBottom-canTop)*part
}

// body is the can with its shoulders, its handle and its cap.
func (c Can) body() []scene.Item {
	body := wall()
	body.Move(canLeft, canBottom).Line(canLeft, canTop).Line(canLeft+22, canTop-18).Line(canRight-50, canTop-18)
	body.Move(canRight-14, canTop-18).Line(canRight, canTop).Line(canRight, canBottom).Line(canLeft, canBottom)
	lid := scene.Rect{At: scene.Point{X: canRight - 52, Y: canTop - 36}, W: 40, H: 18, Fill: scene.Paper, Stroke: scene.Mark, Width: wallWidth}
	handle := wall()
	handle.Move(canLeft+34, canTop-18).Line(canLeft+34, canTop-30).Line(canLeft+76, canTop-30).Line(canLeft+76, canTop-18)
	return []scene.Item{body, lid, handle}
}

// ticks graduate it: as many litres apart as leave no more than twelve marks.
func (c Can) ticks() []scene.Item {
	litres := c.Holds.ML() / 1000
	step := canStep(litres)
	var out []scene.Item
	for n := 1; float64(n)*step < litres-step/4; n++ {
		v, err := quantity.VolumeOfML(1000 * step * float64(n))
		if err != nil {
			break
		}
		long := 8.0
		if n%canTicks == 0 {
			long = 16
		}
		y := c.y(v)
		out = append(out, scene.Line{A: scene.Point{X: canLeft, Y: y}, B: scene.Point{X: canLeft + long, Y: y}, Stroke: scene.Mark, Width: plainWidth})
	}
	return out
}

// canStep is 1, 2 or 5 times a power of ten.
func canStep(litres float64) float64 {
	const most = 26
	for _, decade := range []float64{0.01, 0.1, 1, 10, 100} {
		for _, n := range []float64{1, 2, 5} {
			if litres/(n*decade) <= most {
				return n * decade
			}
		}
	}
	return litres / most
}

func (c Can) words(mark, level float64) []scene.Item {
	const end = canLeft - 20
	text := func(x, y float64, words string, size float64, bold bool, a scene.Anchor, role scene.Role) scene.Item {
		return scene.Text{At: scene.Point{X: x, Y: y}, Text: words, Size: size, Bold: bold, Anchor: a, Fill: role}
	}
	size := scene.Fit(c.Say.Number, 40, 18, end-2, true)
	under := strings.TrimSpace(c.Say.Unit + " " + c.Say.Stop)
	out := []scene.Item{
		text(end, mark+size*0.365, c.Say.Number, size, true, scene.End, scene.Ink),
		text(end, mark+size*0.365+20, under, scene.Fit(under, 16, 9, end-2, false), false, scene.End, scene.Soft),
	}
	if c.In > 0 {
		at := min(max(level, canTop+8), canBottom-6) + 9
		if math.Abs(at-9-mark) < 14 { // else it would stand on the mark's own line
			at = mark + 28
		}
		room := canWidth - canRight - 18
		out = append(out, text(canRight+14, at, c.Say.In, scene.Fit(c.Say.In, 26, 10, room, true), true, scene.Start, scene.Ink))
	}
	return out
}

// Text returns the can for a terminal. The error wraps ErrModel.
func (c Can) Text(o TextOptions) (string, error) {
	if c.Holds <= 0 {
		return "", fmt.Errorf("%w: a can that holds nothing", ErrModel)
	}
	var g grid
	const rows, wide = 8, 16
	at := func(v quantity.Volume) int {
		return rows - int(math.Round(rows*min(1, max(0, v.ML()/c.Holds.ML()))))
	}
	g.put(0, textWall+wide-5, "┌──┐")
	g.put(1, textWall, "┌"+strings.Repeat("─", wide-1)+"┐")
	level := at(c.In)
	if c.In > 0 {
		level = min(level, rows-1)
	}
	for row := range rows {
		g.put(row+2, textWall, "│")
		g.put(row+2, textWall+wide, "│")
		if row >= level {
			g.fill(row+2, textWall+1, wide-1, '░')
		}
	}
	mark := at(c.Mark)
	g.fill(mark+2, textWall-3, wide+7, '━')
	g.putEnd(mark+2, textWall-4, c.Say.Number+" "+c.Say.Unit+" "+c.Say.Stop)
	if c.In > 0 {
		if level == mark {
			level++
		}
		g.put(min(level, rows-1)+2, textWall+wide+5, c.Say.In)
	}
	g.put(rows+2, textWall, "└"+strings.Repeat("─", wide-1)+"┘")
	return g.text(o), nil
}

// CanOf returns the picture of a waste can; ok is false for one of which nobody said what it holds.
func CanOf(v *words.Voice, c *ahead.Can) (can Can, ok bool) {
	if c.Level.Fill == waste.NoSize {
		return can, false
	}
	full, err := quantity.VolumeOfML(1000 * c.Level.Mark)
	if err != nil {
		return can, false
	}
	can = Can{Holds: c.Can.Holds.Value, In: c.WasteCan.Level(), Mark: full}
	can.Say = CanWords{Name: v.CanName(&c.WasteCan), Stop: v.Label("can_full"), In: v.Volume(can.In)}
	can.Say.Number, can.Say.Unit, _ = strings.Cut(v.Volume(full), "\u00a0")
	can.Say.Label = v.Titled(can.Say.Name, v.CanLevel(c).Text())
	return can, true
}
