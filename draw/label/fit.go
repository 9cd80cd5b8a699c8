package label

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"wetside/draw"
	"wetside/draw/scene"
)

// Unit is how many units of a label's scene are a millimetre; on a page of the usual resolution it then stands in its own size.
const Unit = 4.0

// LeastPoints is the smallest size of letters: their small ones are 1.2 mm high.
const LeastPoints = 6.6

// ErrSmall says that a label is too small for what must stand on it.
var ErrSmall = errors.New("label: too small")

// A Fitted is a label set on a size.
type Fitted struct {
	Scene  scene.Scene
	Points float64 // of its letters
	// Without is how many precautionary statements were left out for want of room; NoCode and NoTally say the same of the code
	// and of the places for a tally; Small that the pictograms have the least size, not the wished one.
	Without                int
	NoCode, NoTally, Small bool
	// Short says that the name is no larger than it must be, and that no line to write on is left but those for what is not known.
	Short bool
}

// A form is one way of setting a label.
type form struct {
	pt     float64
	side   float64 // of a pictogram
	advice int     // how many
	code   bool
	tally  int // lines of it at least
	short  bool
}

// forms are the ways that are tried, the best first.
func (l Label) forms() (all []form) {
	n, one, some := len(l.Advice), 1, 4
	if l.Say.Tally == "" { // nothing is counted on it
		one, some = 0, 0
	}
	for _, pt := range []float64{14, 13, 12, 11, 10, 9, 8.5, 8, 7.5, 7, LeastPoints} {
		rows := one
		if pt > 9 {
			rows = some
		}
		for _, side := range l.sides(pt) {
			all = append(all, form{pt, side, n, true, rows, false})
		}
	}
	for k := n - 1; k >= 0; k-- {
		all = append(all, form{LeastPoints, l.Side, k, true, one, false})
	}
	for _, short := range []bool{false, true} {
		for _, code := range []bool{true, false} {
			all = append(all, form{LeastPoints, l.Side, 0, code, 0, short})
		}
	}
	return all
}

// sides are the pictograms' sizes that are tried with a size of letters: the wished one is not bought with small letters.
func (l Label) sides(pt float64) []float64 {
	if l.Wished > l.Side && pt >= 7.5 {
		return []float64{l.Wished, l.Side}
	}
	return []float64{l.Side}
}

// Fit sets a label on a size. The error is ErrSmall where it is too small, or draw's for a picture that can't be made.
func (l Label) Fit(size Size, f scene.Form) (Fitted, error) {
	drawn, err := l.drawn(f)
	if err != nil {
		return Fitted{}, err
	}
	for _, try := range l.forms() {
		if size.High < 60 {
			try.pt = min(try.pt, 7.5) // a small label is read from near by
		}
		w := newWriter(size, try.pt, l.Say.Label)
		if !w.label(l, try, drawn) {
			continue
		}
		return Fitted{
			Scene: w.s, Points: try.pt, Without: len(l.Advice) - try.advice, NoCode: l.Address != "" && !try.code, NoTally: l.Say.Tally != "" && try.tally == 0,
			Small: len(l.Signs) > 0 && try.side < l.Wished, Short: try.short,
		}, nil
	}
	return Fitted{}, fmt.Errorf("%w: %s mm", ErrSmall, size)
}

// Fits returns those of the sizes that the label goes on.
func (l Label) Fits(all []Stock) (out []Stock) {
	for _, s := range all {
		if _, err := l.Fit(s.Label, scene.Light); err == nil {
			out = append(out, s)
		}
	}
	return out
}

// pictures are what of a label is drawn, whatever its size.
type pictures struct {
	code  *scene.Scene // nil: none
	signs []scene.Scene
}

func (l Label) drawn(f scene.Form) (p pictures, err error) {
	if l.Address != "" {
		s, err := draw.QR{Text: l.Address, Say: l.Say.Code}.Scene(f)
		if err != nil {
			return p, err
		}
		p.code = &s
	}
	for _, sign := range l.Signs {
		s, err := draw.Pictogram{Code: sign.Code, Say: sign.Name}.Scene(f)
		if err != nil {
			return p, err
		}
		p.signs = append(p.signs, s)
	}
	return p, nil
}

// label sets everything; ok is false where it does not fit.
func (w *writer) label(l Label, f form, drawn pictures) (ok bool) {
	if drawn.code != nil && f.code {
		w.code(*drawn.code)
	}
	fields := l.Fields
	if f.short {
		w.text(l.Title, f.pt*1.4, true, scene.Ink)
		w.text(strings.Trim(l.About+dot+l.For, dot), f.pt, true, scene.Ink)
		fields = slices.DeleteFunc(slices.Clone(fields), func(x Field) bool { return x.Later && x.Value == "" })
	} else {
		w.text(l.Title, w.titleSize(l.Title), true, scene.Ink)
		w.text(l.About, f.pt*1.15, true, scene.Ink)
		w.text(l.For, f.pt, false, scene.Ink)
	}
	w.text(l.Alarm, f.pt*1.2, true, scene.Accent)
	w.y += gap / 2
	w.fields(fields)
	w.y += gap / 2
	if !w.signs(drawn.signs, f.side) {
		return false
	}
	w.text(l.Signal, f.pt*1.4, true, scene.Ink)
	w.text(joined(l.Hazard), f.pt, true, scene.Ink)
	w.text(joined(l.Advice[:f.advice]), f.pt, false, scene.Ink)
	w.text(joined(l.Notes), f.pt, false, scene.Soft)
	w.below()
	w.text(l.Spent, f.pt, true, scene.Ink)
	if f.tally > 0 {
		return w.tally(l.Say.Tally, f.tally)
	}
	return w.y <= w.size.High-w.edge
}

// code sets the code in the upper right corner.
func (w *writer) code(s scene.Scene) {
	side := s.Width / codeUnits * module
	at := scene.Point{X: w.size.Wide - w.edge/2 - side, Y: w.edge / 2}
	w.s.Inset(s, scene.Point{X: at.X * Unit, Y: at.Y * Unit}, side*Unit)
	w.taken = append(w.taken, scene.Box{Min: at, Max: scene.Point{X: at.X + side, Y: at.Y + side}})
}

const (
	codeUnits = 6.0  // of a code's scene to a module, at its own size
	module    = 0.45 // mm: a phone's camera reads that from a hand's breadth (from memory); tests read it back at 300 dpi
)

// signs sets pictograms at the left edge: up to two in a row, more of them in two rows that stand into each other. ok is false
// where the label is too narrow for them.
func (w *writer) signs(all []scene.Scene, side float64) (ok bool) {
	if len(all) == 0 {
		return true
	}
	wide := draw.PictogramWide(side)
	row, high := float64(len(all))*(wide+0.6)-0.6, wide
	if len(all) > 2 {
		row, high = float64(len(all)-1)*(wide/2+0.6)+wide, wide*3/2+0.6
	}
	if row > w.size.Wide-2*w.edge {
		return false
	}
	box := scene.Box{Min: scene.Point{X: w.edge, Y: w.clear(w.y, row, high)}}
	box.Max = box.Min
	for i, s := range all {
		at := scene.Point{X: box.Min.X + float64(i)*(wide+0.6), Y: box.Min.Y}
		if len(all) > 2 {
			at = scene.Point{X: box.Min.X + float64(i)*(wide/2+0.6), Y: box.Min.Y + float64(i%2)*(wide/2+0.6)}
		}
		w.s.Inset(s, scene.Point{X: at.X * Unit, Y: at.Y * Unit}, wide*Unit)
		box.Max.X, box.Max.Y = max(box.Max.X, at.X+wide), max(box.Max.Y, at.Y+wide)
	}
	w.taken, w.y = append(w.taken, box), box.Min.Y
	return true
}
