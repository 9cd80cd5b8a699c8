package measure

import (
	"math"

	"wetside/trade/quantity"
)

// A via is what is chosen so far of a choice by an intermediate dilution.
type via struct {
	fill   *fillPlan
	p      pourPlan // of the intermediate
	dist   quantity.Volume
	cost   cost    // of both
	square float64 // squared relative error of both, before the third
	clean  bool    // look at numbered marks of the reader's own system only
	same   bool    // look at choices that read chemical and intermediate at one mark, else at the others
}

// lookVia goes through (f) with s.level readings. Clean marks come first, and so do choices with a mark less, so that
// most of the others need not be looked at.
func (s *search) lookVia() {
	for _, clean := range [...]bool{true, false} {
		if clean && s.goal != toChoose {
			continue
		}
		for _, same := range [...]bool{true, false} {
			for k := 1; k <= MaxPours; k++ {
				n := s.level - 2 - k
				if n < 1 || n > MaxJugfuls {
					continue
				}
				s.lookViaFills(s.alike(n), k, clean, same)
				if n > 1 {
					s.lookViaFills(s.mixed(n), k, clean, same)
				}
			}
		}
	}
}

// clean reports whether readings of this cost are all numbered, on marks and in the reader's own system.
func (c cost) clean() bool { return c%oneMark == 0 && c%oneVessel/oneHalf == 0 }

func (s *search) lookViaFills(list []fillPlan, k int, clean, same bool) {
	for i := range list {
		f := &list[i]
		if s.cancelled() {
			return
		}
		if f.vol < s.lo || !s.mix[f.vessel] || clean && !f.cost.clean() {
			continue
		}
		w := via{fill: f, dist: away(f.vol, s.want), clean: clean, same: same, square: f.relative()}
		least := 2*oneVessel + 2*oneMark
		if !same {
			least += oneMark
		}
		if limit, _, ok := s.room(f.cost+least, w.dist); !ok || within(limit, 0) < w.square+s.thin {
			continue
		}
		s.pourVia(w, k)
	}
}

// pourVia goes through the pours of the intermediate.
func (s *search) pourVia(w via, k int) {
	square, least := w.square, w.fill.cost+oneVessel+oneMark
	if !w.same {
		least += oneMark
	}
	limit, _, _ := s.room(least, w.dist)
	budget := within(limit, 0) - square - s.thin
	for v := range s.p.Vessels {
		if v == int(w.fill.vessel) || !s.canPour(v, -1) || s.fine[v] > budget {
			continue
		}
		from, part := s.span[v].from, s.of(v)
		for i := range part {
			r := &part[i]
			if r.vol.Times(k) >= s.all[w.fill.a].vol {
				break
			}
			if r.z*r.z+r.y/float64(k) > budget || w.clean && (r.between || !r.cost.clean()) {
				continue
			}
			w.p = s.pourPlan(from+int32(i), k)
			w.cost, w.square = w.fill.cost+w.p.cost, square+w.p.relative(1)
			limit, beta, ok := s.room(least+w.p.cost, w.dist)
			if !ok || w.square+s.thin > within(limit, 0) {
				continue
			}
			s.fillVia(&w, limit, beta)
		}
	}
}

// fillVia goes through the vessels in which the intermediate is made up.
func (s *search) fillVia(w *via, limit, beta float64) {
	share := s.f[0] * w.fill.ml / w.p.ml // of the chemical in the intermediate
	budget := within(limit, 0) - w.square
	for v := range s.p.Vessels {
		if v == int(w.fill.vessel) || v == int(w.p.va) || !s.mix[v] {
			continue
		}
		part := s.of(v)
		if w.same {
			s.fillViaSame(w, v, share, beta)
			continue
		}
		if !s.p.WaterFirst && 2*s.steady[v] <= budget {
			s.readVia(w, v, v, share, part, budget)
		}
		for r := range s.p.Vessels {
			if r != v && r != int(w.fill.vessel) && s.canPour(r, -1) && s.sure[r]+s.sure[v] <= budget {
				s.readVia(w, v, r, share, part, budget-s.sure[r])
			}
		}
	}
}

// fillViaSame goes through the intermediates of vessel v whose chemical is read where the intermediate is, too.
func (s *search) fillViaSame(w *via, v int, share, beta float64) {
	r := &s.all[w.p.a]
	if r.vol > s.avail[0] {
		return
	}
	part, from := s.of(v), s.span[v].from
	unit := float64(quantity.Millilitre)
	lo := max(w.p.vol, r.vol+1, quantity.Volume(r.ml/share/(1+beta+2*Tie)*unit))
	hi := quantity.Volume(min(r.ml/share/max(1-beta-2*Tie, Tie), MaxVessel.ML())*unit) + 1
	for i := atLeast(part, lo); i < len(part) && part[i].vol <= hi; i++ {
		s.tryVia(w, formViaPour, w.p.a, from+int32(i))
	}
}

// readVia goes through the intermediates of vessel v whose chemical is read in vessel rv.
func (s *search) readVia(w *via, v, rv int, share float64, part []reading, budget float64) {
	least := w.cost + oneVessel + 2*oneMark
	if rv != int(w.p.va) && v != rv {
		least += oneVessel
	}
	if _, _, ok := s.room(least, w.dist); !ok {
		return
	}
	reads, from, rfrom := s.of(rv), s.span[v].from, s.span[rv].from
	for i := atLeast(part, w.p.vol); i < len(part); i++ {
		q := &part[i]
		if w.clean && (q.between || !q.cost.clean()) {
			continue
		}
		if q.y > budget || v != rv && q.y+q.z*q.z > budget {
			continue
		}
		_, beta, ok := s.room(least-oneMark+q.cost, w.dist)
		if !ok {
			continue
		}
		lo, hi := spread(share, q.ml, beta)
		hi = min(hi, q.vol-1, s.avail[0])
		for j := atLeast(reads, lo); j < len(reads) && reads[j].vol <= hi; j++ {
			if w.clean && (reads[j].between || !reads[j].cost.clean()) {
				continue
			}
			at, fm := rfrom+int32(j), formViaPour
			if v == rv {
				fm = formViaJug
			}
			if at != w.p.a {
				s.tryVia(w, fm, at, from+int32(i))
			}
		}
	}
}

// tryVia offers the choice of a chemical's reading r and an intermediate's q.
func (s *search) tryVia(w *via, fm form, r, q int32) {
	a, b := &s.all[r], &s.all[q]
	if w.clean && (b.between || !b.cost.clean()) {
		return
	}
	c := w.cost + b.cost + oneVessel
	if a.between {
		c += oneHalf
	}
	if b.between {
		c += oneHalf
	}
	zz := a.z*a.z + b.z*b.z
	switch {
	case fm == formViaJug:
		zz = (a.z - b.z) * (a.z - b.z)
		c += a.cost
		if a.scale != b.scale {
			c += oneTurned
		}
	case a.vessel == w.p.va:
		zz += 2 * a.z * w.p.za
		if r != w.p.a {
			c += a.cost
		}
		if a.scale != s.all[w.p.a].scale {
			c += oneTurned
		}
	default:
		c += a.cost + oneVessel
	}
	limit, beta, ok := s.room(c, w.dist)
	if !ok {
		return
	}
	bias := a.ml / b.ml * w.p.ml / w.fill.ml / s.f[0]
	size := math.Abs(bias - 1)
	square := w.square + zz + a.y + b.y
	if size > beta+Tie || square > within(limit, size) {
		return
	}
	f := s.put(found{form: fm, fill: *w.fill, chem: [2]pourPlan{w.p}, r: r, q: q, total: w.fill.vol})
	s.offer(f, c, size, size+expanded(square))
}
