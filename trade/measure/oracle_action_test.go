package measure_test

import (
	"math"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// A part is one reading, done n times over. The zero part is none.
type part struct {
	m *mark
	n int
}

// A plan is one or two readings: of a fill plan or of a pour plan.
type plan [2]part

func (p plan) times() int { return p[0].n + p[1].n }

func (p plan) volume() quantity.Volume {
	sum := quantity.Volume(0)
	for _, x := range p {
		if x.m != nil {
			sum += x.m.volume.Times(x.n)
		}
	}
	return sum
}

// vessels returns the set of the plan's vessels, one bit each.
func (p plan) vessels() uint {
	set := uint(0)
	for _, x := range p {
		if x.m != nil {
			set |= 1 << x.m.vessel
		}
	}
	return set
}

// An action is one way of making the bath, of the space (a) to (f).
type action struct {
	manner measure.Manner
	// inJug: the chemicals are read in the fill vessel, to the levels doses[0][0].m and doses[1][0].m.
	inJug bool
	// every: each jugful has its own chemical, as in (a) and (b); else all of it is measured once.
	every bool
	// apart: measured apart into the tray, as in (d).
	apart bool
	// doses holds what is measured of each chemical at a time; of the intermediate dilution, in (f).
	doses [2]plan
	// fills holds the readings of water, the larger first; the chemical goes into one of fills[0].
	fills plan
	// r of chemical filled up to q is the intermediate dilution of (f); else nil.
	r, q *mark
}

// dosings says how often the doses are measured.
func (a *action) dosings() int {
	if a.every {
		return a.fills.times()
	}
	return 1
}

// usedOf returns what leaves the bottle of chemical i.
func (a *action) usedOf(i int) quantity.Volume {
	used := a.doses[i].volume()
	switch {
	case a.r != nil:
		return a.r.volume
	case a.inJug && i == 1:
		used -= a.doses[0].volume()
	}
	return used.Times(a.dosings())
}

// A form is an error to first order: the coefficients of every z_v and of every y_i, mL.
type form [80]float64

// plus adds c times the form g.
func (f *form) plus(c float64, g *form) {
	for i := range f {
		f[i] += c * g[i]
	}
}

// uncertainty returns U = 2u of a relative error; u² is a third of the sum of squares.
func (f *form) uncertainty() float64 {
	sum := 0.0
	for _, c := range f {
		sum += c * c
	}
	return 2 * math.Sqrt(sum/3)
}

// A ledger hands out the variables: z_v first, then a new y for each reading.
type ledger struct{ next int }

// read adds one new reading of m to the error f.
func (l *ledger) read(f *form, m *mark) {
	f[m.vessel] += m.t
	f[l.next] += m.h
	l.next++
}

// readAll adds the readings of a whole plan.
func (l *ledger) readAll(f *form, p plan) {
	for _, x := range p {
		for range x.n {
			l.read(f, x.m)
		}
	}
}

// An outcome is an action with what comes of it.
type outcome struct {
	action
	total quantity.Volume
	// chemical in the total and used from the bottle, of each, mL.
	chemical, used [2]float64
	bias, u        float64 // of the worst chemical
	most           float64 // the largest |bias| of any chemical
	rank           rank
}

// miss is |bias| + U.
func (o *outcome) miss() float64 { return math.Abs(o.bias) + o.u }

// work evaluates an action from the definitions.
func (q *question) work(a action) outcome {
	l := &ledger{next: len(q.Vessels)}
	var s [2]form // the error of each chemical
	var volume [2]float64
	for range a.dosings() {
		if a.inJug {
			var level [2]form
			l.read(&level[0], a.doses[0][0].m)
			s[0].plus(1, &level[0])
			volume[0] += a.doses[0][0].m.volume.ML()
			if q.chemicals == 2 {
				l.read(&level[1], a.doses[1][0].m)
				s[1].plus(1, &level[1])
				s[1].plus(-1, &level[0])
				volume[1] += (a.doses[1][0].m.volume - a.doses[0][0].m.volume).ML()
			}
			continue
		}
		for i := range q.chemicals {
			l.readAll(&s[i], a.doses[i])
			volume[i] += a.doses[i].volume().ML()
		}
	}
	var water form
	l.readAll(&water, a.fills)
	o := outcome{action: a, total: a.fills.volume(), chemical: volume, used: volume}
	if a.apart {
		for i := range q.chemicals {
			o.total += a.doses[i].volume()
		}
	}
	relative := q.relative(&a, &o, s, &water)
	if a.r != nil {
		var first, up form
		l.read(&first, a.r)
		l.read(&up, a.q)
		r, full := a.r.volume.ML(), a.q.volume.ML()
		relative[0].plus(1/r, &first)
		relative[0].plus(-1/full, &up)
		o.chemical[0] = r / full * volume[0]
		o.used[0] = r
	}
	q.judge(&o, relative)
	return o
}

// relative returns δf/f of each chemical, but for the r and q of an intermediate dilution.
func (q *question) relative(a *action, o *outcome, s [2]form, water *form) [2]form {
	var rel [2]form
	total := o.total.ML()
	for i := range q.chemicals {
		rel[i].plus(1/o.chemical[i], &s[i]) // δS/S; in (f) δS_I/S_I
		switch {
		case !a.apart:
			rel[i].plus(-1/total, water) // −δT/T
		case q.chemicals == 1 && a.fills.times() > 0: // (1 − S/T)(δS/S − δW/W)
			w := a.fills.volume().ML()
			rel[i].plus(-1/w, water)
			f := o.chemical[i] / total
			scaled := form{}
			scaled.plus(1-f, &rel[i])
			rel[i] = scaled
		default: // δT is the error of everything that was measured
			rel[i].plus(-1/total, water)
			rel[i].plus(-1/total, &s[0])
			rel[i].plus(-1/total, &s[1])
		}
	}
	return rel
}

// judge sets bias and U to those of the chemical with the largest |bias| + U, and the rank.
func (q *question) judge(o *outcome, relative [2]form) {
	worst := -1.0
	o.most = 0
	for i := range q.chemicals {
		bias := o.chemical[i]/o.total.ML()/q.wanted[i] - 1
		u := relative[i].uncertainty()
		o.most = max(o.most, math.Abs(bias))
		if miss := math.Abs(bias) + u; miss > worst+tie {
			worst, o.bias, o.u = miss, bias, u
		}
	}
	o.rank = q.rankOf(o)
}
