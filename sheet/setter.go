package sheet

import (
	"strconv"
	"strings"
	"unicode"

	"codeberg.org/go-pdf/fpdf"

	"wetside/draw/scene"
	"wetside/words"
)

// A setter sets text on pages: it knows where it is and breaks pages between blocks, never inside one.
type setter struct {
	doc           *fpdf.Fpdf
	v             *words.Voice
	width, height float64 // of the page
	y             float64
	title         string
	colours       scene.Palette
}

func newSetter(paper string, t title, v *words.Voice) *setter {
	s := &setter{doc: newDocument(paper, t), v: v, colours: scene.PaletteFor(scene.Light)}
	s.title = t.name + ", " + v.DateTime(t.at)
	s.doc.AliasNbPages("{pages}")
	s.width, s.height = s.doc.GetPageSize()
	s.page()
	return s
}

const footer = 12.0 // mm kept free at the foot

// page begins a new page with its foot.
func (s *setter) page() {
	s.doc.AddPage()
	s.y = margin
	s.size(8, "")
	s.ink(scene.Soft)
	foot := s.height - 7
	s.doc.Text(margin, foot, s.title)
	n := strconv.Itoa(s.doc.PageNo()) + " / {pages}"
	s.doc.Text(s.width-margin-s.doc.GetStringWidth("9 / 9"), foot, n)
}

// room begins a new page where less than h is left on this one.
func (s *setter) room(h float64) {
	if s.y+h > s.height-footer {
		s.page()
	}
}

func (s *setter) size(pt float64, style string) { s.doc.SetFont(family, style, pt) }

func (s *setter) ink(r scene.Role) {
	c := s.colours[r]
	s.doc.SetTextColor(int(c.R), int(c.G), int(c.B))
}

func (s *setter) pen(r scene.Role, width float64) {
	c := s.colours[r]
	s.doc.SetDrawColor(int(c.R), int(c.G), int(c.B))
	s.doc.SetLineWidth(width)
}

// inner is the width between the margins.
func (s *setter) inner() float64 { return s.width - 2*margin }

// point is the length of a point: 1/72 in.
const point = 25.4 / 72

// lead is the distance of lines for a size in points.
func lead(pt float64) float64 { return pt * point * 1.24 }

// A run is a word with its weight.
type run struct {
	text  string
	bold  bool
	glued bool // to the word before, without a space
}

// runs parts a phrase into words; segments that meet without a space stay together.
func runs(p words.Phrase) []run {
	var out []run
	open := false // the last word may go on
	for _, seg := range p {
		for i, part := range strings.Split(seg.Text, " ") {
			if i > 0 {
				open = false
			}
			if part == "" {
				continue
			}
			out = append(out, run{part, seg.Weight == words.Heavy, open && len(out) > 0})
			open = true
		}
		if strings.HasSuffix(seg.Text, " ") {
			open = false
		}
	}
	return out
}

// lines breaks a phrase into lines of a width at a size.
func (s *setter) lines(p words.Phrase, pt, width float64) [][]run {
	var out [][]run
	var line []run
	used := 0.0
	for _, group := range s.broken(groups(runs(p)), pt, width) {
		w := 0.0
		for _, r := range group {
			w += s.measure(r, pt)
		}
		if len(line) > 0 && used+s.space(pt)+w > width {
			out = append(out, line)
			line, used = nil, 0
		}
		if len(line) > 0 {
			used += s.space(pt)
		}
		line = append(line, group...)
		used += w
	}
	if len(line) > 0 {
		out = append(out, line)
	}
	return out
}

// groups puts words together that no line may part.
func groups(rs []run) [][]run {
	var out [][]run
	for _, r := range rs {
		if r.glued {
			out[len(out)-1] = append(out[len(out)-1], r)
			continue
		}
		out = append(out, []run{r})
	}
	return out
}

// broken breaks what is wider than a line, which no space parts: a name of one long word.
func (s *setter) broken(all [][]run, pt, width float64) [][]run {
	var out [][]run
	for _, group := range all {
		w := 0.0
		for _, r := range group {
			w += s.measure(r, pt)
		}
		if w <= width {
			out = append(out, group)
			continue
		}
		for _, r := range group {
			r.glued = false
			for _, piece := range s.pieces(r, pt, width) {
				out = append(out, []run{piece})
			}
		}
	}
	return out
}

// pieces parts a run into such as fit a width.
func (s *setter) pieces(r run, pt, width float64) []run {
	out := []run{{bold: r.bold}}
	for _, c := range r.text {
		last := &out[len(out)-1]
		longer := run{text: last.text + string(c), bold: r.bold}
		if last.text != "" && s.measure(longer, pt) > width {
			out = append(out, run{text: string(c), bold: r.bold})
			continue
		}
		*last = longer
	}
	return out
}

func (s *setter) measure(r run, pt float64) float64 {
	s.weigh(r.bold, pt)
	return s.doc.GetStringWidth(r.text)
}

func (s *setter) space(pt float64) float64 {
	s.weigh(false, pt)
	return s.doc.GetStringWidth(" ")
}

func (s *setter) weigh(bold bool, pt float64) {
	style := ""
	if bold {
		style = "B"
	}
	s.size(pt, style)
}

// set sets lines at x, from y on, and returns where the next line would be.
func (s *setter) set(lines [][]run, x, y, pt float64) float64 {
	for _, line := range lines {
		at := x
		base := y + lead(pt)*0.76
		for i, r := range line {
			if i > 0 && !r.glued {
				at += s.space(pt)
			}
			s.weigh(r.bold, pt)
			s.doc.Text(at, base, r.text)
			at += s.doc.GetStringWidth(r.text)
		}
		y += lead(pt)
	}
	return y
}

// block sets a phrase in a column at x and moves on.
func (s *setter) block(p words.Phrase, pt, x, width float64) {
	s.ink(scene.Ink)
	s.y = s.set(s.lines(p, pt, width), x, s.y, pt)
}

func (s *setter) blockHeight(p words.Phrase, pt, width float64) float64 {
	return float64(len(s.lines(p, pt, width))) * lead(pt)
}

// flow sets a phrase over the whole width, on a new page where there is no room for it.
func (s *setter) flow(p words.Phrase, pt float64) {
	s.room(s.blockHeight(p, pt, s.inner()))
	s.block(p, pt, margin, s.inner())
}

// ends sets a phrase at the left and a heavy text at the right of one line; a long phrase goes on below.
func (s *setter) ends(left words.Phrase, right string, pt float64) {
	y := s.y
	s.block(left, pt, margin, s.beside(right, pt))
	s.doc.Text(s.width-margin-s.measure(run{text: right, bold: true}, pt), y+lead(pt)*0.76, right)
}

// beside is the width that a text at the right leaves.
func (s *setter) beside(right string, pt float64) float64 {
	if right == "" {
		return s.inner()
	}
	return s.inner() - s.measure(run{text: right, bold: true}, pt) - gutter
}

// wide is the width of a mark: its figures heavy and large, its units small.
func (s *setter) wide(text string, pt float64) float64 {
	w := 0.0
	for _, r := range markRuns(text) {
		s.weigh(r.bold, markSize(r, pt))
		w += s.doc.GetStringWidth(r.text)
	}
	return w
}

// fit returns the largest size, from pt down, in which a mark takes at most width.
func (s *setter) fit(text string, pt, width float64) float64 {
	for pt > stepPoints && s.wide(text, pt) > width {
		pt--
	}
	return pt
}

// mark sets a mark: its figures heavy and large, its units small.
func (s *setter) mark(text string, x, base, pt float64) {
	for _, r := range markRuns(text) {
		s.ink(scene.Ink)
		if !r.bold {
			s.ink(scene.Soft)
		}
		s.weigh(r.bold, markSize(r, pt))
		s.doc.Text(x, base, r.text)
		x += s.doc.GetStringWidth(r.text)
	}
}

func markSize(r run, pt float64) float64 {
	if r.bold {
		return pt
	}
	return pt * 0.5
}

// markRuns parts a mark into figures, which are heavy, and what stands between them.
func markRuns(text string) []run {
	var out []run
	for _, c := range text {
		figure := unicode.IsNumber(c) || c == '.' || c == '/'
		if n := len(out); n > 0 && out[n-1].bold == figure {
			out[n-1].text += string(c)
			continue
		}
		out = append(out, run{text: string(c), bold: figure})
	}
	return out
}

// plain makes a phrase of a text without weights, heavy one of a text that is all heavy.
func plain(text string) words.Phrase { return words.Phrase{{Text: text}} }
func heavy(text string) words.Phrase { return words.Phrase{{Text: text, Weight: words.Heavy}} }

// rule draws a baseline with ticks: the graduation that holds the look together.
func (s *setter) rule() {
	s.pen(scene.Hair, 0.2)
	s.doc.Line(margin, s.y, s.width-margin, s.y)
	for i := 0.0; i <= s.inner(); i += 10 {
		tick := 1.2
		if int(i)%50 == 0 {
			tick = 2.4
		}
		s.doc.Line(margin+i, s.y-tick, margin+i, s.y)
	}
	s.y += 3
}

// barred sets phrases beside a heavy bar in the accent, from x to the right margin: what must not be overlooked.
func (s *setter) barred(ps []words.Phrase, pt float64) { s.barredIn(ps, pt, margin, s.width-2*margin) }

// barredIn is barred in a column of a width.
func (s *setter) barredIn(ps []words.Phrase, pt, x, width float64) {
	if len(ps) == 0 {
		return
	}
	s.room(s.barredHeight(ps, pt, width))
	top := s.y
	for _, p := range ps {
		s.block(p, pt, x+barIndent, width-barIndent)
		s.y += barGap
	}
	s.pen(scene.Accent, 1.2)
	s.doc.Line(x+0.6, top, x+0.6, s.y-barGap)
	s.y += barAfter
}

const (
	barIndent = 4.0
	barGap    = 0.5
	barAfter  = 1.2
)

func (s *setter) barredHeight(ps []words.Phrase, pt, width float64) float64 {
	h := barAfter
	for _, p := range ps {
		h += s.blockHeight(p, pt, width-barIndent) + barGap
	}
	return h
}
