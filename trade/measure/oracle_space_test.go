package measure_test

import (
	"slices"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// A question is a problem made ready for the oracle.
type question struct {
	measure.Problem
	chemicals int
	wanted    [2]float64 // f of each chemical
	marks     [][]*mark  // by vessel
	fills     []plan     // all fill plans, the larger reading first
	pours     []plan     // all pour plans of chemical, of up to MaxPours
	weighings []plan
}

func newQuestion(p measure.Problem) *question {
	q := &question{Problem: p, chemicals: len(p.Dilution.Chemicals)}
	parts := p.Dilution.Water.Float()
	for _, a := range p.Dilution.Chemicals {
		parts += a.Float()
	}
	for i, a := range p.Dilution.Chemicals {
		q.wanted[i] = a.Float() / parts
	}
	for v := range p.Vessels {
		if p.Vessels[v].Kind == measure.Balance && p.Density == 0 {
			q.marks = append(q.marks, nil)
			continue
		}
		q.marks = append(q.marks, marksOf(p, v))
		if q.isFill(v) && q.forWater(v) {
			q.fills = append(q.fills, largerFirst(plans(q.marks[v], measure.MaxJugfuls))...)
		}
	}
	q.pours = plans(q.chemicalMarks(), measure.MaxPours)
	for v := range p.Vessels {
		if p.Vessels[v].Kind == measure.Balance && q.forChemical(v) && q.chemicals == 1 {
			for _, m := range q.marks[v] {
				q.weighings = append(q.weighings, plan{{m, 1}})
			}
		}
	}
	return q
}

func (q *question) isFill(v int) bool {
	switch q.Vessels[v].Kind {
	case measure.Syringe, measure.Pipette, measure.Balance:
		return false
	case measure.Jug, measure.Beaker, measure.Cylinder:
	}
	return true
}

func (q *question) forChemical(v int) bool { return !q.Vessels[v].NotForChemical }
func (q *question) forWater(v int) bool    { return !q.Vessels[v].NotForWater }

// chemicalMarks lists the readings that a chemical can be poured by.
func (q *question) chemicalMarks() []*mark {
	var all []*mark
	for v := range q.Vessels {
		if q.Vessels[v].Kind != measure.Balance && q.forChemical(v) {
			all = append(all, q.marks[v]...)
		}
	}
	return all
}

// plans lists every plan of one or two of the readings, of 1 to most times. Every pair comes once.
func plans(marks []*mark, most int) []plan {
	var all []plan
	for i, m := range marks {
		for n := 1; n <= most; n++ {
			all = append(all, plan{{m, n}})
			for _, second := range marks[i+1:] {
				for k := 1; n+k <= most; k++ {
					all = append(all, plan{{m, n}, {second, k}})
				}
			}
		}
	}
	return all
}

// largerFirst puts the larger reading of each plan first.
func largerFirst(all []plan) []plan {
	for i, p := range all {
		if p[1].m != nil && p[1].m.volume > p[0].m.volume {
			all[i] = plan{p[1], p[0]}
		}
	}
	return all
}

// inWindow says whether the total is useful, ends included.
func (q *question) inWindow(total quantity.Volume) bool {
	return q.Window.Min <= total && total <= q.Window.Max
}

// enough says whether there is so much of chemical i.
func (q *question) enough(i int, used quantity.Volume) bool {
	return i >= len(q.Available) || q.Available[i] == 0 || used <= q.Available[i]
}

// A visit is called with every action of no more than limit readings.
type visit struct {
	q            *question
	limit        int
	fills, pours []plan // those of the question's that leave a reading for something else
	call         func(action)
}

func (q *question) visit(limit int, call func(action)) *visit {
	v := &visit{q: q, limit: limit, call: call}
	tooLong := func(p plan) bool { return p.times() >= limit }
	v.fills = slices.DeleteFunc(slices.Clone(q.fills), tooLong)
	v.pours = slices.DeleteFunc(slices.Clone(q.pours), tooLong)
	slices.SortStableFunc(v.pours, func(a, b plan) int { return a.times() - b.times() })
	return v
}

// done passes an action on, if it is short enough and there is chemical for it.
func (v *visit) done(a action) {
	times := 0
	a.each(v.q.chemicals, func(_ *mark, n int) { times += n })
	for i := range v.q.chemicals {
		if !v.q.enough(i, a.usedOf(i)) {
			return
		}
	}
	if times <= v.limit {
		v.call(a)
	}
}

// direct visits (a) to (e).
func (v *visit) direct() {
	if v.q.Dilution.Water.Sign() == 0 {
		v.undiluted()
		return
	}
	for _, fill := range v.fills {
		if v.q.inWindow(fill.volume()) {
			v.filled(fill)
		}
		v.apart(fill)
	}
}

// filled visits (a), (b), (c) and their likes of (e), for one fill plan.
func (v *visit) filled(fill plan) {
	jug := fill[0].m.vessel
	if !v.q.forChemical(jug) {
		return
	}
	v.dosed(fill, func(doses [2]plan, inJug, weighed bool) {
		if fill[1].m == nil {
			manner := measure.Poured
			if inJug {
				manner = measure.InJug
			}
			v.done(action{manner: weighedOr(manner, weighed), inJug: inJug, every: true, doses: doses, fills: fill})
		}
		if fill.times() > 1 {
			v.done(action{manner: weighedOr(measure.FirstJug, weighed), inJug: inJug, doses: doses, fills: fill})
		}
	})
}

func weighedOr(m measure.Manner, weighed bool) measure.Manner {
	if weighed {
		return measure.Weighed
	}
	return m
}

// dosed calls f for all that may go into one fill to the first reading of fill.
func (v *visit) dosed(fill plan, f func(doses [2]plan, inJug, weighed bool)) {
	q, top, jug := v.q, fill[0].m, fill[0].m.vessel
	if !q.WaterFirst {
		for _, c := range q.marks[jug] {
			if q.chemicals == 1 && c.volume < top.volume {
				f([2]plan{{{c, 1}}}, true, false)
			}
			for _, c2 := range q.marks[jug] {
				if q.chemicals == 2 && c.volume < c2.volume && c2.volume < top.volume {
					f([2]plan{{{c, 1}}, {{c2, 1}}}, true, false)
				}
			}
		}
	}
	for _, w := range q.weighings {
		if w.volume() < top.volume {
			f([2]plan{w}, false, true)
		}
	}
	v.poured(v.limit-fill.times(), func(doses [2]plan) {
		all := doses[0].vessels() | doses[1].vessels()
		if all>>jug&1 == 0 && doses[0].volume()+doses[1].volume() < top.volume {
			f(doses, false, false)
		}
	})
}

// poured calls f with every way of pouring the chemical, or both, in no more than most pours.
func (v *visit) poured(most int, f func(doses [2]plan)) {
	for _, a := range v.pours {
		if a.times() > most {
			return // the rest has as many pours or more
		}
		if v.q.chemicals == 1 {
			f([2]plan{a})
			continue
		}
		for _, b := range v.pours {
			if a.times()+b.times() > most {
				break
			}
			f([2]plan{a, b})
		}
	}
}

// apart visits (d) and its like of (e), for one fill plan.
func (v *visit) apart(water plan) {
	if water.volume() > v.q.Window.Max {
		return
	}
	v.poured(v.limit-water.times(), func(doses [2]plan) {
		if v.q.inWindow(water.volume() + doses[0].volume() + doses[1].volume()) {
			v.done(action{manner: measure.Apart, apart: true, doses: doses, fills: water})
		}
	})
	for _, w := range v.q.weighings {
		if v.q.inWindow(water.volume() + w.volume()) {
			v.done(action{manner: measure.Weighed, apart: true, doses: [2]plan{w}, fills: water})
		}
	}
}

// undiluted visits what can be done with no water: up to MaxJugfuls pours.
func (v *visit) undiluted() {
	try := func(doses [2]plan) {
		if v.q.inWindow(doses[0].volume() + doses[1].volume()) {
			v.done(action{manner: measure.Apart, apart: true, doses: doses})
		}
	}
	if v.q.chemicals == 2 {
		v.poured(v.limit, try)
		return
	}
	for _, p := range plans(v.q.chemicalMarks(), measure.MaxJugfuls) {
		try([2]plan{p})
	}
}

// intermediate visits (f).
func (v *visit) intermediate() {
	if v.q.chemicals != 1 || v.q.Dilution.Water.Sign() == 0 {
		return
	}
	for _, fill := range v.fills {
		if !v.q.inWindow(fill.volume()) || !v.q.forChemical(fill[0].m.vessel) {
			continue
		}
		v.diluted(fill)
	}
}

// diluted visits (f) for one fill plan, its first reading first.
func (v *visit) diluted(fill plan) {
	q, j2 := v.q, fill[0].m.vessel
	for _, pour := range v.pours {
		if pour[1].m != nil || pour.volume() >= fill[0].m.volume || pour[0].m.vessel == j2 {
			continue
		}
		for j1 := range q.Vessels {
			if j1 == j2 || j1 == pour[0].m.vessel || !q.isFill(j1) || !q.forWater(j1) || !q.forChemical(j1) {
				continue
			}
			for _, full := range q.marks[j1] {
				if pour.volume() > full.volume {
					continue
				}
				for _, r := range q.chemicalMarks() {
					if r.volume < full.volume && r.vessel != j2 && (r.vessel != j1 || !q.WaterFirst) {
						v.done(action{manner: measure.Intermediate, doses: [2]plan{pour}, fills: fill, r: r, q: full})
					}
				}
			}
		}
	}
}

// noLimit is more readings than any action has.
const noLimit = 1000

// explore gives all outcomes of the space of up to limit readings to the keepers, those that stray left out.
func (q *question) explore(limit int, all ...*keeper) {
	v := q.visit(limit, func(a action) {
		o := q.work(a)
		if o.most > max(stray, q.Tolerance)+tie {
			return
		}
		for _, k := range all {
			k.add(o)
		}
	})
	v.direct()
	if all[0].top == nil && limit == noLimit {
		v.intermediate()
	}
}

// best returns the optimum by going through the whole space, or nil where nothing can be made: also where only
// something of grade C is left by too little chemical.
func (q *question) best() *outcome {
	o := q.bestOf()
	if (o == nil || o.rank.grade == measure.GradeC) && len(q.Available) > 0 {
		free := q.plentiful()
		if more := free.bestOf(); more != nil && (o == nil || more.rank.grade != measure.GradeC) {
			return nil
		}
	}
	return o
}

func (q *question) bestOf() *outcome {
	k := keeper{q: q}
	q.explore(noLimit, &k)
	return k.choose()
}

// plentiful returns the question without a limit on the chemical.
func (q *question) plentiful() *question {
	free := *q
	free.Available = nil
	return &free
}

// lacking says why nothing can be made: which chemical is short, and the least of it that is used by a choice with no
// more readings than the best would have.
func (q *question) lacking() (lack measure.Lack, short int, least quantity.Volume) {
	free := q.plentiful()
	choices := free.choices()
	if len(choices) == 0 {
		return measure.LackVessel, 0, 0
	}
	most := free.bestOver(choices, func(*outcome) bool { return true }).rank.readings
	choices = slices.DeleteFunc(choices, func(o outcome) bool { return o.rank.readings > most })
	leastOf := func(i int, counts func(o *outcome) bool) quantity.Volume {
		least := quantity.MaxVolume
		for j := range choices {
			if counts(&choices[j]) {
				least = min(least, choices[j].usedOf(i))
			}
		}
		return least
	}
	for i := range q.chemicals {
		if least := leastOf(i, func(*outcome) bool { return true }); !q.enough(i, least) {
			return measure.LackChemical, i, least
		}
	}
	return measure.LackChemical, 1, leastOf(1, func(o *outcome) bool { return q.enough(0, o.usedOf(0)) })
}

// bestByReadings returns the same by going through the space from few readings to many: grade A with fewer
// readings beats all that follows.
func (q *question) bestByReadings() *outcome {
	for limit := 1; limit <= 6; limit++ {
		k := keeper{q: q}
		q.explore(limit, &k)
		if k.top != nil && k.top.rank.grade == measure.GradeA {
			return k.top
		}
	}
	return q.best()
}
