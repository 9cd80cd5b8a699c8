package sheet

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"wetside/draw"
	"wetside/draw/scene"
)

// A tally is a bath's tape on paper: the work done in ink, and empty places for a pencil up to the safe end. A place takes
// five strokes, the fifth across the four.
type tally struct {
	*setter
	tape  draw.Tape
	x     float64
	width float64
	to    float64 // the scale's end, sheets
	each  float64 // sheets that a stroke stands for
	band  float64 // how high the tape is, mm
	pt    float64 // of its numbers
	notes []mark  // that stand over the tape beside the label's and the test's
	named bool    // every place is numbered, so that a recount is easy
}

// A mark is a number with its word at a place of the tape.
type mark struct {
	at           float64 // mm from the tape's left end
	number, word string
	loud         bool
	middle, wide float64 // where it comes to stand
}

const (
	leastStroke = 1.1 // mm between strokes that a pencil can keep apart, tried on paper
	perPlace    = 5   // strokes
	pencilLine  = 0.25
)

// eachStroke returns how many sheets a stroke stands for, so that strokes can be kept apart on a tape of this width.
func eachStroke(to, width float64) float64 {
	for decade := 1.0; ; decade *= 10 {
		for _, k := range []float64{1, 2, 5} {
			if each := k * decade; each*width/to >= leastStroke {
				return each
			}
		}
	}
}

// done returns what went through, sheets.
func (t *tally) done() float64 {
	sum := 0.0
	for _, w := range t.tape.Work {
		sum += w.Sheets
	}
	return sum
}

// guessedFrom returns from where on the work was not counted; estimates stand last.
func (t *tally) guessedFrom() float64 {
	counted := 0.0
	for _, w := range t.tape.Work {
		if !w.Estimated {
			counted += w.Sheets
		}
	}
	return counted
}

// along returns where a count stands, mm from the tape's left end; what is beyond the scale stands at its end.
func (t *tally) along(count float64) float64 { return min(count, t.to) * t.width / t.to }

// high returns how much room the tape takes with its numbers over and under it.
func (t *tally) high() float64 {
	h := t.band + 1
	if len(t.over()) > 0 {
		h += lead(t.pt) + 1
	}
	if len(t.under()) > 0 {
		h += lead(t.pt) + 1.6
	}
	return h
}

// draw draws the tape from y on.
func (t *tally) draw(y float64) {
	if over := t.over(); len(over) > 0 {
		t.marks(over, y+lead(t.pt)*0.76)
		y += lead(t.pt) + 1
		for _, m := range over[len(t.notes):] {
			t.pen(scene.Mark, pencilLine)
			t.doc.Line(t.x+m.at, y-1, t.x+m.at, y+1)
		}
	}
	t.places(y)
	t.strokes(y)
	t.ends(y)
	if under := t.under(); len(under) > 0 {
		t.marks(under, y+t.band+1.6+lead(t.pt)*0.76)
	}
}

// over are the numbers over the tape.
func (t *tally) over() []mark {
	all := slices.Clone(t.notes)
	for _, m := range []struct {
		count *float64
		word  string
	}{{t.tape.Label, t.tape.Say.Label}, {t.tape.Test, t.tape.Say.Test}} {
		if m.count != nil && *m.count <= t.to {
			all = append(all, mark{at: t.along(*m.count), word: strings.TrimSpace(m.word + " " + whole(*m.count))})
		}
	}
	return all
}

// under are the numbers under the tape: the safe end, and the likely where it is another; or that nobody knows the end.
func (t *tally) under() []mark {
	switch {
	case t.tape.Ends == nil && t.tape.Say.Unknown == "":
		return nil
	case t.tape.Ends == nil:
		return []mark{{at: t.width, word: t.tape.Say.Unknown}}
	}
	number := func(count float64) string {
		if count > t.to {
			return "→ " + whole(count)
		}
		return whole(count)
	}
	e, say := t.tape.Ends, t.tape.Say
	all := []mark{{at: t.along(e.Safe), number: number(e.Safe), word: say.Safe, loud: true}}
	if whole(e.Likely) != whole(e.Safe) {
		all = append(all, mark{at: t.along(e.Likely), number: number(e.Likely), word: say.Likely})
	}
	return all
}

// whole writes a count, rounded down: part of a sheet is no sheet.
func whole(count float64) string { return strconv.FormatFloat(math.Floor(count+1e-9), 'f', 0, 64) }

// last is how far places go: to the safe end, or as far as the scale where nobody knows the end.
func (t *tally) last() float64 {
	if t.tape.Ends == nil {
		return t.to
	}
	return min(t.tape.Ends.Safe, t.to)
}

// places draws the places for strokes, each with a tick where a stroke is to stand.
func (t *tally) places(y float64) {
	bottom := y + t.band
	t.pen(scene.Hair, pencilLine)
	t.doc.Line(t.x, bottom, t.x+t.width, bottom)
	if t.tape.Ends == nil && t.tape.Say.Unknown != "" {
		t.doc.SetDashPattern([]float64{1.4, 1}, 0)
		defer t.doc.SetDashPattern(nil, 0)
	}
	size := perPlace * t.each
	for from := 0.0; from < t.last()-1e-9; from += size {
		left, right := t.x+t.along(from), t.x+t.along(min(from+size, t.last()))
		t.pen(scene.Soft, pencilLine)
		t.doc.Rect(left, y, right-left, t.band, "D")
		t.pen(scene.Hair, pencilLine)
		for i := range perPlace - 1 {
			if at := t.stroke(from, i); at < right {
				t.doc.Line(at, bottom-t.band*0.2, at, bottom)
			}
		}
		t.number(from+size, right, bottom)
	}
}

// number writes how many sheets a full place brings it to, small in its corner.
func (t *tally) number(count, right, bottom float64) {
	if !t.named || count > t.last()+1e-9 || count <= t.done() {
		return
	}
	t.ink(scene.Soft)
	t.size(placePoints, "")
	text := whole(count)
	t.doc.Text(right-t.doc.GetStringWidth(text)-0.5, bottom-t.band+lead(placePoints)*0.8, text)
}

const placePoints = 5.5

// stroke returns where the upright stroke i of the place that begins at a count stands.
func (t *tally) stroke(from float64, i int) float64 {
	return t.x + (from+(0.75+0.9*float64(i))*t.each)*t.width/t.to
}

// strokes tallies the work done; what was not counted is broken.
func (t *tally) strokes(y float64) {
	top, bottom, done := y+t.band*0.12, y+t.band*0.9, t.done()
	one := t.each * t.width / t.to
	for i := 0; float64(i)*t.each < done-1e-9; i++ {
		from := float64(i/perPlace*perPlace) * t.each
		part := min(1, (done-float64(i)*t.each)/t.each)
		t.pen(scene.Ink, min(0.6, one*0.4))
		if (float64(i)+part/2)*t.each > t.guessedFrom() {
			t.doc.SetDashPattern([]float64{1, 0.7}, 0)
		}
		if i%perPlace == perPlace-1 {
			left := t.x + (from+0.15*t.each)*t.width/t.to
			t.doc.Line(left, bottom, left+4.45*one*part, bottom-(bottom-top)*part)
		} else {
			at := t.stroke(from, i%perPlace)
			t.doc.Line(at, bottom, at, bottom-(bottom-top)*max(part, 0.25))
		}
		t.doc.SetDashPattern(nil, 0)
	}
}

// ends draws the safe end as a heavy line, the likely end as a fine one, and what went past the safe end under the tape.
func (t *tally) ends(y float64) {
	if t.tape.Ends == nil {
		return
	}
	e := t.tape.Ends
	if done := t.done(); done > e.Safe+1e-9 {
		t.pen(scene.Accent, 0.9)
		t.doc.Line(t.x+t.along(e.Safe), y+t.band, t.x+t.along(done), y+t.band)
	}
	if e.Likely <= t.to {
		t.pen(scene.Mark, 0.35)
		t.doc.Line(t.x+t.along(e.Likely), y-0.8, t.x+t.along(e.Likely), y+t.band+1.6)
	}
	if e.Safe <= t.to {
		t.pen(scene.Accent, 1.1)
		t.doc.Line(t.x+t.along(e.Safe), y-0.8, t.x+t.along(e.Safe), y+t.band+1.6)
	}
}

// marks writes numbers with their words in one row, near their places and clear of each other.
func (t *tally) marks(all []mark, base float64) {
	for i := range all {
		m := &all[i]
		m.wide = t.measure(run{text: m.word}, t.pt)
		if m.number != "" {
			m.wide += t.measure(run{text: m.number, bold: m.loud}, t.pt) + t.space(t.pt)
		}
	}
	apart(all, t.width, t.space(t.pt)*3)
	for _, m := range all {
		at := t.x + m.middle - m.wide/2
		if m.number != "" {
			t.ink(scene.Ink)
			t.weigh(m.loud, t.pt)
			t.doc.Text(at, base, m.number)
			at += t.doc.GetStringWidth(m.number) + t.space(t.pt)
		}
		t.ink(scene.Soft)
		t.weigh(false, t.pt)
		t.doc.Text(at, base, m.word)
	}
}

// apart finds the marks' middles: as near to their places as the row and the others leave room.
func apart(all []mark, width, gap float64) {
	slices.SortStableFunc(all, func(a, b mark) int { return cmp.Compare(a.at, b.at) })
	low := 0.0
	for i := range all {
		m := &all[i]
		m.middle = max(m.at, low+m.wide/2)
		low = m.middle + m.wide/2 + gap
	}
	high := width
	for i := len(all) - 1; i >= 0; i-- {
		m := &all[i]
		m.middle = min(m.middle, high-m.wide/2)
		high = m.middle - m.wide/2 - gap
	}
}
