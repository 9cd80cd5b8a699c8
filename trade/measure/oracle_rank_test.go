package measure_test

import (
	"cmp"
	"math"
	"math/bits"
	"slices"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// tie is the difference below which two floats count as equal.
const tie = 1e-9

// keptOver is how far above the least |bias| + U a choice of grade C may lie.
const keptOver = 1.5

// stray is the largest |bias| of any choice, where the tolerance is not larger.
const stray = 0.5

// A rank holds steps 1 to 12 of the order of choice; less is better in each.
type rank struct {
	grade     measure.Grade
	readings  int
	notClose  int
	vessels   int
	halves    int
	twoScales int
	apart     int
	marks     int
	foreign   int
	bare      int // marks without a number
	off       quantity.Volume
	miss      int64 // |bias| + U in ties
}

// compare returns the first step but skip that parts r from s, 1 to 12, and which is better; 0, 0 where none does.
func (r rank) compare(s rank, skip int) (order, step int) {
	whole := [][2]int{
		{int(r.grade), int(s.grade)},
		{r.readings, s.readings},
		{r.notClose, s.notClose},
		{r.vessels, s.vessels},
		{r.halves, s.halves},
		{r.twoScales, s.twoScales},
		{r.apart, s.apart},
		{r.marks, s.marks},
		{r.foreign, s.foreign},
		{r.bare, s.bare},
		{int(r.off), int(s.off)},
		{int(r.miss), int(s.miss)},
	}
	for i, pair := range whole {
		if c := cmp.Compare(pair[0], pair[1]); c != 0 && i+1 != skip {
			return c, i + 1
		}
	}
	return 0, 0
}

// grade is step 1 of the choice.
func (q *question) grade(o *outcome) measure.Grade {
	switch {
	case o.miss() > q.Tolerance+tie:
		return measure.GradeC
	case o.most <= q.Tolerance/4+tie:
		return measure.GradeA
	}
	return measure.GradeB
}

// rankOf counts what the order of choice looks at.
func (q *question) rankOf(o *outcome) rank {
	r := rank{grade: q.grade(o), miss: int64(math.Round(o.miss() / tie))}
	if o.miss() > q.Tolerance/2+tie {
		r.notClose = 1
	}
	if o.apart {
		r.apart = 1
	}
	want := q.Window.Want
	if want == 0 {
		want = q.Window.Max
	}
	if r.off = o.total - want; r.off < 0 {
		r.off = -r.off
	}
	var seen []*mark
	var scales [16]uint
	vessels := uint(0)
	o.each(q.chemicals, func(m *mark, times int) {
		r.readings += times
		if m.half {
			r.halves += times
		}
		vessels |= 1 << m.vessel
		scales[m.vessel] |= 1 << m.scale
		if slices.Contains(seen, m) {
			return
		}
		seen = append(seen, m)
		r.marks++
		if m.foreign {
			r.foreign++
		}
		if !m.numbered {
			r.bare++
		}
	})
	r.vessels = bits.OnesCount(vessels)
	for _, set := range scales {
		if bits.OnesCount(set) > 1 {
			r.twoScales++
		}
	}
	return r
}

// each calls f for every reading with how often it is taken.
func (a *action) each(chemicals int, f func(m *mark, times int)) {
	if a.r != nil {
		f(a.r, 1)
		f(a.q, 1)
	}
	for i := range chemicals {
		for _, x := range a.doses[i] {
			if x.m != nil {
				f(x.m, x.n*a.dosings())
			}
		}
	}
	for _, x := range a.fills {
		if x.m != nil {
			f(x.m, x.n)
		}
	}
}

// names lists the vessels: the one that is filled up for the bath first, the others in order of use.
func (q *question) names(a *action) []string {
	var all []string
	add := func(m *mark) {
		if m != nil && !slices.Contains(all, q.Vessels[m.vessel].Name) {
			all = append(all, q.Vessels[m.vessel].Name)
		}
	}
	add(a.fills[0].m)
	add(a.r)
	add(a.q)
	for i := range q.chemicals {
		x, y := a.doses[i][0].m, a.doses[i][1].m
		if y != nil && (y.volume > x.volume || y.volume == x.volume && q.Vessels[y.vessel].Name < q.Vessels[x.vessel].Name) {
			x, y = y, x
		}
		add(x)
		add(y)
	}
	return all
}

// better says whether x comes before y in the whole order of choice, but for step skip (13: names the other way).
func (q *question) better(x, y *outcome, skip int) bool {
	if order, _ := x.rank.compare(y.rank, skip); order != 0 {
		return order < 0
	}
	order := slices.Compare(q.names(&x.action), q.names(&y.action))
	return order < 0 && skip != steps || order > 0 && skip == steps
}

// steps is how many steps the order of choice has.
const steps = 13

// keepers returns one keeper for the order of choice, and after it one for each step left out but the first.
func (q *question) keepers() []*keeper {
	all := []*keeper{{q: q}}
	for skip := 2; skip <= steps; skip++ {
		all = append(all, &keeper{q: q, skip: skip})
	}
	return all
}

// decisive lists the steps without which another action had been chosen.
func (q *question) decisive() []int {
	all := q.keepers()
	q.explore(noLimit, all...)
	best := all[0].choose()
	var found []int
	for _, k := range all[1:] {
		other := k.choose()
		if q.better(best, other, 0) {
			found = append(found, k.skip)
		}
	}
	return found
}

// A keeper holds the best of the outcomes that it was given.
type keeper struct {
	q     *question
	skip  int       // the step left out; 0: none
	every bool      // keep all, not only those that may be the best
	top   *outcome  // the best of grade A or B
	good  []outcome // all of grade A and B, where every is set
	rest  []outcome // those of grade C that may still count
	least float64   // the least |bias| + U of those
}

// add takes one outcome.
func (k *keeper) add(o outcome) {
	switch {
	case o.rank.grade != measure.GradeC:
		if k.every {
			k.good = append(k.good, o)
		}
		if k.top == nil || k.q.better(&o, k.top, k.skip) {
			k.top = &o
		}
	case k.top == nil:
		if len(k.rest) == 0 || o.miss() < k.least {
			k.least = o.miss()
		}
		if k.every || o.miss() <= keptOver*k.least+tie {
			k.rest = append(k.rest, o)
		}
	}
}

// choose returns the best, or nil where there was none.
func (k *keeper) choose() *outcome {
	if k.top != nil {
		return k.top
	}
	var best *outcome
	for i := range k.rest {
		o := &k.rest[i]
		if o.miss() <= keptOver*k.least+tie && (best == nil || k.q.better(o, best, k.skip)) {
			best = o
		}
	}
	return best
}
