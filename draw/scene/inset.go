package scene

// Inset paints another drawing into this one, its top left corner at a point, so wide. Its label is left out: say in this
// one's what it shows.
func (s *Scene) Inset(sub Scene, at Point, width float64) {
	k := width / sub.Width
	move := func(p Point) Point { return Point{at.X + k*p.X, at.Y + k*p.Y} }
	for _, it := range sub.Items {
		switch it := it.(type) {
		case Line:
			it.A, it.B = move(it.A), move(it.B)
			it.Width, it.Dash, it.Gap = k*it.Width, k*it.Dash, k*it.Gap
			s.Add(it)
		case Rect:
			it.At, it.W, it.H, it.Width = move(it.At), k*it.W, k*it.H, k*it.Width
			s.Add(it)
		case Circle:
			it.At, it.R, it.Width = move(it.At), k*it.R, k*it.Width
			s.Add(it)
		case Text:
			it.At, it.Size = move(it.At), k*it.Size
			s.Add(it)
		case Path:
			segs := make([]Seg, len(it.Segs))
			for i, g := range it.Segs {
				segs[i] = Seg{Op: g.Op, C1: move(g.C1), C2: move(g.C2), To: move(g.To)}
			}
			it.Segs = segs
			it.Width, it.Dash, it.Gap = k*it.Width, k*it.Dash, k*it.Gap
			s.Add(it)
		}
	}
}
