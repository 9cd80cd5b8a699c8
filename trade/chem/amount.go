package chem

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MostAmount is the most of one substance that is reckoned with, mol per kg of water.
const MostAmount = 20.0

// LeastAmount is the least amount but 0 that is read, mol per kg of water.
const LeastAmount = 1e-12

// maxDecimals is how many decimals a number may have; LeastAmount in full needs some 30.
const maxDecimals = 40

// An Amount is so much of a substance, mol per kilogram of water. The water of crystallisation is not added to
// the water.
type Amount struct {
	Substance Substance
	Molality  float64
}

// String writes the amount as ParseAmount reads it back: "acetic acid 0.05 mol/kg".
func (a Amount) String() string {
	return a.Substance.Name() + " " + strconv.FormatFloat(a.Molality, 'f', -1, 64) + " mol/kg"
}

// ParseAmount reads a substance and how much of it: "acetic acid 0.05 mol/kg", "Na2CO3·H2O 50 mmol/kg", or the
// amount first. The substance is as in Lookup, the number has a point or a comma, the unit is mol/kg or
// mmol/kg, of water. Errors are a *ReadError with the place and the remedy; amounts per litre and masses are refused
// with reasons of their own.
func ParseAmount(text string) (Amount, error) {
	switch {
	case len(text) > maxText:
		return Amount{}, failed(text, maxText, "amount", WhyTooLong, "")
	case !utf8.ValidString(text):
		return Amount{}, failed(text, 0, "amount", WhyNotText, "")
	}
	words := wordsOf(text)
	if len(words) == 0 {
		return Amount{}, failed(text, 0, "amount", WhyEmpty, "acetic acid 0.05 mol/kg")
	}
	u, err := findUnit(text, words)
	if err != nil {
		return Amount{}, err
	}
	if u.first == len(words)-u.count && u.number == 0 {
		return Amount{}, failed(text, words[0].at, "amount", WhyNoName, "acetic acid "+strings.TrimSpace(text))
	}
	n, why := readNumber(words[u.number].text)
	if why == "" {
		n /= u.per
		switch {
		case n > MostAmount:
			why = WhyTooLarge
		case n > 0 && n < LeastAmount:
			why = WhyTooFine
		}
	}
	if why != "" {
		return Amount{}, failed(text, words[u.number].at, "amount", why, "")
	}
	name, at := u.name(text, words)
	s, err := Lookup(name)
	if err != nil {
		return Amount{}, inText(err, text, at)
	}
	return Amount{Substance: s, Molality: n}, nil
}

// A word is one between spaces, with the place of its first byte.
type word struct {
	text string
	at   int
}

// wordsOf splits a text at spaces, and a number from a unit written onto it.
func wordsOf(text string) []word {
	var words []word
	start := -1
	for i, r := range text + " " {
		switch {
		case unicode.IsSpace(r) && start >= 0:
			words = append(words, parted(text[start:i], start)...)
			start = -1
		case !unicode.IsSpace(r) && start < 0:
			start = i
		}
	}
	return words
}

// parted splits 0.05mol/kg.
func parted(w string, at int) []word {
	n := strings.IndexFunc(w, func(r rune) bool { return !strings.ContainsRune("0123456789.,-−", r) })
	if n > 0 && unitOf(w[n:]) != noUnit {
		return []word{{w[:n], at}, {w[n:], at + n}}
	}
	return []word{{w, at}}
}

// A foundUnit is where an amount's number and unit stand among its words.
type foundUnit struct {
	number, first, count int // the words of the number and of the unit
	per                  float64
}

// name returns what is left of the text, and where it is.
func (u foundUnit) name(text string, words []word) (string, int) {
	if u.number == 0 {
		at := words[u.first+u.count].at
		return strings.TrimSpace(text[at:]), at
	}
	at := words[0].at
	return strings.TrimSpace(text[at:words[u.number].at]), at
}

type unitKind uint8

const (
	noUnit unitKind = iota
	molPerKg
	mmolPerKg
	perLitre
	mass
)

// unitOf says what a word is as a unit.
func unitOf(w string) unitKind {
	switch strings.ToLower(w) {
	case "mol/kg", "mol·kg-1", "mol·kg⁻¹", "molal":
		return molPerKg
	case "mmol/kg", "mmol·kg-1", "mmol·kg⁻¹":
		return mmolPerKg
	case "mol/l", "mmol/l", "molar", "mol/litre", "mol/liter":
		return perLitre
	case "g", "mg", "kg", "g/l", "g/kg", "mg/l", "g/litre", "g/liter", "ml", "ml/l", "%":
		return mass
	}
	return noUnit
}

// findUnit finds the unit at the end, or behind a number at the beginning.
func findUnit(text string, words []word) (foundUnit, error) {
	last := len(words) - 1
	u := foundUnit{number: last - 1, first: last, count: 1, per: 1}
	if unitOf(words[last].text) == noUnit && len(words) > 2 && unitOf(words[1].text) != noUnit {
		u.number, u.first = 0, 1
	}
	switch unitOf(words[u.first].text) {
	case molPerKg:
	case mmolPerKg:
		u.per = 1000
	case perLitre:
		return u, failed(text, words[u.first].at, "amount", WhyPerLitre, "mol/kg")
	case mass:
		return u, failed(text, words[u.first].at, "amount", WhyIsMass, "mol/kg")
	default:
		return u, missingUnit(text, words)
	}
	if u.number < 0 {
		return u, failed(text, 0, "amount", WhyNoNumber, "")
	}
	return u, nil
}

// missingUnit says of an amount without a unit whether there is a number, and whether what follows it is meant as one.
func missingUnit(text string, words []word) error {
	last := len(words) - 1
	if _, why := readNumber(words[last].text); why == "" {
		return failed(text, words[last].at, "amount", WhyNoUnit, words[last].text+" mol/kg")
	}
	if last > 0 {
		if _, why := readNumber(words[last-1].text); why == "" {
			return failed(text, words[last].at, "amount", WhyUnknownUnit, "mol/kg")
		}
	}
	return failed(text, words[last].at+len(words[last].text), "amount", WhyNoNumber, "0.05 mol/kg")
}

// inText moves the error of a name to the text that it stands in.
func inText(err error, text string, at int) error {
	re, ok := err.(*ReadError) //nolint:errorlint // Lookup's contract is the type itself.
	if !ok {
		return err
	}
	return failed(text, at+re.At, "amount", re.Why, re.Near)
}

// readNumber reads a decimal number without sign or exponent, or says why not.
func readNumber(w string) (float64, Why) {
	if w != "" && strings.ContainsRune("-−–", []rune(w)[0]) {
		return 0, WhyNegative
	}
	whole, decimals := w, ""
	if i := strings.IndexAny(w, ".,"); i >= 0 {
		whole, decimals = w[:i], w[i+1:]
		if w[i] == ',' && len(decimals) == 3 && strings.Trim(whole, "0") != "" {
			return 0, WhyGrouped
		}
	}
	digits := whole + decimals
	if digits == "" || strings.Trim(digits, "0123456789") != "" || strings.HasSuffix(w, ".") || strings.HasSuffix(w, ",") {
		return 0, WhyNoNumber
	}
	if len(decimals) > maxDecimals {
		return 0, WhyTooFine
	}
	if len(whole) > 9 {
		return 0, WhyTooLarge
	}
	n, err := strconv.ParseFloat("0"+whole+"."+decimals+"0", 64)
	if err != nil {
		return 0, WhyNoNumber
	}
	return n, ""
}
