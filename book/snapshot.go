package book

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"hash/fnv"
	"maps"
	"slices"
	"time"

	"wetside/trade/quantity"
)

// A snapshot is what rests in a state, in bytes: who begins with one reads the entries alone that tell of something awake. It is
// derived, of the program that made it and of its book: dropped and made anew at will, and never exported. This is its form:
//
//	fold     8 bytes, big-endian: what program can read it (foldOf)
//	darkroom text
//	position, at, unread: numbers; the state's, that at which it was last looked for what can rest, how many are not read:
//	         a program that reads others folds anew
//	only     text of the set's words, 8 bytes each, little-endian
//	records  each: kind, id, positions, last, told, kin, and of a bath that was mixed what restingBath has
//	refs     of prints: hash (8 bytes, big-endian) and record
//	told     of prints: 8 bytes, big-endian; of records it is written the same way
//	prints   by evening: id, count
//	seen     of readings: place or probe, instant
//	crc32    Castagnoli, of all before it: 4 bytes, big-endian
//
// Numbers are varints. A text is its length, a number, and its bytes.

// foldVersion is raised whenever what a record has, or what goes to rest with what, is another.
const foldVersion = 1

// foldOf tells programs apart whose records are not the same.
func foldOf(old Upcasts) uint64 {
	h := fnv.New64a()
	_, _ = h.Write([]byte{foldVersion})
	for _, k := range slices.Sorted(maps.Keys(old)) {
		_, _ = h.Write([]byte(k))
		_, _ = h.Write([]byte{0, byte(old.Version(k))})
	}
	return h.Sum64()
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// Snapshot returns what rests, for Resume.
func (s *State) Snapshot() []byte {
	w := packer{b: make([]byte, 0, s.resting.size())}
	w.fixed(foldOf(s.old))
	w.text(s.darkroom)
	w.number(s.position)
	w.number(s.resting.at)
	w.number(int64(len(s.unread)))
	w.number(int64(8 * len(s.resting.only)))
	for _, word := range s.resting.only {
		w.b = binary.LittleEndian.AppendUint64(w.b, word)
	}
	numbers := w.records(s.resting.records)
	w.refs(s.resting, numbers)
	w.fixed(s.resting.told)
	w.number(int64(len(s.resting.prints)))
	for _, session := range slices.Sorted(maps.Keys(s.resting.prints)) {
		w.text(session)
		w.number(int64(s.resting.prints[session]))
	}
	w.number(int64(len(s.resting.seen)))
	for _, key := range slices.Sorted(maps.Keys(s.resting.seen)) {
		w.text(key)
		w.number(s.resting.seen[key])
	}
	return binary.BigEndian.AppendUint32(w.b, crc32.Checksum(w.b, castagnoli))
}

// size is about how many bytes a snapshot has.
func (r *resting) size() int {
	n := 1024 + 8*len(r.only) + 64*len(r.prints) + 64*len(r.seen)
	for _, x := range r.records {
		if x != nil {
			n += 128 + len(x.positions) + 40*len(x.kin)
		}
	}
	for _, layer := range r.layers {
		n += 12 * len(layer)
	}
	return n
}

// A packer writes a snapshot.
type packer struct{ b []byte }

func (w *packer) fixed(n uint64) { w.b = binary.BigEndian.AppendUint64(w.b, n) }
func (w *packer) number(n int64) { w.b = binary.AppendVarint(w.b, n) }
func (w *packer) text(s string)  { w.number(int64(len(s))); w.b = append(w.b, s...) }
func (w *packer) flag(is bool)   { w.b = append(w.b, map[bool]byte{true: 1}[is]) }
func (w *packer) said(said *Said) {
	w.text(said.Entry)
	w.text(said.By)
	w.text(said.Device)
	w.instant(said.At)
}

func (w *packer) instant(t time.Time) { w.number(t.UnixMicro()) }

// records writes the records that rest and returns their numbers there.
func (w *packer) records(all []*record) map[uint32]uint32 {
	numbers := map[uint32]uint32{}
	for n, x := range all {
		if x != nil {
			numbers[uint32(n)] = uint32(len(numbers))
		}
	}
	w.number(int64(len(numbers)))
	for _, x := range all {
		if x == nil {
			continue
		}
		w.b = append(w.b, byte(x.of.kind))
		w.text(x.of.id)
		w.text(string(x.positions))
		w.number(x.last)
		w.fixed(x.told)
		w.number(int64(len(x.kin)))
		for _, id := range x.kin {
			w.text(id)
		}
		if w.flag(x.bath != nil); x.bath != nil {
			w.bath(x.bath)
		}
	}
	return numbers
}

func (w *packer) bath(b *restingBath) {
	w.text(b.product)
	w.text(b.by)
	w.number(b.mixed)
	if w.flag(b.waste != nil); b.waste == nil {
		return
	}
	p := b.waste
	w.number(p.at)
	w.text(p.entry)
	w.text(p.device)
	w.number(p.position)
	w.text(p.can)
	w.text(p.product)
	w.said(&p.part.Said)
	w.text(p.part.Bath)
	w.number(int64(p.part.Volume))
	w.text(p.part.Why)
}

// refs writes the refs of prints. Those of the records themselves are made again.
func (w *packer) refs(r *resting, numbers map[uint32]uint32) {
	var all []ref
	for _, layer := range r.layers {
		for _, x := range layer {
			if n, rests := numbers[x.record]; rests && x.hash != r.records[x.record].of.hash() {
				all = append(all, ref{x.hash, n})
			}
		}
	}
	slices.SortFunc(all, compareRefs)
	all = slices.Compact(all)
	w.number(int64(len(all)))
	for _, x := range all {
		w.fixed(x.hash)
		w.number(int64(x.record))
	}
}

// A Resumption is a state on its way from a snapshot.
type Resumption struct {
	state  *State
	end    int64
	told   int64
	unread int64
}

// ErrSnapshot is why a snapshot is of no use: it is damaged, or of another program or darkroom.
var ErrSnapshot = errors.New("no snapshot of this program and darkroom")

// Resume begins with a snapshot; old is what New takes. The error is ErrSnapshot.
func Resume(darkroomID string, old Upcasts, snapshot []byte) (*Resumption, error) {
	n := len(snapshot) - 4
	if n < 0 || crc32.Checksum(snapshot[:n], castagnoli) != binary.BigEndian.Uint32(snapshot[n:]) {
		return nil, ErrSnapshot
	}
	u := unpacker{b: snapshot[:n]}
	if u.fixed() != foldOf(old) || u.text() != darkroomID {
		return nil, ErrSnapshot
	}
	s := New(darkroomID, old)
	s.position = u.number(0, 1<<40)
	r := &resting{at: u.number(0, s.position)}
	unread := u.number(0, s.position)
	r.only = u.set(s.position)
	var refs []ref
	r.records, refs = u.records(s.position)
	refs = append(refs, u.refs(len(r.records))...)
	r.index(refs)
	r.told = u.fixed()
	r.prints, r.seen = map[string]int32{}, map[string]int64{}
	for range u.count() {
		session := u.text()
		r.prints[session] = int32(u.number(1, 1<<30))
	}
	for range u.count() {
		key := u.text()
		r.seen[key] = u.number(-farthest, farthest)
	}
	if u.bad || len(u.b) > 0 {
		return nil, ErrSnapshot
	}
	r.count()
	s.resting = r
	return &Resumption{state: s, end: s.position, unread: unread}, nil
}

// Position returns the position that the state will be at.
func (r *Resumption) Position() int64 { return r.end }

// apart is how many entries that rest are read along rather than that a read begins anew.
const apart = 32

// Ranges calls do with the first and the last position of every stretch of entries that Tell is to be called with, in order.
func (r *Resumption) Ranges(do func(from, to int64) error) error {
	only := r.state.resting.only
	from, to := int64(0), int64(0)
	for at := int64(1); at <= r.end; at++ {
		if at&63 == 0 && at>>6 < int64(len(only)) && only[at>>6] == ^uint64(0) {
			at += 63
			continue
		}
		if only.has(at) {
			continue
		}
		if from > 0 && at-to > apart {
			if err := do(from, to); err != nil {
				return err
			}
			from = 0
		}
		if from == 0 {
			from = at
		}
		to = at
	}
	if from == 0 {
		return nil
	}
	return do(from, to)
}

// Tell takes in the next entry of a stretch.
func (r *Resumption) Tell(e Entry) {
	if r.state.resting.only.has(e.Position) {
		return
	}
	r.told++
	r.state.retell(e)
}

// End returns the state. The error, ErrSnapshot, is for one that was not told all, or reads other entries than the one that made
// the snapshot.
func (r *Resumption) End() (*State, error) {
	s := r.state
	want := r.end
	for at := range r.end + 1 {
		if s.resting.only.has(at) {
			want--
		}
	}
	if r.told != want || int64(len(s.unread)) != r.unread {
		return nil, ErrSnapshot
	}
	s.position = r.end
	for _, x := range s.resting.records { // what was told of it is a part alone
		if x == nil {
			continue
		}
		switch x.of.kind {
		case aBath:
			delete(s.baths, x.of.id)
			delete(s.deeds, x.of.id)
		case aBatch:
			delete(s.batches, x.of.id)
		case aLot:
			delete(s.lots, x.of.id)
		case anEvening:
			delete(s.evenings, x.of.id)
		case aPrint, aReading:
		}
	}
	return s, nil
}

// An unpacker reads a snapshot. What can't be is bad, and nothing.
type unpacker struct {
	b   []byte
	bad bool
}

func (u *unpacker) take(n int) []byte {
	if u.bad || n < 0 || n > len(u.b) {
		u.bad = true
		return nil
	}
	b := u.b[:n]
	u.b = u.b[n:]
	return b
}

func (u *unpacker) fixed() uint64 {
	if b := u.take(8); b != nil {
		return binary.BigEndian.Uint64(b)
	}
	return 0
}

// number reads one of a range.
func (u *unpacker) number(from, to int64) int64 {
	n, size := binary.Varint(u.b)
	if u.bad || size <= 0 || n < from || n > to {
		u.bad = true
		return 0
	}
	u.b = u.b[size:]
	return n
}

// count reads how many follow, each of at least a byte.
func (u *unpacker) count() int { return int(u.number(0, int64(len(u.b)))) }

func (u *unpacker) text() string { return string(u.take(u.count())) }

func (u *unpacker) flag() bool {
	b := u.take(1)
	u.bad = u.bad || b[0] > 1
	return !u.bad && b[0] == 1
}

func (u *unpacker) set(most int64) bitset {
	words := u.take(u.count())
	if len(words)%8 != 0 || int64(len(words)/8) > most>>6+1 {
		u.bad = true
		return nil
	}
	b := make(bitset, len(words)/8)
	for i := range b {
		b[i] = binary.LittleEndian.Uint64(words[8*i:])
	}
	if len(b) > 0 && (b.has(0) || int64(len(b)-1) == most>>6 && b[most>>6]>>(most&63)>>1 != 0) {
		u.bad = true
	}
	return b
}

func (u *unpacker) records(most int64) ([]*record, []ref) {
	n := u.count()
	all, refs := make([]*record, 0, n), make([]ref, 0, n)
	for range n {
		x := u.record(most)
		if u.bad {
			return nil, nil
		}
		refs = append(refs, ref{x.of.hash(), uint32(len(all))})
		all = append(all, x)
	}
	return all, refs
}

func (u *unpacker) record(most int64) *record {
	x := &record{}
	if b := u.take(1); b != nil {
		x.of.kind = subjectKind(b[0])
	}
	switch x.of.kind {
	case aBath, aBatch, aPrint, aLot, anEvening, aReading:
	default:
		u.bad = true
	}
	x.of.id = u.text()
	x.positions = slices.Clone(positions(u.take(u.count())))
	u.bad = u.bad || !x.positions.rise(most) || x.of.kind == aReading && generationOf(x.of.id) == ""
	x.last, x.told = u.number(-farthest, farthest), u.fixed()
	for range u.count() {
		x.kin = append(x.kin, u.text())
	}
	if u.flag() {
		x.bath = u.bath()
	}
	return x
}

// rise reports whether positions rise, none of them above the most.
func (p positions) rise(most int64) bool {
	at := int64(0)
	for len(p) > 0 {
		d, n := binary.Uvarint(p)
		if n <= 0 || d == 0 || d > uint64(most-at) {
			return false
		}
		at, p = at+int64(d), p[n:]
	}
	return true
}

// Instants lie in the years that an entry can have.
const farthest = int64(1) << 60

func (u *unpacker) bath() *restingBath {
	b := &restingBath{product: u.text(), by: u.text(), mixed: u.number(-farthest, farthest)}
	if !u.flag() {
		return b
	}
	p := putIn{}
	p.at, p.entry, p.device, p.position = u.number(-farthest, farthest), u.text(), u.text(), u.number(0, farthest)
	p.can, p.product = u.text(), u.text()
	p.part.Said = Said{Entry: u.text(), By: u.text(), Device: u.text(), At: time.UnixMicro(u.number(-farthest, farthest)).UTC()}
	p.part.Bath, p.part.Volume, p.part.Why, p.part.Share = u.text(), quantity.Volume(u.number(0, 1<<62)), u.text(), 1
	b.waste = &p
	return b
}

func (u *unpacker) refs(records int) []ref {
	n := u.count()
	all := make([]ref, 0, n)
	for range n {
		x := ref{hash: u.fixed()}
		x.record = uint32(u.number(0, int64(records)-1))
		if u.bad {
			return nil
		}
		all = append(all, x)
	}
	return all
}
