package book

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"slices"
	"time"

	"wetside/trade/quantity"
)

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

// Ranges calls do with the first and the last position of every stretch of entries that Tell is to be called with, in order.
func (r *Resumption) Ranges(do func(from, to int64) error) error {
	only := r.state.resting.only
	s := stretches{do: do}
	for at := int64(1); at <= r.end; at++ {
		if at&63 == 0 && at>>6 < int64(len(only)) && only[at>>6] == ^uint64(0) {
			at += 63
			continue
		}
		if only.has(at) {
			continue
		}
		if err := s.add(at); err != nil {
			return err
		}
	}
	return s.end()
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
