package quantity

import (
	"strconv"
	"strings"
)

var percentNames = []named[struct{}]{
	{"%", struct{}{}},
	{"percent", struct{}{}},
	{"per cent", struct{}{}},
	{"pct", struct{}{}},
}

// ReadShare reads a relative amount, 0 or more: "2 %", "10%", "±15 %"; "0.1" is refused (it has no unit). 15 % is
// 0.15.
func ReadShare(text string) (float64, error) {
	return read(text, "share", func(s *scan) (float64, error) {
		if s.take("±") {
			s.space()
		}
		start := s.at
		n, err := s.number()
		if err != nil {
			return 0, err
		}
		s.space()
		if _, ok := unit(s, percentNames); !ok {
			return 0, noUnit(s, percentNames)
		}
		return s.bounded(start, n.hundredth())
	})
}

// ReadShares reads a range of relative amounts, "1 to 2 %", "1-2 %", or one, which is then both ends.
func ReadShares(text string) (from, to float64, err error) {
	ends, err := read(text, "share or range of shares", func(s *scan) (ends [2]float64, err error) {
		start := s.at
		n, err := s.number()
		if err != nil {
			return ends, err
		}
		m := n
		s.space()
		_, has := unit(s, percentNames)
		if isRange := s.dash(); isRange {
			if m, err = s.number(); err != nil {
				return ends, err
			}
			s.space()
			_, has = unit(s, percentNames)
		}
		if !has {
			return ends, noUnit(s, percentNames)
		}
		if ends[0], err = s.bounded(start, n.hundredth()); err != nil {
			return ends, err
		}
		if ends[1], err = s.bounded(start, m.hundredth()); err == nil && ends[0] > ends[1] {
			err = s.failAt(start, WhyReversed)
		}
		return ends, err
	})
	return ends[0], ends[1], err
}

// hundredth returns the number ÷ 100 to the nearest float64, so that Share writes back what was read.
func (n number) hundredth() float64 {
	if n.frac.num != 0 {
		return n.float() / 100
	}
	f, _ := strconv.ParseFloat("0"+n.decimal+"e-2", 64) // always readable: digits and a point
	return f
}

// Share returns a relative amount, 0 or more, so that ReadShare reads it back: 0.15 is "15 %". The point is moved in
// the text, because 100 × f is not always the float64 that ÷ 100 is f.
func Share(f float64) string {
	whole, dec, _ := strings.Cut(plain(f), ".")
	for len(dec) < 2 {
		dec += "0"
	}
	whole, dec = strings.TrimLeft(whole+dec[:2], "0"), strings.TrimRight(dec[2:], "0")
	if whole == "" {
		whole = "0"
	}
	if dec != "" {
		dec = "." + dec
	}
	return whole + dec + " %"
}
