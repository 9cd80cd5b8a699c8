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

// grouped returns the plans, or the few, in groups.
func (l *lot) grouped(few bool) []lotGroup {
	plans, groups := l.all, &l.groups
	if few {
		plans, groups = l.few, &l.fewGroups
	}
	if *groups == nil {
		*groups = groupsOf(plans, !few)
	}
	return *groups
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
	if i == 1 && s.f[0] == s.f[1] && s.avail[0] == s.avail[1] {
		*l = *s.lotOf(0, k)
		return l
	}
	limit, beta, _ := s.room(isApart, 0)
	lo, _ := spread(s.f[i], s.lo.ML(), beta)
	_, hi := spread(s.f[i], s.hi.ML(), beta)
	g := 1 - min(1, s.f[i]*(1+beta)) // of the chemical's error at least this part counts
	other := s.otherError(1-i, beta)
	square := func(z float64) float64 {
		z = max(0, z*g-other)
		return z * z
	}
	gathered := s.spare.lot[:0]
	s.eachPlan(k, 1, -1, lo, min(hi, s.avail[i]), math.Inf(1), func(p *pourPlan) {
		if y := p.y * g * g; y <= within(limit, 0) {
			gathered = append(gathered, lotPlan{*p, y + square(p.za) + square(p.zb)})
		}
	})
	s.spare.lot = gathered
	l.all = inOrder(gathered)
	gathered = gathered[:0] // l.all is a copy
	for j, from := 0, 0; j < len(l.all); j++ {
		p := &l.all[j]
		for from < len(gathered) && gathered[from].vol < p.vol {
			from++
		}
		if !slices.ContainsFunc(gathered[from:], p.alike) {
			gathered = append(gathered, *p)
		}
	}
	l.few = slices.Clone(gathered)
	return l
}

// inOrder returns a copy of plans by volume, vessels and setting error.
func inOrder(plans []lotPlan) []lotPlan {
	type key struct {
		vol     quantity.Volume
		y       float64
		vessels uint16
		at      int32
	}
	keys := make([]key, len(plans))
	for i := range plans {
		p := &plans[i]
		keys[i] = key{p.vol, p.y, uint16(p.va)<<8 | uint16(p.vb), int32(i)}
	}
	slices.SortFunc(keys, func(a, b key) int {
		switch {
		case a.vol != b.vol:
			return sign(a.vol < b.vol)
		case a.vessels != b.vessels:
			return sign(a.vessels < b.vessels)
		case a.y != b.y:
			return sign(a.y < b.y)
		}
		return cmp.Compare(a.at, b.at)
	})
	sorted := make([]lotPlan, len(plans))
	for i := range keys {
		sorted[i] = plans[keys[i].at]
	}
	return sorted
}

// A lotKind is what the plans of a group have in common.
type lotKind struct {
	cost   cost
	va, vb uint8
}

// groupsOf returns plans, which are in order of volume, in groups by vessels, and by cost where that matters.
func groupsOf(plans []lotPlan, byCost bool) []lotGroup {
	var groups []lotGroup
	var counts []int
	index := make(map[lotKind]int32)
	of := make([]int32, len(plans))
	for i := range plans {
		p := &plans[i]
		kind := lotKind{va: p.va, vb: p.vb}
		if byCost {
			kind.cost = p.cost
		}
		g, ok := index[kind]
		if !ok {
			g = int32(len(groups))
			index[kind] = g
			groups, counts = append(groups, lotGroup{y: math.Inf(1), both: math.Inf(1)}), append(counts, 0)
		}
		of[i] = g
		counts[g]++
	}
	all := make([]lotPlan, len(plans))
	for g := range groups {
		groups[g].plans, all = all[:0:counts[g]], all[counts[g]:]
	}
	for i, g := range of {
		groups[g].add(&plans[i])
	}
	slices.SortFunc(groups, func(g, h lotGroup) int { return g.plans[0].compareKind(h.plans[0]) })
	return groups
}

func (g *lotGroup) add(p *lotPlan) {
	g.plans = append(g.plans, *p)
	g.y, g.both = min(g.y, p.y), min(g.both, p.relative(1))
}

// compareKind orders plans by cost and vessels.
func (p lotPlan) compareKind(o lotPlan) int {
	return cmp.Or(cmp.Compare(p.cost, o.cost), cmp.Compare(p.va, o.va), cmp.Compare(p.vb, o.vb))
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
		if !s.besideFirst(&x, bs, lowest, beta, yield) {
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
