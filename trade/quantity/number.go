package quantity

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// A number is what the digits came to, before it is known whether an exact or a float64 figure is wanted:
// a decimal ("12.5", digits and at most one point) and a vulgar fraction beside it. One of them may be missing.
type number struct {
	decimal string
	frac    Ratio
}

// maxDigits is how long a number may be, its point counted.
const maxDigits = 40

// number reads a number without a sign: 10, 0.5, 0,5, .5, ½, 1/2, 1 1/2, 1-1/2, 4½.
func (s *scan) number() (number, error) {
	start := s.at
	if s.negative() {
		return number{}, s.failAt(start, WhyNegative, "")
	}
	whole := s.digits()
	if frac, ok, err := s.slash(whole); ok {
		return number{frac: frac}, err
	}
	if frac, ok, err := s.mixed(whole); ok {
		return number{whole, frac}, err
	}
	n := number{decimal: whole + s.decimals()}
	switch {
	case n.decimal == "":
		return number{}, s.fail(WhyNoNumber)
	case len(n.decimal) > maxDigits:
		return number{}, s.failAt(start, WhyTooLong, "")
	case s.grouped(whole, n.decimal):
		return number{}, s.failAt(start, WhyGrouped, "")
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
	_, isVulgar := t.vulgar()
	return isVulgar || startsWithDigit(t.rest()) || t.decimals() != ""
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
	was := s.at
	if s.take(".", ",") {
		if d := s.digits(); d != "" {
			return "." + d
		}
	}
	s.at = was
	return ""
}

// grouped tells whether the digits just taken are, or may be, in groups of three: 1,000 and 1.000.000 and
// 1 000. Whether 1,000 is one or a thousand depends on the writer's country, so none of these is read.
func (s *scan) grouped(whole, decimal string) bool {
	if strings.HasPrefix(s.text[s.at-(len(decimal)-len(whole)):], ",") && len(decimal)-len(whole) == 4 &&
		len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0' {
		return true
	}
	t := *s
	if t.take("'", "’", ",", ".") {
		return startsWithDigit(t.rest())
	}
	t.space()
	return t.at > s.at && len(t.digits()) == 3
}

// slash takes the rest of a fraction whose upper figure was top.
func (s *scan) slash(top string) (r Ratio, ok bool, err error) {
	t, start := *s, s.at-len(top)
	if top == "" || !t.take("/", "⁄", "∕") {
		return Ratio{}, false, nil
	}
	bottom := t.digits()
	if bottom == "" {
		return Ratio{}, false, nil
	}
	s.at = t.at
	num, err1 := strconv.ParseInt(top, 10, 64)
	den, err2 := strconv.ParseInt(bottom, 10, 64)
	switch {
	case err1 != nil || err2 != nil:
		return Ratio{}, true, s.failAt(start, WhyTooLong, "")
	case den == 0:
		return Ratio{}, true, s.failAt(start, WhyNoFraction, "")
	}
	r, err = NewRatio(num, den)
	return r, true, err
}

// mixed takes the fraction that stands behind a whole number, or alone where it is one character.
func (s *scan) mixed(whole string) (r Ratio, ok bool, err error) {
	t := *s
	hyphen := false
	if whole != "" {
		if t.space(); t.at == s.at {
			hyphen = t.take("-")
		}
	}
	if r, ok = t.vulgar(); ok {
		s.at = t.at
		return r, true, nil
	}
	if t.at == s.at {
		return Ratio{}, false, nil
	}
	start := t.at
	if r, ok, err = t.slash(t.digits()); !ok || hyphen && r.num >= r.den {
		return Ratio{}, false, nil
	}
	s.at = t.at
	if err == nil && r.num >= r.den {
		err = s.failAt(start, WhyNoFraction, "")
	}
	return r, true, err
}

// vulgar takes a fraction of one character.
func (s *scan) vulgar() (Ratio, bool) {
	c, n := utf8.DecodeRuneInString(s.rest())
	v := vulgar(c)
	if v.num == 0 {
		return Ratio{}, false
	}
	s.at += n
	return v, true
}

// vulgar returns the value of a one-character fraction (Unicode: Latin-1 Supplement and Number Forms), or 0.
func vulgar(c rune) Ratio {
	for _, v := range vulgars {
		if v.char == c {
			return v.is
		}
	}
	return Ratio{}
}

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
	if n.decimal == "" || len(dec) > 18 {
		if n.decimal == "" {
			return n.frac, nil
		}
		return Ratio{}, ErrRange
	}
	v, err := strconv.ParseInt("0"+whole+dec, 10, 64)
	if err != nil {
		return Ratio{}, ErrRange
	}
	den := int64(1)
	for range dec {
		den *= 10
	}
	r, err := NewRatio(v, den)
	if err != nil {
		return Ratio{}, err
	}
	return r.Add(n.frac)
}

// float returns the number to the nearest float64.
func (n number) float() float64 {
	f, _ := strconv.ParseFloat("0"+n.decimal, 64) // digits and a point, always readable
	return f + n.frac.Float()
}
