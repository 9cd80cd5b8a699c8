package material

import (
	"strings"
	"unicode/utf8"

	"wetside/trade/quantity"
)

// WhyUnknownWord is the reason where a text is none of the words that can stand there.
const WhyUnknownWord quantity.Why = "unknown_word"

// UnknownWord returns the error for a text that is none of the words read as a want, with the nearest of them if any
// is near: less than a third of its letters wrong, missing or too many.
func UnknownWord(text, want string, words ...string) error {
	e := &quantity.ReadError{Text: cut(text), Want: want, Why: WhyUnknownWord}
	best := len(text)
	for _, w := range words {
		if d := slips(fold(e.Text), fold(w)); d < best && 3*d < len(w) {
			best, e.Near = d, w
		}
	}
	return e
}

// wordsOf returns the words of all.
func wordsOf[T interface{ String() string }](all []T) []string {
	words := make([]string, 0, len(all))
	for _, t := range all {
		words = append(words, t.String())
	}
	return words
}

// fold makes words comparable: lower case, hyphens as spaces, single spaces.
func fold(text string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(strings.ToLower(text), "-", " ")), " ")
}

// slips returns by how many letters, wrong, missing, too many or changed about with their neighbour, two words differ
// (optimal string alignment).
func slips(a, b string) int {
	var before, last []int
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		before, last, row = last, row, make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
	}
	return row[len(b)]
}

// longest is how many characters of a wrong text an error keeps.
const longest = 80

// cut keeps the first characters of a text, and none that are not UTF-8.
func cut(text string) string {
	text = text[:min(len(text), longest*utf8.UTFMax)]
	text = strings.ToValidUTF8(text, "\uFFFD")
	if r := []rune(text); len(r) > longest {
		return string(r[:longest])
	}
	return text
}
