package quantity

import (
	"errors"
	"math/bits"
)

// ErrRange is returned where a figure is too large, too small or not a number.
var ErrRange = errors.New("out of range")

// Ratio is an exact rational number in lowest terms with a positive denominator.
// The zero value is 0 (its denominator counts as 1).
type Ratio struct{ num, den int64 }

// NewRatio returns num/den in lowest terms. A zero denominator, or a value that does not fit, is ErrRange.
func NewRatio(num, den int64) (Ratio, error) {
	const lowest = -1 << 63
	if den == 0 || num == lowest || den == lowest {
		return Ratio{}, ErrRange
	}
	if den < 0 {
		num, den = -num, -den
	}
	if g := gcd(abs(num), den); g > 1 {
		num, den = num/g, den/g
	}
	return Ratio{num, den}, nil
}

// Int returns n as a ratio.
func Int(n int64) Ratio { return Ratio{n, 1} }

// Num returns the numerator.
func (r Ratio) Num() int64 { return r.num }

// Den returns the denominator, 1 or more.
func (r Ratio) Den() int64 { return max(r.den, 1) }

// Float returns the nearest float64.
func (r Ratio) Float() float64 { return float64(r.num) / float64(r.Den()) }

// Sign returns -1, 0 or 1.
func (r Ratio) Sign() int {
	switch {
	case r.num < 0:
		return -1
	case r.num > 0:
		return 1
	}
	return 0
}

// Add returns r + s, or ErrRange where it does not fit.
func (r Ratio) Add(s Ratio) (Ratio, error) {
	a, ok1 := mul(r.num, s.Den())
	b, ok2 := mul(s.num, r.Den())
	d, ok3 := mul(r.Den(), s.Den())
	if !ok1 || !ok2 || !ok3 || (b > 0 && a > maxInt-b) || (b < 0 && a < -maxInt-b) {
		return Ratio{}, ErrRange
	}
	return NewRatio(a+b, d)
}

// Sub returns r - s, or ErrRange where it does not fit.
func (r Ratio) Sub(s Ratio) (Ratio, error) { return r.Add(Ratio{-s.num, s.Den()}) }

// Mul returns r × s, or ErrRange where it does not fit.
func (r Ratio) Mul(s Ratio) (Ratio, error) {
	g, h := max(gcd(abs(r.num), s.Den()), 1), max(gcd(abs(s.num), r.Den()), 1)
	n, ok1 := mul(r.num/g, s.num/h)
	d, ok2 := mul(r.Den()/h, s.Den()/g)
	if !ok1 || !ok2 {
		return Ratio{}, ErrRange
	}
	return NewRatio(n, d)
}

// Quo returns r ÷ s, or ErrRange where s is 0 or it does not fit.
func (r Ratio) Quo(s Ratio) (Ratio, error) {
	if s.num == 0 {
		return Ratio{}, ErrRange
	}
	inv, err := NewRatio(s.Den(), s.num)
	if err != nil {
		return Ratio{}, err
	}
	return r.Mul(inv)
}

// Cmp compares r with s exactly: -1, 0 or 1.
func (r Ratio) Cmp(s Ratio) int {
	if rs, ss := r.Sign(), s.Sign(); rs != ss || rs == 0 {
		return cmpInt(rs, ss)
	}
	ah, al := bits.Mul64(uint64(abs(r.num)), uint64(s.Den()))
	bh, bl := bits.Mul64(uint64(abs(s.num)), uint64(r.Den()))
	c := cmpUint(ah, bh)
	if c == 0 {
		c = cmpUint(al, bl)
	}
	return c * r.Sign()
}

// Of returns r × v to the nearest unit of Volume, halves away from zero, or ErrRange beyond MaxVolume.
func (r Ratio) Of(v Volume) (Volume, error) {
	hi, lo := bits.Mul64(uint64(abs(r.num)), uint64(abs(int64(v))))
	d := uint64(r.Den())
	if hi >= d {
		return 0, ErrRange
	}
	q, rem := bits.Div64(hi, lo, d)
	if rem >= d-rem {
		q++
	}
	if q > uint64(MaxVolume) {
		return 0, ErrRange
	}
	if (r.num < 0) != (v < 0) {
		return -Volume(q), nil
	}
	return Volume(q), nil
}

const maxInt = 1<<63 - 1

func abs(n int64) int64 {
	if n < 0 {
		return -n
	}
	return n
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// mul returns a × b and whether it fits.
func mul(a, b int64) (int64, bool) {
	hi, lo := bits.Mul64(uint64(abs(a)), uint64(abs(b)))
	if hi != 0 || lo > maxInt {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(lo), true
	}
	return int64(lo), true
}

func cmpInt(a, b int) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

func cmpUint(a, b uint64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}
