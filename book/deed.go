package book

import (
	"slices"
	"time"

	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/quantity"
)

// An Event is something that happened to baths or batches and was not taken back.
type Event struct {
	Entry  string
	At     time.Time // happened_at
	By     string    // a person's id, or empty
	Device string    // or empty
	Did    Did
}

// A Did is what happened, as it was read: Load, TestMade, TopUp, Move, PourBack, PourOut, Disposal, HoldingPut,
// WashMoment or FaultSeen. Its lists are shared and not to be changed.
type Did interface {
	// Baths returns the ids of the baths that it happened to, each once.
	Baths() []string
}

// A Load is what went through baths.
type Load struct {
	Through []string // the baths' ids in order
	Pass
	Drain time.Duration // between baths; 0 where the entry says nothing else than the room
}

// A TestMade is a test of a bath or of a print of a batch.
type TestMade struct {
	Bath, Batch string // ids; one may be empty
	Result      TestResult
	Said        string            // the result in the words of the entry
	Steps       []float64         // of the silver strip, g/L; nil where the entry does not say
	Material    material.Material // that it was made with, or None
}

// A TopUp is what was poured into a bath.
type TopUp struct {
	Bath     string
	With     With
	Volume   quantity.Volume
	Product  string // its id; empty: the bath's own
	Dilution string // the label's words; empty: the bath's own
	Load     string // the entry of the load that it makes good, or empty
}

// A Move is the second bath of a pair becoming the first.
type Move struct {
	First, Second string // the ids of the one that went and the one that took its place
	Leave
}

// A Leave is how a bath went.
type Leave struct {
	Why, To string
	Can     string          // the waste can's id; empty where the entry names none
	Volume  quantity.Volume // 0 where the entry does not say
}

// A PourBack is a bath going into a bottle.
type PourBack struct {
	Bath   string
	Into   darkroom.State
	Bottle string
	Volume quantity.Volume // 0 where nobody measured
}

// A PourOut is a bath going from its bottle into a tray or tank.
type PourOut struct {
	Bath, Tray, Tank string          // ids
	Volume           quantity.Volume // 0 where nobody measured
}

// A Disposal is a bath being discarded or collected.
type Disposal struct {
	Bath string
	Leave
}

// A HoldingPut is prints being put in holding.
type HoldingPut struct {
	Batch, Bath, Tray string   // ids; bath and tray may be empty
	Loads             []string // the entries of the loads that the prints came from, where that is said
	Pass
}

// A WashMoment is a wash being started, started anew by another print, done or stopped.
type WashMoment struct {
	Batch   string
	Step    WashStep
	Put     *Pass // what was put in without having been in holding, or nil
	Way     string
	Water   darkroom.As[quantity.Celsius]
	Changes int
}

// Baths returns the baths that the load went through.
func (l Load) Baths() []string {
	for i, id := range l.Through {
		if slices.Contains(l.Through[:i], id) {
			once := slices.Clone(l.Through[:i])
			for _, id := range l.Through[i:] {
				if !slices.Contains(once, id) {
					once = append(once, id)
				}
			}
			return once
		}
	}
	return l.Through
}

// Baths returns the bath that was tested; none for a test of a batch.
func (t TestMade) Baths() []string { return some(t.Bath) }

// Baths returns the bath that was topped up.
func (t TopUp) Baths() []string { return some(t.Bath) }

// Baths returns the bath that went and the one that moved forward.
func (m Move) Baths() []string { return []string{m.First, m.Second} }

// Baths returns the bath.
func (p PourBack) Baths() []string { return some(p.Bath) }

// Baths returns the bath.
func (p PourOut) Baths() []string { return some(p.Bath) }

// Baths returns the bath that went.
func (d Disposal) Baths() []string { return some(d.Bath) }

// Baths returns the holding bath, where there is one.
func (h HoldingPut) Baths() []string { return some(h.Bath) }

// Baths returns none.
func (WashMoment) Baths() []string { return nil }

func some(id string) []string {
	if id == "" {
		return nil
	}
	return []string{id}
}

// batchOf returns the batch that something happened to, or empty.
func batchOf(d Did) string {
	switch d := d.(type) {
	case TestMade:
		return d.Batch
	case HoldingPut:
		return d.Batch
	case WashMoment:
		return d.Batch
	default:
		return ""
	}
}

// A deed is an event on its way into lives: of baths, of batches.
type deed struct {
	moment
	by  string
	did Did
}

// event returns the deed for whoever reads; strip is what part of a sheet the room's strips are.
func (d *deed) event(strip quantity.Ratio) Event {
	e := Event{Entry: d.entry, At: time.UnixMicro(d.at).UTC(), By: d.by, Device: d.device, Did: d.did}
	switch did := d.did.(type) {
	case Load:
		did.Pass = did.measured(strip)
		e.Did = did
	case HoldingPut:
		did.Pass = did.measured(strip)
		e.Did = did
	case WashMoment:
		if did.Put != nil {
			put := did.Put.measured(strip)
			did.Put = &put
			e.Did = did
		}
	}
	return e
}

// compareDeeds orders by the moment; what one entry of a print did is a load first.
func compareDeeds(a, b *deed) int {
	if c := a.compare(&b.moment); c != 0 || a == b {
		return c
	}
	return rankOf(a.did) - rankOf(b.did)
}

// rankOf tells apart what prints do: a load, what is put in holding, a wash.
func rankOf(did Did) int {
	switch did.(type) {
	case Load:
		return 0
	case HoldingPut:
		return 1
	default:
		return 2
	}
}
