package measure

import (
	"cmp"
	"math"
	"slices"

	"wetside/trade/quantity"
)

// A lot holds all pour plans of one of two chemicals that may be measured apart, by volume.
type lot struct {
	made bool
	all  []lotPlan
	// few leaves out what errs as much as another plan of the same volume from the same vessels, or more. It serves
	// where marks do not matter.
	few []lotPlan
	// groups are all, by cost and vessels; fewGroups are few, by vessels.
	groups, fewGroups []lotGroup
}

// A lotGroup holds plans that pour from the same vessels at the same cost, by volume.
type lotGroup struct {
	plans   []lotPlan
	y, both float64 // least squared relative setting error, and that of both errors
}

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
	a, b := s.lotOf(0, ka), s.lotOf(1, kb)
	as, bs := a.groups, b.groups
	if few {
		at[1], as, bs = 1, a.fewGroups, b.fewGroups
	}
	list := &s.duos[at[0]][at[1]][ka][kb]
	if *list != nil {
		return *list
	}
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

// errs reports whether all plans of a duo err too much beside a fill plan, by setting alone, and where no vessel is used
// twice by all that counts.
func (d *duo) errs(s *search, f *fillPlan, limit, beta float64) bool {
	a, b := &d.a.plans[0].pourPlan, &d.b.plans[0].pourPlan
	p, q, w := d.a.y, d.b.y, 0.0
	alone := !a.from(b.va) && !a.from(b.vb)
	if f != nil {
		w = f.y
		alone = alone && !a.from(f.vessel) && !b.from(f.vessel)
	}
	if alone {
		p, q = d.a.both, d.b.both
		if f != nil {
			w = f.relative()
		}
	}
	x, y := min(1, s.f[0]*(1+beta)), min(1, s.f[1]*(1+beta))
	water := max(0, 1-x-y)
	w *= water * water
	x0, y0 := s.f[0]*(1-beta), s.f[1]*(1-beta)
	most := within(limit, 0)
	return w+p*(1-x)*(1-x)+q*y0*y0 > most || w+p*x0*x0+q*(1-y)*(1-y) > most
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

// A lotPlan is a pour plan of one of two chemicals with the least squared relative error, before the third, that the
// chemical's share then has where the plan does not pour from the fill vessel.
type lotPlan struct {
	pourPlan
	least float64
}

// lotOf returns chemical i's plans of k pours, in the last phase those of two readings, too.
func (s *search) lotOf(i, k int) *lot {
	ph := 0
	if s.onlyPairs {
		ph = 1
	}
	l := &s.lots[ph][i][k]
	if l.made {
		return l
	}
	l.made = true
	limit, beta, _ := s.room(isApart, 0)
	lo, _ := spread(s.f[i], s.lo.ML(), beta)
	_, hi := spread(s.f[i], s.hi.ML(), beta)
	g := 1 - min(1, s.f[i]*(1+beta)) // of the chemical's error at least this part counts
	other := s.otherError(1-i, beta)
	square := func(z float64) float64 {
		z = max(0, z*g-other)
		return z * z
	}
	s.eachPlan(k, 1, -1, lo, min(hi, s.avail[i]), math.Inf(1), func(p *pourPlan) {
		if y := p.y * g * g; y <= within(limit, 0) {
			l.all = append(l.all, lotPlan{*p, y + square(p.za) + square(p.zb)})
		}
	})
	slices.SortFunc(l.all, func(a, b lotPlan) int {
		return cmp.Or(cmp.Compare(a.vol, b.vol), cmp.Compare(a.va, b.va), cmp.Compare(a.vb, b.vb), cmp.Compare(a.y, b.y))
	})
	for j, from := 0, 0; j < len(l.all); j++ {
		p := &l.all[j]
		for from < len(l.few) && l.few[from].vol < p.vol {
			from++
		}
		if !slices.ContainsFunc(l.few[from:], p.alike) {
			l.few = append(l.few, *p)
		}
	}
	l.groups, l.fewGroups = groupsOf(l.all, lotPlan.compareKind), groupsOf(l.few, lotPlan.compareVessels)
	return l
}

// groupsOf returns plans in groups of one kind.
func groupsOf(plans []lotPlan, kind func(p, o lotPlan) int) []lotGroup {
	sorted := slices.Clone(plans)
	slices.SortStableFunc(sorted, kind)
	var groups []lotGroup
	for i := 0; i < len(sorted); {
		g := lotGroup{y: math.Inf(1), both: math.Inf(1)}
		j := i
		for ; j < len(sorted) && kind(sorted[i], sorted[j]) == 0; j++ {
			g.y, g.both = min(g.y, sorted[j].y), min(g.both, sorted[j].relative(1))
		}
		g.plans = sorted[i:j]
		groups = append(groups, g)
		i = j
	}
	return groups
}

// compareKind orders plans by cost and vessels.
func (p lotPlan) compareKind(o lotPlan) int {
	return cmp.Or(cmp.Compare(p.cost, o.cost), p.compareVessels(o))
}

// compareVessels orders plans by vessels.
func (p lotPlan) compareVessels(o lotPlan) int {
	return cmp.Or(cmp.Compare(p.va, o.va), cmp.Compare(p.vb, o.vb))
}

// otherError returns how much the permissible error of a vessel from which chemical i is poured may count in the other
// chemical's share, at most: so much of it may cancel.
func (s *search) otherError(i int, beta float64) float64 {
	var t float64
	for v := range s.p.Vessels {
		for j, r := range s.of(v) {
			if j > 0 && r.vol > s.mostPour {
				break
			}
			t = max(t, r.t)
		}
	}
	least, _ := spread(s.f[i], s.lo.ML(), beta)
	return MaxPours * t / least.ML() * min(1, s.f[i]*(1+beta))
}

// alike reports whether another plan pours from the same vessels with the same permissible error.
func (p *lotPlan) alike(o lotPlan) bool {
	return p.va == o.va && p.vb == o.vb && math.Abs(p.za-o.za) < Tie*Tie && math.Abs(p.zb-o.zb) < Tie*Tie
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
		var buf [8]use
		if j := s.judge(x, s.uses(x, buf[:0])); j.e <= s.limit+Tie {
			some, good = true, good || j.stray <= s.p.Tolerance/4+Tie
		}
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

// lotFrom returns the index of the first plan of at least a volume.
func lotFrom(list []lotPlan, vol quantity.Volume) int {
	i, _ := slices.BinarySearchFunc(list, vol, func(p lotPlan, v quantity.Volume) int { return cmp.Compare(p.vol, v) })
	return i
}

// eachTwo gives the choices of a plan of each chemical beside a fill plan's water, until it is told to stop.
func (s *search) eachTwo(f *fillPlan, as, bs []lotPlan, yield func(*found) bool) {
	x, c, vessel := found{form: formNeat}, isApart, -1
	if f != nil {
		x.form, x.fill, c, vessel = formApart, *f, c+f.cost, int(f.vessel)
	}
	_, beta, ok := s.room(c, 0)
	least, most := s.totalsBeside(x.fill.vol, beta)
	lo, _ := spread(s.f[0], least, beta)
	_, hi := spread(s.f[0], most, beta)
	hi = min(hi, s.hi-x.fill.vol, s.avail[0])
	for i := lotFrom(as, lo); ok && i < len(as) && as[i].vol <= hi; i++ {
		a, lowest, least := &as[i], c, 0.0
		if int(a.va) != vessel && int(a.vb) != vessel {
			lowest, least = lowest+a.cost, a.least
		}
		limit, beta, ok := s.room(lowest, 0)
		if beta = min(beta, limit-expanded(least)+Tie); !ok || beta < 0 {
			continue
		}
		x.chem[0] = a.pourPlan
		if !s.besideFirst(&x, bs, lowest, beta, yield) {
			return
		}
	}
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

// errs reports whether two chemicals measured apart err too much whatever else may be: by their bias, by setting alone,
// and where no vessel is used twice by all that counts.
func (s *search) errs(f *fillPlan, a, b *pourPlan, total quantity.Volume, limit, beta float64) bool {
	of := float64(total)
	x, y := float64(a.vol)/of, float64(b.vol)/of
	p, q, w := a.y, b.y, 0.0
	alone := !a.from(b.va) && !a.from(b.vb)
	if f != nil {
		w = f.y
		alone = alone && !a.from(f.vessel) && !b.from(f.vessel)
	}
	if alone {
		p, q = a.relative(1), b.relative(1)
		if f != nil {
			w = f.relative()
		}
	}
	water := 1 - x - y
	w *= water * water
	for i, part := range [...]float64{x, y} {
		bias := part/s.f[i] - 1
		square := w + p*(1-x)*(1-x) + q*y*y
		if i == 1 {
			square = w + p*x*x + q*(1-y)*(1-y)
		}
		if math.Abs(bias) > beta+Tie || square > within(limit, bias)+Tie*Tie {
			return true
		}
	}
	return false
}

// neatTwo goes through two undiluted chemicals.
func (s *search) neatTwo() {
	for ph := ofOne; ph < phases; ph += ofTwo {
		s.eachSplit(s.level, ph, func(ka, kb int) { s.twoApart(nil, ka, kb) })
	}
}
