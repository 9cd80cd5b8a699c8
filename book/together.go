package book

import (
	"slices"

	"wetside/darkroom"
)

// hold takes out the baths that something awake hangs on, until none is left, and then the prints of what stays awake.
func (r *rester) hold() {
	s := r.s
	r.pairs = s.pairs()
	r.findMates()
	stays := func(id string) bool {
		return !r.baths[id] && (len(s.baths[id]) > 0 || len(s.deeds[id]) > 0)
	}
	with := map[string][]string{}
	for id := range r.baths {
		with[id] = r.kin(id, func(load Load, i int) int { return i + 1 })
	}
	for again := true; again; {
		again = false
		for id := range r.baths {
			if slices.ContainsFunc(with[id], stays) {
				delete(r.baths, id)
				again = true
			}
		}
	}
	for id := range r.prints {
		for _, of := range s.prints[id].names() {
			if of.kind == aBath && stays(of.id) || of.kind == aBatch && !r.batches[of.id] && len(s.batches[of.id]) > 0 {
				delete(r.prints, id)
			}
		}
	}
}

// kin returns the baths of a bath's pair, and those that stood beside it in loads, on the side that beside says.
func (r *rester) kin(id string, beside func(load Load, i int) int) []string {
	var all []string
	if p := r.pairs[id]; p != nil {
		for _, mate := range p.Baths {
			all = once(all, mate, id)
		}
	}
	for _, mate := range r.mates[id] {
		all = once(all, mate, id)
	}
	placed := r.placed(id)
	for _, d := range r.s.deeds[id] {
		load, is := d.did.(Load)
		if !is {
			continue
		}
		for i, at := range load.Through {
			if at != id {
				continue
			}
			if j := beside(load, i); j >= 0 && j < len(load.Through) {
				all = once(all, load.Through[j], id)
			}
			for _, j := range [2]int{i - 1, i + 1} {
				if placed && j >= 0 && j < len(load.Through) && r.placed(load.Through[j]) {
					all = once(all, load.Through[j], id)
				}
			}
		}
	}
	return all
}

// findMates notes which baths mixes name as pairs: which mix holds can change by a correction, and with it the pair.
func (r *rester) findMates() {
	r.mates = map[string][]string{}
	for id, list := range r.s.baths {
		for i := range list {
			if mate := list[i].bath.Mixed.Pair; mate != "" {
				r.mates[id] = once(r.mates[id], mate, id)
				r.mates[mate] = once(r.mates[mate], id, mate)
			}
		}
	}
}

// placed reports whether a bath was ever said to be one of two: such baths side by side in a load can be a pair.
func (r *rester) placed(id string) bool {
	list := r.s.baths[id]
	for i := range list {
		if list[i].bath.Place != darkroom.BathOne {
			return true
		}
	}
	return slices.ContainsFunc(r.s.deeds[id], func(d *deed) bool { _, moves := d.did.(Move); return moves })
}
