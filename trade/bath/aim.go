package bath

import "math"

// aimed draws possible rooms from where the likely ones lie: normal about their mean with their covariance, widened, so
// that its tails are heavier than theirs.
type aimed struct {
	mean   point
	root   [dimensions]point // lower triangular, root·rootᵀ is the covariance
	logDet float64           // of root
}

// widened is by how much the standard deviations are taken too wide; narrowest the least that any of them may be.
const (
	widened   = 1.3
	narrowest = 0.05
)

// enough is the effective share of the points that a fit is made from.
const enough = 0.1

// soften flattens weights until enough points count: the weights to a power of at most 1. So the aim walks towards rooms
// that few of the first points came near.
func soften(weight []float64) []float64 {
	soft := make([]float64, len(weight))
	low, high := 0.0, 1.0
	for range 20 {
		middle := (low + high) / 2
		if flattened(soft, weight, middle) < enough*float64(len(weight)) {
			high = middle
		} else {
			low = middle
		}
	}
	if flattened(soft, weight, 1) < enough*float64(len(weight)) {
		flattened(soft, weight, low)
	}
	return soft
}

// flattened puts the weights to a power into soft and returns their effective size.
func flattened(soft, weight []float64, power float64) float64 {
	for i, w := range weight {
		soft[i] = power * math.Log(math.Max(w, 1e-300))
	}
	return weigh(soft)
}

// aim fits to weighted points.
func aim(points []point, weight []float64) *aimed {
	a := &aimed{}
	weight = soften(weight)
	for i := range points {
		for d, z := range points[i] {
			a.mean[d] += weight[i] * z
		}
	}
	var cov [dimensions]point
	for i := range points {
		for d := range dimensions {
			for e := range d + 1 {
				cov[d][e] += weight[i] * (points[i][d] - a.mean[d]) * (points[i][e] - a.mean[e])
			}
		}
	}
	for d := range dimensions {
		for e := range d + 1 {
			cov[d][e] *= widened * widened
		}
		cov[d][d] += narrowest * narrowest
	}
	a.factor(&cov)
	return a
}

// factor takes the root of a covariance (Cholesky).
func (a *aimed) factor(cov *[dimensions]point) {
	for d := range dimensions {
		for e := range d + 1 {
			x := cov[d][e]
			for k := range e {
				x -= a.root[d][k] * a.root[e][k]
			}
			if d == e {
				a.root[d][d] = math.Sqrt(math.Max(x, narrowest*narrowest))
				a.logDet += math.Log(a.root[d][d])
				continue
			}
			a.root[d][e] = x / a.root[e][e]
		}
	}
}

// at returns the point that standard normal numbers stand for and the logarithm of prior over proposal there.
func (a *aimed) at(u *point) (point, float64) {
	z := a.mean
	ratio := a.logDet
	for d := range dimensions {
		for e := range d + 1 {
			z[d] += a.root[d][e] * u[e]
		}
	}
	for d := range dimensions {
		ratio += (u[d]*u[d] - z[d]*z[d]) / 2
	}
	return z, ratio
}
