package book

import (
	"encoding/binary"
	"hash/crc32"
	"hash/fnv"
	"maps"
	"slices"
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

func (w *packer) flag(is bool) {
	n := byte(0)
	if is {
		n = 1
	}
	w.b = append(w.b, n)
}

func (w *packer) said(said *Said) {
	w.text(said.Entry)
	w.text(said.By)
	w.text(said.Device)
	w.number(said.At.UnixMicro())
}

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
