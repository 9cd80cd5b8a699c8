package draw

import (
	"fmt"
	"strings"

	"wetside/draw/scene"
	"wetside/trade/quantity"
)

// A Tray is a tray from above: its colour as a rim, its pattern along the bottom.
type Tray struct {
	Name    string // the room's own, "grey two"
	Colour  string // the word for its colour; one that is no colour is drawn without
	Pattern Pattern
	// Wide and High are its inside, as it lies in the sink; 0: unknown, drawn as a tray of 36 × 30 cm.
	Wide, High quantity.Length
	Label      string // the picture in words, where it stands alone; empty: Name
}

// size returns the inside in mm.
func (t Tray) size() (wide, high float64) {
	if t.Wide <= 0 || t.High <= 0 {
		return 360, 300
	}
	return float64(t.Wide), float64(t.High)
}

// Scene returns the tray alone, small, to stand beside a name. There is no error.
func (t Tray) Scene(f scene.Form) (scene.Scene, error) {
	wide, high := t.size()
	const most = 88
	k := most / max(wide, high)
	s := scene.Scene{Width: wide*k + 8, Height: high*k + 8, Label: t.label()}
	s.Add(t.above(f, 4, 4, wide*k, high*k, false)...)
	return s, nil
}

func (t Tray) label() string {
	if t.Label != "" {
		return t.Label
	}
	return t.Name
}

// above draws the tray between its outer edges; filled says whether a bath is in it.
func (t Tray) above(f scene.Form, x, y, w, h float64, filled bool) []scene.Item {
	rim := min(max(min(w, h)*0.09, 5), 9)
	outer := scene.Rect{At: scene.Point{X: x, Y: y}, W: w, H: h, Stroke: scene.Mark, Width: 1.2}
	inner := scene.Rect{
		At: scene.Point{X: x + rim, Y: y + rim}, W: w - 2*rim, H: h - 2*rim, Fill: scene.Paper, Stroke: scene.Mark, Width: 1.2,
	}
	if f != scene.Red {
		outer.Fill = scene.Own(t.Colour)
		if filled {
			inner.Fill = scene.Liquid
		}
	}
	return append([]scene.Item{outer, inner}, t.Pattern.row(x+rim, x+w-rim, y+h-rim-10)...)
}

// Text returns the tray's pattern and name for a terminal. There is no error.
func (t Tray) Text(o TextOptions) (string, error) {
	var g grid
	g.put(0, 0, "┌───────┐")
	g.put(1, 0, fmt.Sprintf("│ %s │ %s", strings.Join(strings.Split(strings.Repeat(string(t.Pattern.rune()), 3), ""), " "), t.Name))
	g.put(2, 0, "└───────┘")
	return g.text(o), nil
}

// A Section is a tray cut through: how deep the bath stands in it.
type Section struct {
	Tray Tray
	Deep quantity.Length // of the tray; 0: twice the bath's depth
	Fill quantity.Length // of the bath
	Bath Content
	Say  SectionWords
}

// SectionWords are the words in a section.
type SectionWords struct {
	Label  string
	Number string // the depth's number, "15"
	Unit   string // and its unit, "mm"
	Stop   string // what it is: "deep"
	Volume string // what the bath measures: "2 L"
}

// deep returns the tray's depth in mm.
func (s Section) deep() float64 {
	if s.Deep > s.Fill {
		return float64(s.Deep)
	}
	return 2 * float64(s.Fill)
}

// Scene returns the section. Depths are drawn larger than widths, and a rule in centimetres stands in the tray.
func (s Section) Scene(f scene.Form) (scene.Scene, error) {
	if s.Fill <= 0 {
		return scene.Scene{}, fmt.Errorf("%w: a tray without depth", ErrModel)
	}
	const left, right, top, bottom, slope = 118.0, 326.0, 16.0, 112.0, 10.0
	out := scene.Scene{Width: sceneWidth, Height: 152, Label: s.Say.Label}
	k := (bottom - top) / s.deep()
	y := bottom - k*float64(s.Fill)
	edge := func(at float64) float64 { return slope * (bottom - at) / (bottom - top) }
	band := func(_, _ float64) []scene.Point {
		return []scene.Point{{X: left, Y: bottom}, {X: left - edge(y), Y: y}, {X: right + edge(y), Y: y}, {X: right, Y: bottom}}
	}
	out.Add(pour([]layer{{s.Bath, 0, 1}}, f, band)...)
	if own := scene.Own(s.Tray.Colour); own != scene.None && f != scene.Red {
		side := scene.Path{Stroke: own, Width: 7}
		side.Move(left-slope-3, top).Line(left-3, bottom+3).Line(right+3, bottom+3).Line(right+slope+3, top)
		out.Add(side)
	}
	for _, off := range []float64{0, 6.5} {
		edge := scene.Path{Stroke: scene.Mark, Width: 1.4}
		edge.Move(left-slope-off, top).Line(left-off, bottom+off).Line(right+off, bottom+off).Line(right+slope+off, top)
		out.Add(edge)
	}
	out.Add(s.rule(k, bottom)...)
	out.Add(scene.Line{A: scene.Point{X: lineLeft - 10, Y: y}, B: scene.Point{X: right + slope + 9, Y: y}, Stroke: scene.Accent, Width: stopWidth})
	out.Add(s.words(y)...)
	out.Add(s.Tray.Pattern.row(left, left+70, bottom+24)...)
	return out, nil
}

// rule stands in the tray: a tick every 5 mm, longer every 10.
func (s Section) rule(k, bottom float64) []scene.Item {
	var out []scene.Item
	const x = 300.0
	step := 5.0
	if s.deep()/5 > 24 {
		step = 10
	}
	for n := 1; float64(n)*step <= s.deep(); n++ {
		long := 10.0
		if n%2 == 0 {
			long = 18
		}
		y := bottom - k*step*float64(n)
		out = append(out, scene.Line{A: scene.Point{X: x, Y: y}, B: scene.Point{X: x + long, Y: y}, Stroke: scene.Mark, Width: plainWidth})
	}
	return append(out, scene.Line{A: scene.Point{X: x, Y: bottom - k*s.deep()}, B: scene.Point{X: x, Y: bottom}, Stroke: scene.Mark, Width: plainWidth})
}

func (s Section) words(y float64) []scene.Item {
	const end = numberRight - 14
	size := scene.Fit(s.Say.Number, 40, 18, end-2, true)
	half := size * 0.365
	text := func(x, y float64, words string, size float64, bold bool, a scene.Anchor, role scene.Role) scene.Item {
		return scene.Text{At: scene.Point{X: x, Y: y}, Text: words, Size: size, Bold: bold, Anchor: a, Fill: role}
	}
	under := strings.TrimSpace(s.Say.Unit + " " + s.Say.Stop)
	name := scene.Fit(s.Tray.Name, 16, 10, 130, false)
	return []scene.Item{
		text(end, y+half, s.Say.Number, size, true, scene.End, scene.Ink),
		text(end, y+half+20, under, scene.Fit(under, 16, 9, end-2, false), false, scene.End, scene.Soft),
		text(204, y-12, s.Say.Volume, scene.Fit(s.Say.Volume, 22, 9, 150, true), true, scene.Middle, scene.Ink),
		text(196, 141, s.Tray.Name, name, false, scene.Start, scene.Soft),
	}
}

// Text returns the section for a terminal. The error wraps ErrModel.
func (s Section) Text(o TextOptions) (string, error) {
	if s.Fill <= 0 {
		return "", fmt.Errorf("%w: a tray without depth", ErrModel)
	}
	var g grid
	const wide = 30
	rows := 5
	wet := min(max(int(float64(s.Fill)/s.deep()*float64(rows)+0.5), 1), rows-1)
	for row := range rows {
		g.put(row, textWall, "│")
		g.put(row, textWall+wide, "│")
		if row >= rows-wet {
			g.fill(row, textWall+1, wide-1, contentRune(s.Bath))
		}
	}
	level := rows - wet
	g.fill(level-1, textWall-3, wide+7, '━')
	g.putEnd(level-1, textWall-4, s.Say.Number+" "+s.Say.Unit)
	g.put(level-1, textWall+wide+5, s.Say.Volume)
	g.put(rows, textWall, "└")
	g.fill(rows, textWall+1, wide-1, '─')
	g.put(rows, textWall+wide, "┘")
	g.put(rows+1, textWall+1, strings.Repeat(string(s.Tray.Pattern.rune())+" ", 4)+s.Tray.Name)
	return g.text(o), nil
}

func contentRune(c Content) rune {
	if c == Concentrate {
		return '╱'
	}
	return '░'
}
