package draw

import (
	"fmt"
	"math"

	"wetside/draw/scene"
)

// A Sink is the sink from above: the trays in working order, to one scale.
type Sink struct {
	Trays []SinkTray
	// Width of the drawing: below 600 the trays stand one under another, from there on side by side. 0: 346.
	Width float64
	Label string
}

// A SinkTray is a tray in the sink, with what is said of it.
type SinkTray struct {
	Tray   Tray
	Role   string // "Developer"
	Volume string // "2 L", or empty
	Tongs  string // whose tongs: "white tongs"; empty: none lie on it
	Filled bool   // a bath is in it
}

// Where the trays of a sink that stand one under another lie.
const (
	downTrays = 196 // widest tray
	downTall  = 126 // tallest one
	downText  = 32  // from the trays to their words
	downPitch = 96  // least from tray to tray
	acrossGap = 26
	acrossTop = 16
	besideAt  = 600 // from this width on, side by side
	leastCell = 128
)

// Scene returns the sink. The error wraps ErrModel.
func (s Sink) Scene(f scene.Form) (scene.Scene, error) {
	if len(s.Trays) == 0 {
		return scene.Scene{}, fmt.Errorf("%w: a sink without trays", ErrModel)
	}
	if s.Width >= besideAt {
		return s.across(f), nil
	}
	return s.down(f), nil
}

// largest returns the greatest width and height of the trays, mm.
func (s Sink) largest() (wide, high float64) {
	for _, t := range s.Trays {
		w, h := t.Tray.size()
		wide, high = max(wide, w), max(high, h)
	}
	return wide, high
}

// down stands the trays one under another, with their words on the right.
func (s Sink) down(f scene.Form) scene.Scene {
	out := scene.Scene{Width: sceneWidth, Label: s.Label}
	wide, high := s.largest()
	k := min(downTrays/wide, downTall/high)
	y, x := 8.0, 4+wide*k+downText
	for _, t := range s.Trays {
		w, h := t.Tray.size()
		w, h = w*k, h*k
		cell := max(h, downPitch-18)
		out.Add(t.draw(f, 4+(wide*k-w)/2, y+(cell-h)/2, w, h)...)
		t.words(&out, x, y+cell/2-t.tall()/2, sceneWidth-x-2)
		y += cell + 18
	}
	out.Height = y - 6
	return out
}

// lines are what is said of a tray, from the top down.
func (t SinkTray) lines() []trayLine {
	var out []trayLine
	for _, l := range []trayLine{
		{t.Role, 18, true, scene.Ink}, {t.Volume, 18, false, scene.Ink}, {t.Tray.Name, 15, false, scene.Soft}, {t.Tongs, 15, false, scene.Soft},
	} {
		if l.text != "" {
			out = append(out, l)
		}
	}
	return out
}

// A trayLine is one line of what is said of a tray.
type trayLine struct {
	text string
	size float64
	bold bool
	role scene.Role
}

// leading is the height of a line.
func (l trayLine) leading() float64 { return l.size + 4.5 }

// tall returns how high the words of a tray are.
func (t SinkTray) tall() float64 {
	sum := 0.0
	for _, l := range t.lines() {
		sum += l.leading()
	}
	return sum
}

// words writes what is said of a tray, from top down.
func (t SinkTray) words(out *scene.Scene, x, top, room float64) {
	for _, l := range t.lines() {
		top += l.leading()
		size := scene.Fit(l.text, l.size, 9, room, l.bold)
		out.Add(scene.Text{At: scene.Point{X: x, Y: top - 5}, Text: l.text, Size: size, Bold: l.bold, Fill: l.role})
	}
}

// draw paints the tray and its tongs.
func (t SinkTray) draw(f scene.Form, x, y, w, h float64) []scene.Item {
	out := t.Tray.above(f, x, y, w, h, t.Filled)
	if t.Tongs != "" {
		out = append(out, tongs(x+w, y+h*0.22, min(w*0.42, 60))...)
	}
	return out
}

// tongs lie over a tray's right edge: two arms from a bend outside, their tips inside.
func tongs(edge, y, long float64) []scene.Item {
	bend := scene.Point{X: edge + 13, Y: y - 7}
	arms := scene.Path{Stroke: scene.Mark, Width: 2}
	tips := scene.Path{Stroke: scene.Mark, Width: 4.5}
	for _, tip := range []scene.Point{{X: edge - long, Y: y + long*0.34}, {X: edge - long*0.9, Y: y + long*0.58}} {
		arms.Move(bend.X, bend.Y).Line(tip.X, tip.Y)
		tips.Move(tip.X+(bend.X-tip.X)*0.13, tip.Y+(bend.Y-tip.Y)*0.13).Line(tip.X, tip.Y)
	}
	return []scene.Item{arms, tips, scene.Circle{At: bend, R: 2.2, Fill: scene.Mark}}
}

// across stands the trays side by side, with their words under them, in as many rows as it takes.
func (s Sink) across(f scene.Form) scene.Scene {
	out := scene.Scene{Width: s.Width, Label: s.Label}
	n, most := len(s.Trays), int((s.Width-8)/leastCell)
	rows := (n + most - 1) / most
	per := (n + rows - 1) / rows
	_, high := s.largest()
	k := s.fit(per, 210/high)
	y := float64(acrossTop)
	for from := 0; from < len(s.Trays); from += per {
		y = s.row(f, &out, s.Trays[from:min(from+per, len(s.Trays))], k, y)
	}
	out.Height = y
	return out
}

// fit returns the largest scale, at most k, in which each row of trays fits the width.
func (s Sink) fit(per int, k float64) float64 {
	for ; k > 0.01; k *= 0.98 {
		fits := true
		for from := 0; from < len(s.Trays); from += per {
			fits = fits && cells(s.Trays[from:min(from+per, len(s.Trays))], k) <= s.Width-8
		}
		if fits {
			break
		}
	}
	return k
}

// cells returns how much room trays take side by side.
func cells(trays []SinkTray, k float64) float64 {
	sum := 0.0
	for _, t := range trays {
		sum += t.cell(k)
	}
	return sum
}

func (t SinkTray) cell(k float64) float64 {
	w, _ := t.Tray.size()
	return max(w*k+acrossGap, leastCell)
}

// row draws one row of trays, standing on one line, and returns where the next begins.
func (s Sink) row(f scene.Form, out *scene.Scene, trays []SinkTray, k, y float64) float64 {
	tall := 0.0
	for _, t := range trays {
		_, h := t.Tray.size()
		tall = max(tall, h*k)
	}
	x := 4.0
	for _, t := range trays {
		w, h := t.Tray.size()
		out.Add(t.draw(f, x, y+tall-h*k, w*k, h*k)...)
		t.words(out, x, y+tall+6, t.cell(k)-10)
		x += t.cell(k)
	}
	return y + tall + 100
}

// Text returns the sink for a terminal: a tray under another, the pattern in it, the words beside it.
// The error wraps ErrModel.
func (s Sink) Text(o TextOptions) (string, error) {
	if len(s.Trays) == 0 {
		return "", fmt.Errorf("%w: a sink without trays", ErrModel)
	}
	wide, _ := s.largest()
	var g grid
	row := 0
	for _, t := range s.Trays {
		w, _ := t.Tray.size()
		n := max(int(math.Round(w/wide*20)), 6)
		g.put(row, 0, "┌")
		g.fill(row, 1, n, '─')
		g.put(row, n+1, "┐")
		for r := 1; r <= 2; r++ {
			g.put(row+r, 0, "│")
			g.put(row+r, n+1, "│")
		}
		for col := 2; col < n; col += 3 {
			g.put(row+2, col, string(t.Tray.Pattern.rune()))
		}
		g.put(row+3, 0, "└")
		g.fill(row+3, 1, n, '─')
		g.put(row+3, n+1, "┘")
		if t.Tongs != "" {
			g.put(row+1, n-3, "═════")
		}
		for i, words := range []string{t.Role, t.Volume, t.Tray.Name, t.Tongs} {
			g.put(row+i, 26, clip(words, 33))
		}
		row += 4
	}
	return g.text(o), nil
}

// clip cuts a text to n characters.
func clip(text string, n int) string {
	if r := []rune(text); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return text
}
