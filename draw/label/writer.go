package label

import (
	"strings"

	"wetside/draw/scene"
)

// Measures in mm.
const (
	point = 25.4 / 72
	gap   = 1.6
	// row is a line of the tally: a pencil's strokes are 4 mm high.
	row      = 5.2
	mostRows = 8
	// narrow is a column that is too narrow for words beside a picture.
	narrow = 18.0
	blank  = 20.0 // a line to write on
)

// A writer sets text round what stands in its way, line by line. All it takes and keeps is in mm.
type writer struct {
	s     scene.Scene
	size  Size
	edge  float64 // left free all round
	pt    float64
	y     float64
	taken []scene.Box
}

func newWriter(size Size, pt float64, say string) *writer {
	w := &writer{s: scene.Scene{Width: size.Wide * Unit, Height: size.High * Unit, Label: say}, size: size, edge: 2.5, pt: pt}
	if size.Wide < 70 || size.High < 45 {
		w.edge = 1.8
	}
	w.y = w.edge
	return w
}

// span returns from where to where a line of a height is free at y.
func (w *writer) span(y, high float64) (left, right float64) {
	left, right = w.edge, w.size.Wide-w.edge
	for _, b := range w.taken {
		if y >= b.Max.Y || y+high <= b.Min.Y {
			continue
		}
		if b.Min.X < w.size.Wide/2 {
			left = max(left, b.Max.X+gap)
		} else {
			right = min(right, b.Min.X-gap)
		}
	}
	return left, right
}

// room returns the next y, from this on, where a line has room for words, with the line's ends.
func (w *writer) room(y, high float64) (at, left, right float64) {
	for {
		left, right = w.span(y, high)
		if right-left >= narrow || y > w.size.High {
			return y, left, right
		}
		y += 0.5
	}
}

// clear returns the next y from this on where something so wide and high meets nothing.
func (w *writer) clear(y, wide, high float64) float64 {
	for ; y < w.size.High; y += 0.5 {
		if left, right := w.span(y, high); right-left >= wide {
			return y
		}
	}
	return y
}

func lead(pt float64) float64 { return pt * point * 1.2 }

func wide(text string, pt float64, bold bool) float64 {
	return scene.TextWidth(strings.ReplaceAll(text, "\u00a0", " "), pt*point, bold)
}

// put writes one line with its top at y.
func (w *writer) put(text string, x, y, pt float64, bold bool, ink scene.Role) {
	w.s.Add(scene.Text{
		At: scene.Point{X: x * Unit, Y: (y + lead(pt)*0.78) * Unit}, Text: strings.ReplaceAll(text, "\u00a0", " "), Size: pt * point * Unit, Bold: bold, Fill: ink,
	})
}

// text writes a text from y on in as many lines as it needs; a word longer than a line is parted.
func (w *writer) text(text string, pt float64, bold bool, ink scene.Role) {
	rest := parts(text)
	for len(rest) > 0 {
		y, left, right := w.room(w.y, lead(pt))
		if y > w.size.High {
			w.y = y
			return
		}
		line := rest[0]
		rest = rest[1:]
		for len(rest) > 0 && wide(line+" "+rest[0], pt, bold) <= right-left {
			line += " " + rest[0]
			rest = rest[1:]
		}
		if cut := fitting(line, pt, bold, right-left); cut < len(line) {
			rest = append([]string{line[cut:]}, rest...)
			line = line[:cut]
		}
		w.put(line, left, y, pt, bold, ink)
		w.y = y + lead(pt)
	}
}

// parts splits a text where a line may end.
func parts(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' })
}

// fitting returns how many bytes of a word fit a width, at least one letter.
func fitting(line string, pt float64, bold bool, width float64) int {
	end := len(line)
	for i := range line {
		if i > 0 && wide(line[:i], pt, bold) <= width {
			end = i
		}
	}
	if wide(line, pt, bold) <= width {
		return len(line)
	}
	return end
}

// titleSize is twice as large as other letters, smaller where the title then needs more than one line.
func (w *writer) titleSize(title string) float64 {
	_, left, right := w.room(w.y, lead(w.pt*2))
	pt := w.pt * 2
	for pt > w.pt*1.2 && wide(title, pt, true) > right-left {
		pt -= 0.25
	}
	return pt
}

// fields writes words with what they say, as many in a line as go; what is not known has a line to write on.
func (w *writer) fields(all []Field) {
	pt := w.pt
	high := lead(pt) * 1.15
	y, left, right := w.room(w.y, high)
	x := left
	for i, f := range all {
		name := f.Name + " "
		need := wide(name, pt, false) + blank
		if f.Value != "" {
			need = wide(name, pt, false) + wide(f.Value, pt, f.Heavy)
		}
		if x > left && x+need > right {
			y, left, right = w.room(y+high, high)
			x = left
		}
		if need > right-left { // too long for any line
			w.y = y
			w.text(name+f.Value, pt, f.Heavy, scene.Ink)
			y, left, right = w.room(w.y, high)
			x = left
			if i == len(all)-1 {
				return
			}
			continue
		}
		w.put(f.Name, x, y, pt, false, scene.Soft)
		x += wide(name, pt, false)
		if f.Value == "" {
			base := (y + lead(pt)*0.9) * Unit
			w.s.Add(scene.Line{A: scene.Point{X: x * Unit, Y: base}, B: scene.Point{X: (x + blank) * Unit, Y: base}, Stroke: scene.Soft, Width: 0.15 * Unit})
			x += blank + 3
			continue
		}
		w.put(f.Value, x, y, pt, f.Heavy, scene.Ink)
		x += wide(f.Value, pt, f.Heavy) + 3
	}
	w.y = y + high
}

// below moves on under all that stands in the way.
func (w *writer) below() {
	for _, b := range w.taken {
		if b.Min.X < w.size.Wide/2 {
			w.y = max(w.y, b.Max.Y+0.5)
		}
	}
	w.y += gap / 2
}

// tally draws as many lines for a pencil as there is room for, with a tick every centimetre; ok is false where there
// are fewer than the least.
func (w *writer) tally(name string, least int) (ok bool) {
	for _, b := range w.taken {
		w.y = max(w.y, b.Max.Y)
	}
	bottom := w.size.High - w.edge
	n := min(mostRows, int((bottom-w.y)/row))
	if n < least {
		return false
	}
	w.put(name, w.edge, bottom-float64(n)*row, LeastPoints, false, scene.Soft)
	indent := wide(name, LeastPoints, false) + 1.5
	for i := range n {
		y := bottom - float64(n-1-i)*row
		from := w.edge
		if i == 0 {
			from += indent
		}
		rule := scene.Path{Stroke: scene.Hair, Width: 0.2 * Unit}
		rule.Move(from*Unit, (y-0.4)*Unit).Line((w.size.Wide-w.edge)*Unit, (y-0.4)*Unit)
		for x := w.edge + 10; x < w.size.Wide-w.edge; x += 10 {
			if x > from {
				rule.Move(x*Unit, (y-0.4)*Unit).Line(x*Unit, (y-1.6)*Unit)
			}
		}
		w.s.Add(rule)
	}
	return true
}

func joined(all []string) string { return strings.Join(all, " ") }
