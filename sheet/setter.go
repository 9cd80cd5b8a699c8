package sheet

import (
	"strconv"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"wetside/draw/scene"
	"wetside/plan"
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

func newSetter(paper string, p plan.Plan, v *words.Voice) *setter {
	s := &setter{doc: newDocument(paper, p), v: v, colours: scene.PaletteFor(scene.Light)}
	s.title = p.Name + ", " + v.DateTime(p.Starts)
	s.doc.AliasNbPages("{pages}")
	s.width, s.height = s.doc.GetPageSize()
	s.page()
	return s
}

const footer = 14.0 // mm kept free at the foot

// page begins a new page with its foot.
func (s *setter) page() {
	s.doc.AddPage()
	s.y = margin
	s.size(8, "")
	s.ink(scene.Soft)
	foot := s.height - 9
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

// lead is the distance of lines for a size in points.
func lead(pt float64) float64 { return pt * 0.3528 * 1.32 }

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
	for _, group := range groups(runs(p)) {
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

// say sets a phrase over the whole width at y and moves on.
func (s *setter) say(p words.Phrase, pt float64) { s.sayIn(p, pt, 0) }

func (s *setter) sayIn(p words.Phrase, pt, indent float64) {
	if len(p) == 0 {
		return
	}
	lines := s.lines(p, pt, s.inner()-indent)
	s.room(float64(len(lines)) * lead(pt))
	s.ink(scene.Ink)
	s.y = s.set(lines, margin+indent, s.y, pt)
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

// barred sets phrases beside a heavy bar in the accent: what must not be overlooked.
func (s *setter) barred(ps []words.Phrase, pt float64) {
	if len(ps) == 0 {
		return
	}
	h := 0.0
	var all [][][]run
	for _, p := range ps {
		l := s.lines(p, pt, s.inner()-5)
		all = append(all, l)
		h += float64(len(l))*lead(pt) + 0.8
	}
	s.room(h)
	top := s.y
	s.ink(scene.Ink)
	for _, l := range all {
		s.y = s.set(l, margin+5, s.y, pt) + 0.8
	}
	s.pen(scene.Accent, 1.2)
	s.doc.Line(margin+0.6, top, margin+0.6, s.y-0.8)
	s.y += 2
}
