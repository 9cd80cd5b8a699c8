package book

import (
	"cmp"
	"slices"
	"time"

	"wetside/darkroom"
)

// A Pair is two-bath fixing through its changes: the baths that stood together, one after the other.
//
// Baths belong together where a mix names the other in its pair, where one moved forward to the place of the other, and
// where a load went from one in the first place straight into one in the second.
type Pair struct {
	Baths         []string // all that have belonged to it, the earliest mixed first
	First, Second string   // in their places now, the latest mixed where several are; empty: none
	Changes       int      // how often the second has become the first
	Since         time.Time
	Made          Made    // how well Since is known
	Totals        []Total // by material, each load once, what the firsts had before the book among them
}

// kin groups ids.
type kin map[string]string

func (k kin) of(id string) string {
	for k[id] != "" && k[id] != id {
		id = k[id]
	}
	return id
}

func (k kin) join(a, b string) {
	a, b = k.of(a), k.of(b)
	root := min(a, b)
	k[a], k[b], k[root] = root, root, root
}

// pairs returns the pair of every bath that has one.
func (s *State) pairs() map[string]*Pair {
	k, firsts, seconds := kin{}, map[string]bool{}, map[string]bool{}
	for id := range s.baths {
		m, _ := s.mix(id)
		if m == nil {
			continue
		}
		switch m.bath.Place {
		case darkroom.BathFirst:
			firsts[id] = true
			k.join(id, id)
		case darkroom.BathSecond:
			seconds[id] = true
			k.join(id, id)
		case darkroom.BathOne:
		}
		if other := m.bath.Mixed.Pair; other != "" {
			k.join(id, other)
		}
	}
	moves := s.moves()
	for _, m := range moves {
		firsts[m.First] = true
		firsts[m.Second], seconds[m.Second] = true, true
		k.join(m.First, m.Second)
	}
	s.joinLoads(k, firsts, seconds)
	groups := map[string][]string{}
	for id := range k {
		groups[k.of(id)] = append(groups[k.of(id)], id)
	}
	pairs := map[string]*Pair{}
	for _, ids := range groups {
		p := s.pair(ids)
		for _, m := range moves {
			if k.of(m.First) == k.of(ids[0]) {
				p.Changes++
			}
		}
		for _, id := range ids {
			pairs[id] = p
		}
	}
	return pairs
}

// moves returns the standing moves, each once.
func (s *State) moves() []Move {
	var all []Move
	for id, list := range s.deeds {
		for _, d := range list {
			if m, ok := d.did.(Move); ok && m.First == id && s.corrections.stands(d.entry) {
				all = append(all, m)
			}
		}
	}
	return all
}

// joinLoads joins baths that a load went through, first and second.
func (s *State) joinLoads(k kin, firsts, seconds map[string]bool) {
	for id := range firsts {
		for _, d := range s.deeds[id] {
			load, ok := d.did.(Load)
			if !ok || !s.corrections.stands(d.entry) {
				continue
			}
			for i := range len(load.Through) - 1 {
				if load.Through[i] == id && seconds[load.Through[i+1]] {
					k.join(id, load.Through[i+1])
				}
			}
		}
	}
}

// pair tells the life of the pair of these baths.
func (s *State) pair(ids []string) *Pair {
	s.byMix(ids)
	p := &Pair{Baths: ids}
	sums, strip := newSums(), s.roomStrip()
	for _, id := range ids {
		m, _ := s.mix(id)
		if m == nil {
			continue
		}
		if p.Since.IsZero() {
			p.Since, p.Made = m.bath.MixedAt, m.bath.Made
		}
		if m.bath.Made == MadeUnknown {
			p.Made = MadeUnknown
		}
		if m.bath.Place != darkroom.BathSecond {
			for _, before := range m.bath.Before {
				sums.add(before.measured(strip), true)
			}
		}
		if s.leaving(id) != nil {
			continue
		}
		switch s.placeNow(id, m) {
		case darkroom.BathFirst:
			p.First = id
		case darkroom.BathSecond:
			p.Second = id
		case darkroom.BathOne:
		}
	}
	for _, d := range s.loadsThrough(ids) {
		pass := d.did.(Load).measured(strip)
		sums.add(pass, pass.Estimated)
	}
	p.Totals = sums.list()
	return p
}

// byMix sorts ids by the moment that the baths were mixed; those that never were come last.
func (s *State) byMix(ids []string) {
	slices.SortFunc(ids, func(a, b string) int {
		m, _ := s.mix(a)
		n, _ := s.mix(b)
		switch {
		case m != nil && n != nil:
			return cmp.Or(m.compare(&n.moment), cmp.Compare(a, b))
		case m != nil:
			return -1
		case n != nil:
			return 1
		}
		return cmp.Compare(a, b)
	})
}

// placeNow returns a bath's place: first once it has moved forward.
func (s *State) placeNow(id string, m *making) darkroom.Bath {
	for _, d := range s.deeds[id] {
		if move, ok := d.did.(Move); ok && move.Second == id && s.corrections.stands(d.entry) {
			return darkroom.BathFirst
		}
	}
	return m.bath.Place
}

// loadsThrough returns the standing loads through any of the baths, each once, in order.
func (s *State) loadsThrough(ids []string) []*deed {
	var all []*deed
	seen := map[*deed]bool{}
	for _, id := range ids {
		for _, d := range s.deeds[id] {
			if _, ok := d.did.(Load); ok && !seen[d] && s.corrections.stands(d.entry) {
				seen[d] = true
				all = append(all, d)
			}
		}
	}
	slices.SortFunc(all, func(a, b *deed) int { return a.compare(&b.moment) })
	return all
}
