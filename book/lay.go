package book

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// A gatherer gathers the entries that say what something was.
type gatherer struct {
	c         *corrections
	positions []int64
	corrected map[string]int64 // entries that are corrected, with their positions
}

func (g *gatherer) add(m *moment) {
	g.positions = append(g.positions, m.position)
	if len(g.c.of) > 0 && len(g.c.of[m.entry]) > 0 {
		g.corrected[m.entry] = m.position
		g.follow(m.entry)
	}
}

// follow adds the corrections of an entry, of these, and so on.
func (g *gatherer) follow(entry string) {
	for _, t := range g.c.of[entry] {
		g.positions = append(g.positions, t.at)
		if t.at > g.c.at[entry] { // else the search would not end
			g.follow(t.by)
		}
	}
}

// sum returns a sum over what was gathered so far, for Differs.
func (g *gatherer) sum() (sum uint64) {
	for _, at := range g.sorted() {
		sum += mixed(at)
	}
	return sum
}

// taken returns what was gathered, and gathers anew.
func (g *gatherer) taken() positions {
	p := packed(g.sorted())
	g.drop()
	return p
}

// summed is sum, and gathers anew.
func (g *gatherer) summed() uint64 {
	defer g.drop()
	return g.sum()
}

func (g *gatherer) drop() { g.positions = g.positions[:0] }

// sorted returns the positions, each once.
func (g *gatherer) sorted() []int64 {
	slices.Sort(g.positions)
	g.positions = slices.Compact(g.positions)
	return g.positions
}

func (g *gatherer) track(t *track) {
	for i := range t.said {
		g.add(&t.said[i].moment)
	}
}

// put puts to rest what was found.
func (r *rester) put() int {
	s, at := r.s, r.s.resting // a copy of our own
	l := layer{
		r: r, at: at, first: len(at.records), laid: map[subject]uint32{}, prints: map[string]int32{},
		g: gatherer{c: &s.corrections, corrected: map[string]int64{}},
	}
	at.records = slices.Clip(at.records)
	for _, id := range sorted(r.baths) {
		l.bath(id)
	}
	for _, id := range sorted(r.batches) {
		l.batch(id)
	}
	for _, id := range sorted(r.prints) {
		l.print(id)
	}
	slices.Sort(r.lots)
	for _, id := range r.lots {
		l.lot(id)
	}
	slices.Sort(r.evenings)
	for _, id := range r.evenings {
		l.evening(id)
	}
	l.readings()
	if len(at.records) == l.first && len(r.prints) == 0 {
		return 0
	}
	at.only = at.only.grown(s.position)
	for _, x := range at.records[l.first:] {
		x.positions.each(at.only.set)
	}
	l.takeOut()
	s.eachAwake(func(m *moment) { at.only.clear(m.position) })
	l.dropCorrections()
	at.index(l.refs)
	at.counted(l.prints)
	at.count()
	return len(at.records) - l.first + len(r.prints)
}

// A layer makes the records of what goes to rest together.
type layer struct {
	r      *rester
	at     *resting
	first  int
	g      gatherer
	refs   []ref
	laid   map[subject]uint32 // numbers of the records of this layer
	prints map[string]int32
}

func (l *layer) record(x *record) {
	x.positions = l.g.taken()
	n := uint32(len(l.at.records))
	l.at.records = append(l.at.records, x)
	l.refs = append(l.refs, ref{x.of.hash(), n})
	l.laid[x.of] = n
}

// number returns the number of the record of a subject, of this layer or one before.
func (l *layer) number(of subject) (n uint32, ok bool) {
	if n, ok = l.laid[of]; ok {
		return n, true
	}
	x, n := l.at.find(of)
	return n, x != nil
}

func (l *layer) bath(id string) {
	s := l.r.s
	x := &record{of: subject{aBath, id}, kin: l.r.kin(id, func(_ Load, i int) int { return i - 1 })}
	for i := range s.baths[id] {
		l.g.add(&s.baths[id][i].moment)
	}
	for _, d := range s.deeds[id] {
		l.g.add(&d.moment)
	}
	x.told = l.g.sum()
	for _, id := range l.r.named[x.of] {
		l.g.track(s.prints[id])
	}
	if m, _ := s.mix(id); m != nil {
		x.bath = &restingBath{product: m.bath.Mixed.Product, by: m.bath.By, mixed: m.at}
		if p, in := s.putInOf(id); in {
			x.bath.waste = &p
		}
	}
	l.record(x)
}

func (l *layer) batch(id string) {
	x := &record{of: subject{aBatch, id}}
	for _, d := range l.r.s.batches[id] {
		l.g.add(&d.moment)
		x.last = d.at
	}
	x.told = l.g.sum()
	for _, id := range l.r.named[x.of] {
		l.g.track(l.r.s.prints[id])
	}
	l.record(x)
}

// print leads from a print to something that it was in, which has its entries; one that was in nothing has a record of its own.
func (l *layer) print(id string) {
	t := l.r.s.prints[id]
	if t.print.Started() {
		l.prints[t.print.Session]++
	}
	l.g.track(t)
	l.at.told += l.g.sum()
	for _, of := range t.names() {
		if n, ok := l.number(of); ok {
			l.refs = append(l.refs, ref{subject{aPrint, id}.hash(), n})
			l.g.drop()
			return
		}
	}
	l.record(&record{of: subject{aPrint, id}})
}

func (l *layer) lot(id string) {
	for i := range l.r.s.lots[id] {
		l.g.add(&l.r.s.lots[id][i].moment)
	}
	l.record(&record{of: subject{aLot, id}, told: l.g.sum()})
}

func (l *layer) evening(id string) {
	for i := range l.r.s.evenings[id] {
		l.g.add(&l.r.s.evenings[id][i].moment)
	}
	l.record(&record{of: subject{anEvening, id}, told: l.g.sum()})
}

// readings puts readings to rest: a few at a time, so that they can wake a few at a time.
func (l *layer) readings() {
	s := l.r.s
	lastOf := l.r.lastOfProbes()
	if l.at.seen = maps.Clone(l.at.seen); l.at.seen == nil {
		l.at.seen = map[string]int64{}
	}
	for _, where := range slices.Sorted(maps.Keys(s.readings)) {
		rest, stay := l.r.oldReadings(where, s.readings[where], lastOf)
		if len(rest) == 0 {
			continue
		}
		for i := range rest {
			l.g.add(&rest[i].moment)
		}
		l.refs = append(l.refs, ref{subject{aBath, where}.hash(), uint32(len(l.at.records))}) // they wake with their bath
		l.record(&record{of: generation(where, rest[0].position), told: l.g.sum()})
		l.at.saw(rest)
		if s.readings[where] = stay; len(stay) == 0 {
			delete(s.readings, where)
		}
	}
}

// generation names some readings of a place by the position of the first. A place's name has no such sign.
func generation(where string, first int64) subject {
	return subject{aReading, where + "\n" + strconv.FormatInt(first, 10)}
}

// generationOf returns the end of such a name, from its sign on.
func generationOf(id string) string {
	if at := strings.LastIndexByte(id, 0x0a); at >= 0 {
		return id[at:]
	}
	return ""
}

// takeOut takes what rests out of the state.
func (l *layer) takeOut() {
	s := l.r.s
	for id := range l.r.baths {
		delete(s.baths, id)
		delete(s.deeds, id)
	}
	for id := range l.r.batches {
		delete(s.batches, id)
	}
	for id := range l.r.prints {
		for i := range s.prints[id].said {
			delete(s.trackOf, s.prints[id].said[i].entry)
		}
		delete(s.prints, id)
	}
	for _, id := range l.r.lots {
		delete(s.lots, id)
	}
	for _, id := range l.r.evenings {
		delete(s.evenings, id)
	}
}

// eachAwake calls do with every entry that something awake and able to rest comes from, and with those of looks.
func (s *State) eachAwake(do func(*moment)) {
	s.eachThing(func(_ subject, list []*moment) {
		for _, m := range list {
			do(m)
		}
	})
	for _, d := range s.looked {
		do(&d.moment)
	}
}

// dropCorrections forgets the corrections of entries that rest. Those of an entry that tells of something awake, too, stay.
func (l *layer) dropCorrections() {
	for entry, position := range l.g.corrected {
		if l.at.only.has(position) {
			l.r.s.corrections.drop(entry)
			continue
		}
		l.g.follow(entry)
		for _, at := range l.g.positions {
			l.at.only.clear(at)
		}
		l.g.drop()
	}
}

// drop forgets the corrections of an entry, of these, and so on.
func (c *corrections) drop(entry string) {
	taken := c.of[entry]
	delete(c.of, entry)
	for _, t := range taken {
		c.drop(t.by)
		delete(c.target, t.by)
		delete(c.at, t.by)
	}
}

// put adds a correction in its place among those of the same entry, where it is not known.
func (c *corrections) put(e Entry) {
	if _, known := c.target[e.ID]; known {
		return
	}
	list := slices.Clone(c.of[e.TakesBack])
	i := len(list)
	for i > 0 && list[i-1].at > e.Position {
		i--
	}
	c.of[e.TakesBack] = slices.Insert(list, i, taking{by: e.ID, at: e.Position})
	c.target[e.ID], c.at[e.ID] = e.TakesBack, e.Position
}
