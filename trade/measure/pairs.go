package measure

import (
	"cmp"
	"math"
	"slices"

	"wetside/trade/quantity"
)

// pairs says which pour plans of two readings are wanted.
type pairs struct {
	k      int  // pours
	two    bool // from two vessels, else both from one
	not    int  // a vessel that is not poured from; -1: none
	shared int  // a vessel that the choice reads anyway; -1: none
	lo, hi quantity.Volume
	cost   cost // of the rest of the choice
	dist   quantity.Volume
	square float64 // the largest squared relative error of the plan, before the third
	own    float64 // what of it is taken where the plan does not pour from the shared vessel
	n      int     // how many times the plan is done alike
}

// atLeast returns what a pour plan costs at least, in vessels that the choice does not read anyway.
func (ph phase) atLeast() cost {
	switch ph {
	case ofOne, phases:
		return oneVessel + oneMark
	case ofVessel:
		return oneVessel + 2*oneMark
	case ofTwo:
		return 2*oneVessel + 2*oneMark
	}
	return 0
}

// A pairing holds all pour plans of two readings for one jugful, by volume, once they have been asked for often.
type pairing struct {
	asked   int
	made    bool
	plans   []pourPlan
	vols    []quantity.Volume // of plans
	squares []float64         // squared relative error of plans, before the third
}

// often is how many times plans are looked up anew before all are laid out.
const often = 24

// eachPair gives all pour plans of two readings to try that are wanted and may be better than what was found. A plan is
// given in no special order of its readings.
func (s *search) eachPair(w pairs, try func(*pourPlan)) {
	if w.lo > w.hi {
		return
	}
	ph := ofVessel
	if w.two {
		ph = ofTwo
	}
	most, shared := w.square-w.own, w.shared >= 0 && s.canPour(w.shared, w.not)
	if most < 0 {
		if shared {
			s.eachShared(w, ph, try)
		}
		return
	}
	q := &s.pairings[w.k][ph]
	if q.asked++; w.n > 1 || q.asked <= often {
		s.pairsAnew(w, false, try)
		return
	}
	if !q.made {
		q.made = true
		s.layOut(q, w, -1)
	}
	i, _ := slices.BinarySearch(q.vols, w.lo)
	for ; i < len(q.vols) && q.vols[i] <= w.hi; i++ {
		if q.squares[i] > most {
			continue
		}
		p := &q.plans[i]
		if int(p.va) != w.not && int(p.vb) != w.not && int(p.va) != w.shared && int(p.vb) != w.shared {
			try(p)
		}
	}
	if shared {
		s.eachShared(w, ph, try)
	}
}

// eachShared is eachPair for the plans that pour from the shared vessel, whose own error may cancel.
func (s *search) eachShared(w pairs, ph phase, try func(*pourPlan)) {
	if s.shared == nil {
		s.shared = make([]pairing, len(s.p.Vessels)*(MaxPours+1)*int(phases))
	}
	q := &s.shared[(w.shared*(MaxPours+1)+w.k)*int(phases)+int(ph)]
	if q.asked++; q.asked <= often {
		s.pairsAnew(w, true, try)
		return
	}
	if !q.made {
		q.made = true
		s.layOut(q, w, w.shared)
	}
	i, _ := slices.BinarySearch(q.vols, w.lo)
	for ; i < len(q.vols) && q.vols[i] <= w.hi; i++ {
		if q.squares[i] <= w.square {
			try(&q.plans[i])
		}
	}
}

// layOut lays out the plans for one jugful, of whatever volume may be wanted, but for those that err too much; with a
// shared vessel only those that pour from it, whose own error is left out.
func (s *search) layOut(q *pairing, w pairs, shared int) {
	limit, beta, ok := s.room(0, 0)
	if !ok {
		return
	}
	all := pairs{k: w.k, two: w.two, not: -1, shared: shared, n: 1}
	least := s.f[0]
	if s.two {
		least = min(least, s.f[1])
	}
	all.lo, _ = spread(least, s.lo.ML(), beta)
	_, all.hi = spread(max(s.f[0], s.f[1]), s.hi.ML(), beta)
	g := 1 - min(1, s.sum*(1+beta))
	all.square = within(limit, 0) / (g * g)
	s.pairsAnew(all, shared >= 0, func(p *pourPlan) {
		if p.beside(shared) <= all.square {
			q.plans = append(q.plans, *p)
		}
	})
	slices.SortFunc(q.plans, func(x, y pourPlan) int { return cmp.Compare(x.vol, y.vol) })
	q.vols, q.squares = make([]quantity.Volume, len(q.plans)), make([]float64, len(q.plans))
	for i := range q.plans {
		q.vols[i], q.squares[i] = q.plans[i].vol, q.plans[i].beside(shared)
	}
}

// beside returns the plan's squared relative error, before the third, but for the own error of a vessel.
func (p *pourPlan) beside(vessel int) float64 {
	square := p.y
	if int(p.va) != vessel {
		square += p.za * p.za
	}
	if int(p.vb) != vessel {
		square += p.zb * p.zb
	}
	return square
}

// pairsAnew goes through the pour plans of two readings; of two vessels it may be that only those that pour from the
// shared vessel are wanted.
func (s *search) pairsAnew(w pairs, onlyShared bool, try func(*pourPlan)) {
	for v1 := range s.p.Vessels {
		if !s.canPour(v1, w.not) {
			continue
		}
		if !w.two {
			if v1 == w.shared || !onlyShared && s.worth[v1] <= w.square-w.own {
				s.pairsOf(w, v1, v1, try)
			}
			continue
		}
		for v2 := v1 + 1; v2 < len(s.p.Vessels); v2++ {
			shared := v1 == w.shared || v2 == w.shared
			if !s.canPour(v2, w.not) || onlyShared && !shared {
				continue
			}
			if shared || 1/(1/s.worth[v1]+1/s.worth[v2]) <= w.square-w.own {
				s.pairsOf(w, v1, v2, try)
			}
		}
	}
}

// canPour reports whether chemical may be poured from a vessel more than once.
func (s *search) canPour(v, not int) bool {
	return v != not && s.chem[v] && s.p.Vessels[v].Kind != Balance
}

// pairsOf gives the plans of a reading of v1 and one of v2.
func (s *search) pairsOf(w pairs, v1, v2 int, try func(*pourPlan)) {
	base := w.cost
	if v1 != w.shared && v2 != w.shared {
		w.square -= w.own
	}
	if v1 != w.shared {
		base += oneVessel + oneMark
	}
	if v2 != w.shared {
		base += oneMark
		if v2 != v1 {
			base += oneVessel
		}
	}
	for k1 := 1; k1 < w.k; k1++ {
		if v1 == v2 && k1 < w.k-k1 {
			continue
		}
		s.pairsSplit(w, v1, v2, k1, base, try)
	}
}

// pairsSplit gives the plans of k1 pours of a reading of v1 and the rest of one of v2.
func (s *search) pairsSplit(w pairs, v1, v2, k1 int, base cost, try func(*pourPlan)) {
	part1, part2 := s.of(v1), s.of(v2)
	from1, from2 := s.span[v1].from, s.span[v2].from
	k2 := w.k - k1
	most := w.hi.ML()
	p := &s.pour
	for i := range part1 {
		r := &part1[i]
		rest := r.vol.Times(k1)
		if rest >= w.hi {
			break
		}
		z, y := float64(k1)*r.t/most, r.h/most
		if v1 == w.shared {
			z = 0
		}
		if z*z+float64(k1)*y*y/float64(w.n) > w.square {
			continue
		}
		c := base
		if v1 != w.shared {
			c += r.cost - oneMark
		}
		if r.between {
			c += cost(k1) * oneHalf
		}
		if _, _, ok := s.room(c, w.dist); !ok {
			continue
		}
		end := len(part2)
		if v1 == v2 && k1 == k2 {
			end = i
		}
		low := (w.lo - rest + quantity.Volume(k2) - 1) / quantity.Volume(k2)
		for j := atLeast(part2[:end], low); j < end && rest+part2[j].vol.Times(k2) <= w.hi; j++ {
			if v1 == v2 && i == j {
				continue
			}
			s.pairPlan(p, from1+int32(i), k1, from2+int32(j), k2)
			try(p)
		}
	}
}

// neat goes through the pour plans of an undiluted chemical: nothing in them strays.
func (s *search) neat() {
	if s.level > MaxJugfuls {
		return
	}
	hi := min(s.hi, s.avail[0])
	try := func(p *pourPlan) {
		if p.vol < s.lo || p.vol > hi || s.p.Vessels[p.va].Kind == Balance {
			return
		}
		s.offer(s.put(found{form: formNeat, chem: [2]pourPlan{*p}, total: p.vol}), p.cost+isApart, 0, 0)
	}
	s.eachSingle(s.level, -1, s.lo, hi, try)
	for ph := ofVessel; s.level > 1 && ph < phases; ph++ {
		if _, _, ok := s.room(isApart+ph.atLeast(), 0); ok {
			s.eachPair(pairs{
				k: s.level, two: ph == ofTwo, not: -1, shared: -1, lo: s.lo, hi: hi, cost: isApart, square: math.Inf(1), n: 1,
			}, try)
		}
	}
}
