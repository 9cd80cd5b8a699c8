package quantity

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// A number is what the digits came to, before it is known whether an exact or a float64 figure is wanted:
// a decimal ("12.5", digits and at most one point) and a fraction beside it. One of them may be missing.
type number struct {
	decimal string
	frac    Ratio
}

// maxDigits is how long a number may be, its point counted.
const maxDigits = 40

// ReadRatio reads a bare number as people write it: 10, ½, 1/2, 1 1/2, 1-1/2, 4½, 0,5, .5, 0.125. Digits in groups
// (1,000 and 1 000) are refused, because 1,000 is one in one country and a thousand in the next.
func ReadRatio(text string) (Ratio, error) {
	return read(text, "number", (*scan).ratio)
}

// ScanRatio reads the number that stands at byte at of text, and returns where it ends. The error is a *ReadError.
func ScanRatio(text string, at int) (r Ratio, end int, err error) {
	s := &scan{text: text, at: at, want: "number"}
	if r, err = s.ratio(); err != nil {
		return Ratio{}, at, err
	}
	return r, s.at, nil
}

// ratio reads a number that is wanted exactly.
func (s *scan) ratio() (Ratio, error) {
	start := s.at
	n, err := s.number()
	if err != nil {
		return Ratio{}, err
	}
	r, err := n.ratio()
	if err != nil {
		return Ratio{}, s.failAt(start, WhyTooLong)
	}
	return r, nil
}

// number reads a number without a sign.
func (s *scan) number() (number, error) {
	start := s.at
	if s.negative() {
		return number{}, s.fail(WhyNegative)
	}
	whole := s.digits()
	if frac, ok, err := s.slash(whole); ok {
		return number{frac: frac}, err
	}
	if frac, ok, err := s.mixed(whole); ok {
		return number{whole, frac}, err
	}
	comma := strings.HasPrefix(s.rest(), ",")
	n := number{decimal: whole + s.decimals()}
	switch {
	case n.decimal == "":
		return number{}, s.fail(WhyNoNumber)
	case len(n.decimal) > maxDigits:
		return number{}, s.failAt(start, WhyTooLong)
	case comma && n.likeThousands() || s.group():
		return number{}, s.failAt(start, WhyGrouped)
	}
	return n, nil
}

// negative tells whether a number with a minus sign stands here.
func (s *scan) negative() bool {
	t := *s
	if !t.take("-", "−", "–") {
		return false
	}
	t.space()
	return startsWithDigit(t.rest()) || t.decimals() != "" || vulgarAt(t.rest()) >= 0
}

// digits takes the digits that stand here.
func (s *scan) digits() string {
	n := 0
	for startsWithDigit(s.rest()[n:]) {
		n++
	}
	s.at += n
	return s.text[s.at-n : s.at]
}

// decimals takes a point or a comma and the digits behind it, as ".5"; nothing where no digit follows.
func (s *scan) decimals() string {
	t := *s
	if !t.take(".", ",") {
		return ""
	}
	d := t.digits()
	if d == "" {
		return ""
	}
	s.at = t.at
	return "." + d
}

// likeThousands tells whether the decimal has the form of digits in groups: 1.000, 12.500, not 0.125.
func (n number) likeThousands() bool {
	whole, dec, _ := strings.Cut(n.decimal, ".")
	return len(dec) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0'
}

// group tells whether a further group of digits stands here, behind a number: 1.000.000, 1'000, 1 000.
func (s *scan) group() bool {
	t := *s
	if t.take("'", "’", ",", ".") {
		return startsWithDigit(t.rest())
	}
	t.space()
	return t.at > s.at && len(t.digits()) == 3
}

// slash takes the rest of a fraction whose upper figure was top.
func (s *scan) slash(top string) (r Ratio, ok bool, err error) {
	t := *s
	if top == "" || !t.take("/", "⁄", "∕") || !startsWithDigit(t.rest()) {
		return Ratio{}, false, nil
	}
	start := s.at - len(top)
	bottom := t.digits()
	s.at = t.at
	num, err1 := strconv.ParseInt(top, 10, 64)
	den, err2 := strconv.ParseInt(bottom, 10, 64)
	switch {
	case err1 != nil || err2 != nil:
		return Ratio{}, true, s.failAt(start, WhyTooLong)
	case den == 0:
		return Ratio{}, true, s.failAt(start, WhyNoFraction)
	}
	r, err = NewRatio(num, den)
	return r, true, err
}

// mixed takes the fraction that stands behind a whole number, or alone where it is one character. Behind a hyphen
// a fraction below 1 is part of the number (1-1/2 is one and a half): as the end of a range it would run backwards.
func (s *scan) mixed(whole string) (r Ratio, ok bool, err error) {
	t := *s
	hyphen := whole != "" && t.take("-")
	if !hyphen && whole != "" {
		t.space()
	}
	if i := vulgarAt(t.rest()); i >= 0 {
		if hyphen && whole == "0" {
			return Ratio{}, false, nil
		}
		s.at = t.at + utf8.RuneLen(vulgars[i].char)
		return vulgars[i].is, true, nil
	}
	if whole == "" || t.at == s.at {
		return Ratio{}, false, nil
	}
	start := t.at
	r, ok, err = t.slash(t.digits())
	isProper := err == nil && r.num < r.den
	if !ok || hyphen && !isProper {
		return Ratio{}, false, nil
	}
	s.at = t.at
	if err == nil && !isProper {
		err = s.failAt(start, WhyNoFraction)
	}
	return r, true, err
}

// vulgarAt returns which fraction of one character text starts with, or -1.
func vulgarAt(text string) int {
	c, _ := utf8.DecodeRuneInString(text)
	for i, v := range vulgars {
		if v.char == c {
			return i
		}
	}
	return -1
}

// vulgars are the fractions of one character. Source: Unicode, Latin-1 Supplement and Number Forms.
var vulgars = [...]struct {
	char rune
	is   Ratio
}{
	{'½', Ratio{1, 2}},
	{'⅓', Ratio{1, 3}},
	{'⅔', Ratio{2, 3}},
	{'¼', Ratio{1, 4}},
	{'¾', Ratio{3, 4}},
	{'⅕', Ratio{1, 5}},
	{'⅖', Ratio{2, 5}},
	{'⅗', Ratio{3, 5}},
	{'⅘', Ratio{4, 5}},
	{'⅙', Ratio{1, 6}},
	{'⅚', Ratio{5, 6}},
	{'⅐', Ratio{1, 7}},
	{'⅛', Ratio{1, 8}},
	{'⅜', Ratio{3, 8}},
	{'⅝', Ratio{5, 8}},
	{'⅞', Ratio{7, 8}},
	{'⅑', Ratio{1, 9}},
	{'⅒', Ratio{1, 10}},
}

// ratio returns the number exactly, or ErrRange where it needs more than 18 figures.
func (n number) ratio() (Ratio, error) {
	whole, dec, _ := strings.Cut(n.decimal, ".")
	dec = strings.TrimRight(dec, "0")
	if len(dec) > 18 {
		return Ratio{}, ErrRange
	}
	num, err := strconv.ParseInt("0"+whole+dec, 10, 64)
	if err != nil {
		return Ratio{}, ErrRange
	}
	den := int64(1)
	for range dec {
		den *= 10
	}
	r, err := NewRatio(num, den)
	if err != nil {
		return Ratio{}, err
	}
	return r.Add(n.frac)
}

// float returns the number to the nearest float64.
func (n number) float() float64 {
	f, _ := strconv.ParseFloat("0"+n.decimal, 64) // always readable: digits and a point
	return f + n.frac.Float()
}
