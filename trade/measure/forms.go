package measure

import (
	"math"

	"wetside/trade/quantity"
)

// spread returns the volumes whose share of a total lies within beta of a wanted share.
func spread(share, total, beta float64) (lo, hi quantity.Volume) {
	unit := float64(quantity.Millilitre)
	lo = quantity.Volume(share * total * (1 - beta - 2*Tie) * unit)
	hi = quantity.Volume(share*total*(1+beta+2*Tie)*unit) + 1
	return max(lo, 1), hi
}

// within returns the squared relative error, before the third, that leaves |bias| + U within a limit; below 0: none.
func within(limit, bias float64) float64 {
	d := limit - math.Abs(bias) + Tie
	if d < 0 {
		return -1
	}
	return 0.75 * d * d
}

// expanded returns U = 2u from the squared relative error before the third.
func expanded(square float64) float64 { return 2 * math.Sqrt(square/3) }

// inJug goes through (a), and through (c) in its form: the chemical read in the fill vessel.
func (s *search) inJug(f *fillPlan, n int) {
	first, rest := &s.all[f.a], s.level-n
	if f.b == none && rest == n {
		s.readInJug(f, formInJug, n, first.ml)
	}
	if n > 1 && rest == 1 {
		s.readInJug(f, formFirstInJug, 1, f.ml)
	}
}

// readInJug goes through the chemical's readings below the first fill's; each is done n times, and of is what its share
// is taken of.
func (s *search) readInJug(f *fillPlan, fm form, n int, of float64) {
	dist := away(f.vol, s.want)
	limit, beta, ok := s.room(f.cost, dist)
	if !ok || within(limit, 0) < f.y {
		return
	}
	lo, hi := spread(s.f[0], of, beta)
	hi = min(hi, s.all[f.a].vol-1, s.avail[0]/quantity.Volume(n))
	part, from := s.of(int(f.vessel)), s.span[f.vessel].from
	for i := atLeast(part, lo); i < len(part) && part[i].vol <= hi; i++ {
		c, at := &part[i], from+int32(i)
		cost := f.cost + s.beside(f, at, n)
		if limit, beta, ok = s.room(cost, dist); !ok {
			continue
		}
		bias, z := c.ml/of/s.f[0]-1, c.z-f.z
		square := z*z + c.y/float64(n) + f.y
		if math.Abs(bias) > beta+Tie || square > within(limit, bias) {
			continue
		}
		s.offer(s.put(found{form: fm, fill: *f, chem: [2]pourPlan{s.pourPlan(at, 1)}, total: f.vol}), cost, math.Abs(bias),
			math.Abs(bias)+expanded(square))
	}
}

// beside returns what a reading done n times adds to the cost of a fill plan in the same vessel.
func (s *search) beside(f *fillPlan, at int32, n int) cost {
	r := &s.all[at]
	var c cost
	if r.between {
		c = cost(n) * oneHalf
	}
	if at != f.a && at != f.b {
		c += r.cost
	}
	a := s.all[f.a].scale
	if r.scale != a && (f.b == none || s.all[f.b].scale == a) {
		c += oneTurned
	}
	return c
}

// filled goes through (b), and (c) in its form: a pour plan of k pours goes into each of n fills (n is 1 in (c)).
func (s *search) filled(f *fillPlan, fm form, n, k int, ph phase) {
	if k < 1 || k > MaxPours || ph != ofOne && k < 2 {
		return
	}
	dist, of := away(f.vol, s.want), f.ml
	if fm == formPoured {
		of = s.all[f.a].ml
	}
	limit, beta, ok := s.room(f.cost+ph.atLeast(), dist)
	if !ok || within(limit, 0) < f.relative() {
		return
	}
	lo, hi := spread(s.f[0], of, beta)
	hi = min(hi, s.all[f.a].vol-1, s.avail[0]/quantity.Volume(n))
	try := func(p *pourPlan) {
		cost := f.cost + p.cost.times(n)
		limit, beta, ok := s.room(cost, dist)
		if !ok {
			return
		}
		bias, square := p.ml/of/s.f[0]-1, f.relative()+p.relative(n)
		if math.Abs(bias) > beta+Tie || square > within(limit, bias) {
			return
		}
		s.offer(s.put(found{form: fm, fill: *f, chem: [2]pourPlan{*p}, total: f.vol}), cost, math.Abs(bias),
			math.Abs(bias)+expanded(square))
	}
	if ph != ofOne {
		s.eachPair(pairs{
			k: k, two: ph == ofTwo, not: int(f.vessel), shared: -1, lo: lo, hi: hi, cost: f.cost, dist: dist,
			square: within(limit, 0) - f.relative(), n: n,
		}, try)
		return
	}
	s.eachSingle(k, int(f.vessel), lo, hi, try)
}

// apart goes through (d): k pours of chemical, the fill plan's volume of water.
func (s *search) apart(f *fillPlan, k int, ph phase) {
	if k < 1 || k > MaxPours || ph != ofOne && k < 2 {
		return
	}
	atLeast := f.cost + isApart
	if ph == ofTwo {
		atLeast += oneVessel + oneMark
	}
	limit, beta, ok := s.room(atLeast, 0)
	if !ok {
		return
	}
	lo, hi := s.besideWater(f, beta)
	g := 1 - min(1, s.f[0]*(1+beta)) // the least share of water
	square := within(limit, 0)/(g*g) - f.y
	if lo > hi || square < 0 {
		return
	}
	try := func(p *pourPlan) { s.tryApart(f, p) }
	if ph != ofOne {
		s.eachPair(pairs{
			k: k, two: ph == ofTwo, not: -1, shared: int(f.vessel), lo: lo, hi: hi, cost: f.cost + isApart,
			square: square, own: f.z * f.z, n: 1,
		}, try)
		return
	}
	s.eachSingle(k, -1, lo, hi, try)
}

// besideWater returns how much chemical may go beside a fill plan's volume of water.
func (s *search) besideWater(f *fillPlan, beta float64) (lo, hi quantity.Volume) {
	x := s.f[0] * (1 - beta - 2*Tie)
	lo = max(1, s.lo-f.vol, quantity.Volume(x/(1-x)*float64(f.vol)*(1-Tie)))
	hi = min(s.hi-f.vol, s.avail[0])
	if x = s.f[0] * (1 + beta + 2*Tie); x < 1 {
		hi = min(hi, quantity.Volume(x/(1-x)*float64(f.vol)*(1+Tie))+1)
	}
	return lo, hi
}

func (s *search) tryApart(f *fillPlan, p *pourPlan) {
	total, shared := f.vol+p.vol, p.from(f.vessel)
	ml := f.ml + p.ml
	bias, g := p.ml/ml/s.f[0]-1, f.ml/ml
	square := f.relative() + p.relative(1)
	if shared { // the vessel's own error stands on both sides
		other := p.zb
		z := p.za
		if p.va != f.vessel {
			z, other = other, z
		}
		square = (z-f.z)*(z-f.z) + other*other + p.y + f.y
	}
	square *= g * g
	if math.Abs(bias) > s.beta+Tie || square > within(s.limit, bias) {
		return
	}
	c := f.cost + p.cost + isApart
	if shared {
		var buf [4]use
		c = isApart + s.costOf(p.addTo(f.addTo(buf[:0], 1), 1))
	}
	limit, beta, ok := s.room(c, away(total, s.want))
	if !ok || math.Abs(bias) > beta+Tie || square > within(limit, bias) {
		return
	}
	s.offer(s.put(found{form: formApart, fill: *f, chem: [2]pourPlan{*p}, total: total}), c, math.Abs(bias),
		math.Abs(bias)+expanded(square))
}
