package chem

import (
	"strings"
	"unicode/utf8"
)

// Lookup finds a substance by name, usual synonym or formula, with or without its water of crystallisation: "acetic
// acid", "Sodium Carbonate, monohydrate", "borax" (the decahydrate), "sodium sulphite", "Na2CO3.H2O", "naoh".
// Capitals, spaces and hyphens do not matter. A *ReadError with the nearest name on a miss.
//
// The tetrahydrate and the octahydrate of sodium metaborate are named so for two of NaBO2; here one mole of either is
// one of NaBO2, with 2 and 4 of water.
func Lookup(name string) (Substance, error) {
	switch {
	case len(name) > maxText:
		return Substance{}, failed(name, maxText, "substance", WhyTooLong, "")
	case !utf8.ValidString(name):
		return Substance{}, failed(name, 0, "substance", WhyNotText, "")
	case strings.TrimSpace(name) == "":
		return Substance{}, failed(name, 0, "substance", WhyEmpty, "acetic acid")
	}
	word := folded(name)
	if s, ok := named(word); ok {
		return s, nil
	}
	if rest, water, said := splitHydrate(word); said {
		if s, ok := named(rest); ok {
			return s.with(name, s.perUnit(water))
		}
	}
	if s, ok, err := byFormula(name); ok {
		return s, err
	}
	return Substance{}, failed(name, 0, "substance", WhyUnknown, nearest(word))
}

// perUnit takes the water that a hydrate's word says to that of one formula unit: half, for the sodium metaborates
// that are named for two.
func (s Substance) perUnit(said float64) float64 {
	if s.row().formula == "NaBO2" && said >= 4 {
		return said / 2
	}
	return said
}

// with returns the hydrate of s with so much water, or an error that names one that there is.
func (s Substance) with(text string, water float64) (Substance, error) {
	have := s.Hydrates()
	for _, h := range have {
		if h.water == water {
			return h, nil
		}
	}
	return Substance{}, failed(text, 0, "substance", WhyNoSuchHydrate, have[len(have)-1].Name())
}

// folds are the ways of writing that make no difference.
var folds = strings.NewReplacer("-", " ", "‐", " ", "‑", " ", "_", " ", ",", " ", "’", "'", "sulph", "sulf", "aluminium", "aluminum")

// folded writes a name as the table has it: in lower case, one space between words, British sulph as sulf.
func folded(name string) string {
	return strings.Join(strings.Fields(folds.Replace(strings.ToLower(name))), " ")
}

// named finds a folded name among names and synonyms.
func named(word string) (Substance, bool) {
	for i := range entries {
		if entries[i].name == word {
			return Substance{entry: i + 1}, true
		}
		for _, a := range entries[i].also {
			if a.name == word {
				return Substance{entry: i + 1, water: a.water}, true
			}
		}
	}
	return Substance{}, false
}

// byFormula finds a substance by its formula, written in any case; ok is false where none begins so.
func byFormula(text string) (s Substance, ok bool, err error) {
	p, _ := plain(text)
	p = strings.ToLower(p)
	if !strings.Contains(p, "·") {
		p = strings.Replace(p, ".", "·", 1)
	}
	dry, added, _ := strings.Cut(p, "·")
	if s, ok = named(dry); !ok {
		for i := range entries {
			if strings.EqualFold(entries[i].formula, dry) {
				s, ok = Substance{entry: i + 1}, true
				break
			}
		}
	}
	if !ok || added == "" && dry != p {
		return Substance{}, false, nil
	}
	if added == "" {
		return s, true, nil
	}
	water, isWater := waters(added)
	if !isWater {
		return Substance{}, false, nil
	}
	s, err = s.with(text, water)
	return s, true, err
}

// waters reads what is added in a formula in lower case: 5h2o, xh2o is none.
func waters(added string) (float64, bool) {
	number, ok := strings.CutSuffix(added, "h2o")
	if !ok {
		return 0, false
	}
	if number == "" {
		return 1, true
	}
	n, why := readNumber(number)
	return n, why == ""
}

// nearest returns the name that takes the fewest changes to become the word, or nothing where that is more than a
// third of it.
func nearest(word string) string {
	bare := word
	if rest, _, said := splitHydrate(word); said {
		bare = rest
	}
	best, found := 1+len(bare)/3, ""
	for i := range entries {
		if d := changes(bare, entries[i].name); d < best {
			best, found = d, entries[i].name
		}
		for _, a := range entries[i].also {
			if d := changes(bare, a.name); d < best {
				best, found = d, a.name
			}
		}
	}
	return found
}

// changes counts the letters to put in, take out or change to make b of a.
func changes(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		before := row[0]
		row[0] = i + 1
		for j := range len(b) {
			d := before
			if a[i] != b[j] {
				d = 1 + min(before, row[j], row[j+1])
			}
			before, row[j+1] = row[j+1], d
		}
	}
	return row[len(b)]
}
