package chem

import (
	"errors"
	"math"

	"wetside/trade/quantity"
)

// ErrNoSubstance says that a Substance is the zero value, which is none.
var ErrNoSubstance = errors.New("no substance")

// Where the root is looked for, as natural logarithms of the activity of H+: pH 20 to −4. With MostAmount of the
// strongest acid or base, activity coefficients included, it lies within.
const (
	lowestX  = -20 * math.Ln10
	highestX = 4 * math.Ln10
)

// Tolerances of the solver. The first is the last of Newton's steps, in ln a(H+), which leaves about its square; the
// second is relative, in the ionic strength.
const (
	closeX     = 1e-8
	closeIonic = 1e-12
	maxTurns   = 120
)

// A State is a solved mixture.
type State struct {
	PH            float64 // −log10 of the activity of H+
	IonicStrength float64 // mol/kg
	// Capacity is the buffer capacity of Van Slyke, mol/kg of strong base for one pH, at this ionic strength.
	Capacity float64
	// Indicative says that the ionic strength lies above MostReliable.
	Indicative bool
}

// Solve returns the pH of the mixture as it is now, with ionic strength and buffer capacity. It allocates nothing.
//
// Two bracketed roots in one another: at an ionic strength, the one pH where charges balance (Newton on the
// logarithm of positive over negative charge, which rises with the activity of H+ everywhere; bisection where Newton
// leaves the bracket); around it, the ionic strength that the ions then have (secant, else bisection). Both start
// from the last solution.
func (m *Mixture) Solve() State {
	m.gather()
	low, high := 0.0, m.mostIonic()
	i := min(max(m.ionic, m.inert), high)
	var lastI, lastH float64
	for turn := range maxTurns {
		m.setIonic(i)
		got := m.balance()
		h := got - i
		if math.Abs(h) <= closeIonic*i || i >= heldAbove && got >= heldAbove {
			m.ionic = got
			break
		}
		if h > 0 {
			low = i
		} else {
			high = i
		}
		next := got // the fixed point itself, on the first turn
		if turn > 0 && h != lastH {
			next = i - h*(i-lastI)/(h-lastH)
		}
		if !(next > low && next < high) || turn%8 == 7 {
			next = (low + high) / 2
		}
		lastI, lastH, m.ionic = i, h, got
		if next == i {
			break
		}
		i = next
	}
	return State{
		PH: -m.x / math.Ln10, IonicStrength: m.ionic, Capacity: m.capacity, Indicative: m.ionic > MostReliable,
	}
}

// mostIonic returns an ionic strength that the mixture cannot have.
func (m *Mixture) mostIonic() float64 {
	sum := m.inert + m.ions/2 + 1
	for i := range m.families {
		f := &m.families[i]
		z := float64(max(f.charge, f.steps-f.charge))
		sum += f.total * (z*z + z)
	}
	return sum
}

// setIonic takes the activity coefficients into the constants: γ of a charge z is g^(z²), and a step from z to
// z − 1 changes by g^(2z−1).
func (m *Mixture) setIonic(i float64) {
	g := math.Exp(math.Ln10 * Davies(m.slope, 1, i))
	g2 := g * g
	m.gamma = g
	for n := range m.families {
		f := &m.families[n]
		c := power(g, 2*f.charge-1)
		for s := range f.steps {
			f.ratio[s] = f.k[s] * c
			c /= g2
		}
	}
}

// power returns g^n for small whole n.
func power(g float64, n int) float64 {
	if n < 0 {
		g, n = 1/g, -n
	}
	p := 1.0
	for range n {
		p *= g
	}
	return p
}

// balance finds the pH at which charges balance with the activity coefficients as they are set, leaves it in x, and
// returns the ionic strength there.
func (m *Mixture) balance() float64 {
	low, high := lowestX, highestX
	x := min(max(m.x, low), high)
	var c charges
	for turn := range maxTurns {
		c = m.charges(x)
		y := math.Log(c.positive / c.negative)
		if y < 0 {
			low = x
		} else {
			high = x
		}
		step := -y / (c.dPositive/c.positive - c.dNegative/c.negative)
		if math.Abs(step) <= closeX {
			x += step
			break
		}
		x += step
		if !(x > low && x < high) || turn%16 == 15 {
			x = (low + high) / 2
		}
	}
	c = m.charges(x)
	m.x = x
	m.capacity = math.Ln10 * (c.dPositive - c.dNegative)
	return c.ionic
}

// charges are the sums over all ions, mol/kg, with their slopes by ln a(H+).
type charges struct {
	positive, negative   float64
	dPositive, dNegative float64 // the second is below 0
	ionic                float64
}

// charges sums the ions up at an activity of H+ of e^x.
func (m *Mixture) charges(x float64) charges {
	a := math.Exp(x)
	h, oh := a/m.gamma, m.kw/(a*m.gamma)
	c := charges{positive: h, negative: oh, dPositive: h, dNegative: -oh, ionic: m.inert + (h+oh)/2}
	if m.strong > 0 {
		c.positive += m.strong
	} else {
		c.negative -= m.strong
	}
	inverse := 1 / a
	for i := range m.families {
		if f := &m.families[i]; f.total > 0 {
			f.add(inverse, &c)
		}
	}
	return c
}

// add adds the ions of one family: each form's share α, and the covariance of its charge with its protons, which is
// how the charge changes with ln a(H+).
func (f *member) add(inverse float64, c *charges) {
	w, sum := 1.0, 0.0
	var charge, positive, square, cross float64 // sums of w z, w z⁺, w z², w z⁺ z
	z := f.charge
	for s := 0; ; s++ {
		v := float64(z)
		sum += w
		charge += w * v
		square += w * v * v
		if z > 0 {
			positive += w * v
			cross += w * v * v
		}
		if s == f.steps {
			break
		}
		w *= f.ratio[s] * inverse
		z--
	}
	scale := 1 / sum
	mean, plus := charge*scale, positive*scale
	dPlus := cross*scale - plus*mean
	dMean := square*scale - mean*mean
	c.positive += f.total * plus
	c.negative += f.total * (plus - mean)
	c.dPositive += f.total * dPlus
	c.dNegative -= f.total * (dMean - dPlus)
	c.ionic += f.total * square * scale / 2
}

// PH is Mix and Solve in one, for a pH that is wanted once.
func PH(at quantity.Celsius, amounts ...Amount) (State, error) {
	m, err := Mix(at, amounts...)
	if err != nil {
		return State{}, err
	}
	return m.Solve(), nil
}
