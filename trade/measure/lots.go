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
	slices.SortStableFunc(groups, func(g, h lotGroup) int { return g.plans[0].compareKind(h.plans[0]) })
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

// lotFrom returns the index of the first plan of at least a volume.
func lotFrom(list []lotPlan, vol quantity.Volume) int {
	i, _ := slices.BinarySearchFunc(list, vol, func(p lotPlan, v quantity.Volume) int { return cmp.Compare(p.vol, v) })
	return i
}
