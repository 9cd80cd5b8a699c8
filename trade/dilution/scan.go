package dilution

import (
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"wetside/trade/quantity"
)

// A reader walks along a label's words.
type reader struct {
	text  string
	at    int
	ounce quantity.Ounce
}

func (r *reader) done() bool { return r.at >= len(r.text) }

func (r *reader) space() {
	r.at = len(r.text) - len(strings.TrimLeftFunc(r.text[r.at:], unicode.IsSpace))
}

// take skips the first of the phrases that stands here, in capitals or not, as words of their own, and the space
// before it.
func (r *reader) take(phrases ...string) bool {
	t := *r
	t.space()
	for _, p := range phrases {
		if n := startsWith(r.text[t.at:], p); n > 0 {
			r.at = t.at + n
			return true
		}
	}
	return false
}

// startsWith returns how much of the start of text is the phrase, with any space for each of its own, or 0.
func startsWith(text, phrase string) int {
	if text == "" || lower(text[0]) != phrase[0] {
		return 0 // most often so, and at once
	}
	at := 0
	var want rune
	for _, want = range phrase {
		if want == ' ' {
			rest := strings.TrimLeftFunc(text[at:], unicode.IsSpace)
			if len(rest) == len(text)-at {
				return 0
			}
			at = len(text) - len(rest)
			continue
		}
		got, n := utf8.DecodeRuneInString(text[at:])
		if n == 0 || unicode.ToLower(got) != want {
			return 0
		}
		at += n
	}
	next, _ := utf8.DecodeRuneInString(text[at:])
	if unicode.IsLetter(want) && (unicode.IsLetter(next) || unicode.IsMark(next)) {
		return 0
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

// find skips the first of the phrases that stands here, as take does, and returns what it names.
func find[T any](r *reader, phrases []phrase[T]) (is T, ok bool) {
	t := *r
	t.space()
	for _, p := range phrases {
		if n := startsWith(r.text[t.at:], p.text); n > 0 {
			r.at = t.at + n
			return p.is, true
		}
	}
	return is, false
}

// thing reads what a figure counts where it is named, be it in several words: "developer concentrate".
func (r *reader) thing(fig *figure, from []phrase[thing]) {
	for {
		t := *r
		named, _ := find(&t, from)
		clash := fig.is != unnamed && (named == water) != (fig.is == water)
		if named == unnamed || clash {
			return
		}
		if fig.is == unnamed || named == stock {
			fig.is = named
		}
		r.at = t.at
	}
}

// number reads a figure or a number word; "a" is one before a unit or a part, "half" may have one behind it.
func (r *reader) number() (quantity.Ratio, error) {
	if n, ok := find(r, numberWords); ok {
		return quantity.Int(n), nil
	}
	if r.take("half") {
		r.take("a", "an")
		return quantity.NewRatio(1, 2)
	}
	if t := *r; t.take("a", "an") && t.countable() {
		r.take("a", "an")
		return quantity.Int(1), nil
	}
	v, end, err := quantity.ScanRatio(r.text, r.at)
	if err != nil {
		return quantity.Ratio{}, err
	}
	r.at = end
	return v, nil
}

// countable tells whether a unit or a part stands here.
func (r reader) countable() bool {
	one, err := r.unit()
	return err != nil || one != 0 || r.take("part")
}

// unit reads a unit of volume where one stands, and returns the volume of one; 0 where none does. A mass, or an ounce
// of no system, is an error.
func (r *reader) unit() (quantity.Volume, error) {
	t := *r
	t.space()
	one, end, err := quantity.ScanVolumeUnit(r.text, t.at, r.ounce)
	if err == nil {
		r.at = end
		return one, nil
	}
	if re, ok := errors.AsType[*quantity.ReadError](err); ok &&
		(re.Why == quantity.WhyWhichOunce || re.Why == quantity.WhyIsMass) {
		return 0, err
	}
	return 0, nil // no unit here, which is no mistake
}

// mine gives an error of another reader the name of what is read here.
func (r *reader) mine(err error) error {
	if re, ok := errors.AsType[*quantity.ReadError](err); ok {
		e := *re
		e.Want = want
		return &e
	}
	return err
}
