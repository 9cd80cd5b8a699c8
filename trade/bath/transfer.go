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
	n   int // baths
	pow square
	sum square
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
		t.sum[p] = *row
	}
}

// twice sets t to twice as many sheets as half does, which is another.
func (t *transfer) twice(half *transfer) {
	t.n = half.n
	for p := range half.n {
		row := &half.pow[p]
		for q := range p + 1 {
			pow, sum := 0.0, half.sum[p][q]
			for k := q; k <= p; k++ {
				pow += row[k] * half.pow[k][q]
				sum += row[k] * half.sum[k][q]
			}
			t.pow[p][q], t.sum[p][q] = pow, sum
		}
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
	t, other transfer
	n        int // baths behind the first
	volumes  [longest]float64
	rates    [longest]float64 // −log r, 0 where not yet worked out
	x, s     [len(followed)][longest]float64
	from     [len(followed)]int // the first bath that holds or gets any; n where none does
}

// open lays out what is in the baths and what each sheet brings. The first bath is no fixer.
func (f *stream) open(state []Contents, baths []Bath, path []int, one passing) {
	behind := path[1:]
	f.n = len(behind)
	for i := range followed {
		f.from[i] = f.n
	}
	dissolves := one.silver
	first := &state[path[0]]
	for p, b := range behind {
		f.volumes[p], f.rates[p] = state[b][Liquid], 0
		for i, a := range followed {
			f.x[i][p], f.s[i][p] = state[b][a], 0
			if p == 0 {
				f.s[i][p] = one.carry * first.PerLitre(a)
			}
			if a == Silver && baths[b].Kind == Fixing {
				f.s[i][p] += dissolves
				dissolves = 0
			}
			if f.from[i] == f.n && (f.x[i][p] != 0 || f.s[i][p] != 0) {
				f.from[i] = p
			}
		}
	}
}

// close puts the amounts back into the baths.
func (f *stream) close(state []Contents, path []int) {
	for p, b := range path[1:] {
		for i, a := range followed {
			state[b][a] = f.x[i][p]
		}
	}
}

// pass takes n sheets through.
func (f *stream) pass(n int, carry float64) {
	if n <= few {
		for range n {
			f.step(carry)
		}
		return
	}
	t, other := &f.t, &f.other
	t.one(f.volumes[:f.n], carry)
	for {
		if n&1 == 1 {
			for i := range followed {
				t.apply(&f.x[i], &f.s[i])
			}
		}
		if n >>= 1; n == 0 {
			return
		}
		other.twice(t)
		t, other = other, t
	}
}

// few is up to how many sheets going one by one is quicker than squaring.
const few = 10

// step takes one sheet through.
func (f *stream) step(carry float64) {
	for p := range f.n {
		r := f.volumes[p] / (f.volumes[p] + carry)
		for i := range followed {
			x := f.x[i][p] + f.s[i][p]
			if p > 0 {
				x += carry / f.volumes[p-1] * f.x[i][p-1]
			}
			f.x[i][p] = r * x
		}
	}
}

// pass takes n like sheets through the baths at once. The first bath must not change what it gives: it holds no less
// than they carry, and no silver dissolves in it.
func (p passing) pass(f *stream, n int, state []Contents, baths []Bath, path []int) {
	f.open(state, baths, path, p)
	f.pass(n, p.carry)
	f.close(state, path)
	state[path[0]].out(p.carry * float64(n))
}

// even reports whether sheets can pass at once.
func (p passing) even(n int, state []Contents, baths []Bath, path []int) bool {
	return len(path) > 1 && len(path) <= longest+1 && baths[path[0]].Kind != Fixing &&
		state[path[0]][Liquid] > p.carry*float64(n) && !math.IsInf(p.carry, 0)
}
