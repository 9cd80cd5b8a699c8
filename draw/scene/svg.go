package scene

import (
	"html"
	"math"
	"strconv"
	"strings"
)

// SVG returns the drawing as an element for a page: role="img" with the label, each colour as a custom property
// (fill="var(--ink)"), no style, no script, no id. Its class is "drawing"; the page gives its text a face, with
// tabular figures, and its width where that is to follow the page (the viewBox keeps the proportions).
func (s Scene) SVG() string {
	w := svg{colour: func(r Role) string { return "var(--" + string(r) + ")" }}
	w.open(s, "")
	w.items(s.Items)
	return w.close()
}

// Standalone returns the drawing as a file of its own in the colours of p, on its own ground.
func (s Scene) Standalone(p Palette) string {
	w := svg{colour: func(r Role) string { return p[r].Hex() }}
	w.open(s, ` xmlns="http://www.w3.org/2000/svg" font-family="Liberation Sans, Arial, Helvetica, sans-serif"`)
	w.items([]Item{Rect{W: s.Width, H: s.Height, Fill: Paper}})
	w.items(s.Items)
	return w.close() + "\n"
}

// An svg writes one element.
type svg struct {
	strings.Builder
	colour func(Role) string
}

func (w *svg) open(s Scene, more string) {
	w.put(`<svg`, more, ` class="drawing" viewBox="0 0 `, num(s.Width), ` `, num(s.Height), `" width="`, num(s.Width),
		`" height="`, num(s.Height), `" role="img" aria-label="`, plain(s.Label), `" fill="none" stroke-linejoin="round">`)
}

func (w *svg) close() string {
	w.put(`</svg>`)
	return w.String()
}

func (w *svg) put(parts ...string) {
	for _, p := range parts {
		w.WriteString(p)
	}
}

func (w *svg) items(items []Item) {
	for _, it := range items {
		switch it := it.(type) {
		case Line:
			w.put(`<path d="M`, pair(it.A), `L`, pair(it.B), `"`)
			w.paint(None, it.Stroke, it.Width, it.Dash, it.Gap)
		case Path:
			w.put(`<path d="`)
			w.segs(it.Segs)
			w.put(`"`)
			w.paint(it.Fill, it.Stroke, it.Width, it.Dash, it.Gap)
		case Rect:
			w.put(`<rect x="`, num(it.At.X), `" y="`, num(it.At.Y), `" width="`, num(it.W), `" height="`, num(it.H), `"`)
			w.paint(it.Fill, it.Stroke, it.Width, 0, 0)
		case Circle:
			w.put(`<circle cx="`, num(it.At.X), `" cy="`, num(it.At.Y), `" r="`, num(it.R), `"`)
			w.paint(it.Fill, it.Stroke, it.Width, 0, 0)
		case Text:
			w.text(it)
		}
	}
}

func (w *svg) segs(segs []Seg) {
	for _, s := range segs {
		switch s.Op {
		case MoveTo:
			w.put(`M`, pair(s.To))
		case LineTo:
			w.put(`L`, pair(s.To))
		case CurveTo:
			w.put(`C`, pair(s.C1), ` `, pair(s.C2), ` `, pair(s.To))
		case Close:
			w.put(`Z`)
		}
	}
}

// paint ends an element that is filled and stroked.
func (w *svg) paint(fill, stroke Role, width, dash, gap float64) {
	if fill != None {
		w.put(` fill="`, w.colour(fill), `"`)
	}
	if stroke != None {
		w.put(` stroke="`, w.colour(stroke), `" stroke-width="`, num(width), `"`)
		if dash > 0 {
			w.put(` stroke-dasharray="`, num(dash))
			if gap > 0 {
				w.put(` `, num(gap))
			}
			w.put(`"`)
		}
	}
	w.put(`/>`)
}

func (w *svg) text(t Text) {
	w.put(`<text x="`, num(t.At.X), `" y="`, num(t.At.Y), `" font-size="`, num(t.Size), `"`)
	if t.Bold {
		w.put(` font-weight="700"`)
	}
	switch t.Anchor {
	case Middle:
		w.put(` text-anchor="middle"`)
	case End:
		w.put(` text-anchor="end"`)
	case Start:
	}
	w.put(` fill="`, w.colour(t.Fill), `">`, plain(t.Text), `</text>`)
}

// num writes a figure with two decimals at most.
func num(x float64) string {
	x = math.Round(x*100) / 100
	if x == 0 {
		return "0" // and not -0
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

func pair(p Point) string { return num(p.X) + " " + num(p.Y) }

// plain makes a text safe in SVG: characters that XML refuses are left out, the others escaped.
func plain(text string) string {
	text = strings.ToValidUTF8(text, "\uFFFD")
	return html.EscapeString(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0xFFFE || r == 0xFFFF {
			return -1
		}
		return r
	}, text))
}
