package draw

import "math"

// A ruler lays figures along a stretch of the picture: from and to come to lie at a and b.
type ruler struct {
	from, to float64
	a, b     float64
	log      bool // each tenfold takes the same room
}

// at returns where a figure lies. What is off the ruler lies at its end.
func (r ruler) at(v float64) float64 {
	v = min(max(v, r.from), r.to)
	if r.log {
		return r.a + (r.b-r.a)*math.Log(v/r.from)/math.Log(r.to/r.from)
	}
	return r.a + (r.b-r.a)*(v-r.from)/(r.to-r.from)
}

// round returns the step of 1, 2 or 5 (times a power of ten) that parts a span into as many pieces as may be, n at most.
func roundStep(span, n float64) float64 {
	least := span / n
	ten := math.Pow(10, math.Floor(math.Log10(least)))
	for _, k := range []float64{1, 2, 5} {
		if k*ten >= least*(1-1e-9) {
			return k * ten
		}
	}
	return 10 * ten
}

// places returns how many decimals a step needs.
func places(step float64) int { return max(0, int(math.Ceil(-math.Log10(step)-1e-9))) }

// steps returns the multiples of a step from and to which a ruler goes.
func steps(from, to, step float64) []float64 {
	var all []float64
	for k := math.Ceil(from/step - 1e-9); k*step <= to*(1+1e-12)+1e-12; k++ {
		all = append(all, k*step)
	}
	return all
}

// roundUp returns the least round figure that is not below v.
func roundUp(v float64) float64 {
	ten := math.Pow(10, math.Floor(math.Log10(v)))
	for _, k := range []float64{1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8} {
		if k*ten >= v*(1-1e-9) {
			return k * ten
		}
	}
	return 10 * ten
}

// decades returns the figures 1, 2 and 5 times a power of ten between two figures, both with them.
func decades(from, to float64) []float64 {
	var all []float64
	for e := math.Floor(math.Log10(from)); e <= math.Log10(to)+1; e++ {
		for _, k := range []float64{1, 2, 5} {
			if v := k * math.Pow(10, e); v >= from*(1-1e-9) && v <= to*(1+1e-9) {
				all = append(all, v)
			}
		}
	}
	return all
}
