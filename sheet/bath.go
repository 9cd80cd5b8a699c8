package sheet

import (
	"math"
	"strings"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/words"
)

// A hung is one bath on the wall, laid out.
type hung struct {
	name, where, say words.Phrase
	more             []words.Phrase
	big              words.Phrase
	tray             *scene.Scene
	tape             *tally
	x, right         float64 // the column's edges
	left, width      float64 // of the words beside the tray
	nameWidth        float64
}

// bath lays one bath out in a column that begins at x: its tray, its name with the large number, what it still does, its test
// and its day, its tape.
func (b *wall) bath(o *ahead.Outlook, scale, x float64) block {
	h := hung{
		name: heavy(capital(b.v.BathCalled(o.Bath))), where: plain(b.where(o)), big: b.v.Big(*o), say: sentence(b.v, *o),
		more: b.beneath(o), x: x, right: x + b.column(), left: x,
	}
	if t, ok := b.tray(o); ok {
		h.tray, h.left = &t, x+(trayWidth+4)*b.k
	}
	h.width = h.right - h.left
	h.nameWidth = h.width - b.bigWidth(h.big) - gutter
	if t, ok := draw.TapeOf(b.v, o); ok && scale > 0 {
		h.tape = &tally{
			setter: b.setter, tape: t, x: x, width: b.column(), to: scale, each: eachStroke(scale, b.column()),
			band: bandHeight * b.k, pt: sayPoints * b.k,
		}
	}
	high := b.hungHeight(&h)
	for _, group := range groups(runs(h.name)) {
		if b.k > leastWall && b.measure(group[0], bathPoints*b.k) > h.nameWidth {
			high = math.Inf(1) // no name is parted within a word
		}
	}
	return block{high, func() { b.hang(&h) }}
}

// where names a bath's tray with its colour, or its tank.
func (b *wall) where(o *ahead.Outlook) string {
	text := o.Bath.Tray + o.Bath.Tank
	if t, _, ok := trayOf(b.file, o.Bath.Tray); ok && t.Colour != "" && !strings.Contains(strings.ToLower(t.Name), strings.ToLower(t.Colour)) {
		text += ", " + t.Colour
	}
	if text == "" && o.Bath.Product != nil {
		text = o.Bath.Product.Name
	}
	return text
}

// trayOf returns the room's tray of a name, and its place on the bench.
func trayOf(f darkroom.File, name string) (t darkroom.Tray, place int, ok bool) {
	for i, t := range f.Bench.Trays {
		if t.Name == name && name != "" {
			return t, i, true
		}
	}
	return darkroom.Tray{}, 0, false
}

// tray draws the tray that a bath stands in; false where it stands in none.
func (b *wall) tray(o *ahead.Outlook) (scene.Scene, bool) {
	t, place, ok := trayOf(b.file, o.Bath.Tray)
	if !ok {
		return scene.Scene{}, false
	}
	s, err := draw.Tray{
		Name: t.Name, Colour: t.Colour, Pattern: draw.PatternAt(place), Wide: t.Inside.Value.Width, High: t.Inside.Value.Height,
	}.Scene(scene.Light)
	return s, err == nil
}

// beneath is what stands under the sentence: when to test and until when it keeps, in one line where the column is wide, then
// what is to be known of tonight.
func (b *wall) beneath(o *ahead.Outlook) []words.Phrase {
	var all []words.Phrase
	if say := test(b.v, o); len(say) > 0 {
		all = append(all, say)
	}
	if day := b.v.Until(*o); day != "" {
		say := b.v.Tell("sheet.discard_by", "When", day)
		if len(all) > 0 && b.columns == 1 {
			all[0] = append(append(all[0], words.Segment{Text: "  ·  "}), say...)
		} else {
			all = append(all, say)
		}
	}
	beside := b.v.Beside(*o)
	for i, f := range o.More {
		if f.Kind == ahead.WorkedOn || f.Kind == ahead.TonightShort {
			all = append(all, beside[i])
		}
	}
	return all
}

// test says which test a bath wants and at which count; nothing where a test settles nothing.
func test(v *words.Voice, o *ahead.Outlook) words.Phrase {
	if len(o.Tests) == 0 || o.OutOfUse() {
		return nil
	}
	name := v.TestName(o.Tests[0])
	switch {
	case o.Lead.Kind == ahead.TestFirst || o.Lead.Kind == ahead.UseFor && o.TestAfter == 0:
		return v.Tell("sheet.test_now", "Test", name)
	case o.Lead.Kind == ahead.UseFor:
		return v.Tell("sheet.test_at", "N", whole(math.Round(o.Done*1e6)/1e6+float64(o.TestAfter)), "Test", name)
	}
	return nil
}

// sentence says what a bath still does and what ends it; its day and its test stand under it. Where the day is all there is to say, it
// is empty.
func sentence(v *words.Voice, o ahead.Outlook) words.Phrase {
	if o.Lead.Kind == ahead.UseUntil {
		return nil
	}
	o.Tests, o.End.Date = nil, time.Time{}
	return v.Outlook(o)
}

// The large number's figures are heavy; its words are half as large, and larger where they stand alone.
func (b *wall) bigRuns(p words.Phrase) (rs []run, pts []float64) {
	rs = runs(p)
	alone := true
	for _, r := range rs {
		alone = alone && !r.bold
	}
	for _, r := range rs {
		switch {
		case r.bold:
			pts = append(pts, bigPoints*b.k)
		case alone:
			pts = append(pts, bigPoints*b.k*(0.9-0.2*float64(b.columns)))
		default:
			pts = append(pts, bigPoints*b.k*besideWord)
		}
	}
	return rs, pts
}

func (b *wall) bigWidth(p words.Phrase) float64 {
	rs, pts := b.bigRuns(p)
	w := 0.0
	for i, r := range rs {
		if i > 0 {
			w += b.space(pts[i])
		}
		w += b.measure(r, pts[i])
	}
	return w
}

// setBig sets the large number with its right edge there.
func (b *wall) setBig(p words.Phrase, right, base float64) {
	rs, pts := b.bigRuns(p)
	x := right - b.bigWidth(p)
	b.ink(scene.Ink)
	for i, r := range rs {
		if i > 0 {
			x += b.space(pts[i])
		}
		b.weigh(r.bold, pts[i])
		b.doc.Text(x, base, r.text)
		x += b.doc.GetStringWidth(r.text)
	}
}

const overTape = 1.6 // mm between the words and the tape

// wordsHeight is how high the words beside the tray are: the name with the tray's, the sentence, what is beneath.
func (b *wall) wordsHeight(h *hung) float64 {
	pt := sayPoints * b.k
	high := max(b.blockHeight(h.name, bathPoints*b.k, h.nameWidth)+b.blockHeight(h.where, pt, h.nameWidth), lead(bigPoints*b.k))
	high += 0.8 + b.blockHeight(h.say, pt, h.width)
	for _, p := range h.more {
		high += b.blockHeight(p, pt, h.width)
	}
	return high
}

func (b *wall) hungHeight(h *hung) float64 {
	high := b.wordsHeight(h)
	if h.tray != nil {
		high = max(high, h.tray.HeightAt(trayWidth*b.k))
	}
	if h.tape != nil {
		high += overTape + h.tape.high()
	}
	return high + 2
}

// hang sets one bath.
func (b *wall) hang(h *hung) {
	top, pt := b.y, sayPoints*b.k
	b.setBig(h.big, h.right, top+lead(bigPoints*b.k)*0.76)
	b.block(h.name, bathPoints*b.k, h.left, h.nameWidth)
	b.ink(scene.Soft)
	b.y = b.set(b.lines(h.where, pt, h.nameWidth), h.left, b.y, pt)
	b.y = max(b.y, top+lead(bigPoints*b.k)) + 0.8
	b.block(h.say, pt, h.left, h.width)
	for _, p := range h.more {
		b.block(p, pt, h.left, h.width)
	}
	b.y = top + b.wordsHeight(h)
	if h.tray != nil {
		h.tray.PDF(b.doc, scene.Place{X: h.x, Y: top + 1, Width: trayWidth * b.k}, family)
		b.doc.SetDashPattern(nil, 0)
		b.y = max(b.y, top+h.tray.HeightAt(trayWidth*b.k))
	}
	if h.tape != nil {
		h.tape.draw(b.y + overTape)
	}
}
