package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxText is the longest text that is read as a quantity, in bytes. Nobody writes more on a label's line.
const maxText = 200

// A scan walks along a text. Its methods leave at behind what they took, and where they failed at the trouble.
type scan struct {
	text string
	at   int
	want string
}

// open starts reading text as a want: it must hold something and not too much of it.
func open(text, want string) (*scan, error) {
	s := &scan{text: text, want: want}
	if len(text) > maxText {
		return s, s.fail(WhyTooLong)
	}
	if !utf8.ValidString(text) {
		return s, s.fail(WhyNotText)
	}
	s.space()
	if s.done() {
		return s, s.fail(WhyEmpty)
	}
	return s, nil
}

// close refuses whatever is left of the text.
func (s *scan) close() error {
	s.space()
	if !s.done() {
		return s.fail(WhyTrailing)
	}
	return nil
}

func (s *scan) done() bool { return s.at >= len(s.text) }

func (s *scan) rest() string { return s.text[s.at:] }

// space skips spaces of every width.
func (s *scan) space() {
	s.at = len(s.text) - len(strings.TrimLeftFunc(s.rest(), unicode.IsSpace))
}

// take skips one of the given words where the text goes on with it, and tells whether it did.
func (s *scan) take(words ...string) bool {
	for _, w := range words {
		if strings.HasPrefix(s.rest(), w) {
			s.at += len(w)
			return true
		}
	}
	return false
}

// word skips w and the space around it where w stands here, in capitals or not, as a word of its own.
func (s *scan) word(w string) bool {
	was := s.at
	s.space()
	if n := prefix(s.rest(), w); n > 0 && !startsWithLetter(s.text[s.at+n:]) {
		s.at += n
		s.space()
		return true
	}
	s.at = was
	return false
}

// fail says that the trouble is here.
func (s *scan) fail(why Why) error { return s.failAt(s.at, why, "") }

func (s *scan) failAt(at int, why Why, near string) error {
	text := strings.ToValidUTF8(s.text[:min(len(s.text), 4*maxShown)], "\uFFFD")
	if r := []rune(text); len(r) > maxShown {
		text = string(r[:maxShown])
	}
	return &ReadError{Text: text, At: min(at, len(text)), Want: s.want, Why: why, Near: near}
}

// maxShown is how many characters of a text an error repeats.
const maxShown = 80

// prefix returns the length of the start of text that is written like name: capitals do not matter, and a space
// of the name is any number of spaces and full stops (none, too) in the text. 0: it starts otherwise.
func prefix(text, name string) int {
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

func spaceOrStop(r rune) bool { return r == '.' || unicode.IsSpace(r) }

func startsWithLetter(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return unicode.IsLetter(r)
}

func startsWithDigit(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }
