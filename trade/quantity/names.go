package quantity

import (
	"strings"
	"unicode"
)

// A named is one way of writing a unit, in lower case; a space is any number of spaces and full stops, or none.
type named[T any] struct {
	name string
	unit T
}

// unit takes the longest of the names that stands here as a word of its own, and the full stop of an abbreviation.
func unit[T any](s *scan, names []named[T]) (u T, ok bool) {
	best := 0
	for _, n := range names {
		if l := prefix(s.rest(), n.name); l > best && ends(n.name, s.rest()[l:]) {
			u, best = n.unit, l
		}
	}
	s.at += best
	if best > 0 && s.take(".") && startsWithDigit(s.rest()) {
		s.at-- // the point of another number
	}
	return u, best > 0
}

// noUnit says what is wrong where a unit should stand: nothing is there, or a word that is none.
func noUnit[T any](s *scan, names []named[T]) error {
	if s.done() {
		return s.fail(WhyNoUnit)
	}
	return s.failNear(WhyUnknownUnit, near(s.rest(), names))
}

// near returns the name that the words at the start of text are a slip away from, or nothing.
func near[T any](text string, names []named[T]) string {
	word := strings.ToLower(text)
	if i := strings.IndexFunc(word, func(r rune) bool { return !unicode.IsLetter(r) && !spaceOrStop(r) }); i >= 0 {
		word = word[:i]
	}
	word = strings.TrimFunc(word, spaceOrStop)
	best, found := 3, ""
	for _, n := range names {
		if d := slip(word, n.name); d > 0 && d < best {
			best, found = d, n.name
		}
	}
	return found
}

// slip returns how far apart two words are that differ in one place: 1 for a letter too many, too few or wrong or
// for two letters swapped, 2 for a place of two letters in words of seven and more; else 0. In words of
// two letters only a swap counts: any other slip makes every short word of every other.
func slip(a, b string) int {
	short := min(len(a), len(b))
	for a != "" && b != "" && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for a != "" && b != "" && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	far := max(len(a), len(b))
	switch {
	case len(a) == 2 && len(b) == 2 && a[0] == b[1] && a[1] == b[0]:
		return 1
	case far == 1 && short >= 3, far == 2 && short >= 7:
		return far
	}
	return 0
}
