package words

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/agext/levenshtein"

	"wetside/trade/fault"
)

// A SignFound is a sign that a person's own words may mean, with the words of the message file that were met.
type SignFound struct {
	Sign  fault.Sign
	Met   []string
	Score float64
}

// elsewhere divides the score of a sign that is seen elsewhere than where the words say.
const elsewhere = 4

// mostSigns is how many signs are offered at most.
const mostSigns = 6

// FindSigns finds the signs that plain words may mean, the likeliest first; none where no word is one of theirs.
//
// Each sign has its words in the message file. A typed word is taken as the nearest of all of these: itself, else one that begins
// with it or that it begins with, from four letters on, else one with a letter wrong, missing or too many (two in a word of eight).
// It counts for a sign as one divided by how many signs have it, so that rare words say more. Where the words name a place (print,
// film, bath), signs that are seen elsewhere count a quarter. Signs with half of the best count and more are offered.
func (v *Voice) FindSigns(text string) []SignFound {
	b := v.signBook()
	var where []fault.Where
	met := map[fault.Sign]*SignFound{}
	said := map[string]bool{}
	for _, word := range wordsIn(text) {
		if b.skip[word] {
			continue
		}
		if w, isPlace := b.places[word]; isPlace {
			where = append(where, w)
		}
		near := b.nearest(word)
		if _, isPlace := b.places[word]; isPlace && near != word {
			continue
		}
		if near == "" || said[near] {
			continue
		}
		said[near] = true
		for _, s := range b.signs[near] {
			if met[s] == nil {
				met[s] = &SignFound{Sign: s}
			}
			met[s].Met = append(met[s].Met, near)
			met[s].Score += 1 / float64(len(b.signs[near]))
		}
	}
	return offered(met, where)
}

// offered puts the signs that were met in order and leaves those that count little.
func offered(met map[fault.Sign]*SignFound, where []fault.Where) []SignFound {
	var all []SignFound
	best := 0.0
	for _, s := range fault.Signs() {
		f := met[s]
		if f == nil {
			continue
		}
		if len(where) > 0 && !slices.Contains(where, s.Where()) {
			f.Score /= elsewhere
		}
		best = max(best, f.Score)
		all = append(all, *f)
	}
	all = slices.DeleteFunc(all, func(f SignFound) bool { return f.Score < best/2 })
	slices.SortStableFunc(all, func(a, b SignFound) int { return cmp.Compare(b.Score, a.Score) })
	return all[:min(len(all), mostSigns)]
}

// A signBook is the words of all signs in one language.
type signBook struct {
	signs  map[string][]fault.Sign // by word
	words  []string                // in order
	places map[string]fault.Where
	skip   map[string]bool // words that say nothing
}

func (v *Voice) signBook() signBook {
	b := signBook{signs: map[string][]fault.Sign{}, places: map[string]fault.Where{}, skip: map[string]bool{}}
	for _, s := range fault.Signs() {
		for _, w := range wordsIn(v.say("fault.sign."+string(s)+".words", nil)) {
			if !slices.Contains(b.signs[w], s) {
				b.signs[w] = append(b.signs[w], s)
			}
		}
	}
	for w := range b.signs {
		b.words = append(b.words, w)
	}
	slices.Sort(b.words)
	for _, where := range fault.Places() {
		for _, w := range wordsIn(v.say("fault.place_words."+string(where), nil)) {
			b.places[w] = where
		}
	}
	for _, w := range wordsIn(v.say("fault.skip", nil)) {
		b.skip[w] = true
	}
	return b
}

// How near a word must be: from so many letters on it may be wrong by one letter, from so many on by two.
const (
	nearFrom = 4
	farFrom  = 8
)

// nearest returns the word that was meant, empty for none.
func (b *signBook) nearest(word string) string {
	if b.signs[word] != nil {
		return word
	}
	n := utf8.RuneCountInString(word)
	if n < nearFrom {
		return ""
	}
	best, least := "", 2
	if n >= farFrom {
		least = 3
	}
	for _, w := range b.words {
		if utf8.RuneCountInString(w) < nearFrom {
			continue
		}
		d := levenshtein.Distance(word, w, nil)
		if strings.HasPrefix(w, word) || strings.HasPrefix(word, w) {
			d = min(d, 1)
		}
		if d < least {
			best, least = w, d
		}
	}
	return best
}

// wordsIn parts a text into words of letters, in lower case.
func wordsIn(text string) []string {
	return strings.FieldsFunc(strings.ToLower(plain(text)), func(r rune) bool { return !unicode.IsLetter(r) && r != '-' })
}
