package sheet

import (
	"io"
	"slices"
	"strconv"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/trade/process"
	"wetside/words"
)

// Baths writes the state of the baths as PDF: one page for the wall, read from 1.5 m where there are not too many of them,
// with room on every tape to go on with a pencil. The paper is the room's own (Letter, else A4); f is the room's file. The
// error is the writer's, or the document's own.
func Baths(w io.Writer, v *words.Voice, r ahead.Report, f darkroom.File) error {
	s := newSetter(f.Darkroom.PrintOn, title{f.Darkroom.Name, r.At}, v)
	b := wall{setter: s, report: r, file: f}
	b.layOut()
	return s.output(w, "baths")
}

// A wall is the page of the baths being set: all its sizes are k times the usual ones, and the baths stand in one column
// or, where there are many, in two.
type wall struct {
	*setter
	report  ahead.Report
	file    darkroom.File
	k       float64
	columns int
}

// Sizes of text on the wall in points, where k is 1. Letters of sayPoints are 3 mm high, which good eyes read from 1.5 m:
// 5 minutes of arc are 2.2 mm there (the acuity that eye charts call normal, from memory).
const (
	leadPoints  = 25.0
	bathPoints  = 19.0
	bigPoints   = 32.0
	sayPoints   = 12.0
	besideWord  = 0.5 // of a large number: the size of the words beside it
	trayWidth   = 19.0
	bandHeight  = 8.0
	largestWall = 1.2
	wellWall    = 0.8 // what is still read well
	leastWall   = 0.55
	wallStep    = 0.03
	mostSlack   = 9.0
	columnGap   = 7.0
)

// A block is a piece of the wall page that no page parts.
type block struct {
	high float64
	set  func() // from y on
}

// layOut sets the page as large as it fits: in one column, whose long tapes are easier to write on, unless that would be
// small. The room left over goes between the baths. What does not fit at the smallest goes on to another page.
func (b *wall) layOut() {
	room := b.height - footer - b.y
	for _, try := range []struct {
		columns  int
		from, to float64
	}{{1, largestWall, wellWall}, {2, largestWall, leastWall}} {
		b.columns = try.columns
		for b.k = try.from; b.k > try.to; b.k -= wallStep {
			if all := b.blocks(); heightOfAll(all) <= room {
				b.setAll(all, room)
				return
			}
		}
	}
	b.setAll(b.blocks(), room)
}

func heightOfAll(all []block) float64 {
	h := 0.0
	for _, x := range all {
		h += x.high
	}
	return h
}

func (b *wall) setAll(all []block, room float64) {
	gap := min(max(0, room-heightOfAll(all))/float64(len(all)), mostSlack)
	for _, x := range all {
		b.room(x.high)
		top := b.y
		x.set()
		b.y = top + x.high + gap
	}
}

// blocks are the head, the baths row by row, and the foot.
func (b *wall) blocks() []block {
	all := []block{b.head()}
	scale := b.scale()
	for i := 0; i < len(b.report.Baths); i += b.columns {
		var row []block
		high := 0.0
		for k := i; k < min(i+b.columns, len(b.report.Baths)); k++ {
			x := b.bath(&b.report.Baths[k], scale, margin+float64(k-i)*(b.column()+columnGap))
			row, high = append(row, x), max(high, x.high)
		}
		all = append(all, block{high, func() {
			top := b.y
			for _, x := range row {
				b.y = top
				x.set()
			}
		}})
	}
	return append(all, b.foot(scale))
}

// column is how wide a column of baths is.
func (b *wall) column() float64 {
	return (b.inner() - columnGap*float64(b.columns-1)) / float64(b.columns)
}

// scale returns the end of the one scale for all tapes, 0 where there is none.
func (b *wall) scale() float64 {
	var all []draw.Tape
	for i := range b.report.Baths {
		if t, ok := draw.TapeOf(b.v, &b.report.Baths[i]); ok {
			all = append(all, t)
		}
	}
	if len(all) == 0 {
		return 0
	}
	return draw.TapeScale(all...)
}

// head is the room's name with the moment, and what is to be said of all.
func (b *wall) head() block {
	name := heavy(b.file.Darkroom.Name)
	asOf := b.v.Tell("sheet.as_of", "When", b.v.At(b.report.At)).Text()
	together := b.v.Together(b.report)
	h := b.blockHeight(name, namePoints, b.beside(asOf, namePoints)) + 5.4
	return block{h + b.blockHeight(together, leadPoints*b.k, b.inner()) + 3, func() {
		b.ends(name, asOf, namePoints)
		b.y += 2.4
		b.rule()
		b.block(together, leadPoints*b.k, margin, b.inner())
	}}
}

// foot is what is due, how the tapes are read, and what holds for all.
func (b *wall) foot(scale float64) block {
	pt := sayPoints * b.k
	due := heavy(b.v.Label("due"))
	var list []words.Phrase
	for _, d := range b.report.Due {
		list = append(list, b.v.Due(b.report, d))
	}
	if len(list) == 0 {
		due = plain(b.v.Label("nothing_due"))
	}
	var care, below []words.Phrase
	if slices.ContainsFunc(b.report.Baths, func(o ahead.Outlook) bool { return o.Bath.Role == process.Fixer }) {
		care = append(care, b.v.Caution(plan.Caution{Kind: plan.FixerNoDrain}))
	}
	if scale > 0 {
		below = append(below, key(b.v, eachStroke(scale, b.column())))
	}
	if len(b.report.Baths) > 0 {
		below = append(below, b.v.Tell("sheet.estimate"))
	}
	h := 2 + b.blockHeight(due, pt, b.inner()) + b.twoHeight(list, pt) + 1.5
	for _, p := range below {
		h += b.blockHeight(p, pt*0.9, b.inner())
	}
	if len(care) > 0 {
		h += b.barredHeight(care, pt, b.inner()) + 1
	}
	return block{h, func() {
		b.pen(scene.Mark, 0.5)
		b.doc.Line(margin, b.y, b.width-margin, b.y)
		b.y += 2
		b.block(due, pt, margin, b.inner())
		b.two(list, pt)
		b.y += 1.5
		if len(care) > 0 {
			b.barred(care, pt)
			b.y++
		}
		for _, p := range below {
			b.block(p, pt*0.9, margin, b.inner())
		}
	}}
}

// key says how a tape is gone on with.
func key(v *words.Voice, each float64) words.Phrase {
	n := ""
	if each > 1 {
		n = whole(each)
	}
	return v.Tell("sheet.key", "Box", strconv.Itoa(int(perPlace*each)), "Each", n)
}

// two sets lines in two columns, row by row.
func (b *wall) two(list []words.Phrase, pt float64) {
	for i := 0; i < len(list); i += 2 {
		pair := list[i:min(i+2, len(list))]
		top := b.y
		for k, p := range pair {
			b.y = top
			b.block(p, pt, margin+float64(k)*(b.half()+gutter), b.half())
		}
		b.y = top + b.pairHeight(pair, pt)
	}
}

func (b *wall) half() float64 { return (b.inner() - gutter) / 2 }

func (b *wall) twoHeight(list []words.Phrase, pt float64) float64 {
	h := 0.0
	for pair := range slices.Chunk(list, 2) {
		h += b.pairHeight(pair, pt)
	}
	return h
}

func (b *wall) pairHeight(pair []words.Phrase, pt float64) float64 {
	h := 0.0
	for _, p := range pair {
		h = max(h, b.blockHeight(p, pt, b.half()))
	}
	return h
}
