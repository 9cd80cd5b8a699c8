package sheet

import (
	"io"
	"unicode"
	"unicode/utf8"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/quantity"
	"wetside/words"
)

// Tapes writes a strip for each bath as PDF, to cut out and wrap round its bottle, several on a page: what it is, when it
// was made, until when it keeps, its work tallied with places to go on up to the safe end, a line for tests. by returns
// the name that goes with a person's id, empty where there is none; nil knows nobody. The paper is the room's own (Letter, else
// A4). The error is the writer's, or the document's own.
func Tapes(w io.Writer, v *words.Voice, r ahead.Report, f darkroom.File, by func(id string) string) error {
	s := newSetter(f.Darkroom.PrintOn, title{f.Darkroom.Name, r.At}, v)
	head := append(v.Tell("sheet.cut"), words.Segment{Text: " "})
	s.block(append(head, key(v, 1)...), plainPoints, margin, s.inner())
	s.y += stripGap
	for i := range r.Baths {
		o := &r.Baths[i]
		if s.y+stripHeight+cutMark > s.height-footer {
			s.page()
			s.y += stripGap
		}
		name := ""
		if by != nil && o.Bath.MadeBy != "" {
			name = by(o.Bath.MadeBy)
		}
		p := strip{setter: s, outlook: o, by: name, x: (s.width - stripWidth) / 2}
		p.set()
		s.y += stripHeight + stripGap
	}
	return s.output(w, "tapes")
}

// Measures of a strip in mm: round a bottle of a litre it goes two thirds of the way.
const (
	stripWidth  = 190.0
	stripHeight = 27.0
	stripGap    = 6.0
	stripEdge   = 3.0 // left free at its ends
	cutMark     = 3.0
	cutOff      = 0.8 // between a strip's corner and its marks

	stripTitle = 11.0 // points
	stripSmall = 7.5
	stripLeast = 6.5
	stripBand  = 6.4

	// A place on a strip is at most so wide; a strip shows at most so many sheets beyond the work.
	widestPlace = 15.0
	mostPlaces  = 400.0
)

// A strip is one bath's tape being set.
type strip struct {
	*setter
	outlook *ahead.Outlook
	by      string
	x       float64
}

// set sets a strip with its top at y.
func (p *strip) set() {
	p.edge()
	left, right := p.x+stripEdge, p.x+stripWidth-stripEdge
	p.what(left, p.keep(right, p.y+4.9)-gutter, p.y+4.9)
	p.made(left, p.x+stripWidth/2-gutter, p.y+9.2)
	p.tests(p.x+stripWidth/2, right, p.y+9.2)
	t := p.tally(left, right-left)
	t.draw(p.y + stripHeight - 0.8 - t.high())
}

// edge draws a fine outline to cut along, with marks outside its corners.
func (p *strip) edge() {
	p.pen(scene.Hair, 0.15)
	p.doc.Rect(p.x, p.y, stripWidth, stripHeight, "D")
	p.pen(scene.Mark, 0.25)
	for _, x := range []float64{p.x, p.x + stripWidth} {
		for _, y := range []float64{p.y, p.y + stripHeight} {
			out, down := 1.0, 1.0
			if x == p.x {
				out = -1
			}
			if y == p.y {
				down = -1
			}
			p.doc.Line(x+out*cutOff, y, x+out*(cutOff+cutMark), y)
			p.doc.Line(x, y+down*cutOff, x, y+down*(cutOff+cutMark-1))
		}
	}
}

// text sets a phrase in one line and returns where it ends.
func (p *strip) text(say words.Phrase, x, base, pt float64) float64 {
	p.ink(scene.Ink)
	for i, r := range runs(say) {
		if i > 0 && !r.glued {
			x += p.space(pt)
		}
		p.weigh(r.bold, pt)
		p.doc.Text(x, base, r.text)
		x += p.doc.GetStringWidth(r.text)
	}
	return x
}

func (p *strip) wideText(say words.Phrase, pt float64) float64 {
	w := 0.0
	for i, r := range runs(say) {
		if i > 0 && !r.glued {
			w += p.space(pt)
		}
		w += p.measure(r, pt)
	}
	return w
}

// blank draws a line to write on.
func (p *strip) blank(from, to, base float64) {
	p.pen(scene.Soft, 0.2)
	p.doc.Line(from, base+0.6, to, base+0.6)
}

// keep sets until when the bath keeps at the right, with a place to write it where nobody knows; it returns where it begins.
func (p *strip) keep(right, base float64) float64 {
	if p.outlook.OutOfUse() {
		say := heavy(p.v.Big(*p.outlook).Text())
		at := right - p.wideText(say, stripTitle)
		p.text(say, at, base, stripTitle)
		return at
	}
	if day := p.v.Until(*p.outlook); day != "" {
		say := p.v.Tell("sheet.keep_until", "When", day)
		at := right - p.wideText(say, stripTitle)
		p.text(say, at, base, stripTitle)
		return at
	}
	say := plain(p.v.Label("keep_until"))
	at := right - keepBlank - p.space(stripTitle) - p.wideText(say, stripTitle)
	p.text(say, at, base, stripTitle)
	p.blank(right-keepBlank, right, base)
	return at
}

const keepBlank = 34.0

// what names the bath, with its product, its dilution and how much it is; smaller, then cut short, where that is long.
func (p *strip) what(left, right, base float64) {
	b := &p.outlook.Bath
	text := capital(p.v.BathCalled(*b))
	if b.Product != nil {
		text += " · " + b.Product.Name
	}
	if b.Words != "" {
		text += " · " + b.Words
	}
	if litres, err := quantity.VolumeOfML(1000 * b.Litres); err == nil && litres > 0 {
		text += " · " + p.v.Volume(litres)
	}
	p.inOneLine(heavy(text), left, right, base, stripTitle)
}

// made says since when it stands and who made it, with a place for the name where nobody said.
func (p *strip) made(left, right, base float64) {
	say := p.v.Since(p.outlook.Bath, p.by)
	if p.by != "" || p.outlook.Bath.Known == book.MadeUnknown {
		p.inOneLine(say, left, right, base, stripSmall)
		return
	}
	end := p.text(append(append(say, words.Segment{Text: " "}), plain(p.v.Label("made_by"))...), left, base, stripSmall)
	p.blank(end+1, max(right, end+1), base)
}

// tests leaves a line for what a test says.
func (p *strip) tests(left, right, base float64) {
	half := (right - left) / 2
	end := p.text(plain(p.v.Label("tested_on")), left, base, stripSmall)
	p.blank(end+1, left+half-1.5, base)
	end = p.text(plain(p.v.Label("test_result")), left+half, base, stripSmall)
	p.blank(end+1, right, base)
}

// inOneLine sets a phrase in one line: smaller, then cut short, where it is long.
func (p *strip) inOneLine(say words.Phrase, left, right, base, pt float64) {
	for pt > stripLeast && p.wideText(say, pt) > right-left {
		pt -= 0.25
	}
	if p.wideText(say, pt) > right-left {
		bold := say[0].Weight == words.Heavy
		cut := []rune(say.Text())
		for len(cut) > 0 && p.measure(run{text: string(cut) + "…", bold: bold}, pt) > right-left {
			cut = cut[:len(cut)-1]
		}
		say = words.Phrase{{Text: string(cut) + "…", Weight: say[0].Weight}}
	}
	p.text(say, left, base, pt)
}

// tally is the strip's tape, on a scale of its own; where nothing is counted it has places without an end.
func (p *strip) tally(x, width float64) *tally {
	tape, ok := draw.TapeOf(p.v, p.outlook)
	if !ok {
		tape = draw.Tape{}
		if p.outlook.End.By == ahead.ByUnknown {
			tape.Say.Unknown = p.v.Label("tape_unknown")
		}
		if done := p.outlook.Done; done > 0 {
			tape.Work = []draw.Stretch{{Sheets: done}}
		}
	}
	t := &tally{setter: p.setter, tape: tape, x: x, width: width, band: stripBand, pt: stripSmall, named: true}
	far := t.done()
	if tape.Ends != nil {
		far = max(far, tape.Ends.Likely*1.02)
	}
	t.to = max(min(far, t.done()+mostPlaces), perPlace*width/widestPlace)
	t.each = eachStroke(t.to, width)
	if t.each > 1 {
		t.notes = []mark{{word: p.v.Tell("sheet.each", "N", whole(t.each)).Text()}}
	}
	return t
}

// capital begins a text with a capital.
func capital(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[n:]
}
