package chem

import (
	"strconv"
	"strings"
)

// A Formula is what a substance is made of: atoms in groups, water of crystallisation, a charge. The zero value is
// no formula. Make one with ParseFormula.
type Formula struct {
	text   string
	atoms  [len(elements)]float64
	charge int
}

// String returns the formula in plain digits, with `·` before what is added and `^` before a charge
// (`Na2CO3·10H2O`, `S2O3^2-`). ParseFormula reads it back to the same.
func (f Formula) String() string { return f.text }

// Charge returns the charge number: 0 for a substance, −2 for `S2O3^2-`.
func (f Formula) Charge() int { return f.charge }

// Atoms returns how many atoms of an element there are in a formula unit: 0 for a symbol that does not occur. It is
// no whole number where the water is none, as in `K2CO3·1.5H2O`.
func (f Formula) Atoms(symbol string) float64 {
	i := elementNamed(symbol)
	if i < 0 {
		return 0
	}
	return f.atoms[i]
}

// MolarMass returns the molar mass, g/mol, by IUPAC standard atomic weights (IUPAC-2001). The electrons of a
// charge (0.0005 g/mol each) are not counted.
func (f Formula) MolarMass() float64 {
	var sum float64
	for i, n := range f.atoms {
		if n != 0 {
			sum += n * elements[i].weight
		}
	}
	return sum
}

// MassFraction returns which share of the mass an element is: 0.5745 for the silver of AgBr. 0 for no formula.
func (f Formula) MassFraction(symbol string) float64 {
	i := elementNamed(symbol)
	if i < 0 || f.text == "" {
		return 0
	}
	return f.atoms[i] * elements[i].weight / f.MolarMass()
}

// Substitution returns what the weight of `called` is multiplied by where `held` is used for it, mole for mole:
// 1.5697 for Na2S2O3·5H2O in place of Na2S2O3. 0 where `called` is no formula. Two salts of different anions, or a
// salt that brings two ions for one, is the caller's to see.
func Substitution(called, held Formula) float64 {
	if called.text == "" {
		return 0
	}
	return held.MolarMass() / called.MolarMass()
}

// plain writes a text with the digits and signs of this package: subscripts and superscripts as digits (those of a
// charge behind ^), every dot between parts as ·, every minus as -, without spaces. An offset in it is not one
// in the text, so each byte carries where it is from.
func plain(text string) (string, []int) {
	var b strings.Builder
	var from []int
	raised := false // in a charge of superscripts
	put := func(at int, s string) {
		b.WriteString(s)
		for range len(s) {
			from = append(from, at)
		}
	}
	for at, r := range text {
		if d := strings.IndexRune("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", r); d >= 0 {
			if !raised {
				put(at, "^")
			}
			raised = true
			put(at, superscript(r))
			continue
		}
		raised = false
		switch {
		case r == ' ' || r == '\u00a0' || r == '\u2009' || r == '\u202f' || r == '\t':
		case r >= '₀' && r <= '₉':
			put(at, strconv.Itoa(int(r-'₀')))
		case r == '*' || r == '•' || r == '⋅' || r == '∙' || r == '×':
			put(at, "·")
		case r == '−' || r == '–':
			put(at, "-")
		case r == '₊':
			put(at, "+")
		default:
			put(at, string(r))
		}
	}
	return b.String(), append(from, len(text))
}

func superscript(r rune) string {
	switch r {
	case '¹':
		return "1"
	case '²':
		return "2"
	case '³':
		return "3"
	case '⁺':
		return "+"
	case '⁻':
		return "-"
	default:
		return strconv.Itoa(int(r - '⁰'))
	}
}
