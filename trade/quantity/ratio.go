package quantity

import (
	"cmp"
	"errors"
	"fmt"
	"math/bits"
)

// ErrRange is returned where a figure is too large, too small or not a number.
var ErrRange = errors.New("out of range")

// Ratio is an exact rational number in lowest terms with a positive denominator. The zero value is 0, and the only
// form of 0, so that == compares ratios.
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
	if num == 0 {
		return Ratio{}, nil
	}
	g := gcd(abs(num), den)
	return Ratio{num / g, den / g}, nil
}

// Int returns n as a ratio. The smallest int64 counts as the one above it, so that every ratio has its negative.
func Int(n int64) Ratio {
	if n == 0 {
		return Ratio{}
	}
	return Ratio{max(n, -maxInt), 1}
}

// Num returns the numerator.
func (r Ratio) Num() int64 { return r.num }

// Den returns the denominator, 1 or more.
func (r Ratio) Den() int64 { return max(r.den, 1) }

// Float returns the number as a float64: the nearest one where numerator and denominator are below 2^53.
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
	g := gcd(r.Den(), s.Den())
	a, ok1 := mul(r.num, s.Den()/g)
	b, ok2 := mul(s.num, r.Den()/g)
	d, ok3 := mul(r.Den()/g, s.Den())
	if !ok1 || !ok2 || !ok3 || (b > 0 && a > maxInt-b) || (b < 0 && a < -maxInt-b) {
		return Ratio{}, ErrRange
	}
	return NewRatio(a+b, d)
}

// Sub returns r - s, or ErrRange where it does not fit.
func (r Ratio) Sub(s Ratio) (Ratio, error) { return r.Add(Ratio{-s.num, s.den}) }

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

// Equal tells whether r and s are the same number.
func (r Ratio) Equal(s Ratio) bool { return r == s }

// Cmp compares r with s exactly: -1, 0 or 1.
func (r Ratio) Cmp(s Ratio) int {
	if rs, ss := r.Sign(), s.Sign(); rs != ss || rs == 0 {
		return cmp.Compare(rs, ss)
	}
	return cmpProducts(r.num, s.Den(), s.num, r.Den()) * r.Sign()
}

// cmpProducts compares |a × b| with |c × d|.
func cmpProducts(a, b, c, d int64) int {
	h1, l1 := bits.Mul64(uint64(abs(a)), uint64(abs(b)))
	h2, l2 := bits.Mul64(uint64(abs(c)), uint64(abs(d)))
	return cmp.Or(cmp.Compare(h1, h2), cmp.Compare(l1, l2))
}

// String returns the number so that ReadRatio reads it back: 9, 0.5, 61.5 where six decimals hold it, else a fraction,
// 32 1/3. A minus sign stands before a negative one, which ReadRatio refuses.
func (r Ratio) String() string {
	if text, ok := r.decimal(6); ok {
		return text
	}
	return r.fraction()
}

// decimal returns the number with no more decimals than it needs, and whether so many hold it exactly.
func (r Ratio) decimal(most int) (string, bool) {
	places, scale := 0, int64(1)
	for ; scale%r.Den() != 0; places++ {
		if places == most {
			return "", false
		}
		scale *= 10
	}
	n, ok := mul(abs(r.num), scale/r.Den())
	if !ok {
		return "", false
	}
	digits := fmt.Sprintf("%0*d", places+1, n)
	if cut := len(digits) - places; places > 0 {
		digits = digits[:cut] + "." + digits[cut:]
	}
	return r.minus() + digits, true
}

// fraction returns the number as a whole number, a fraction or both: 2, 1/2, 2 1/2.
func (r Ratio) fraction() string {
	whole, rest := abs(r.num)/r.Den(), abs(r.num)%r.Den()
	switch {
	case rest == 0:
		return fmt.Sprintf("%s%d", r.minus(), whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", r.minus(), rest, r.den)
	}
	return fmt.Sprintf("%s%d %d/%d", r.minus(), whole, rest, r.den)
}

func (r Ratio) minus() string {
	if r.num < 0 {
		return "-"
	}
	return ""
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
