package book

import (
	"encoding/binary"
	"hash/fnv"
	"maps"
	"slices"
)

// subjectKind is what sort of thing rests.
type subjectKind byte

const (
	aBath     subjectKind = 'b'
	aBatch    subjectKind = 'w'
	aPrint    subjectKind = 'p' // that no bath or batch is known of
	aLot      subjectKind = 'l'
	anEvening subjectKind = 'e'
	aReading  subjectKind = 'r' // readings of one place, some of those at rest
)

// A subject is a thing that can rest.
type subject struct {
	kind subjectKind
	id   string
}

func (o subject) hash() uint64 {
	h := fnv.New64a()
	_, _ = h.Write([]byte{byte(o.kind)})
	_, _ = h.Write([]byte(o.id))
	return h.Sum64()
}

// A record is what is kept of something at rest.
type record struct {
	of        subject
	positions positions // of all entries that say what it was: its own, those of its prints, and the corrections of these
	kin       []string  // of a bath: the baths that wake with it, those of its pair and those whose liquid was carried into it
	bath      *restingBath
	last      int64  // of a batch: when the last was said of it, microseconds
	told      uint64 // a sum over the positions of its own entries and their corrections, without those of prints
}

// A restingBath is what the answers of a state need of a bath that was mixed and rests.
type restingBath struct {
	product string
	by      string
	mixed   int64 // microseconds
	waste   *putIn
}

// positions are rising positions, each as its distance from the one before.
type positions []byte

func packed(all []int64) positions {
	var p positions
	before := int64(0)
	for _, n := range all {
		p = binary.AppendUvarint(p, uint64(n-before))
		before = n
	}
	return slices.Clip(p)
}

// each calls do with every position.
func (p positions) each(do func(int64)) {
	at := int64(0)
	for len(p) > 0 {
		d, n := binary.Uvarint(p)
		if n <= 0 {
			return
		}
		at, p = at+int64(d), p[n:]
		do(at)
	}
}

// A ref leads from a name's hash to the number of the record that has it: that of a subject, or of one that a print was in.
type ref struct {
	hash   uint64
	record uint32
}

func compareRefs(a, b ref) int {
	switch {
	case a.hash < b.hash:
		return -1
	case a.hash > b.hash:
		return 1
	}
	return int(a.record) - int(b.record)
}

// resting is all that rests. It is shared by the copies of a state and never changed, only replaced.
type resting struct {
	at      int64            // position at which it was last looked for what can rest
	records []*record        // nil: awake again
	layers  [][]ref          // each sorted, the largest first
	only    bitset           // positions of entries that tell of nothing awake
	prints  map[string]int32 // how many, by evening
	mixers  map[string]int64 // when each first mixed one of the baths that rest, microseconds
	told    uint64           // the same sum of all prints that rest
	seen    map[string]int64 // the last instant of readings that rest or ever did, microseconds, by where they hung and by probe
}

// clone returns a copy whose parts can be replaced.
func (r *resting) clone() *resting {
	if r == nil {
		return &resting{}
	}
	c := *r
	return &c
}

// none reports that nothing rests.
func (r *resting) none() bool { return len(r.records) == 0 }

// numbers calls do with the number of every record that a hash leads to, until it returns false.
func (r *resting) numbers(hash uint64, do func(n uint32) bool) {
	for _, layer := range r.layers {
		i, _ := slices.BinarySearchFunc(layer, hash, func(a ref, h uint64) int {
			if a.hash < h {
				return -1
			}
			return 1
		})
		for ; i < len(layer) && layer[i].hash == hash; i++ {
			if n := layer[i].record; int(n) < len(r.records) && r.records[n] != nil && !do(n) {
				return
			}
		}
	}
}

// find returns the record of a subject and its number; nil where it does not rest.
func (r *resting) find(of subject) (found *record, number uint32) {
	if r.none() {
		return nil, 0
	}
	r.numbers(of.hash(), func(n uint32) bool {
		if r.records[n].of == of {
			found, number = r.records[n], n
		}
		return found == nil
	})
	return found, number
}

// index adds refs. Layers of like size are made one.
func (r *resting) index(fresh []ref) {
	if len(fresh) == 0 {
		return
	}
	layers := slices.Clone(r.layers)
	for n := len(layers); n > 0 && len(layers[n-1]) < 4*len(fresh); n-- {
		fresh = append(slices.Clip(fresh), layers[n-1]...)
		layers = layers[:n-1]
	}
	slices.SortFunc(fresh, compareRefs)
	layers = append(layers, slices.Compact(fresh))
	r.layers = layers
}

// count makes up who mixed what rests.
func (r *resting) count() {
	r.mixers = map[string]int64{}
	for _, x := range r.records {
		if x == nil || x.bath == nil {
			continue
		}
		if first, known := r.mixers[x.bath.by]; !known || x.bath.mixed < first {
			r.mixers[x.bath.by] = x.bath.mixed
		}
	}
}

// counted returns the numbers of prints by evening with some more or less.
func (r *resting) counted(more map[string]int32) {
	r.prints = maps.Clone(r.prints)
	if r.prints == nil {
		r.prints = map[string]int32{}
	}
	for session, n := range more {
		if r.prints[session] += n; r.prints[session] <= 0 {
			delete(r.prints, session)
		}
	}
}

// ofProbe is a probe's name in seen.
func ofProbe(id string) string { return "\n" + id }

// saw notes the last instants of readings.
func (r *resting) saw(all []saidOfReading) {
	for i := range all {
		for _, key := range [2]string{all[i].reading.where(), ofProbe(all[i].reading.Probe)} {
			if last, known := r.seen[key]; !known || last < all[i].at {
				r.seen[key] = all[i].at
			}
		}
	}
}

// A bitset is a set of positions.
type bitset []uint64

func (b bitset) has(n int64) bool {
	return n >= 0 && n>>6 < int64(len(b)) && b[n>>6]&(1<<(n&63)) != 0
}

// set puts a position in; the set is grown before.
func (b bitset) set(n int64) { b[n>>6] |= 1 << (n & 63) }

func (b bitset) clear(n int64) {
	if b.has(n) {
		b[n>>6] &^= 1 << (n & 63)
	}
}

// grown returns a copy with room for positions up to n.
func (b bitset) grown(n int64) bitset {
	c := make(bitset, max(len(b), int(n>>6)+1))
	copy(c, b)
	return c
}
