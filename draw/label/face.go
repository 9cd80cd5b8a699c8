package label

import (
	"slices"
	"unicode"

	"github.com/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
)

// Lacks returns the letters of a label that the printed face has not, each once, and those of scripts that run from right to
// left, which it would set the wrong way round. On paper an empty box stands for each, to be written by hand.
func (l Label) Lacks() []rune {
	face, err := sfnt.Parse(liberationsansregular.TTF)
	if err != nil {
		return nil // the face is built in; TestFace reads it
	}
	var out []rune
	var b sfnt.Buffer
	for _, text := range l.words() {
		for _, r := range text {
			if i, err := face.GlyphIndex(&b, r); (err != nil || i == 0 || leftwards(r)) && !slices.Contains(out, r) {
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
