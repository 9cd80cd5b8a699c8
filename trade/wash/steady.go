package wash

import "math"

// steady returns the concentrations (g/L) of the vessels of a cascade in steady use, the one that the load comes to first in
// front: loads as large as this follow each other, one vessel further at every contact time, against the flow.
//
// For every vessel, what flows out is what flows in and what the load leaves there: Q·(c_j+1 − c_j) + Σ h_k·(p_k,j−1 − p_k,j) ÷ θ
// = 0, with p_k,j = c_j + (p_k,j−1 − c_j)·exp(−θ ÷ τ_k). Left long enough this is the counter-flow law, whose R is Q·θ ÷ Σ h_k.
func (m *model) steady(p plan) []float64 {
	n := p.steady
	rest := func(c []float64) []float64 { return m.imbalance(p, c) }
	zero := make([]float64, n)
	b := rest(zero)
	a := make([][]float64, n) // by columns: the imbalance that one vessel's unit makes
	for j := range n {
		unit := make([]float64, n)
		unit[j] = 1
		a[j] = rest(unit)
		for i := range n {
			a[j][i] -= b[i]
		}
	}
	return solveLinear(a, b)
}

// imbalance returns for every vessel what comes in less what goes out, g/s.
func (m *model) imbalance(p plan, c []float64) []float64 {
	out := make([]float64, len(c))
	load := m.fresh()
	for j := range c {
		clean := 0.0
		if j+1 < len(c) {
			clean = c[j+1]
		}
		next := m.towards(load, c[j], p.contact)
		out[j] = p.flow*(clean-c[j]) + m.area*(m.left(load)-m.left(next))/p.contact
		load = next
	}
	return out
}

// towards returns the places after t seconds in water that stays at c.
func (m *model) towards(load state, c, t float64) state {
	for k, p := range m.places {
		load[k] = c + (load[k]-c)*math.Exp(-t/p.tau)
	}
	return load
}

// solveLinear returns the x for which the sum of columns × x is −b, by elimination with pivots.
func solveLinear(columns [][]float64, b []float64) []float64 {
	n := len(b)
	rows := make([][]float64, n)
	for i := range n {
		rows[i] = make([]float64, n+1)
		for j := range n {
			rows[i][j] = columns[j][i]
		}
		rows[i][n] = -b[i]
	}
	for i := range n {
		best := i
		for k := i + 1; k < n; k++ {
			if math.Abs(rows[k][i]) > math.Abs(rows[best][i]) {
				best = k
			}
		}
		rows[i], rows[best] = rows[best], rows[i]
		for k := i + 1; k < n; k++ {
			f := rows[k][i] / rows[i][i]
			for j := i; j <= n; j++ {
				rows[k][j] -= f * rows[i][j]
			}
		}
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = rows[i][n]
		for j := i + 1; j < n; j++ {
			x[i] -= rows[i][j] * x[j]
		}
		x[i] /= rows[i][i]
	}
	return x
}
