package book

import (
	"fmt"
	"slices"
)

// Wake brings back what rests, out of the entries at the positions that w has, in their order. The error, of kind Damaged, is for
// other entries than those; the state is then as before.
func (s *State) Wake(w Waking, entries []Entry) error {
	if len(entries) != len(w.positions) {
		return notThose(fmt.Errorf("%d entries for %d positions", len(entries), len(w.positions)))
	}
	told := New(s.darkroom, s.old)
	for i := range entries {
		if entries[i].Position != w.positions[i] || entries[i].Darkroom != s.darkroom {
			return notThose(fmt.Errorf("the entry at %d of %s for that at %d", entries[i].Position, entries[i].Darkroom, w.positions[i]))
		}
		told.retell(entries[i])
	}
	k := waker{s: s, told: told, at: s.resting.clone(), own: map[string]bool{}}
	k.at.records, k.at.only = slices.Clone(k.at.records), k.at.only.grown(s.position)
	for i := range entries {
		if entries[i].Kind == Correction {
			s.corrections.put(entries[i])
		}
	}
	k.prints()
	for _, n := range w.numbers {
		k.record(n)
	}
	k.at.count()
	s.resting, s.derived = k.at, s.derived.again()
	return nil
}

func notThose(why error) error {
	return &Error{Kind: Damaged, Key: "entry_out_of_order", Cause: why}
}

// retell takes in an entry out of the middle of a book.
func (s *State) retell(e Entry) {
	body, err := s.old.Read(e)
	s.take(e, body, err)
}

// A waker moves what was told again into a state.
type waker struct {
	s, told *State
	at      *resting
	own     map[string]bool // prints that were awake before
}

// prints brings back the prints that are not awake.
func (k *waker) prints() {
	more := map[string]int32{}
	g := gatherer{c: &k.told.corrections, corrected: map[string]int64{}}
	for id, t := range k.told.prints {
		if k.s.prints[id] != nil {
			k.own[id] = true
			continue
		}
		k.s.prints[id] = t
		g.track(t)
		k.at.told -= g.summed()
		for i := range t.said {
			k.s.trackOf[t.said[i].entry] = id
		}
		if k.told.inSink[id] {
			k.s.inSink[id] = true
		}
		if t.print.Started() {
			more[t.print.Session]--
		}
	}
	k.at.counted(more)
}

// record brings back what a record is of.
func (k *waker) record(n uint32) {
	x := k.at.records[n]
	k.at.records[n] = nil
	x.positions.each(k.at.only.clear)
	s, id := k.s, x.of.id
	switch x.of.kind {
	case aBath:
		if list := k.told.baths[id]; len(list) > 0 {
			s.baths[id] = list
		}
		k.deeds(s.deeds, id, k.told.deeds[id])
	case aBatch:
		k.deeds(s.batches, id, k.told.batches[id])
	case aLot:
		s.lots[id] = k.told.lots[id]
	case anEvening:
		s.evenings[id] = k.told.evenings[id]
	case aReading:
		where := id[:len(id)-len(generationOf(id))]
		order := func(a, b saidOfReading) int { return a.compare(&b.moment) }
		for _, said := range k.told.readings[where] {
			if _, known := slices.BinarySearchFunc(s.readings[where], said, order); !known {
				s.readings[where] = inserted(s.readings[where], said, order)
			}
		}
	case aPrint:
	}
}

// deeds brings back a list of deeds. One that is in another list already is that one.
func (k *waker) deeds(lists map[string][]*deed, id string, list []*deed) {
	if len(list) == 0 {
		return
	}
	own := make([]*deed, len(list))
	for i, d := range list {
		own[i] = k.known(d)
	}
	lists[id] = own
}

// known returns the deed that the state has in place of one that was told again.
func (k *waker) known(d *deed) *deed {
	if id := k.told.trackOf[d.entry]; id != "" {
		if !k.own[id] {
			return d
		}
		for _, was := range k.s.prints[id].deeds {
			if was.entry == d.entry && rankOf(was.did) == rankOf(d.did) {
				return was
			}
		}
		return d
	}
	among := [][]*deed{k.s.looked, k.s.batches[batchOf(d.did)]}
	for _, id := range d.did.Baths() {
		among = append(among, k.s.deeds[id])
	}
	for _, list := range among {
		i, _ := slices.BinarySearchFunc(list, d, compareDeeds)
		if i < len(list) && list[i].entry == d.entry {
			return list[i]
		}
	}
	return d
}
