package chem

import (
	"slices"
	"sort"
)

// A Curve is the pH against how much of something has come in, tabulated so closely that the straight line between two
// points is within the tolerance it was made with. Looking up allocates nothing and may be done by
// several goroutines.
type Curve struct {
	x, ph []float64
}

// maxPoints bounds a curve; a titration within 0.002 takes some hundred.
const maxPoints = 4096

// NewCurve tabulates f from low to high; between points it is f within about `within`. It is for any f that is smooth
// but for a few steep places. A *RangeError where low is not below high or `within` not above 0.
func NewCurve(f func(x float64) float64, low, high, within float64) (*Curve, error) {
	if !(low < high) {
		return nil, &RangeError{Of: "points", Value: low, Low: low, High: high}
	}
	if !(within > 0) {
		return nil, &RangeError{Of: "within", Value: within, Low: 0, High: 14}
	}
	c := &Curve{}
	const first = 16
	a, fa := low, f(low)
	c.add(a, fa)
	for i := 1; i <= first; i++ {
		b := low + (high-low)*float64(i)/first
		fb := f(b)
		c.fill(f, a, fa, b, fb, within, 0)
		a, fa = b, fb
	}
	return c, nil
}

func (c *Curve) add(x, ph float64) {
	c.x = append(c.x, x)
	c.ph = append(c.ph, ph)
}

// fill adds the points from behind a up to b, halving while a chord's quarters are off.
func (c *Curve) fill(f func(float64) float64, a, fa, b, fb, within float64, depth int) {
	mid := a + (b-a)/2
	fm := f(mid)
	off := fm - (fa+fb)/2
	if depth >= 30 || len(c.x) >= maxPoints || depth > 0 && off <= within/2 && off >= -within/2 {
		c.add(b, fb)
		return
	}
	c.fill(f, a, fa, mid, fm, within, depth+1)
	c.fill(f, mid, fm, b, fb, within, depth+1)
}

// Titration returns the curve of the mixture's pH against what is added of the i-th substance, from 0 to `to` mol per
// kg of water; the mixture is left as it was. A *RangeError as for NewCurve and Set.
func (m *Mixture) Titration(i int, to, within float64) (*Curve, error) {
	start := m.parts[i].amount
	if !(to > 0 && start+to <= MostAmount) {
		return nil, &RangeError{Of: "amount", Value: to, Low: 0, High: MostAmount - start}
	}
	defer func() { m.parts[i].amount = start; m.Solve() }()
	return NewCurve(func(x float64) float64 {
		m.parts[i].amount = start + x
		return m.Solve().PH
	}, 0, to, within)
}

// CarryIn returns the curve of the mixture's pH against the share of another liquid in it, from 0 to `to` (at most 1):
// every amount is (1 − x) of itself and x of carried, which holds mol per kg for each substance in order. The mixture
// is left as it was. A *RangeError as for Replace and NewCurve.
func (m *Mixture) CarryIn(carried []float64, to, within float64) (*Curve, error) {
	if !(to > 0 && to <= 1) {
		return nil, &RangeError{Of: "share", Value: to, Low: 0, High: 1}
	}
	own := m.amounts()
	defer func() { m.restore(own); m.Solve() }()
	if err := m.Replace(0, carried); err != nil {
		return nil, err
	}
	carried = slices.Clone(carried)
	return NewCurve(func(x float64) float64 {
		for i, n := range own {
			m.parts[i].amount = n + x*(carried[i]-n)
		}
		return m.Solve().PH
	}, 0, to, within)
}

func (m *Mixture) amounts() []float64 {
	all := make([]float64, len(m.parts))
	for i := range m.parts {
		all[i] = m.parts[i].amount
	}
	return all
}

func (m *Mixture) restore(amounts []float64) {
	for i, n := range amounts {
		m.parts[i].amount = n
	}
}

// At returns the pH at x, at the curve's ends where x lies beyond; NaN for NaN.
func (c *Curve) At(x float64) float64 {
	last := len(c.x) - 1
	switch {
	case x <= c.x[0]:
		return c.ph[0]
	case x >= c.x[last]:
		return c.ph[last]
	}
	i := min(sort.SearchFloat64s(c.x, x), last) // the first not below x; last for NaN
	t := (x - c.x[i-1]) / (c.x[i] - c.x[i-1])
	return c.ph[i-1] + t*(c.ph[i]-c.ph[i-1])
}

// Reaches returns the least x at which the curve is at ph or has passed it, and whether it does. A curve that
// begins there answers its first x.
func (c *Curve) Reaches(ph float64) (float64, bool) {
	for i := range c.x {
		if c.ph[i] == ph {
			return c.x[i], true
		}
		if i > 0 && (c.ph[i-1] < ph) != (c.ph[i] < ph) {
			t := (ph - c.ph[i-1]) / (c.ph[i] - c.ph[i-1])
			return c.x[i-1] + t*(c.x[i]-c.x[i-1]), true
		}
	}
	return 0, false
}

// Points returns copies of the tabulated x and pH, for a drawing.
func (c *Curve) Points() (x, ph []float64) { return slices.Clone(c.x), slices.Clone(c.ph) }
