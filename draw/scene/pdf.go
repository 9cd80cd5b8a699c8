package scene

import (
	"codeberg.org/go-pdf/fpdf"
)

// A Place is where a drawing stands on a page: its top left corner and its width, in the document's own unit.
type Place struct{ X, Y, Width float64 }

// HeightAt returns how high the scene is at a width.
func (s Scene) HeightAt(width float64) float64 { return width * s.Height / s.Width }

// PDF paints the drawing on the document's present page in the light palette, the ground white. The family must have
// been added to the document as a UTF-8 face, plain and bold. Font, colours and line style of the document are as the drawing
// leaves them; set them before going on. Errors are the document's (fpdf.Fpdf.Error).
func (s Scene) PDF(doc *fpdf.Fpdf, at Place, family string) {
	p := page{doc: doc, at: at, k: at.Width / s.Width, family: family, colours: PaletteFor(Light)}
	p.colours[Paper] = Colour{0xff, 0xff, 0xff}
	doc.SetLineJoinStyle("round")
	doc.SetLineCapStyle("butt")
	for _, it := range s.Items {
		p.item(it)
	}
}

// A page is a scene's place in a document.
type page struct {
	doc     *fpdf.Fpdf
	at      Place
	k       float64 // document units in one of the scene's
	family  string
	colours Palette
}

func (p page) x(v float64) float64 { return p.at.X + p.k*v }
func (p page) y(v float64) float64 { return p.at.Y + p.k*v }

func (p page) item(it Item) {
	switch it := it.(type) {
	case Line:
		p.path(Path{Segs: []Seg{{Op: MoveTo, To: it.A}, {Op: LineTo, To: it.B}}, Stroke: it.Stroke, Width: it.Width, Dash: it.Dash, Gap: it.Gap})
	case Path:
		p.path(it)
	case Rect:
		if how := p.brush(it.Fill, it.Stroke, it.Width); how != "" {
			p.doc.Rect(p.x(it.At.X), p.y(it.At.Y), p.k*it.W, p.k*it.H, how)
		}
	case Circle:
		if how := p.brush(it.Fill, it.Stroke, it.Width); how != "" {
			p.doc.Circle(p.x(it.At.X), p.y(it.At.Y), p.k*it.R, how)
		}
	case Text:
		p.text(it)
	}
}

// brush sets colours and lines, and says what fpdf is to do: "F", "D", "FD", or nothing.
func (p page) brush(fill, stroke Role, width float64) string {
	how := ""
	if fill != None {
		c := p.colours[fill]
		p.doc.SetFillColor(int(c.R), int(c.G), int(c.B))
		how = "F"
	}
	if stroke != None {
		c := p.colours[stroke]
		p.doc.SetDrawColor(int(c.R), int(c.G), int(c.B))
		p.doc.SetLineWidth(p.k * width)
		how += "D"
	}
	return how
}

func (p page) path(path Path) {
	how := p.brush(path.Fill, path.Stroke, path.Width)
	if how == "" || len(path.Segs) == 0 {
		return
	}
	if path.Dash > 0 {
		gap := path.Gap
		if gap == 0 {
			gap = path.Dash
		}
		p.doc.SetDashPattern([]float64{p.k * path.Dash, p.k * gap}, 0)
	}
	for _, s := range path.Segs {
		switch s.Op {
		case MoveTo:
			p.doc.MoveTo(p.x(s.To.X), p.y(s.To.Y))
		case LineTo:
			p.doc.LineTo(p.x(s.To.X), p.y(s.To.Y))
		case CurveTo:
			p.doc.CurveBezierCubicTo(p.x(s.C1.X), p.y(s.C1.Y), p.x(s.C2.X), p.y(s.C2.Y), p.x(s.To.X), p.y(s.To.Y))
		case Close:
			p.doc.ClosePath()
		}
	}
	p.doc.DrawPath(how)
	if path.Dash > 0 {
		p.doc.SetDashPattern(nil, 0)
	}
}

func (p page) text(t Text) {
	style := ""
	if t.Bold {
		style = "B"
	}
	p.doc.SetFont(p.family, style, 0)
	p.doc.SetFontUnitSize(p.k * t.Size)
	c := p.colours[t.Fill]
	p.doc.SetTextColor(int(c.R), int(c.G), int(c.B))
	x := p.x(t.At.X)
	switch t.Anchor {
	case Middle:
		x -= p.doc.GetStringWidth(t.Text) / 2
	case End:
		x -= p.doc.GetStringWidth(t.Text)
	case Start:
	}
	p.doc.Text(x, p.y(t.At.Y), t.Text)
}
