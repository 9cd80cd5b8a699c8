package measure

import (
	"cmp"
	"math"
	"slices"

	"wetside/trade/quantity"
)

// A portion is a pour plan of one of two chemicals with what it makes of that chemical's share.
type portion struct {
	pourPlan
	stray, e float64 // |bias|, and |bias| + U
}

// makeTwo goes through what can be made with a plan of n fills and two chemicals. Plans of two readings, in whichever
// vessels, have the last phase.
func (s *search) makeTwo(f *fillPlan, n int, ph phase) {
	if ph == ofVessel {
		return
	}
	rest := s.level - n
	if f.vol >= s.lo && s.mix[f.vessel] {
		if ph == ofOne && !s.p.WaterFirst {
			if f.b == none && rest == 2*n {
				s.twoInJug(f, formInJug, n)
			}
			if n > 1 && rest == 2 {
				s.twoInJug(f, formFirstInJug, 1)
			}
		}
		if f.b == none && rest%n == 0 {
			s.eachSplit(rest/n, ph, func(ka, kb int) { s.twoFilled(f, formPoured, n, ka, kb) })
		}
		if n > 1 {
			s.eachSplit(rest, ph, func(ka, kb int) { s.twoFilled(f, formFirstPoured, 1, ka, kb) })
		}
	}
	s.eachSplit(rest, ph, func(ka, kb int) { s.twoApart(f, ka, kb) })
}

// eachSplit gives the ways to share k pours between two chemicals that a phase goes through: in the first phase of one
// reading each, in the last all.
func (s *search) eachSplit(k int, ph phase, try func(ka, kb int)) {
	for ka := 1; ka <= MaxPours && ka < k; ka++ {
		if kb := k - ka; kb <= MaxPours && (ph == ofOne || k > 2) {
			s.onlyPairs = ph != ofOne
			try(ka, kb)
		}
	}
}

// twoInJug goes through (a), and (c) in its form, for two chemicals, each time done n times.
func (s *search) twoInJug(f *fillPlan, fm form, n int) {
	dist, of := away(f.vol, s.want), f.ml/float64(n)
	_, beta, ok := s.room(f.cost, dist)
	if !ok {
		return
	}
	part, from := s.of(int(f.vessel)), s.span[f.vessel].from
	lo, hi := spread(s.f[0], of, beta)
	hi = min(hi, s.avail[0]/quantity.Volume(n))
	for i := atLeast(part, lo); i < len(part) && part[i].vol <= hi; i++ {
		lo2, hi2 := spread(s.f[1], of, beta)
		lo2, hi2 = lo2+part[i].vol, min(hi2, s.avail[1]/quantity.Volume(n))+part[i].vol
		hi2 = min(hi2, s.all[f.a].vol-1)
		for j := max(i+1, atLeast(part, lo2)); j < len(part) && part[j].vol <= hi2; j++ {
			if part[j].vol > part[i].vol {
				s.weigh(s.put(found{
					form: fm, fill: *f, total: f.vol,
					chem: [2]pourPlan{s.pourPlan(from+int32(i), 1), s.pourPlan(from+int32(j), 1)},
				}))
			}
		}
	}
}

// weigh reckons a choice from its readings and offers it.
func (s *search) weigh(f *found) {
	var buf [8]use
	uses := s.uses(f, buf[:0])
	c := s.costOf(uses)
	if f.apart() {
		c += isApart
	}
	limit, beta, ok := s.room(c, away(f.total, s.want))
	for i := range s.chemicals() {
		ok = ok && math.Abs(s.exactBias(f, i)) <= beta+Tie
	}
	if !ok {
		return
	}
	if j := s.judge(f, uses); j.e <= limit+Tie {
		s.offer(f, c, j.stray, j.e)
	}
}

// twoFilled goes through (b), and (c) in its form, for two chemicals.
func (s *search) twoFilled(f *fillPlan, fm form, n, ka, kb int) {
	dist, of := away(f.vol, s.want), f.ml
	if fm == formPoured {
		of = s.all[f.a].ml
	}
	c := f.cost + oneVessel + oneMark // both chemicals may be read at one mark
	limit, beta, ok := s.room(c, dist)
	if !ok || within(limit, 0) < f.relative() {
		return
	}
	s.portions[0] = s.portionsOf(s.portions[0][:0], f, 0, n, ka, of, limit, beta)
	if len(s.portions[0]) == 0 {
		return
	}
	s.portions[1] = s.portionsOf(s.portions[1][:0], f, 1, n, kb, of, limit, beta)
	if len(s.portions[1]) == 0 {
		return
	}
	for i := range s.portions[0] {
		a := &s.portions[0][i]
		if s.hopeless(f, a, dist) {
			break
		}
		for j := range s.portions[1] {
			b := &s.portions[1][j]
			if s.hopeless(f, b, dist) {
				break
			}
			if a.vol+b.vol < s.all[f.a].vol && s.wanted(&a.pourPlan, &b.pourPlan) {
				s.tryTwo(f, fm, a, b, dist)
			}
		}
	}
}

// hopeless reports whether no portion from this one on can be part of a better choice.
func (s *search) hopeless(f *fillPlan, p *portion, dist quantity.Volume) bool {
	if s.goal == leastError {
		return p.e >= s.limit
	}
	_, _, ok := s.room(f.cost+p.cost, dist)
	return !ok
}

// wanted reports whether a pair of plans belongs to this phase.
func (s *search) wanted(a, b *pourPlan) bool { return !s.onlyPairs || a.b != none || b.b != none }

func (s *search) tryTwo(f *fillPlan, fm form, a, b *portion, dist quantity.Volume) {
	e, stray := max(a.e, b.e), max(a.stray, b.stray)
	c := f.cost + max(a.cost, b.cost)
	limit, beta, ok := s.room(c, dist)
	if !ok || e > limit+Tie || stray > beta+Tie {
		return
	}
	if b.from(a.va) || b.from(a.vb) {
		var buf [6]use
		c = s.costOf(b.addTo(a.addTo(f.addTo(buf[:0], 1), f.share(fm)), f.share(fm)))
	} else {
		c = f.cost + a.cost + b.cost
	}
	if limit, beta, ok = s.room(c, dist); !ok || e > limit+Tie || stray > beta+Tie {
		return
	}
	s.offer(s.put(found{form: fm, fill: *f, chem: [2]pourPlan{a.pourPlan, b.pourPlan}, total: f.vol}), c, stray, e)
}

// share returns how many of the plan's fills take chemical.
func (f *fillPlan) share(fm form) int {
	if fm == formPoured {
		return int(f.na)
	}
	return 1
}

// portionsOf adds chemical i's plans of k pours for a fill plan, the likeliest first.
func (s *search) portionsOf(
	out []portion, f *fillPlan, i, n, k int, of, limit, beta float64,
) []portion {
	lo, hi := spread(s.f[i], of, beta)
	hi = min(hi, s.all[f.a].vol-1, s.avail[i]/quantity.Volume(n))
	try := func(p *pourPlan) {
		stray := math.Abs(p.ml/of/s.f[i] - 1)
		square := f.relative() + p.relative(n)
		if !p.from(f.vessel) && stray <= beta+Tie && square <= within(limit, stray) {
			c := *p
			c.cost = c.cost.times(n)
			out = append(out, portion{c, stray, stray + expanded(square)})
		}
	}
	s.eachPlan(k, n, int(f.vessel), lo, hi, within(limit, 0)-f.relative(), try)
	slices.SortStableFunc(out, func(a, b portion) int {
		if a.cost != b.cost && s.goal != leastError {
			return cmp.Compare(a.cost, b.cost)
		}
		return cmp.Compare(a.e, b.e)
	})
	return out
}

// eachPlan gives the plans of k pours between two volumes, in the last phase those of two readings, too.
func (s *search) eachPlan(k, n, not int, lo, hi quantity.Volume, square float64, try func(*pourPlan)) {
	s.eachSingle(k, not, lo, hi, try)
	if s.onlyPairs && k > 1 {
		for _, two := range [...]bool{false, true} {
			s.eachPair(pairs{k: k, two: two, not: not, shared: -1, lo: lo, hi: hi, square: square, n: n}, try)
		}
	}
}
