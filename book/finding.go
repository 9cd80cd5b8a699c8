package book

import (
	"cmp"
	"slices"
	"time"

	"wetside/trade/quantity"
)

// FindingKind is what is odd about an event: a key of the message catalogue.
type FindingKind string

// What can be odd. None of it hinders that the event is recorded.
const (
	UnknownBath  FindingKind = "unknown_bath"  // the book does not know the bath, or its mix was taken back
	BeforeMixed  FindingKind = "before_mixed"  // it happened before the bath was mixed
	AfterGone    FindingKind = "after_gone"    // the bath had been discarded or had gone when it happened
	MixedTwice   FindingKind = "mixed_twice"   // several entries say that the bath was mixed; the latest counts
	MoreThanWas  FindingKind = "more_than_was" // more came out of the bath than ever went in
	UnknownBatch FindingKind = "unknown_batch" // a wash or a test of prints that never were put in
	AfterWash    FindingKind = "after_wash"    // prints were put into a batch whose wash was done
)

// A Finding is something odd that is in the book and stays there.
type Finding struct {
	Kind    FindingKind
	Subject string // the id of the bath or batch
	Entry   string // of the event
	Because string // the entry that makes it odd, or empty
	At      time.Time
}

// slack is how much more may come out of a bath than went in before it is odd: a tenth, for jugs that are read in a dim
// light (from memory).
const slack = 10

// findingsOf returns what is odd about a bath's life.
func (s *State) findingsOf(b *Bath, m *making) []Finding {
	var all []Finding
	if _, others := s.mix(b.ID); others > 0 {
		all = append(all, Finding{Kind: MixedTwice, Subject: b.ID, Entry: m.entry, At: b.MixedAt})
	}
	away := s.leaving(b.ID)
	had := b.Volume
	for _, d := range s.deeds[b.ID] {
		if _, looked := d.did.(FaultSeen); looked || !s.corrections.stands(d.entry) {
			continue // what looked wrong is often found when the bath is long gone
		}
		f := Finding{Subject: b.ID, Entry: d.entry, At: time.UnixMicro(d.at).UTC()}
		if b.Made != MadeUnknown && d.at < m.at {
			f.Kind, f.Because = BeforeMixed, m.entry
			all = append(all, f)
		}
		if away != nil && d != away && d.compare(&away.moment) > 0 {
			f.Kind, f.Because = AfterGone, away.entry
			all = append(all, f)
		}
		if up, ok := d.did.(TopUp); ok {
			had += up.Volume
		}
		if v := cameOut(d.did, b.ID); v > had+had/slack {
			f.Kind, f.Because = MoreThanWas, m.entry
			all = append(all, f)
		}
	}
	return all
}

// cameOut returns how much of a bath was there by what somebody measured, 0 where nobody did.
func cameOut(did Did, id string) quantity.Volume {
	switch did := did.(type) {
	case PourBack:
		return did.Volume
	case PourOut:
		return did.Volume
	case Disposal:
		return did.Volume
	case Move:
		if did.First == id {
			return did.Volume
		}
	}
	return 0
}

// Findings returns all that is odd about baths and batches, in the order of the events.
func (s *State) Findings() []Finding {
	var all []Finding
	for id, list := range s.deeds {
		if m, _ := s.mix(id); m != nil {
			all = append(all, s.life(m, nil).Findings...)
			continue
		}
		for _, d := range list {
			if s.corrections.stands(d.entry) {
				all = append(all, Finding{Kind: UnknownBath, Subject: id, Entry: d.entry, At: time.UnixMicro(d.at).UTC()})
			}
		}
	}
	for id := range s.baths {
		if m, others := s.mix(id); others > 0 && len(s.deeds[id]) == 0 {
			all = append(all, Finding{Kind: MixedTwice, Subject: id, Entry: m.entry, At: m.bath.MixedAt})
		}
	}
	for _, b := range s.Batches() {
		all = append(all, b.Findings...)
	}
	slices.SortStableFunc(all, func(a, b Finding) int { return a.compare(b) })
	return all
}

func (f Finding) compare(g Finding) int {
	return cmp.Or(f.At.Compare(g.At), cmp.Compare(f.Subject, g.Subject), cmp.Compare(f.Entry, g.Entry), cmp.Compare(f.Kind, g.Kind))
}
