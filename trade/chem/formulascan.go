package chem

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

const (
	maxCount = 9999
	maxDepth = 8
)

// ParseFormula reads a chemical formula: `Na2S2O3·5H2O`, `Na2CO3.H2O`, `K2CO3·1.5H2O`, `KAl(SO4)2·12H2O`,
// `[Ag(S2O3)2]^3-`, `S₂O₃²⁻`, `Na+`. A dot, `·` or `*` stands before what is added; only what is added may have a
// number before it, with up to three decimals. A charge is the last thing and stands behind `^` or raised; a sign
// alone (`Na+`, `SO3--`) needs neither. A digit before a single bare sign is not guessed at: `SO42-` is an error that shows
// `SO4^2-`. Errors are a *ReadError with the place and the remedy.
func ParseFormula(text string) (Formula, error) {
	switch {
	case len(text) > maxText:
		return Formula{}, failed(text, maxText, "formula", WhyTooLong, "")
	case !utf8.ValidString(text):
		return Formula{}, failed(text, 0, "formula", WhyNotText, "")
	case strings.TrimSpace(text) == "":
		return Formula{}, failed(text, 0, "formula", WhyEmpty, "Na2CO3·H2O")
	}
	s := formulaScan{original: text}
	s.text, s.from = plain(text)
	if err := s.whole(); err != nil {
		return Formula{}, err
	}
	s.f.text = s.written.String()
	return s.f, nil
}

// A formulaScan reads one formula from left to right, and writes it as it is kept.
type formulaScan struct {
	original string
	text     string
	from     []int
	at       int
	f        Formula
	written  strings.Builder
}

func (s *formulaScan) fail(at int, why Why, near string) error {
	return failed(s.original, s.from[min(at, len(s.from)-1)], "formula", why, near)
}

func (s *formulaScan) peek() byte {
	if s.at < len(s.text) {
		return s.text[s.at]
	}
	return 0
}

// whole reads part · n part · … charge.
func (s *formulaScan) whole() error {
	times := 1.0
	for first := true; ; first = false {
		if !first {
			var err error
			if times, err = s.multiple(); err != nil {
				return err
			}
		}
		atoms, err := s.group(0)
		if err != nil {
			return err
		}
		for i, n := range atoms {
			s.f.atoms[i] += n * times
		}
		if !s.dot() {
			break
		}
		s.written.WriteString("·")
	}
	return s.charge()
}

// dot takes what stands between the parts.
func (s *formulaScan) dot() bool {
	for _, d := range []string{"·", "."} {
		if strings.HasPrefix(s.text[s.at:], d) {
			s.at += len(d)
			return true
		}
	}
	return false
}

// multiple reads the number before an added part, 1 where there is none.
func (s *formulaScan) multiple() (float64, error) {
	start := s.at
	for isDigit(s.peek()) {
		s.at++
	}
	if s.at == start {
		return 1, nil
	}
	if s.peek() == '.' && s.at+1 < len(s.text) && isDigit(s.text[s.at+1]) {
		s.at++
		decimals := s.at
		for isDigit(s.peek()) {
			s.at++
		}
		if s.at-decimals > 3 {
			return 0, s.fail(decimals, WhyBadCount, "")
		}
	}
	word := s.text[start:s.at]
	n, err := strconv.ParseFloat(word, 64)
	if err != nil || n <= 0 || n > maxCount || strings.HasPrefix(word, "00") {
		return 0, s.fail(start, WhyBadCount, "")
	}
	if n != 1 {
		s.written.WriteString(strconv.FormatFloat(n, 'f', -1, 64))
	}
	return n, nil
}

// group reads elements and bracketed groups up to what is neither.
func (s *formulaScan) group(depth int) ([len(elements)]float64, error) {
	var sum [len(elements)]float64
	for start := s.at; ; {
		here := s.at
		atoms, ok, err := s.item(depth)
		if err != nil {
			return sum, err
		}
		if !ok {
			if s.at == start {
				return sum, s.nothing(depth)
			}
			return sum, nil
		}
		n, err := s.count(here)
		if err != nil {
			return sum, err
		}
		for i := range sum {
			sum[i] += atoms[i] * n
			if sum[i] > maxCount*maxCount {
				return sum, s.fail(here, WhyBadCount, "")
			}
		}
	}
}

// nothing says what stands where an element should.
func (s *formulaScan) nothing(depth int) error {
	switch c := s.peek(); {
	case c == ')' || c == ']' || c == '}':
		if depth > 0 {
			return s.fail(s.at, WhyEmptyBrackets, "")
		}
		return s.fail(s.at, WhyUnopened, "")
	case isDigit(c) && s.at == 0:
		rest := strings.TrimLeft(s.text, "0123456789.")
		return s.fail(s.at, WhyNoElement, rest)
	default:
		return s.fail(s.at, WhyNoElement, "")
	}
}

// item reads an element or a bracketed group.
func (s *formulaScan) item(depth int) (atoms [len(elements)]float64, ok bool, err error) {
	c := s.peek()
	closing := map[byte]byte{'(': ')', '[': ']', '{': '}'}[c]
	switch {
	case closing != 0:
		atoms, err = s.bracket(depth, closing)
		return atoms, true, err
	case c >= 'A' && c <= 'Z':
		i, err := s.element()
		if err != nil {
			return atoms, false, err
		}
		atoms[i] = 1
		return atoms, true, nil
	case c >= 'a' && c <= 'z':
		return atoms, false, s.fail(s.at, WhyUnknownElement, s.capital())
	}
	return atoms, false, nil
}

func (s *formulaScan) bracket(depth int, closing byte) (atoms [len(elements)]float64, err error) {
	open := s.at
	if depth >= maxDepth {
		return atoms, s.fail(open, WhyTooDeep, "")
	}
	s.written.WriteByte(s.text[open])
	s.at++
	if atoms, err = s.group(depth + 1); err != nil {
		return atoms, err
	}
	switch s.peek() {
	case closing:
	case ')', ']', '}':
		return atoms, s.fail(s.at, WhyUnopened, string(closing))
	default:
		return atoms, s.fail(open, WhyUnclosed, string(closing))
	}
	s.at++
	s.written.WriteByte(closing)
	return atoms, nil
}

// element takes the longer symbol that stands here.
func (s *formulaScan) element() (int, error) {
	for l := min(2, len(s.text)-s.at); l > 0; l-- {
		if i := elementNamed(s.text[s.at : s.at+l]); i >= 0 {
			s.at += l
			s.written.WriteString(elements[i].symbol)
			return i, nil
		}
	}
	return 0, s.fail(s.at, WhyUnknownElement, "")
}

// capital returns the element that a small letter here would be as a capital.
func (s *formulaScan) capital() string {
	for l := min(2, len(s.text)-s.at); l > 0; l-- {
		word := strings.ToUpper(s.text[s.at:s.at+1]) + s.text[s.at+1:s.at+l]
		if elementNamed(word) >= 0 {
			return word
		}
	}
	return ""
}

// count reads how many there are of the item that began at `item`, 1 where nothing is said.
func (s *formulaScan) count(item int) (float64, error) {
	start := s.at
	for isDigit(s.peek()) {
		s.at++
	}
	if s.at == start {
		return 1, nil
	}
	word := s.text[start:s.at]
	if c := s.peek(); (c == '+' || c == '-') && !strings.HasPrefix(s.text[s.at+1:], string(c)) {
		hint := chargeHint(word, c)
		if item == 0 && len(word) == 1 && elementNamed(s.text[:start]) >= 0 { // Ca2+, where NH4+ is the other way
			hint = "^" + word + string(c)
		}
		return 0, s.fail(start, WhyCountOrCharge, s.text[:start]+hint)
	}
	n, err := strconv.Atoi(word)
	if err != nil || n == 0 || n > maxCount || word[0] == '0' {
		return 0, s.fail(start, WhyBadCount, "")
	}
	if n > 1 {
		s.written.WriteString(strconv.Itoa(n))
	}
	return float64(n), nil
}

// chargeHint writes what digits before a bare sign most likely mean: one digit is a count, the last of several the
// charge.
func chargeHint(digits string, sign byte) string {
	last := len(digits) - 1
	if last == 0 {
		return digits + "^" + string(sign)
	}
	return digits[:last] + "^" + digits[last:] + string(sign)
}

// charge reads what is left: nothing, ^2-, ^-, ++.
func (s *formulaScan) charge() error {
	start, n := s.at, 0
	switch c := s.peek(); {
	case c == 0:
		return nil
	case c == '^':
		s.at++
		if d := s.peek(); isDigit(d) {
			n = int(d - '0')
			s.at++
			if n == 0 {
				return s.fail(start, WhyBadCharge, "")
			}
		}
	case c != '+' && c != '-':
		return s.foreign()
	}
	sign := s.peek()
	if sign != '+' && sign != '-' {
		return s.fail(start, WhyBadCharge, "")
	}
	signs := 0
	for s.peek() == sign {
		s.at++
		signs++
	}
	switch {
	case n > 0 && signs > 1, signs > 9:
		return s.fail(start, WhyBadCharge, "")
	case s.at < len(s.text):
		return s.fail(s.at, WhyAfterCharge, "")
	}
	n = max(n, signs)
	s.writeCharge(n, sign)
	return nil
}

func (s *formulaScan) writeCharge(n int, sign byte) {
	s.f.charge = n
	if sign == '-' {
		s.f.charge = -n
	}
	s.written.WriteByte('^')
	if n > 1 {
		s.written.WriteString(strconv.Itoa(n))
	}
	s.written.WriteByte(sign)
}

// foreign says what a sign is that no formula has.
func (s *formulaScan) foreign() error {
	if c := s.peek(); c == ')' || c == ']' || c == '}' {
		return s.fail(s.at, WhyUnopened, "")
	}
	return s.fail(s.at, WhyNoElement, "")
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
