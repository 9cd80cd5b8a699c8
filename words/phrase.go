package words

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Weight says how a part of a sentence is set.
type Weight uint8

// The weights.
const (
	Plain Weight = iota
	Heavy        // a thing's name, a mark to stop at
)

// A Segment is a part of a sentence, all of one weight.
type Segment struct {
	Text   string
	Weight Weight
}

// A Phrase is a sentence or a clause in segments. The zero value says nothing.
type Phrase []Segment

// Text returns the phrase without its weights.
func (p Phrase) Text() string {
	var b strings.Builder
	for _, s := range p {
		b.WriteString(s.Text)
	}
	return b.String()
}

// String returns Text, so that a phrase can stand in a template.
func (p Phrase) String() string { return p.Text() }

// turn is where the weight turns within a message; it stands for the ** of a message file. It is a character of
// the private use area, so that nothing a person typed is taken for it.
const turn = '\uE000'

// phrase parts a message at its turns.
func phrase(raw string) Phrase {
	var p Phrase
	for i, part := range strings.Split(raw, string(turn)) {
		if part != "" {
			p = append(p, Segment{part, Weight(i % 2)})
		}
	}
	return p
}

// plain returns a message without its turns.
func plain(raw string) string { return strings.ReplaceAll(raw, string(turn), "") }

// heavy sets a message wholly heavy.
func heavy(raw string) string { return string(turn) + plain(raw) + string(turn) }

// own makes a person's own words fit for a sentence: one line, single spaces, nothing that is not printed. A space
// that does not break stays.
func own(words string) string {
	printed := strings.Map(func(r rune) rune {
		switch {
		case r == nbsp:
			return r
		case unicode.IsSpace(r):
			return ' '
		case r == turn, r == utf8.RuneError, unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r):
			return -1
		}
		return r
	}, words)
	return strings.Join(strings.FieldsFunc(printed, func(r rune) bool { return r == ' ' }), " ")
}

// bound keeps a number at the start of a name by its unit: "100 mL cylinder".
func bound(name string) string {
	number, rest, found := strings.Cut(name, " ")
	if !found || strings.ContainsFunc(number, func(r rune) bool { return !unicode.IsDigit(r) && r != '.' }) {
		return name
	}
	return number + string(nbsp) + rest
}

// sentence begins a message with a capital.
func sentence(raw string) string {
	for i, r := range raw {
		if r == turn {
			continue
		}
		return raw[:i] + string(unicode.ToUpper(r)) + raw[i+utf8.RuneLen(r):]
	}
	return raw
}
