package book

import (
	"maps"
	"slices"
	"strings"
	"time"

	"wetside/trade/material"
)

// RestsAfter is how long a thing has been finished before it is put to rest: longer than the pages that everybody sees look back.
// Whoever looks back further wakes what is wanted.
const RestsAfter = 2 * 7 * 24 * time.Hour

// keeping is what stays awake however old it is, so that what the pages list stays whole.
type keeping struct {
	recent   int64 // entries: whatever was touched by one of the last
	baths    int   // the latest by their mixing
	evenings int   // the latest
	notes    int   // the evenings that the latest belong to
	tests    int   // the batches of the latest tests of prints, for each material
	readings int   // of each probe, where it hangs
}

var pagesKeep = keeping{recent: 2048, baths: 16, evenings: 8, notes: 64, tests: 8, readings: 16}

// Rest puts to rest what has been finished since before a moment: baths that are gone, with the loads and the prints that
// went through them, batches, lots that are used up, evenings, readings. Of each the state keeps a Record; what the rest of the
// state's answers needs of it is in there, and no list has it any more. It comes back by Wake, which whoever applies an entry
// about it does first: see Needs. It returns how many were put to rest.
//
// A bath rests with its whole pair, and after every bath into which it was carried over: what is awake has all that its own
// figures hang on. A pair that is never renewed as a whole does not rest, nor does what nobody says is gone.
func (s *State) Rest(before time.Time) int { return s.rest(before, pagesKeep) }

func (s *State) rest(before time.Time, keep keeping) int {
	r := rester{s: s, keep: keep, before: before.UnixMicro(), last: s.position - keep.recent}
	at := s.resting.clone()
	at.at = s.position
	s.resting, s.derived = at, s.derived.again()
	if r.last <= 0 {
		return 0
	}
	r.findPrints()
	r.findBaths()
	r.findBatches()
	r.hold()
	r.findLots()
	r.findEvenings()
	return r.put()
}

// RestedAt returns the position at which Rest was last asked.
func (s *State) RestedAt() int64 { return s.resting.at }

// A rester looks for what can be put to rest.
type rester struct {
	s      *State
	keep   keeping
	before int64 // microseconds
	last   int64 // position of the last entry that may have touched it

	named    map[subject][]string // prints, by the baths and batches that they were ever said to be in
	prints   map[string]bool
	baths    map[string]bool
	batches  map[string]bool
	lots     []string
	evenings []string
	pairs    map[string]*Pair
	mates    map[string][]string // baths that a mix names as the other of its pair, whether it stands or not, and the other way round
}

// old reports whether an entry and all corrections of it are long past.
func (r *rester) old(m *moment) bool {
	return m.at < r.before && r.s.corrections.last(m.entry, m.position) <= r.last
}

// last returns the position of an entry or that of the last correction of it, of the correction, and so on.
func (c *corrections) last(entry string, position int64) int64 {
	if len(c.of) == 0 {
		return position
	}
	for _, t := range c.of[entry] {
		position = max(position, t.at)
		if t.at > c.at[entry] { // else the search would not end
			position = max(position, c.last(t.by, t.at))
		}
	}
	return position
}

// findPrints finds the prints that have left.
func (r *rester) findPrints() {
	r.named, r.prints = map[subject][]string{}, map[string]bool{}
	for id, t := range r.s.prints {
		done := !r.s.inSink[id]
		for i := range t.said {
			done = done && r.old(&t.said[i].moment)
		}
		if done {
			r.prints[id] = true
		}
		for _, of := range t.names() {
			r.named[of] = append(r.named[of], id)
		}
	}
}

// names returns the baths and batches that a print was ever said to be in, each once, whether that stands or not.
func (t *track) names() []subject {
	var all []subject
	for i := range t.said {
		stay := t.said[i].stay
		if stay == nil {
			continue
		}
		for _, of := range [2]subject{{aBath, stay.Bath}, {aBatch, stay.Batch}} {
			if of.id != "" && !slices.Contains(all, of) {
				all = append(all, of)
			}
		}
	}
	return all
}

func (r *rester) printsDone(of subject) bool {
	return !slices.ContainsFunc(r.named[of], func(id string) bool { return !r.prints[id] })
}

// findBaths finds the baths that are gone.
func (r *rester) findBaths() {
	s := r.s
	r.baths = map[string]bool{}
	var latest []*making
	for id := range s.baths {
		if m, _ := s.mix(id); m != nil {
			latest = append(latest, m)
		}
		r.bath(id)
	}
	for id := range s.deeds {
		if _, mixed := s.baths[id]; !mixed {
			r.bath(id)
		}
	}
	slices.SortFunc(latest, func(a, b *making) int { return b.compare(&a.moment) })
	for _, m := range latest[:min(r.keep.baths, len(latest))] {
		delete(r.baths, m.bath.ID)
	}
}

func (r *rester) bath(id string) {
	s := r.s
	if m, _ := s.mix(id); m != nil && s.leaving(id) == nil {
		return
	}
	for i := range s.baths[id] {
		if !r.old(&s.baths[id][i].moment) {
			return
		}
	}
	for _, d := range s.deeds[id] {
		if !r.old(&d.moment) {
			return
		}
	}
	if r.printsDone(subject{aBath, id}) {
		r.baths[id] = true
	}
}

// findBatches finds the batches of which nothing more was said, but those with the last tests of each material.
func (r *rester) findBatches() {
	r.batches = map[string]bool{}
	kept := r.tested()
	for id, list := range r.s.batches {
		if !kept[id] && !slices.ContainsFunc(list, func(d *deed) bool { return !r.old(&d.moment) }) && r.printsDone(subject{aBatch, id}) {
			r.batches[id] = true
		}
	}
}

// tested returns the batches with the last tests of each material.
func (r *rester) tested() map[string]bool {
	tests := map[material.Material][]*deed{}
	for _, list := range r.s.batches {
		of, last := map[material.Material]bool{}, (*deed)(nil)
		for _, d := range list {
			switch did := d.did.(type) {
			case HoldingPut:
				of[did.Material] = true
			case WashMoment:
				if did.Put != nil {
					of[did.Put.Material] = true
				}
			case TestMade:
				of[did.Material], last = true, d
			}
		}
		for m := range of {
			if last != nil {
				tests[m] = append(tests[m], last)
			}
		}
	}
	kept := map[string]bool{}
	for _, list := range tests {
		slices.SortFunc(list, func(a, b *deed) int { return compareDeeds(b, a) })
		for _, d := range list[:min(r.keep.tests, len(list))] {
			kept[batchOf(d.did)] = true
		}
	}
	return kept
}

// findLots finds what is used up or thrown out. What was drawn by weight hangs on the product's density, which can change.
func (r *rester) findLots() {
	for id, list := range r.s.lots {
		l, came := r.s.lotNow(id)
		if came && l.Gone != There && !slices.ContainsFunc(list, func(h happening) bool { return h.amount.mass > 0 || !r.old(&h.moment) }) {
			r.lots = append(r.lots, id)
		}
	}
}

// findEvenings finds the evenings that are over, but the latest and those of the latest notes.
func (r *rester) findEvenings() {
	type over struct {
		id string
		at moment
	}
	var latest, noted []over
	for id, said := range r.s.evenings {
		if id == noSession {
			continue
		}
		latest = append(latest, over{id, said[len(said)-1].moment})
		for i := range said {
			if _, note := said[i].body.(*Told); note && r.s.corrections.stands(said[i].entry) {
				noted = append(noted, over{id, said[i].moment})
			}
		}
	}
	kept := map[string]bool{}
	for _, list := range [][]over{latest, noted} {
		slices.SortFunc(list, func(a, b over) int {
			if c := b.at.compare(&a.at); c != 0 {
				return c
			}
			return strings.Compare(a.id, b.id)
		})
	}
	for _, o := range slices.Concat(latest[:min(r.keep.evenings, len(latest))], noted[:min(r.keep.notes, len(noted))]) {
		kept[o.id] = true
	}
	for _, o := range latest {
		said := r.s.evenings[o.id]
		e, begun := r.s.evening(o.id, said)
		open := !begun.IsZero() && e.Closed == nil && e.Opened.Entry != ""
		if !kept[o.id] && !open && !slices.ContainsFunc(said, func(a saidOfEvening) bool { return !r.old(&a.moment) }) {
			r.evenings = append(r.evenings, o.id)
		}
	}
}

// lastOfProbes returns the entry of each probe's last reading.
func (r *rester) lastOfProbes() map[string]string {
	last := map[string]*moment{}
	for _, list := range r.s.readings {
		for i := range list {
			a := &list[i]
			if was := last[a.reading.Probe]; r.s.corrections.stands(a.entry) && (was == nil || was.compare(&a.moment) < 0) {
				last[a.reading.Probe] = &a.moment
			}
		}
	}
	of := map[string]string{}
	for probe, m := range last {
		of[probe] = m.entry
	}
	return of
}

// oldReadings parts the readings of one place into those that go to rest and those that stay: the last of each probe, and of
// what hung in a bath that rests nothing but the very last that a probe showed anywhere.
func (r *rester) oldReadings(where string, list []saidOfReading, lastOf map[string]string) (rest, stay []saidOfReading) {
	most := r.keep.readings
	if bath := !strings.HasPrefix(where, " "); bath && (r.baths[where] || len(r.s.baths[where]) == 0 && len(r.s.deeds[where]) == 0) {
		most = 0
	}
	kept := map[string]int{}
	stays := make([]bool, len(list))
	for i := range slices.Backward(list) {
		a := &list[i]
		probe := a.reading.Probe
		stands := r.s.corrections.stands(a.entry)
		stays[i] = stands && kept[probe] < most || lastOf[probe] == a.entry || !r.old(&a.moment)
		if stands {
			kept[probe]++
		}
	}
	for i := range list {
		if stays[i] {
			stay = append(stay, list[i])
		} else {
			rest = append(rest, list[i])
		}
	}
	return rest, stay
}

// sorted returns the keys of a set in order: records are written in the same order whatever the order of a map.
func sorted(set map[string]bool) []string { return slices.Sorted(maps.Keys(set)) }
