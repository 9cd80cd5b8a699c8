package words

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"wetside/trade/quantity"
)

// nbsp stands between a number and its unit.
const nbsp = '\u00A0'

const (
	minus     = "−"
	plusMinus = "±"
)

// grouped is the least number whose digits are parted in threes. Below it they stand as on a jug: 1000, 2000.
const grouped = 10_000

// decimal prints x with at most so many places and without trailing noughts.
func (v *Voice) decimal(x float64, places int) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', places, 64)
	whole, part, _ := strings.Cut(text, ".")
	part = strings.TrimRight(part, "0")
	if math.Abs(x) >= grouped {
		whole = v.threes(whole)
	}
	if part != "" {
		whole += v.point + part
	}
	if x < 0 && whole != "0" {
		return minus + whole
	}
	return whole
}

// fixed prints x with exactly so many places: a sum of money.
func (v *Voice) fixed(x float64, places int) string {
	whole, part, _ := strings.Cut(strconv.FormatFloat(math.Abs(x), 'f', places, 64), ".")
	text := v.threes(whole)
	if part != "" {
		text += v.point + part
	}
	if x < 0 {
		return minus + text
	}
	return text
}

func (v *Voice) threes(digits string) string {
	var parts []string
	for len(digits) > 3 {
		parts = append([]string{digits[len(digits)-3:]}, parts...)
		digits = digits[:len(digits)-3]
	}
	return strings.Join(append([]string{digits}, parts...), v.group)
}

// Plain prints a number to three places, with the language's own sign for the decimal point: 0.5, 5.2.
func (v *Voice) Plain(x float64) string { return v.decimal(x, 3) }

func (v *Voice) whole(n int) string { return v.decimal(float64(n), 0) }

// significant prints x to so many significant figures, without an exponent.
func (v *Voice) significant(x float64, figures int) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return v.decimal(0, 0)
	}
	places := figures - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	if places < 0 {
		unit := math.Pow10(-places)
		return v.decimal(math.Round(x/unit)*unit, 0)
	}
	return v.decimal(x, places)
}

// Number prints an exact number as it stands on a label or a scale without ounces: 9, 0.5, 1 1/3.
func (v *Voice) Number(r quantity.Ratio) string { return v.exact(r) }

// exact prints an exact number as it is: 9, 0.5, 1 1/3.
func (v *Voice) exact(r quantity.Ratio) string {
	return strings.ReplaceAll(unbroken(r.String()), ".", v.point)
}

// unbroken makes the spaces of a text such that no line ends at them.
func unbroken(text string) string { return strings.ReplaceAll(text, " ", string(nbsp)) }

// Word returns a small number in words, up to twelve, and in figures above.
func (v *Voice) Word(n int) string {
	if n >= 1 && n <= 12 {
		return plain(v.say("word.n"+strconv.Itoa(n), nil))
	}
	return v.whole(n)
}

// Ordinal returns first, second, ... up to twelfth, and what stands for "13th" above.
func (v *Voice) Ordinal(n int) string {
	if n >= 1 && n <= 12 {
		return plain(v.say("ordinal.n"+strconv.Itoa(n), nil))
	}
	return plain(v.say("ordinal.above", args{"N": v.whole(n)}))
}

// Times returns once, twice, three times.
func (v *Voice) Times(n int) string {
	if n >= 1 && n <= 2 {
		return plain(v.say("times.n"+strconv.Itoa(n), nil))
	}
	return plain(v.say("times.above", args{"N": v.Word(n)}))
}

// Count returns a count with its noun, "36 sheets", the message "count.NOUN".
func (v *Voice) Count(noun string, n int) string {
	return glued(plain(v.sayN("count."+noun, n, nil)))
}

// CountWord is Count with a small number in words: "two jugfuls".
func (v *Voice) CountWord(noun string, n int) string {
	return plain(v.sayN("count."+noun, n, args{"N": v.Word(n)}))
}

// glued lets a number at the start not be parted from its noun.
func glued(text string) string {
	number, rest, found := strings.Cut(text, " ")
	if !found || number == "" || number[0] < '0' || number[0] > '9' {
		return text
	}
	return number + string(nbsp) + rest
}

// list joins words: a, b and c.
func (v *Voice) list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return v.say("list.last", args{"Before": strings.Join(words[:last], v.say("list.comma", nil)), "Last": words[last]})
}

// Clauses joins clauses that stand side by side, leaving out what is empty: 4 sheets of FB paper, 11×14 in; exhibition.
func (v *Voice) Clauses(clauses ...string) string {
	said := slices.DeleteFunc(slices.Clone(clauses), func(c string) bool { return c == "" })
	return plain(strings.Join(said, v.say("list.semicolon", nil)))
}

// Titled sets a title before what it is the title of: The day before: film developer.
func (v *Voice) Titled(title, text string) string {
	return plain(v.say("titled", args{"Title": title, "Text": text}))
}

// numberWord returns a small whole number in words, another as it is written on a label.
func (v *Voice) numberWord(r quantity.Ratio) string {
	if r.Den() == 1 && r.Num() >= 1 && r.Num() <= 12 {
		return v.Word(int(r.Num()))
	}
	return v.exact(r)
}

// parts returns a count of parts in words: one part, nine parts, 1½ parts.
func (v *Voice) parts(r quantity.Ratio) string {
	n := 2
	if r.Cmp(quantity.Int(1)) == 0 {
		n = 1
	}
	return v.sayN("count.parts", n, args{"N": v.numberWord(r)})
}
