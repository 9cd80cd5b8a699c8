package book

import (
	"slices"
	"time"
)

// A Batch is prints that wait in holding or are washed together. Its lists are not to be changed.
type Batch struct {
	ID       string
	Prints   []Pass  // all that were put in, in order
	Events   []Event // HoldingPut, WashMoment and TestMade, in order
	Since    time.Time
	Bath     string // the holding bath's id where the last prints were put, or empty
	Tray     string // the same of the tray
	Wash     *Wash  // the last wash, nil while there was none
	Findings []Finding
}

// A Wash is the wash of a batch until now.
type Wash struct {
	Started time.Time
	Clock   time.Time // when the last print came in: minutes count from here
	Ended   time.Time // zero while it goes on
	Done    bool      // it ended because it was done
	Changes int       // of water, as last said
}

// Batches returns the batches of prints that were put in holding or into a wash, or that something was said of, by the
// moment of the first event.
func (s *State) Batches() []Batch {
	var all []Batch
	var firsts []*deed
	for id, list := range s.batches {
		at := slices.IndexFunc(list, func(d *deed) bool { return s.corrections.stands(d.entry) })
		if at < 0 {
			continue
		}
		i, _ := slices.BinarySearchFunc(firsts, list[at], func(a, b *deed) int { return a.compare(&b.moment) })
		firsts, all = slices.Insert(firsts, i, list[at]), slices.Insert(all, i, s.batch(id, list))
	}
	return all
}

// batch tells what became of a batch.
func (s *State) batch(id string, list []*deed) Batch {
	b := Batch{ID: id}
	strip := s.roomStrip()
	for _, d := range list {
		if !s.corrections.stands(d.entry) {
			continue
		}
		e := d.event(strip)
		b.Events = append(b.Events, e)
		if b.Since.IsZero() {
			b.Since = e.At
		}
		b.take(e)
	}
	return b
}

func (b *Batch) take(e Event) {
	odd := Finding{Subject: b.ID, Entry: e.Entry, At: e.At}
	switch did := e.Did.(type) {
	case HoldingPut:
		b.Prints = append(b.Prints, did.Pass)
		b.Bath, b.Tray = did.Bath, did.Tray
		if b.Wash != nil && b.Wash.Done {
			odd.Kind = AfterWash
			b.Findings = append(b.Findings, odd)
		}
	case WashMoment:
		if did.Put != nil {
			b.Prints = append(b.Prints, *did.Put)
		}
		b.wash(e.At, did)
	default: // a test says nothing of where the prints are
	}
	if len(b.Prints) == 0 {
		odd.Kind = UnknownBatch
		b.Findings = append(b.Findings, odd)
	}
}

// wash follows the wash. One that was never started begins with whatever was said of it first.
func (b *Batch) wash(at time.Time, m WashMoment) {
	if b.Wash == nil || m.Step == WashStarted || m.Step == WashMore && !b.Wash.Ended.IsZero() {
		b.Wash = &Wash{Started: at, Clock: at}
	}
	if m.Changes > 0 {
		b.Wash.Changes = m.Changes
	}
	switch m.Step {
	case WashMore:
		b.Wash.Clock = at
	case WashDone, WashStopped:
		b.Wash.Ended, b.Wash.Done = at, m.Step == WashDone
	case WashStarted:
	}
}
