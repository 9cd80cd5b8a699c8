package measure

import (
	"context"
	"math"
	"slices"

	"wetside/trade/quantity"
)

// What an alternative must come to, against the best. From memory.
const (
	muchMoreExact = 0.75 // of |bias| + U
	muchLess      = 0.95 // of the total
	noticeable    = 0.05 // of |bias| + U, relative
	moreReadings  = 2    // at most, than the best has
)

// alternatives returns up to n choices that differ from the best in kind, in the order of choice.
func (b *bench) alternatives(ctx context.Context, w bounds, a answer, n int) ([]Choice, error) {
	w.direct, w.via, w.limit, w.grade = true, a.via, a.limit, a.grade
	w.beta = min(a.limit, b.p.stray())
	if a.grade != GradeC && a.via {
		w.direct = false
	}
	w.top = a.best.cost.readings() + moreReadings
	var others []found
	for _, part := range b.parts(w, &a.best) {
		x, err := b.search(ctx, part)
		if err != nil {
			return nil, err
		}
		if x.ok {
			others = append(others, x.best)
		}
	}
	slices.SortStableFunc(others, func(x, y found) int {
		if c := x.compare(y.rank); c != 0 {
			return c
		}
		return b.compareNames(&x, &y)
	})
	given := []found{a.best}
	var out []Choice
	for i := range others {
		if len(out) == n || !b.worthwhile(&others[i], given) {
			continue
		}
		given = append(given, others[i])
		c := b.choice(&others[i])
		c.Differs = b.differs(&a.best, &others[i])
		out = append(out, c)
	}
	return out, nil
}

// parts returns the parts of the space in which an alternative is sought.
func (b *bench) parts(w bounds, best *found) []bounds {
	var parts []bounds
	add := func(change func(*bounds)) {
		p := w
		change(&p)
		parts = append(parts, p)
	}
	for _, v := range b.vesselsOf(best, b.steps(best)) {
		add(func(p *bounds) { p.without = v })
	}
	if r := best.cost.readings(); r > 1 {
		add(func(p *bounds) { p.top = r - 1 })
	}
	if e := b.eOf(best); e > 0 {
		add(func(p *bounds) {
			p.limit = min(p.limit, muchMoreExact*e)
			p.beta = min(p.beta, p.limit)
		})
	}
	if best.dist > 0 {
		add(func(p *bounds) {
			p.lo, p.hi = max(p.lo, p.want-best.dist+1), min(p.hi, p.want+best.dist-1)
		})
	}
	if hi := quantity.Volume(muchLess * float64(best.total)); hi >= w.lo {
		add(func(p *bounds) { p.hi = hi })
	}
	return parts
}

// eOf returns |bias| + U.
func (b *bench) eOf(f *found) float64 {
	var buf [8]use
	return b.judge(f, b.uses(f, buf[:0])).e
}

// figures are what alternatives are compared by, less being better; in the order of the aspects.
func (b *bench) figures(f *found) [HalfMarkCount + 1]float64 {
	used := b.used(f, 0)
	if b.two {
		used += b.used(f, 1)
	}
	return [...]float64{
		Readings:       float64(f.cost.readings()),
		Accuracy:       b.eOf(f),
		VesselCount:    float64(f.cost.vessels()),
		TotalVolume:    f.dist.ML(),
		ChemicalVolume: used.ML(),
		OwnScale:       float64(f.cost.foreign()),
		HalfMarkCount:  float64(f.cost.halves()),
	}
}

// gains reports whether x is noticeably less than y.
func (a Aspect) gains(x, y float64) bool {
	if a == Accuracy {
		return x < y-noticeable*math.Max(x, y)
	}
	return x < y
}

// worthwhile reports whether f gains something over each choice that is given, and each of these but the best over f.
func (b *bench) worthwhile(f *found, given []found) bool {
	over := func(x, y *found) bool {
		p, q := b.figures(x), b.figures(y)
		for a := Readings; a <= HalfMarkCount; a++ {
			if a.gains(p[a], q[a]) {
				return true
			}
		}
		return false
	}
	for i := range given {
		if !over(f, &given[i]) || i > 0 && !over(&given[i], f) {
			return false
		}
	}
	return true
}

// differs tells an alternative's gains, then its costs, against the best.
func (b *bench) differs(best, f *found) []Difference {
	p, q := b.figures(best), b.figures(f)
	var gains, costs []Difference
	for a := Readings; a <= HalfMarkCount; a++ {
		d := Difference{Aspect: a, Gain: a.gains(q[a], p[a]), From: p[a], To: q[a]}
		if a == TotalVolume {
			d.From, d.To = best.total.ML(), f.total.ML()
		}
		switch {
		case d.Gain:
			gains = append(gains, d)
		case a.gains(p[a], q[a]):
			costs = append(costs, d)
		}
	}
	return append(gains, costs...)
}
