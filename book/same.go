package book

import (
	"maps"
	"slices"
)

// Differs returns what two states of the same position were not told by the same entries, in words for the log and in order: none
// where both say the same, whatever of them rests.
func (s *State) Differs(other *State) []string {
	if s.position != other.position {
		return []string{"position"}
	}
	a, b := s.told(), other.told()
	all := maps.Clone(a)
	maps.Copy(all, b)
	var differ []string
	for key := range all {
		if a[key] != b[key] {
			differ = append(differ, key)
		}
	}
	slices.Sort(differ)
	return differ
}

// told returns, of each thing that can rest and of all else together, a sum over the positions of the entries that tell of it.
func (s *State) told() map[string]uint64 {
	all := map[string]uint64{"prints": s.resting.told}
	g := gatherer{c: &s.corrections, corrected: map[string]int64{}}
	s.eachThing(func(of subject, list []*moment) {
		for _, m := range list {
			g.add(m)
		}
		all[of.name()] += g.summed()
	})
	for _, x := range s.resting.records {
		if x != nil {
			all[x.of.name()] += x.told
		}
	}
	maps.DeleteFunc(all, func(_ string, sum uint64) bool { return sum == 0 })
	for _, u := range s.unread {
		all["unread"] += mixed(u.Position)
	}
	for i := range s.waste {
		all["waste"] += mixed(s.waste[i].position)
	}
	for i := range s.answers {
		all["answers"] += mixed(s.answers[i].position)
	}
	for _, d := range s.looked {
		all["looked"] += mixed(d.position)
	}
	return all
}

// name is what Differs says. Readings of a place are one thing, and so are all prints.
func (o subject) name() string {
	switch o.kind {
	case aReading:
		return "reading " + o.id[:len(o.id)-len(generationOf(o.id))]
	case aPrint:
		return "prints"
	case aBath:
		return "bath " + o.id
	case aBatch:
		return "batch " + o.id
	case aLot:
		return "lot " + o.id
	case anEvening:
		return "session " + o.id
	}
	return o.id
}

// eachThing calls do with each thing that is awake and the entries of its own.
func (s *State) eachThing(do func(of subject, list []*moment)) {
	baths := map[string][]*moment{}
	for id, list := range s.baths {
		for i := range list {
			baths[id] = append(baths[id], &list[i].moment)
		}
	}
	for id, list := range s.deeds {
		for _, d := range list {
			baths[id] = append(baths[id], &d.moment)
		}
	}
	for id, list := range baths {
		do(subject{aBath, id}, list)
	}
	for id, list := range s.batches {
		var all []*moment
		for _, d := range list {
			all = append(all, &d.moment)
		}
		do(subject{aBatch, id}, all)
	}
	momentsOf(s.lots, aLot, func(h *happening) *moment { return &h.moment }, do)
	momentsOf(s.evenings, anEvening, func(a *saidOfEvening) *moment { return &a.moment }, do)
	momentsOf(s.readings, aReading, func(a *saidOfReading) *moment { return &a.moment }, do)
	for _, t := range s.prints {
		var all []*moment
		for i := range t.said {
			all = append(all, &t.said[i].moment)
		}
		do(subject{aPrint, t.print.ID}, all)
	}
}

func momentsOf[T any](lists map[string][]T, kind subjectKind, of func(*T) *moment, do func(subject, []*moment)) {
	for id, list := range lists {
		var all []*moment
		for i := range list {
			all = append(all, of(&list[i]))
		}
		do(subject{kind, id}, all)
	}
}

// mixed spreads a position over all bits, so that sums of different positions differ: the last step of the splitmix generator.
func mixed(position int64) uint64 {
	x := uint64(position) * 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
