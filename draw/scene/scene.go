package scene

import "math"

// A Scene is one drawing.
type Scene struct {
	Width, Height float64
	// Label says in words what the picture shows, for those who do not see it. It must not be empty.
	Label string
	Items []Item
}

// Add paints items over what is there. Texts without a word are left out.
func (s *Scene) Add(items ...Item) {
	for _, it := range items {
		if t, ok := it.(Text); !ok || t.Text != "" {
			s.Items = append(s.Items, it)
		}
	}
}

// An Item is a Line, Path, Rect, Circle or Text.
type Item interface {
	// Box returns what the item covers at most.
	Box() Box
	item()
}

// A Point is a place in a scene.
type Point struct{ X, Y float64 }

// A Box is an upright rectangle from Min to Max.
type Box struct{ Min, Max Point }

// Overlaps reports whether two boxes share more than an edge.
func (b Box) Overlaps(o Box) bool {
	return b.Min.X < o.Max.X && o.Min.X < b.Max.X && b.Min.Y < o.Max.Y && o.Min.Y < b.Max.Y
}

// Within reports whether b lies in o.
func (b Box) Within(o Box) bool {
	return b.Min.X >= o.Min.X && b.Min.Y >= o.Min.Y && b.Max.X <= o.Max.X && b.Max.Y <= o.Max.Y
}

func (b Box) grown(by float64) Box {
	return Box{Point{b.Min.X - by, b.Min.Y - by}, Point{b.Max.X + by, b.Max.Y + by}}
}

// Bounds returns the scene's own box.
func (s Scene) Bounds() Box { return Box{Max: Point{s.Width, s.Height}} }

// A Line is a straight stroke.
type Line struct {
	A, B   Point
	Stroke Role
	Width  float64
	Dash   float64 // length of a dash and, where Gap is 0, of the gap after it; 0: none
	Gap    float64 // length of the gap after a dash; 0: as the dash
}

// A Rect is an upright rectangle.
type Rect struct {
	At           Point // top left
	W, H         float64
	Fill, Stroke Role
	Width        float64
}

// A Circle is a circle.
type Circle struct {
	At           Point // centre
	R            float64
	Fill, Stroke Role
	Width        float64
}

// Anchor is which end of a text stands at its point.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// A Text is one line of text on its baseline.
type Text struct {
	At     Point
	Text   string
	Size   float64
	Bold   bool
	Anchor Anchor
	Fill   Role
}

func (Line) item()   {}
func (Rect) item()   {}
func (Circle) item() {}
func (Text) item()   {}
func (Path) item()   {}

// Box returns what the line covers. Its ends are cut straight.
func (l Line) Box() Box {
	b := Box{Point{min(l.A.X, l.B.X), min(l.A.Y, l.B.Y)}, Point{max(l.A.X, l.B.X), max(l.A.Y, l.B.Y)}}
	dx, dy := b.Max.X-b.Min.X, b.Max.Y-b.Min.Y
	if long := math.Hypot(dx, dy); long > 0 {
		across, down := l.Width/2*dy/long, l.Width/2*dx/long
		b.Min.X, b.Max.X, b.Min.Y, b.Max.Y = b.Min.X-across, b.Max.X+across, b.Min.Y-down, b.Max.Y+down
	}
	return b
}

// Box returns what the rectangle covers.
func (r Rect) Box() Box {
	return Box{r.At, Point{r.At.X + r.W, r.At.Y + r.H}}.grown(strokeHalf(r.Stroke, r.Width))
}

// Box returns what the circle covers.
func (c Circle) Box() Box { return Box{c.At, c.At}.grown(c.R + strokeHalf(c.Stroke, c.Width)) }

// Box returns what the text covers at most, from the top of its capitals to below its tails.
func (t Text) Box() Box {
	w := TextWidth(t.Text, t.Size, t.Bold)
	left := t.At.X
	switch t.Anchor {
	case Middle:
		left -= w / 2
	case End:
		left -= w
	case Start:
	}
	return Box{Point{left, t.At.Y - capHeight*t.Size}, Point{left + w, t.At.Y + descent(t.Text)*t.Size}}
}

// capHeight is the height of capitals and figures above the baseline, in em (DejaVu Sans: 0.729).
const capHeight = 0.73

func strokeHalf(stroke Role, width float64) float64 {
	if stroke == None {
		return 0
	}
	return width / 2
}

// Box returns what the path covers at most: the box of its points, those that pull its curves too.
func (p Path) Box() Box {
	b := Box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
	for _, s := range p.Segs {
		for _, at := range s.points() {
			b.Min = Point{min(b.Min.X, at.X), min(b.Min.Y, at.Y)}
			b.Max = Point{max(b.Max.X, at.X), max(b.Max.Y, at.Y)}
		}
	}
	return b.grown(strokeHalf(p.Stroke, p.Width))
}
