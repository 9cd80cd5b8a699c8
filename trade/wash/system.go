package wash

import "math"

// places is the most that a state has: two places of the material and the water around it.
const places = 3

// state is the concentrations, g/L: of the places of the material, and behind them of the water.
type state [places]float64

// matrix is a square matrix of at most places × places.
type matrix [places][places]float64

// A place is where a material holds water.
type place struct {
	held float64 // L/m²
	tau  float64 // s
}

// modes is the closed form of a well-mixed vessel with a load in it:
//
//	dc_k/dt = (c_w − c_k) ÷ τ_k
//	V·dc_w/dt = Σ h_k·(c_k − c_w) ÷ τ_k − Q·c_w,   h_k = held_k × area
//
// With y = √capacity·c (capacities h_k and V) its matrix is symmetric, so that its eigenvalues are real and none is above 0.
type modes struct {
	n      int
	rate   state // eigenvalues, 1/s, 0 or less
	vector matrix
	root   state // √capacity
}

// modesOf returns the closed form for places of so much area in volume (L) with flow (L/s).
func modesOf(ps []place, area, volume, flow float64) modes {
	m := modes{n: len(ps) + 1}
	w := len(ps)
	m.root[w] = math.Sqrt(volume)
	var s matrix
	s[w][w] = -flow / volume
	for k, p := range ps {
		held := p.held * area
		m.root[k] = math.Sqrt(held)
		s[k][k] = -1 / p.tau
		s[w][w] -= held / p.tau / volume
		s[k][w] = math.Sqrt(held/volume) / p.tau
		s[w][k] = s[k][w]
	}
	m.diagonalise(s)
	return m
}

// diagonalise finds the eigenvalues and vectors of a symmetric matrix by Jacobi rotations, which are exact to rounding.
func (m *modes) diagonalise(s matrix) {
	for i := range m.n {
		m.vector[i][i] = 1
	}
	const sweeps = 30
	for range sweeps {
		off := 0.0
		for p := range m.n {
			for q := p + 1; q < m.n; q++ {
				off = max(off, math.Abs(s[p][q]))
				m.rotate(&s, p, q)
			}
		}
		if off == 0 {
			break
		}
	}
	for i := range m.n {
		m.rate[i] = min(s[i][i], 0)
	}
}

// rotate makes the element p, q of s nothing.
func (m *modes) rotate(s *matrix, p, q int) {
	apq := s[p][q]
	if math.Abs(apq) <= 1e-18*math.Sqrt(math.Abs(s[p][p]*s[q][q])) {
		s[p][q], s[q][p] = 0, 0
		return
	}
	theta := (s[q][q] - s[p][p]) / (2 * apq)
	t := math.Copysign(1, theta) / (math.Abs(theta) + math.Sqrt(theta*theta+1))
	c := 1 / math.Sqrt(t*t+1)
	sn := t * c
	for k := range m.n {
		s[k][p], s[k][q] = c*s[k][p]-sn*s[k][q], sn*s[k][p]+c*s[k][q]
	}
	for k := range m.n {
		s[p][k], s[q][k] = c*s[p][k]-sn*s[q][k], sn*s[p][k]+c*s[q][k]
		m.vector[k][p], m.vector[k][q] = c*m.vector[k][p]-sn*m.vector[k][q], sn*m.vector[k][p]+c*m.vector[k][q]
	}
	s[p][q], s[q][p] = 0, 0
}

// over returns the matrix that takes a state t seconds on.
func (m *modes) over(t float64) matrix {
	var e state
	for i := range m.n {
		e[i] = math.Exp(m.rate[i] * t)
	}
	var p matrix
	for i := range m.n {
		for j := range m.n {
			sum := 0.0
			for k := range m.n {
				sum += m.vector[i][k] * e[k] * m.vector[j][k]
			}
			p[i][j] = max(sum*m.root[j]/m.root[i], 0)
		}
	}
	return p
}

// after returns the state that p makes of c.
func (c state) after(p *matrix) state {
	var next state
	for i := range places {
		for j := range places {
			next[i] += p[i][j] * c[j]
		}
	}
	return next
}
