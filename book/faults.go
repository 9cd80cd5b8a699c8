package book

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"wetside/darkroom"
)

// A fault is something that should not be in a darkroom. Facts may bring one about (two devices, one of them late); a
// decision that would bring a new one about is refused.
type fault struct {
	reason  Reason
	subject string // an id, or a path where there is none
}

// A cause is what is known of a fault.
type cause struct {
	entry   string // of an entry that stands in the way
	problem darkroom.Problem
}

// newFault returns what is at fault after a decision and was not before; nil for nothing.
func (s *State) newFault(after *State, decision string) error {
	before := s.faults()
	var worst *RefusedError
	for f, why := range after.faults() {
		if _, had := before[f]; had {
			continue
		}
		r := &RefusedError{
			Reason: f.reason, Entry: decision, Subject: f.subject, Because: why.entry, Problem: why.problem,
		}
		if worst == nil || r.order() < worst.order() {
			worst = r
		}
	}
	if worst == nil {
		return nil
	}
	return worst
}

// order makes one of several refusals the one that is told, always the same.
func (e *RefusedError) order() string { return string(e.Reason) + " " + e.Subject }

// faults returns all faults.
func (s *State) faults() map[fault]cause {
	all := map[fault]cause{}
	c := &s.corrections
	for _, l := range s.Lots() {
		why := fault{ProductHasLots, l.ProductID}
		if _, noted := all[why]; !noted && l.Gone == There && s.products.now(l.ProductID, c) == nil {
			all[why] = cause{entry: l.Entry}
		}
	}
	for id, list := range s.lots {
		if came, _ := s.receipt(id); came != nil {
			continue
		}
		drawn := slices.IndexFunc(list, func(h happening) bool { return h.do == actDrawn && c.stands(h.entry) })
		if drawn >= 0 {
			all[fault{LotDrawnSince, id}] = cause{entry: list[drawn].entry}
		}
	}
	s.bathFaults(all)
	f, ids := s.File(nil)
	problems, _ := errors.AsType[darkroom.Problems](darkroom.Check(f))
	for _, p := range problems {
		all[fault{reasonOf(p), ids.of(p.Path)}] = cause{problem: p}
	}
	return all
}

// bathFaults adds what should not be of baths: one that was used and whose mix is taken back, one that went twice. A bath
// that the book never knew is none of its faults.
func (s *State) bathFaults(all map[fault]cause) {
	c := &s.corrections
	for id, list := range s.deeds {
		m, _ := s.mix(id)
		gone := false
		for _, d := range list {
			if !c.stands(d.entry) {
				continue
			}
			if used := (fault{BathUsedSince, id}); m == nil && len(s.baths[id]) > 0 && all[used].entry == "" {
				all[used] = cause{entry: d.entry}
			}
			if gone && d.takesAway(id) {
				all[fault{BathNotThere, id}] = cause{entry: d.entry}
			}
			gone = gone || d.takesAway(id)
		}
	}
}

// reasonOf returns why a file that a decision would lead to is refused.
func reasonOf(p darkroom.Problem) Reason {
	switch p.Kind {
	case darkroom.ProblemSameName:
		return NameTaken
	case darkroom.ProblemNoSuchProduct, darkroom.ProblemNoSuchRoleOrProduct:
		return ProductNamed
	case darkroom.ProblemMissing:
		if p.Path == "darkroom.name" {
			return RoomStays
		}
		return WouldNotHold
	default:
		return WouldNotHold
	}
}

// of returns the id of the thing that a path of the file lies in, or the path where it lies in none.
func (ids IDs) of(path string) string {
	for list, in := range map[string][]string{
		"bench.vessels[": ids.Vessels, "bench.trays[": ids.Trays, "bench.tanks[": ids.Tanks, "bench.cans[": ids.Cans,
		"shelf.products[": ids.Products, "shelf.lots[": ids.Lots,
	} {
		rest, ok := strings.CutPrefix(path, list)
		if !ok {
			continue
		}
		digits, _, _ := strings.Cut(rest, "]")
		if i, err := strconv.Atoi(digits); err == nil && i >= 0 && i < len(in) {
			return in[i]
		}
	}
	return path
}

var (
	errNoID   = errors.New("an id is missing or is no id")
	errNoPart = errors.New("what it is is missing")
	errNoFrom = errors.New("a part that there is one of has no id and is never removed")
)

// complete reports what a body lacks that its kind can't do without.
func complete(body Body) error {
	switch b := body.(type) {
	case *Set:
		switch {
		case len(b.As) == 0:
			return errNoPart
		case b.Part.single() != (b.ID == ""):
			return errNoFrom
		case b.Whose != "" && b.Part != ProductPart:
			return errOwnerOfWhat
		case b.Part.single():
			return nil
		}
		return errors.Join(ids(b.ID), mayID("whose", b.Whose))
	case *Removed:
		return ids(b.ID)
	case *LotReceived:
		return errors.Join(ids(b.Lot, b.Product), mayID("whose", b.Whose))
	case *LotOpened:
		return ids(b.Lot)
	case *LotCounted:
		return ids(b.Lot)
	case *LotDrawn:
		return ids(b.Lot)
	case *LotDiscarded:
		return ids(b.Lot)
	case *Stock:
		return errors.Join(ids(b.Lot, b.Product), drawIDs(b.From), mayID("whose", b.Whose))
	case *Mixed:
		return errors.Join(ids(b.Bath), drawIDs(b.From))
	case *Moved:
		_, err := readMoved(b)
		return err
	case *Disposed:
		_, err := readDisposed(b)
		return err
	default: // facts about baths and batches are read whole before they are taken in
	}
	return nil
}

func ids(all ...string) error {
	for _, id := range all {
		if !ValidID(id) {
			return errNoID
		}
	}
	return nil
}

// drawIDs lets draws from bottles that the book does not know pass.
func drawIDs(from []Draw) error {
	for _, d := range from {
		if d.Lot != "" && !ValidID(d.Lot) {
			return errNoID
		}
	}
	return nil
}
