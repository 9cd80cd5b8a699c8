package label

import (
	"slices"
	"strings"
	"unicode"
)

//go:generate go test -run=TestFaceLetters$ -update

// Lacks returns the letters of a label that the printed face has not, each once, and those of scripts that run from right to
// left, which it would set the wrong way round. On paper an empty box stands for each, to be written by hand.
func (l Label) Lacks() []rune {
	var out []rune
	for _, text := range l.words() {
		for _, r := range text {
			if (!unicode.Is(faceLetters, r) || leftwards(r)) && !slices.Contains(out, r) {
				out = append(out, r)
			}
		}
	}
	return out
}

// leftwards reports whether a letter belongs to a script that runs from right to left.
func leftwards(r rune) bool {
	return unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana, unicode.Nko, unicode.Samaritan)
}

// emptyBox stands on paper for a letter that the face lacks.
const emptyBox = '□'

// Printable returns the label with an empty box for every letter that Lacks tells.
func (l Label) Printable() Label {
	lacks := l.Lacks()
	if len(lacks) == 0 {
		return l
	}
	boxed := func(text string) string {
		return strings.Map(func(r rune) rune {
			if slices.Contains(lacks, r) {
				return emptyBox
			}
			return r
		}, text)
	}
	each := func(all []string) []string {
		out := make([]string, len(all))
		for i, text := range all {
			out[i] = boxed(text)
		}
		return out
	}
	l.Title, l.About, l.For, l.Alarm, l.Signal, l.Spent = boxed(l.Title), boxed(l.About), boxed(l.For), boxed(l.Alarm), boxed(l.Signal), boxed(l.Spent)
	l.Hazard, l.Advice, l.Notes = each(l.Hazard), each(l.Advice), each(l.Notes)
	l.Fields = slices.Clone(l.Fields)
	for i := range l.Fields {
		l.Fields[i].Name, l.Fields[i].Value = boxed(l.Fields[i].Name), boxed(l.Fields[i].Value)
	}
	return l
}
