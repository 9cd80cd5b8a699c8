package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A named is one way of writing a unit, in lower case; a space is any number of spaces and full stops.
type named[T any] struct {
	name string
	unit T
}

// unit takes the longest of the names that stands here as a word of its own.
func unit[T any](s *scan, names []named[T]) (u T, ok bool) {
	best := 0
	for _, n := range names {
		if l := prefix(s.rest(), n.name); l > best && ends(n.name, s.rest()[l:]) {
			u, best = n.unit, l
		}
	}
	s.at += best
	if best > 0 && !strings.HasSuffix(s.text[:s.at], `"`) {
		t := *s
		if t.take(".") && !startsWithDigit(t.rest()) && !strings.HasPrefix(t.rest(), ".") {
			s.at = t.at // "8 in."
		}
	}
	return u, best > 0
}

// ends tells whether a name may end where text goes on: no letter follows a letter.
func ends(name, text string) bool {
	last, _ := utf8.DecodeLastRuneInString(name)
	next, _ := utf8.DecodeRuneInString(text)
	return !unicode.IsLetter(last) || !unicode.IsLetter(next) && !unicode.IsMark(next) && next != '_'
}

// noUnit says what is wrong where a unit should stand: nothing is there, or a word that is none.
func noUnit[T any](s *scan, names []named[T]) error {
	if s.done() {
		return s.fail(WhyNoUnit)
	}
	return s.failAt(s.at, WhyUnknownUnit, near(s.rest(), names))
}

// near returns the name that the word at the start of text is one slip away from, or nothing.
func near[T any](text string, names []named[T]) string {
	word := strings.ToLower(text)
	if i := strings.IndexFunc(word, func(r rune) bool { return !unicode.IsLetter(r) && r != ' ' && r != '.' }); i >= 0 {
		word = word[:i]
	}
	word = strings.TrimSpace(word)
	for _, n := range names {
		if oneSlip(word, n.name) {
			return n.name
		}
	}
	return ""
}

// oneSlip tells whether two words differ by one letter too many, too few, wrong, or two swapped. Of words of
// two letters only swapped ones count: any other slip makes every short word of every other.
func oneSlip(a, b string) bool {
	short := min(len(a), len(b)) < 3
	for a != "" && b != "" && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for a != "" && b != "" && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	if len(a) == 2 && len(b) == 2 {
		return a[0] == b[1] && a[1] == b[0]
	}
	return !short && a != b && len(a) <= 1 && len(b) <= 1
}
