package measure

import (
	"cmp"
	"slices"

	"wetside/trade/quantity"
)

const none int32 = -1 // no second reading

// A fillPlan is na fills to reading a and, where b is one, nb fills to the smaller reading b of the same vessel.
type fillPlan struct {
	vol    quantity.Volume
	ml     float64
	z, y   float64 // Σ t ÷ volume; Σ h² ÷ volume²
	cost   cost
	a, b   int32
	na, nb uint8
	vessel uint8
}

// relative returns the plan's squared relative error, before the third.
func (f *fillPlan) relative() float64 { return f.z*f.z + f.y }

func (b *bench) fillPlan(a int32, na int, second int32, nb int) fillPlan {
	r := &b.all[a]
	f := fillPlan{
		vol: r.vol.Times(na), z: float64(na) * r.t, y: float64(na) * r.h * r.h, cost: r.cost + oneVessel,
		a: a, b: second, na: uint8(na), nb: uint8(nb), vessel: r.vessel,
	}
	if r.between {
		f.cost += cost(na) * oneHalf
	}
	if second != none {
		q := &b.all[second]
		f.vol += q.vol.Times(nb)
		f.z += float64(nb) * q.t
		f.y += float64(nb) * q.h * q.h
		f.cost += q.cost
		if q.between {
			f.cost += cost(nb) * oneHalf
		}
		if q.scale != r.scale {
			f.cost += oneTurned
		}
	}
	f.ml = f.vol.ML()
	f.z /= f.ml
	f.y /= f.ml * f.ml
	return f
}

// A pourPlan is ka pours of reading a and, where b is one, kb of reading b; in the forms where the chemical is read
// in the fill vessel, that reading.
type pourPlan struct {
	vol    quantity.Volume
	ml     float64
	za, zb float64 // Σ t ÷ volume, of a's vessel and of b's where that is another
	y      float64 // Σ h² ÷ volume²
	cost   cost
	a, b   int32
	ka, kb uint8
	va, vb uint8
}

// relative returns the plan's squared relative error, before the third, where it is done n times alike.
func (p *pourPlan) relative(n int) float64 { return p.za*p.za + p.zb*p.zb + p.y/float64(n) }

// from reports whether the plan pours from a vessel.
func (p *pourPlan) from(vessel uint8) bool { return p.va == vessel || p.vb == vessel }

func (b *bench) pourPlan(a int32, ka int) pourPlan {
	r := &b.all[a]
	p := pourPlan{
		vol: r.vol.Times(ka), ml: r.vol.Times(ka).ML(), za: r.z, y: r.y / float64(ka),
		cost: r.cost + oneVessel, a: a, b: none, ka: uint8(ka), va: r.vessel, vb: r.vessel,
	}
	if r.between {
		p.cost += cost(ka) * oneHalf
	}
	return p
}

// pairPlan sets p to a plan of two readings.
func (b *bench) pairPlan(p *pourPlan, a int32, ka int, second int32, kb int) {
	r, q := &b.all[a], &b.all[second]
	na, nb := float64(ka), float64(kb)
	ml := na*r.ml + nb*q.ml
	p.vol, p.ml = r.vol.Times(ka)+q.vol.Times(kb), ml
	p.za, p.zb = na*r.t/ml, nb*q.t/ml
	p.y = (na*r.h*r.h + nb*q.h*q.h) / (ml * ml)
	p.a, p.b, p.ka, p.kb, p.va, p.vb = a, second, uint8(ka), uint8(kb), r.vessel, q.vessel
	p.cost = r.cost + q.cost + oneVessel
	if r.vessel != q.vessel {
		p.cost += oneVessel
	} else {
		p.za, p.zb = p.za+p.zb, 0
		if r.scale != q.scale {
			p.cost += oneTurned
		}
	}
	if r.between {
		p.cost += cost(ka) * oneHalf
	}
	if q.between {
		p.cost += cost(kb) * oneHalf
	}
}

// alike returns the fill plans of n fills to one reading that matter, the likeliest first.
func (s *search) alike(n int) []fillPlan {
	if s.alikeMade[n] {
		return s.alikes[n]
	}
	s.alikeMade[n] = true
	list := s.spare.alikes[n][:0]
	for v := range s.p.Vessels {
		if !s.water[v] {
			continue
		}
		from := s.span[v].from
		for i, r := range s.of(v) {
			if vol := r.vol.Times(n); s.matters(vol) {
				list = append(list, s.fillPlan(from+int32(i), n, none, 0))
			}
		}
	}
	s.order(list)
	s.alikes[n], s.spare.alikes[n] = list, list
	return list
}

// mixed returns the fill plans of n fills to two readings that matter.
func (s *search) mixed(n int) []fillPlan {
	if !s.mixedMade[n] {
		s.mixedMade[n] = true
		list := slices.Grow(s.spare.mixes[n][:0], min(s.countMixed(n), 8192))
		for v := range s.p.Vessels {
			for na := 1; s.water[v] && na < n; na++ {
				list = s.mixedOf(list, v, na, n-na)
			}
		}
		s.order(list)
		s.mixes[n], s.spare.mixes[n] = list, list
	}
	return s.mixes[n]
}

// countMixed returns how many plans of n fills to two readings there are at most.
func (s *search) countMixed(n int) (count int) {
	for v := range s.p.Vessels {
		part := s.of(v)
		for na := 1; s.water[v] && na < n; na++ {
			k := quantity.Volume(n - na)
			for i := range part {
				rest := part[i].vol.Times(na)
				low, high := (s.leastFill-rest+k-1)/k, (s.hi-rest)/k+1
				if rest+part[i].vol*k >= s.leastFill && high > 0 {
					count += max(0, atLeast(part[:i], high)-atLeast(part[:i], low))
				}
			}
		}
	}
	return count
}

// mixedOf adds the plans of na fills to a reading of v and nb to a smaller one.
func (s *search) mixedOf(list []fillPlan, v, na, nb int) []fillPlan {
	from, part := s.span[v].from, s.of(v)
	k := quantity.Volume(nb)
	for i := range part {
		rest := part[i].vol.Times(na)
		if rest+part[i].vol*k < s.leastFill {
			continue
		}
		c := oneVessel + part[i].cost + oneMark
		if _, _, ok := s.room(c, 0); !ok {
			continue
		}
		last, good := oneMark, true // the cost of the last reading, and whether that can better anything
		for j := atLeast(part[:i], (s.leastFill-rest+k-1)/k); j < i; j++ {
			vol := rest + part[j].vol*k
			if vol > s.hi {
				break
			}
			if !s.matters(vol) {
				continue
			}
			if part[j].cost != last {
				last = part[j].cost
				_, _, good = s.room(c-oneMark+last, 0)
			}
			if good {
				list = append(list, s.fillPlan(from+int32(i), na, from+int32(j), nb))
			}
		}
	}
	return list
}

// matters reports whether a fill plan's volume may be a total, or the water of one.
func (s *search) matters(vol quantity.Volume) bool {
	return vol >= s.lo && vol <= s.hi || vol >= s.leastFill && vol <= s.mostFill
}

// order puts the plans first that are likely to win, so that the others are soon left out.
func (s *search) order(list []fillPlan) {
	if len(list) > 1024 {
		return
	}
	slices.SortFunc(list, func(x, y fillPlan) int {
		if x.cost != y.cost {
			return cmp.Compare(x.cost, y.cost)
		}
		return cmp.Compare(away(x.vol, s.want), away(y.vol, s.want))
	})
}

// atLeast returns the index of the first reading of at least a volume.
func atLeast(list []reading, vol quantity.Volume) int {
	i, j := 0, len(list)
	for i < j {
		if h := (i + j) / 2; list[h].vol < vol {
			i = h + 1
		} else {
			j = h
		}
	}
	return i
}

// A singling holds all pour plans of one reading, by volume, once they have been asked for often.
type singling struct {
	asked int
	plans []pourPlan
}

// eachSingle gives the plans of k pours of one reading that matter, of vessels but one (-1: of all), between two volumes.
func (s *search) eachSingle(k, not int, lo, hi quantity.Volume, try func(*pourPlan)) {
	q := &s.singlings[k]
	if q.asked++; q.asked <= often {
		s.singlesAnew(k, not, lo, hi, try)
		return
	}
	if q.plans == nil {
		q.plans = slices.Grow(s.spare.singles[k][:0], 1)
		s.singlesAnew(k, -1, s.leastPour, s.mostPour, func(p *pourPlan) { q.plans = append(q.plans, *p) })
		slices.SortFunc(q.plans, func(x, y pourPlan) int { return cmp.Compare(x.vol, y.vol) })
		s.spare.singles[k] = q.plans
	}
	for i := pourFrom(q.plans, lo); i < len(q.plans) && q.plans[i].vol <= hi; i++ {
		if int(q.plans[i].va) != not {
			try(&q.plans[i])
		}
	}
}

// singlesAnew is eachSingle without the list.
func (s *search) singlesAnew(k, not int, lo, hi quantity.Volume, try func(*pourPlan)) {
	lo, hi = max(lo, s.leastPour), min(hi, s.mostPour)
	p, n := &s.single, quantity.Volume(k)
	for v := range s.p.Vessels {
		if v == not || !s.chem[v] || k > 1 && s.p.Vessels[v].Kind == Balance {
			continue
		}
		from, part := s.span[v].from, s.of(v)
		for i := atLeast(part, (lo+n-1)/n); i < len(part) && part[i].vol*n <= hi; i++ {
			*p = s.pourPlan(from+int32(i), k)
			try(p)
		}
	}
}

// pourFrom returns the index of the first plan of at least a volume.
func pourFrom(list []pourPlan, vol quantity.Volume) int {
	i, j := 0, len(list)
	for i < j {
		if h := (i + j) / 2; list[h].vol < vol {
			i = h + 1
		} else {
			j = h
		}
	}
	return i
}
