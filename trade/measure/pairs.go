package measure

import (
	"math"

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

// eachPair gives all pour plans of two readings to try that are wanted and may be better than what was found. A plan is
// given in no special order of its readings.
func (s *search) eachPair(w pairs, try func(*pourPlan)) {
	if w.lo > w.hi {
		return
	}
	for v1 := range s.p.Vessels {
		if !s.canPour(v1, w.not) {
			continue
		}
		if !w.two {
			if v1 == w.shared || s.worth[v1] <= w.square {
				s.pairsOf(w, v1, v1, try)
			}
			continue
		}
		for v2 := v1 + 1; v2 < len(s.p.Vessels); v2++ {
			least := 1 / (1/s.worth[v1] + 1/s.worth[v2])
			if s.canPour(v2, w.not) && (v1 == w.shared || v2 == w.shared || least <= w.square) {
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
	var p pourPlan
	for i := range part1 {
		r := &part1[i]
		rest := r.vol.Times(k1)
		if rest >= w.hi {
			break
		}
		z := float64(k1) * r.t / most
		if v1 != w.shared && z*z > w.square {
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
			s.pairPlan(&p, from1+int32(i), k1, from2+int32(j), k2)
			try(&p)
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
		s.offer(&found{form: formNeat, chem: [2]pourPlan{*p}, total: p.vol}, p.cost+isApart, 0, 0)
	}
	list := s.singles(s.level)
	for i := range list {
		try(&list[i])
	}
	for ph := ofVessel; s.level > 1 && ph < phases; ph++ {
		if _, _, ok := s.room(isApart+ph.atLeast(), 0); ok {
			s.eachPair(pairs{
				k: s.level, two: ph == ofTwo, not: -1, shared: -1, lo: s.lo, hi: hi, cost: isApart, square: math.Inf(1),
			}, try)
		}
	}
}
