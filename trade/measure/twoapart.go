package measure

import (
	"cmp"
	"math"
	"slices"

	"wetside/trade/quantity"
)

// A duo is a group of either chemical, and what plans of both cost at least.
type duo struct {
	a, b  *lotGroup
	least cost
}

// duosOf returns the pairs of groups for ka and kb pours, the cheapest first; with few those of the few.
func (s *search) duosOf(ka, kb int, few bool) []duo {
	var at [2]int
	if s.onlyPairs {
		at[0] = 1
	}
	if few {
		at[1] = 1
	}
	list := &s.duos[at[0]][at[1]][ka][kb]
	if *list != nil {
		return *list
	}
	as, bs := s.lotOf(0, ka).grouped(few), s.lotOf(1, kb).grouped(few)
	*list = make([]duo, 0, len(as)*len(bs))
	for i := range as {
		for j := range bs {
			p, q := &as[i].plans[0], &bs[j].plans[0]
			*list = append(*list, duo{&as[i], &bs[j], p.cost.beside(q.cost, p.common(&q.pourPlan))})
		}
	}
	slices.SortStableFunc(*list, func(x, y duo) int { return cmp.Compare(x.least, y.least) })
	return *list
}

// errs reports whether all plans of a duo err too much beside a fill plan: by setting, and by the own errors of vessels as
// far as they can't cancel. In a chemical's share the errors of the other and of the water have the same sign.
func (d *duo) errs(s *search, f *fillPlan, limit, beta float64) bool {
	a, b := &d.a.plans[0].pourPlan, &d.b.plans[0].pourPlan
	x, y := min(1, s.f[0]*(1+beta)), min(1, s.f[1]*(1+beta))
	x0, y0 := s.f[0]*(1-beta), s.f[1]*(1-beta)
	water, most := max(0, 1-x-y), within(limit, 0)
	return d.a.beside(d.b, a, b, f, 1-x, y0, water) > most || d.b.beside(d.a, b, a, f, 1-y, x0, water) > most
}

// beside returns the least squared relative error, before the third, of g's chemical, beside o of the other and a fill plan
// or none, all of them weighed.
func (g *lotGroup) beside(o *lotGroup, a, b *pourPlan, f *fillPlan, weight, other, water float64) float64 {
	p, q, w := g.both, o.both, 0.0
	if a.from(b.va) || a.from(b.vb) {
		p, q = g.y, o.y
	}
	if f != nil {
		w = f.relative()
		if a.from(f.vessel) {
			p, w = g.y, f.y
		}
	}
	return p*weight*weight + q*other*other + w*water*water
}

// common returns how many vessels both plans pour from.
func (p *pourPlan) common(o *pourPlan) int {
	n := 0
	if o.from(p.va) {
		n++
	}
	if p.vb != p.va && o.from(p.vb) {
		n++
	}
	return n
}

// twoApart goes through (d) for two chemicals; without a fill plan through two undiluted ones.
func (s *search) twoApart(f *fillPlan, ka, kb int) {
	c := isApart
	if f != nil {
		c += f.cost
	}
	if _, _, ok := s.room(c, 0); !ok {
		return
	}
	a, b := s.lotOf(0, ka), s.lotOf(1, kb)
	if len(a.few) == 0 || len(b.few) == 0 {
		return
	}
	if s.goal != toChoose {
		s.eachDuo(f, s.duosOf(ka, kb, true), func(x *found) bool {
			s.weigh(x)
			return true
		})
		return
	}
	some, good := s.anyOf(f, s.duosOf(ka, kb, true))
	if !some {
		return
	}
	s.noA = !good
	s.eachDuo(f, s.duosOf(ka, kb, false), func(x *found) bool {
		if s.wanted(&x.chem[0], &x.chem[1]) {
			s.weigh(x)
		}
		return true
	})
	s.noA = false
}

// anyOf reports whether there is any choice with these plans that is better than what was found, marks left aside, and
// whether one is of grade A.
func (s *search) anyOf(f *fillPlan, duos []duo) (some, good bool) {
	s.eachDuo(f, duos, func(x *found) bool {
		stray := max(math.Abs(s.exactBias(x, 0)), math.Abs(s.exactBias(x, 1)))
		some, good = true, good || stray <= s.p.Tolerance/4+Tie
		return !good
	})
	return some, good
}

// eachDuo gives the choices of plans of these groups beside a fill plan's water, until it is told to stop or none can be
// better.
func (s *search) eachDuo(f *fillPlan, duos []duo, yield func(*found) bool) {
	going := true
	for i := range duos {
		d := &duos[i]
		limit, beta, ok := s.room(isApart+d.least, 0)
		if !ok || !going || s.cancelled() {
			return
		}
		if !d.errs(s, f, limit, beta) {
			s.eachTwo(f, d.a.plans, d.b.plans, func(x *found) bool {
				going = yield(x)
				return going
			})
		}
	}
}

// totalsBeside returns the least and the largest total, in mL, in which a volume of water leaves each chemical's share
// within beta of what is wanted.
func (s *search) totalsBeside(water quantity.Volume, beta float64) (least, most float64) {
	least, most = s.lo.ML(), s.hi.ML()
	if rest := 1 - s.sum*(1-beta-2*Tie); rest > Tie {
		least = max(least, water.ML()/rest)
	}
	if rest := 1 - s.sum*(1+beta+2*Tie); rest > Tie {
		most = min(most, water.ML()/rest)
	}
	return least, most
}

// eachTwo gives the choices of a plan of each chemical beside a fill plan's water, until it is told to stop.
func (s *search) eachTwo(f *fillPlan, as, bs []lotPlan, yield func(*found) bool) {
	x, c, vessel := s.put(found{form: formNeat}), isApart, -1
	if f != nil {
		x.form, x.fill, c, vessel = formApart, *f, c+f.cost, int(f.vessel)
	}
	_, beta, ok := s.room(c, 0)
	leastTotal, mostTotal := s.totalsBeside(x.fill.vol, beta)
	lo, _ := spread(s.f[0], leastTotal, beta)
	_, hi := spread(s.f[0], mostTotal, beta)
	hi = min(hi, s.hi-x.fill.vol, s.avail[0])
	for i := lotFrom(as, lo); ok && i < len(as) && as[i].vol <= hi; i++ {
		a, lowest, least := &as[i], c, 0.0
		if int(a.va) != vessel && int(a.vb) != vessel {
			lowest, least = lowest+a.cost, a.least
		}
		if f != nil {
			least += f.adds(&a.pourPlan, leastTotal, mostTotal)
		}
		limit, beta, ok := s.room(lowest, 0)
		if beta = min(beta, limit-expanded(least)+Tie); !ok || beta < 0 {
			continue
		}
		x.chem[0] = a.pourPlan
		if !s.besideFirst(x, bs, lowest, beta, yield) {
			return
		}
	}
}

// adds returns what a fill plan of water adds at least to the squared relative error, before the third, of a
// chemical whose plan does not pour from its vessel; where it does, what both come to at least.
func (f *fillPlan) adds(a *pourPlan, leastTotal, mostTotal float64) float64 {
	water := f.ml / mostTotal
	if !a.from(f.vessel) {
		return water * water * f.relative()
	}
	z, y := a.za, max(0, 1-a.ml/leastTotal)
	if a.va != f.vessel {
		z = a.zb
	}
	own := max(0, water*f.z-(1-a.ml/mostTotal)*z)
	return own*own + water*water*f.y + y*y*a.y
}

// besideFirst gives the choices with the second chemical's plans that go with the first's, whose share strays by beta at
// most.
func (s *search) besideFirst(x *found, bs []lotPlan, c cost, beta float64, yield func(*found) bool) bool {
	a, f := &x.chem[0], &x.fill
	if x.form == formNeat {
		f = nil
	}
	have := x.fill.vol + a.vol
	_, other, _ := s.room(c, 0) // how far the second one's share may stray
	most := min(float64(s.hi), float64(a.vol)/s.f[0]/max(1-beta-2*Tie, Tie), float64(have)/max(1-s.f[1]*(1+other+2*Tie), Tie))
	least := max(float64(s.lo), float64(a.vol)/s.f[0]/(1+beta+2*Tie), float64(have)/(1-s.f[1]*(1-other-2*Tie)))
	lo, hi := quantity.Volume(least)-have, min(quantity.Volume(most)+1, s.hi)-have
	hi = min(hi, s.avail[1])
	for i := lotFrom(bs, lo); i < len(bs) && bs[i].vol <= hi; i++ {
		b := &bs[i].pourPlan
		total, lowest := have+b.vol, c
		if f == nil || !b.from(f.vessel) {
			if bs[i].least > within(s.limit, 0) {
				continue
			}
			if !b.from(a.va) && !b.from(a.vb) {
				lowest += b.cost
			}
		}
		limit, beta, ok := s.room(lowest, away(total, s.want))
		if !ok || total < s.lo || s.errs(f, a, b, total, limit, beta) {
			continue
		}
		x.chem[1], x.total = *b, total
		if !yield(x) {
			return false
		}
	}
	return true
}

// errs reports whether two chemicals measured apart err too much, to a hair.
func (s *search) errs(f *fillPlan, a, b *pourPlan, total quantity.Volume, limit, beta float64) bool {
	of := float64(total)
	x, y := float64(a.vol)/of, float64(b.vol)/of
	p, q := math.Abs(x/s.f[0]-1), math.Abs(y/s.f[1]-1)
	if p > beta+Tie || q > beta+Tie {
		return true
	}
	var e errors2
	e.add(a.va, a.za*(1-x), -a.za*x)
	e.add(a.vb, a.zb*(1-x), -a.zb*x)
	e.add(b.va, -b.za*y, b.za*(1-y))
	e.add(b.vb, -b.zb*y, b.zb*(1-y))
	one, two := a.y*(1-x)*(1-x)+b.y*y*y, a.y*x*x+b.y*(1-y)*(1-y)
	if f != nil {
		water := 1 - x - y
		e.add(f.vessel, -f.z*water, -f.z*water)
		one, two = one+f.y*water*water, two+f.y*water*water
	}
	for _, v := range e.of[:e.n] {
		one, two = one+v.one*v.one, two+v.two*v.two
	}
	return one > within(limit, p)+Tie*Tie || two > within(limit, q)+Tie*Tie
}

// errors2 adds up how far each vessel's own error moves the shares of two chemicals.
type errors2 struct {
	of [5]struct {
		vessel   uint8
		one, two float64
	}
	n int
}

func (e *errors2) add(vessel uint8, one, two float64) {
	for i := range e.of[:e.n] {
		if v := &e.of[i]; v.vessel == vessel {
			v.one, v.two = v.one+one, v.two+two
			return
		}
	}
	v := &e.of[e.n]
	v.vessel, v.one, v.two = vessel, one, two
	e.n++
}

// neatTwo goes through two undiluted chemicals.
func (s *search) neatTwo() {
	for ph := ofOne; ph < phases; ph += ofTwo {
		s.eachSplit(s.level, ph, func(ka, kb int) { s.twoApart(nil, ka, kb) })
	}
}
