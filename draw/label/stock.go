package label

import (
	"strconv"
	"strings"

	"wetside/trade/quantity"
)

// Size is how large a label is.
type Size struct{ Wide, High float64 }

// String writes a size as it is named on the command line: "99.1x67.7".
func (s Size) String() string {
	num := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	return num(s.Wide) + "x" + num(s.High)
}

// A Stock is labels to print on: a sheet of paper with so many in columns and rows, or single ones off a roll.
type Stock struct {
	Name  string // how it is asked for: "99.1x67.7", "4x2 in"
	Label Size
	// Paper is the sheet, "A4" or "Letter"; empty for a roll, of which each label is a page.
	Paper         string
	Columns, Rows int
	// Left and Top are where the first label begins; Across and Down are from one label to the next.
	Left, Top, Across, Down float64
}

// On returns how many labels are on a sheet, one off a roll.
func (s Stock) On() int { return max(1, s.Columns*s.Rows) }

const inch = 25.4

// Stocks returns the sizes that are offered, by their dimensions alone. Where the labels stand on the sheets is common
// practice, from memory: print one on plain paper first and hold it against the sheet.
func Stocks() []Stock {
	return []Stock{
		{"99.1x67.7", Size{99.1, 67.7}, "A4", 2, 4, 4.65, 13.1, 101.6, 67.7},
		{"105x74", Size{105, 74}, "A4", 2, 4, 0, 0.5, 105, 74},
		{"63.5x38.1", Size{63.5, 38.1}, "A4", 3, 7, 7.2, 15.1, 66.04, 38.1},
		{"99.1x139", Size{99.1, 139}, "A4", 2, 2, 4.65, 9.5, 101.6, 139},
		{"105x148", Size{105, 148}, "A4", 2, 2, 0, 0.5, 105, 148},
		{"4x2 in", Size{4 * inch, 2 * inch}, "Letter", 2, 5, 0.15625 * inch, 0.5 * inch, 4.1875 * inch, 2 * inch},
		{"4x3 1/3 in", Size{4 * inch, inch * 10 / 3}, "Letter", 2, 3, 0.15625 * inch, 0.5 * inch, 4.1875 * inch, inch * 10 / 3},
		{"4x5 in", Size{4 * inch, 5 * inch}, "Letter", 2, 2, 0.15625 * inch, 0.5 * inch, 4.1875 * inch, 5 * inch},
		{"102x59", Size{102, 59}, "", 1, 1, 0, 0, 0, 0},
		{"100x62", Size{100, 62}, "", 1, 1, 0, 0, 0, 0},
		{"102x152", Size{102, 152}, "", 1, 1, 0, 0, 0, 0},
	}
}

// StocksOn returns the sizes that are on a paper, then those off a roll.
func StocksOn(paper string) (out []Stock) {
	for _, on := range []string{paper, ""} {
		for _, s := range Stocks() {
			if s.Paper == on {
				out = append(out, s)
			}
		}
	}
	return out
}

// Bounds of a label of one's own, mm.
const (
	leastSide = 15
	mostSide  = 300
)

// Named returns the size of a name, as one of Stocks calls it or as a single label of its own: "80x50 mm", "3x2 in".
func Named(name string) (Stock, bool) {
	plain := strings.ReplaceAll(strings.ReplaceAll(strings.ToLower(strings.TrimSpace(name)), "×", "x"), " x ", "x")
	for _, s := range Stocks() {
		if s.Name == strings.TrimSpace(strings.TrimSuffix(plain, "mm")) {
			return s, true
		}
	}
	if plain != "" && plain[len(plain)-1] >= '0' && plain[len(plain)-1] <= '9' {
		plain += " mm"
	}
	w, h, err := quantity.ReadSize(plain)
	if err != nil {
		return Stock{}, false
	}
	size := Size{float64(w), float64(h)}
	if size.Wide < leastSide || size.High < leastSide || size.Wide > mostSide || size.High > mostSide {
		return Stock{}, false
	}
	return Stock{Name: strings.TrimSpace(name), Label: size, Columns: 1, Rows: 1}, true
}
