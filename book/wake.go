package book

import (
	"slices"
	"time"
)

// A Waking is what is to be woken, and by which entries.
type Waking struct {
	numbers   []uint32
	positions []int64
}

// None reports that nothing is to be woken.
func (w *Waking) None() bool { return len(w.numbers) == 0 }

// Positions returns the positions of the entries that Wake wants, rising. The list is not to be changed.
func (w *Waking) Positions() []int64 { return w.positions }

// Ranges calls do with the first and the last position of every stretch that is read in one go, in order. Other entries stand between
// those that Wake wants.
func (w *Waking) Ranges(do func(from, to int64) error) error {
	s := stretches{do: do}
	for _, at := range w.positions {
		if err := s.add(at); err != nil {
			return err
		}
	}
	return s.end()
}

// Needs returns what is to be woken before entries that are to be applied, or admitted, next: what they are about and what that
// hangs on. It is asked again after each Wake, until there is none. find is asked for the entries that corrections take back; its
// error is returned but for those of kind NotFound.
func (s *State) Needs(entries []Entry, find Finder) (w Waking, err error) {
	if s.resting.none() {
		return w, nil
	}
	q := wakes{s: s}
	for i := range entries {
		if err := q.entry(&entries[i], find); err != nil {
			return w, err
		}
	}
	return q.waking(), nil
}

// NeedsToTakeBack is Needs of a correction that takes back the entry of an id.
func (s *State) NeedsToTakeBack(id string, find Finder) (w Waking, err error) {
	q := wakes{s: s}
	if !s.resting.none() {
		err = q.correction(id, find)
	}
	return q.waking(), err
}

// NeedsBaths is Needs for whoever wants to see baths that may rest.
func (s *State) NeedsBaths(ids ...string) Waking {
	q := wakes{s: s}
	if !s.resting.none() {
		for _, id := range ids {
			q.subject(subject{aBath, id})
		}
	}
	return q.waking()
}

// NeedsEvenings is Needs for whoever wants to see an evening that may rest, or, without ids, all of them.
func (s *State) NeedsEvenings(ids ...string) Waking {
	q := wakes{s: s}
	for _, id := range ids {
		q.subject(subject{anEvening, id})
	}
	if len(ids) == 0 {
		q.all(anEvening)
	}
	return q.waking()
}

// NeedsBatches is Needs for whoever wants to see the batches of which something was said since a moment.
func (s *State) NeedsBatches(since time.Time) Waking {
	q := wakes{s: s}
	for n, x := range s.resting.records {
		if x != nil && x.of.kind == aBatch && x.last >= since.UnixMicro() {
			q.number(uint32(n))
		}
	}
	return q.waking()
}

// NeedsAll is Needs for all that rests.
func (s *State) NeedsAll() Waking {
	q := wakes{s: s}
	q.all()
	return q.waking()
}

// wakes gathers what is to be woken.
type wakes struct {
	s     *State
	found map[uint32]bool
}

// all wakes whatever rests of some kinds, or of all.
func (q *wakes) all(kinds ...subjectKind) {
	for n, x := range q.s.resting.records {
		if x != nil && (len(kinds) == 0 || slices.Contains(kinds, x.of.kind)) {
			q.number(uint32(n))
		}
	}
}

// number wakes a record and those that wake with it.
func (q *wakes) number(n uint32) {
	if q.found[n] {
		return
	}
	if q.found == nil {
		q.found = map[uint32]bool{}
	}
	q.found[n] = true
	x := q.s.resting.records[n]
	for _, id := range x.kin {
		q.subject(subject{aBath, id})
	}
	if x.of.kind == aBath {
		q.readingsIn(x.of)
	}
}

func (q *wakes) subject(of subject) {
	if of.id == "" || q.s.awake(of) {
		return
	}
	if x, n := q.s.resting.find(of); x != nil {
		q.number(n)
	}
	if of.kind == aBath {
		q.readingsIn(of) // of a bath that nothing else was said of yet, too
	}
}

// readingsIn wakes the readings in a bath.
func (q *wakes) readingsIn(bath subject) {
	q.s.resting.numbers(bath.hash(), func(n uint32) bool {
		if q.s.resting.records[n].of.kind == aReading {
			q.number(n)
		}
		return true
	})
}

// awake reports what certainly does not rest, without a look at what does.
func (s *State) awake(of subject) (is bool) {
	switch of.kind {
	case aBath:
		if _, is = s.deeds[of.id]; !is {
			_, is = s.baths[of.id]
		}
	case aBatch:
		_, is = s.batches[of.id]
	case anEvening:
		_, is = s.evenings[of.id]
	case aLot:
		_, is = s.lots[of.id]
	case aPrint, aReading:
	}
	return is
}

// print wakes a print, or what one that is awake was ever in.
func (q *wakes) print(id string) {
	if t := q.s.prints[id]; t != nil {
		for _, of := range t.names() {
			q.subject(of)
		}
		return
	}
	q.s.resting.numbers(subject{aPrint, id}.hash(), func(n uint32) bool {
		q.number(n)
		return false
	})
}

// waking makes up the entries.
func (q *wakes) waking() Waking {
	var w Waking
	for n := range q.found {
		w.numbers = append(w.numbers, n)
		q.s.resting.records[n].positions.each(func(at int64) { w.positions = append(w.positions, at) })
	}
	slices.Sort(w.numbers)
	slices.Sort(w.positions)
	w.positions = slices.Compact(w.positions)
	return w
}

// entry wakes what an entry is about.
func (q *wakes) entry(e *Entry, find Finder) error {
	body, err := q.s.old.Read(*e)
	if err != nil {
		return nil //nolint:nilerr // it is kept unread and changes nothing
	}
	return q.read(e, body, find)
}

// read is entry of one whose body was read.
func (q *wakes) read(e *Entry, body Body, find Finder) error {
	if _, corrects := body.(*Corrected); corrects {
		return q.correction(e.TakesBack, find)
	}
	q.body(body)
	return nil
}

// correction wakes what the entry is about that a correction takes back in the end.
func (q *wakes) correction(id string, find Finder) error {
	before := int64(0)
	for {
		target, err := find(id)
		if KindOf(err) == NotFound || err == nil && before > 0 && target.Position >= before {
			return nil
		}
		if err != nil {
			return err
		}
		body, err := q.s.old.Read(target)
		if err != nil {
			return nil //nolint:nilerr // it has no effect that could be taken back
		}
		if _, corrects := body.(*Corrected); !corrects {
			if b, reading := body.(*ProbeRead); reading {
				q.reading(b, target.Position)
			}
			q.body(body)
			return nil
		}
		id, before = target.TakesBack, target.Position
	}
}

// reading wakes the readings among which one rests. Where one that rests may become the last, of its place or its probe, all wake.
func (q *wakes) reading(b *ProbeRead, position int64) {
	r := Reading{Bath: b.Bath, Place: b.Place}
	at := q.s.resting
	lastWhere, restWhere := at.seen[r.where()]
	lastProbe, restProbe := at.seen[ofProbe(b.Probe)]
	here, probe := !restWhere, !restProbe // whether one that is awake comes after all that rest
	for where, list := range q.s.readings {
		for i := range list {
			if a := &list[i]; a.position != position && q.s.corrections.stands(a.entry) {
				here = here || where == r.where() && a.at > lastWhere
				probe = probe || a.reading.Probe == b.Probe && a.at > lastProbe
			}
		}
	}
	for n, x := range at.records {
		if x == nil || x.of.kind != aReading {
			continue
		}
		has := !here || !probe
		if at.only.has(position) {
			x.positions.each(func(at int64) { has = has || at == position })
		}
		if has {
			q.number(uint32(n))
		}
	}
}

// body wakes what a body names.
//
//nolint:cyclop // it is a table
func (q *wakes) body(body Body) {
	bath := func(ids ...string) {
		for _, id := range ids {
			q.subject(subject{aBath, id})
		}
	}
	lot := func(id string) { q.subject(subject{aLot, id}) }
	from := func(draws []Draw) {
		for _, d := range draws {
			lot(d.Lot)
		}
	}
	batch := func(id string) { q.subject(subject{aBatch, id}) }
	evening := func(id string) { q.subject(subject{anEvening, id}) }
	switch b := body.(type) {
	case *LotReceived:
		lot(b.Lot)
	case *LotOpened:
		lot(b.Lot)
	case *LotCounted:
		lot(b.Lot)
	case *LotDrawn:
		lot(b.Lot)
	case *LotDiscarded:
		lot(b.Lot)
	case *Stock:
		lot(b.Lot)
		from(b.From)
	case *Mixed:
		bath(b.Bath, b.Pair)
		from(b.From)
	case *Worked:
		bath(b.Baths...)
	case *Tested:
		bath(b.Bath)
		batch(b.Batch)
	case *ToppedUp:
		bath(b.Bath)
		from(b.From)
	case *Moved:
		bath(b.First, b.Second)
	case *PouredBack:
		bath(b.Bath)
	case *PouredOut:
		bath(b.Bath)
	case *Disposed:
		bath(b.Bath)
	case *FaultFound:
		bath(b.Bath)
	case *ProbeRead:
		bath(b.Bath)
	case *Held:
		bath(b.Bath)
		batch(b.Batch)
	case *Washed:
		batch(b.Batch)
	case *PrintStarted:
		q.print(b.Print)
		bath(b.Bath)
		batch(b.Batch)
	case *PrintMoved:
		q.print(b.Print)
		bath(b.Bath)
		batch(b.Batch)
	case *PrintLeft:
		q.print(b.Print)
	case *EveningOpened:
		evening(b.Session)
	case *EveningJoined:
		evening(b.Session)
	case *EveningClosed:
		evening(b.Session)
	case *Ticked:
		evening(b.Session)
	case *Told:
		evening(b.Session)
	}
}

// ProductOf returns the product's id of a bath that was mixed and not taken back, awake or at rest; it is empty for water.
func (s *State) ProductOf(bath string) (product string, mixed bool) {
	if m, _ := s.mix(bath); m != nil {
		return m.bath.Mixed.Product, true
	}
	if x, _ := s.resting.find(subject{aBath, bath}); x != nil && x.bath != nil {
		return x.bath.product, true
	}
	return "", false
}

// FirstMixes returns when everybody first mixed a bath, by the ids of people; nobody's is empty.
func (s *State) FirstMixes() map[string]time.Time {
	all := map[string]time.Time{}
	first := func(by string, at time.Time) {
		if was, known := all[by]; !known || at.Before(was) {
			all[by] = at
		}
	}
	for id := range s.baths {
		if m, _ := s.mix(id); m != nil {
			first(m.bath.By, m.bath.MixedAt)
		}
	}
	for by, at := range s.resting.mixers {
		first(by, time.UnixMicro(at).UTC())
	}
	return all
}

// CountOf returns how many prints an evening has, those at rest among them: as many as PrintsOf returned of it when all were awake.
func (s *State) CountOf(session string) int {
	return len(s.PrintsOf(session)) + int(s.resting.prints[session])
}
