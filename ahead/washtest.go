package ahead

import (
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/trade/wash"
)

// A WashTest is a residual-thiosulfate test of a washed batch, with what the book says of that wash.
type WashTest struct {
	At      time.Time // of the test
	Batch   string    // its id
	Way     wash.Way  // NoWay where nobody said
	Water   darkroom.As[quantity.Celsius]
	Area    quantity.Area // m² of what was washed; 0 where nobody counted
	Time    time.Duration // from the last print put in to the end of the wash, or to the test where it went on
	Changes int           // of water; 0 where nobody counted
	Found   wash.Found
}

// LastWashTest returns the newest residual-thiosulfate test of a batch of a material in a book; false where there is none. A
// batch of several materials counts only where the test says which of them it was made on.
func LastWashTest(s *book.State, m material.Material) (last WashTest, ok bool) {
	for _, b := range s.Batches() {
		for _, x := range washTests(b, m) {
			if !ok || x.At.After(last.At) {
				last, ok = x, true
			}
		}
	}
	return last, ok
}

// washTests returns the tests of one batch, in order.
func washTests(b book.Batch, m material.Material) (all []WashTest) {
	l := washLog{of: m}
	for _, e := range b.Events {
		switch did := e.Did.(type) {
		case book.HoldingPut:
			l.put(did.Pass)
		case book.WashMoment:
			l.wash(e.At, did)
		case book.TestMade:
			x := l.now
			x.At, x.Batch, x.Time, x.Found = e.At, b.ID, l.washed(e.At), foundOf(did.Result)
			if did.Result.Test == book.HypoDrop && x.Time > 0 && (did.Material == m || did.Material == material.None && !l.mixed) {
				all = append(all, x)
			}
		}
	}
	return all
}

// washLog follows a batch's washes.
type washLog struct {
	of           material.Material
	mixed        bool // other materials are in it
	now          WashTest
	clock, ended time.Time
	before       time.Duration // washed earlier, with nothing put in since
	changed      int           // changes of those washes
}

// put takes prints that were put in; the worst of a batch is then a print that was never washed.
func (l *washLog) put(p book.Pass) {
	l.mixed = l.mixed || p.Material != l.of
	if p.Material == l.of {
		l.now.Area += p.Area
	}
	l.before, l.changed = 0, 0
	if !l.ended.IsZero() {
		l.clock, l.ended = time.Time{}, time.Time{}
	}
}

// wash takes what is said of a wash. One that is gone on with after it ended adds to what was washed before.
func (l *washLog) wash(at time.Time, w book.WashMoment) {
	if w.Put != nil {
		l.put(*w.Put)
	}
	switch {
	case w.Step == book.WashMore:
		l.clock, l.ended, l.before = at, time.Time{}, 0
	case l.clock.IsZero():
		l.clock = at
	case w.Step == book.WashStarted:
		l.before, l.changed = l.washed(at), l.now.Changes
		l.clock, l.ended = at, time.Time{}
	}
	if w.Step == book.WashDone || w.Step == book.WashStopped {
		l.ended = at
	}
	if way, err := wash.ReadWay(w.Way); err == nil {
		l.now.Way = way
	}
	if w.Water.Given() {
		l.now.Water = w.Water
	}
	if w.Changes > 0 {
		l.now.Changes = l.changed + w.Changes
	}
}

// washed is how long a batch was washed when it was tested; 0 where it was not.
func (l *washLog) washed(at time.Time) time.Duration {
	switch {
	case l.clock.IsZero():
		return 0
	case l.ended.IsZero():
		return l.before + at.Sub(l.clock)
	}
	return l.before + l.ended.Sub(l.clock)
}

// foundOf is what a drop on a print found.
func foundOf(r book.TestResult) wash.Found {
	switch r.Verdict {
	case book.Passed:
		return wash.Found{Stain: wash.NoStain}
	case book.Failed:
		return wash.AnyStain()
	case book.NoVerdict:
	}
	return wash.Found{Least: r.From, Most: r.To}
}

// In returns the test as one of a wash like the one that is asked about: what the book does not say of its wash is taken
// from there, and where nobody said which way was washed, from what there is: changes that were counted, else running water.
func (t WashTest) In(r wash.Request) wash.Test {
	out := wash.Test{Load: r.Load, Setting: r.Setting, Way: t.Way, Time: t.Time, Found: t.Found}
	out.Load.Water = t.Water.Or(r.Load.Water)
	if t.Area > 0 {
		out.Load.Area = t.Area
	}
	if out.Way == wash.NoWay {
		out.Way = wash.UsualWay(r.Setting, t.Changes)
	}
	switch {
	case t.Changes > 0 && out.Way == wash.StillChanges:
		out.Setting.Contact = t.Time / time.Duration(t.Changes)
	case t.Changes > 0 && out.Way == wash.StandingTray:
		out.Setting.Beat = max(t.Time/time.Duration(t.Changes), time.Second)
	case out.Way == wash.Cascade:
		out.Contact = t.Time / time.Duration(max(r.Setting.Stages, 1))
	}
	return out
}
