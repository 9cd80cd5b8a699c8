package darkroom

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/agext/levenshtein"

	"wetside/darkroom/outline"
	"wetside/trade/quantity"
)

// reader gathers the problems of one file while its nodes are walked.
type reader struct {
	ounce    quantity.Ounce
	path     string
	problems Problems
	// askedOunce is set by the first ounce of no system; the others are the same mistake.
	askedOunce bool
}

// in runs read one step further down the path.
func (r *reader) in(step string, read func()) {
	was := r.path
	if was != "" && step[0] != '[' {
		step = "." + step
	}
	r.path = was + step
	read()
	r.path = was
}

// bad notes a problem of the value n, at the path in hand.
func (r *reader) bad(n *outline.Node, p Problem) {
	if len(r.problems) >= maxProblems || p.Kind == ProblemWhichOunce && r.askedOunce {
		return
	}
	r.askedOunce = r.askedOunce || p.Kind == ProblemWhichOunce
	p.Path, p.Line, p.Column = r.path, n.Place.Line, n.Place.Column
	if p.Found == "" {
		p.Found = n.Describe()
	}
	p.Found = cut(p.Found)
	r.problems = append(r.problems, p)
}

// badField notes a problem of the field called name of the mapping n, or of n where it has none.
func (r *reader) badField(n *outline.Node, name string, p Problem) {
	at := n
	if v := n.Get(name); v.Kind != outline.Empty || v.Place != (outline.Place{}) {
		at = v
	}
	r.in(name, func() { r.bad(at, p) })
}

// clean reports whether fields of the thing in hand are without problems so far.
func (r *reader) clean(names ...string) bool {
	for _, name := range names {
		path := name
		if r.path != "" {
			path = r.path + "." + name
		}
		if len(r.problems.At(path)) > 0 {
			return false
		}
	}
	return true
}

// item is the step of a path into a list.
func item(i int) string { return "[" + strconv.Itoa(i) + "]" }

// blank reports whether nothing was given.
func blank(n *outline.Node) bool {
	return n.Kind == outline.Empty || n.Kind == outline.Scalar && strings.TrimSpace(n.Text) == ""
}

// maxText is the longest text that a field takes, in bytes.
const maxText = 1000

// text returns a scalar's characters without the white space around them; false with a problem noted, or where
// nothing was given.
func (r *reader) text(n *outline.Node) (string, bool) {
	switch {
	case blank(n):
		return "", false
	case n.Kind != outline.Scalar:
		r.bad(n, Problem{Kind: ProblemNotOneValue})
		return "", false
	case len(n.Text) > maxText:
		r.bad(n, Problem{Kind: ProblemTextTooLong, Expected: Expected{High: strconv.Itoa(maxText)}})
		return "", false
	}
	text := strings.TrimSpace(n.Text)
	for i, c := range text {
		_, size := utf8.DecodeRuneInString(text[i:])
		if c < ' ' && c != '\n' && c != '\t' || c == 0x7f || c == utf8.RuneError && size == 1 {
			r.bad(n, Problem{Kind: ProblemControlCharacter, Found: fmt.Sprintf("%U", c)})
			return "", false
		}
	}
	return text, true
}

// nearest returns the word nearest to text, or nothing where none is near: one letter wrong in a short word, two
// in one of four to eight letters (so that two letters may have changed places), three in a longer one. Where no
// word is, the first that begins with text will do.
func nearest(text string, words []string) string {
	const far, short, long = 4, 4, 9
	best, least := "", far
	text = strings.ToLower(text)
	for _, w := range words {
		allowed := 2
		switch n := utf8.RuneCountInString(w); {
		case n < short:
			allowed = 1
		case n >= long:
			allowed = 3
		}
		if d := levenshtein.Distance(text, strings.ToLower(w), nil); d < least && d <= allowed {
			best, least = w, d
		}
	}
	for _, w := range words {
		if best == "" && len(text) >= short && strings.HasPrefix(strings.ToLower(w), text) {
			best = w
		}
	}
	return best
}
