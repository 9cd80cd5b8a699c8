package bath

import "math"

// longest is how many baths a path may have behind its first one.
const longest = 8

// square is a lower triangular matrix over the baths of a path behind the first.
type square [longest][longest]float64

// transfer is what a number of like sheets do to any amount in the baths behind the first of a path. One sheet makes
// of x_p, the amount in bath p, of what it brings into the bath, s_p, and of what it carries from the one before
//
//	x'_p = r_p·(x_p + s_p + β_(p−1)·x'_(p−1)),   r = V/(V + v), β = v/V
//
// which is x' = M·(x + s) with a triangular M. n sheets make x' = Mⁿ·x + (M + … + Mⁿ)·s, both of which double by
// squaring.
type transfer struct {
	n    int // baths
	pow  square
	sum  square
	work square
}

// one sets t to a single sheet that carries so many litres through baths of these volumes.
func (t *transfer) one(volumes []float64, carry float64) {
	t.n = len(volumes)
	for p, v := range volumes {
		r := v / (v + carry)
		row := &t.pow[p]
		for q := range p {
			row[q] = r * carry / volumes[p-1] * t.pow[p-1][q]
		}
		row[p] = r
	}
	t.sum = t.pow
}

// double makes t do twice as many sheets.
func (t *transfer) double() {
	for p := range t.n {
		for q := range p + 1 {
			x := 0.0
			for k := q; k <= p; k++ {
				x += t.pow[p][k] * t.sum[k][q]
			}
			t.work[p][q] = x
		}
	}
	for p := range t.n {
		for q := range p + 1 {
			t.sum[p][q] += t.work[p][q]
		}
	}
	for p := t.n - 1; p >= 0; p-- { // from the last row, so that the rows above are still the old ones
		for q := range p + 1 {
			x := 0.0
			for k := q; k <= p; k++ {
				x += t.pow[p][k] * t.pow[k][q]
			}
			t.work[p][q] = x
		}
		copy(t.pow[p][:p+1], t.work[p][:p+1])
	}
}

// on returns what the amount in bath p becomes, from x and s of the baths up to it.
func (t *transfer) on(x, s *[longest]float64, p int) float64 {
	y := 0.0
	for q := range p + 1 {
		y += t.pow[p][q]*x[q] + t.sum[p][q]*s[q]
	}
	return y
}

// apply lets x become what it is after t's sheets.
func (t *transfer) apply(x, s *[longest]float64) {
	for p := t.n - 1; p >= 0; p-- { // from the last, which nothing before it depends on
		x[p] = t.on(x, s, p)
	}
}

// followed are the amounts that decide when baths are spent; the others are followed in a Balance alone.
var followed = [...]Amount{Developer, Thiosulfate, Silver}

// stream is a path in one possible room, laid out by amount.
type stream struct {
	t       transfer
	volumes [longest]float64
	x, s    [len(followed)][longest]float64
}

// open lays out what is in the baths and what each sheet brings.
func (f *stream) open(state []Contents, baths []Bath, path []int, one passing) {
	behind := path[1:]
	dissolves := one.silver
	first := &state[path[0]]
	if baths[path[0]].Kind == Fixing {
		dissolves = 0
	}
	for p, b := range behind {
		f.volumes[p] = state[b][Liquid]
		for i, a := range followed {
			f.x[i][p], f.s[i][p] = state[b][a], 0
			if p == 0 {
				f.s[i][p] = one.carry * first.PerLitre(a)
			}
			if a == Silver && baths[b].Kind == Fixing {
				f.s[i][p] += dissolves
				dissolves = 0
			}
		}
	}
	f.t.one(f.volumes[:len(behind)], one.carry)
}

// close puts the amounts back into the baths.
func (f *stream) close(state []Contents, path []int) {
	for p, b := range path[1:] {
		for i, a := range followed {
			state[b][a] = f.x[i][p]
		}
	}
}

// pass takes n like sheets through the baths at once. The first bath must not change what it gives: it holds no less
// than they carry, and no silver dissolves in it.
func (p passing) pass(f *stream, n int, state []Contents, baths []Bath, path []int) {
	f.open(state, baths, path, p)
	for bits := n; bits > 0; bits >>= 1 {
		if bits&1 == 1 {
			for i := range followed {
				f.t.apply(&f.x[i], &f.s[i])
			}
		}
		if bits > 1 {
			f.t.double()
		}
	}
	f.close(state, path)
	state[path[0]].out(p.carry * float64(n))
}

// even reports whether sheets can pass at once.
func (p passing) even(n int, state []Contents, baths []Bath, path []int) bool {
	return len(path) > 1 && len(path) <= longest+1 && baths[path[0]].Kind != Fixing &&
		state[path[0]][Liquid] > p.carry*float64(n) && !math.IsInf(p.carry, 0)
}
