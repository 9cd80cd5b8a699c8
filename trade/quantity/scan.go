package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxText is the longest text that is read as a quantity, in bytes. Nobody writes more on a line of a label.
const MaxText = 200

// A scan walks along a text. Its methods leave at behind what they took, and where they failed at the trouble.
type scan struct {
	text string
	at   int
	want string
}

// read reads the whole of text with f, as a want. An error means the zero value.
func read[T any](text, want string, f func(*scan) (T, error)) (v T, err error) {
	s := &scan{text: text, want: want}
	if err := CheckText(text, want); err != nil {
		return v, err
	}
	s.space()
	got, err := f(s)
	if err != nil {
		return v, err
	}
	if s.space(); !s.done() {
		return v, s.fail(WhyTrailing)
	}
	return got, nil
}

// CheckText refuses what is no text to read a want from: too long, not UTF-8, empty. The error is a *ReadError.
func CheckText(text, want string) error {
	switch {
	case len(text) > MaxText:
		return NewReadError(text, 0, want, WhyTooLong)
	case !utf8.ValidString(text):
		return NewReadError(text, 0, want, WhyNotText)
	case strings.TrimSpace(text) == "":
		return NewReadError(text, 0, want, WhyEmpty)
	}
	return nil
}

func (s *scan) done() bool { return s.at >= len(s.text) }

func (s *scan) rest() string { return s.text[s.at:] }

// space skips spaces of every width.
func (s *scan) space() {
	s.at = len(s.text) - len(strings.TrimLeftFunc(s.rest(), unicode.IsSpace))
}

// take skips the first of the given signs that stands here, and tells whether one did.
func (s *scan) take(signs ...string) bool {
	for _, w := range signs {
		if strings.HasPrefix(s.rest(), w) {
			s.at += len(w)
			return true
		}
	}
	return false
}

// word skips w and the space around it where w stands here, in capitals or not, as a word of its own.
func (s *scan) word(w string) bool {
	t := *s
	t.space()
	n := prefix(t.rest(), w)
	if n == 0 || !ends(w, t.rest()[n:]) {
		return false
	}
	s.at = t.at + n
	s.space()
	return true
}

// fail says that the trouble is here.
func (s *scan) fail(why Why) error { return s.failAt(s.at, why) }

func (s *scan) failAt(at int, why Why) error { return NewReadError(s.text, at, s.want, why) }

// failNear says that the trouble is here and which word was perhaps meant.
func (s *scan) failNear(why Why, near string) error {
	e := NewReadError(s.text, s.at, s.want, why)
	e.Near = near
	return e
}

// prefix returns the length of the start of text that is written like name: capitals do not matter, and a space
// of the name is any number of spaces and full stops in the text, or none. 0: it starts otherwise.
func prefix(text, name string) int {
	if text == "" || lower(text[0]) != name[0] {
		return 0 // most often so, and at once
	}
	at := 0
	for _, want := range name {
		if want == ' ' {
			at = len(text) - len(strings.TrimLeftFunc(text[at:], spaceOrStop))
			continue
		}
		got, n := utf8.DecodeRuneInString(text[at:])
		if n == 0 || unicode.ToLower(got) != want {
			return 0
		}
		at += n
	}
	return at
}

// lower returns an ASCII letter's small one, and any other byte as it is.
func lower(b byte) byte {
	if 'A' <= b && b <= 'Z' {
		b += 'a' - 'A'
	}
	return b
}

func spaceOrStop(r rune) bool { return r == '.' || unicode.IsSpace(r) }

// ends tells whether a word may end where text goes on: no letter follows its last letter.
func ends(word, text string) bool {
	last, _ := utf8.DecodeLastRuneInString(word)
	next, _ := utf8.DecodeRuneInString(text)
	return !unicode.IsLetter(last) || !unicode.IsLetter(next) && !unicode.IsMark(next) && next != '_'
}

func startsWithDigit(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }
