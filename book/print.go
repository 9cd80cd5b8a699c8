package book

import (
	"time"

	"wetside/trade/process"
)

// A Print is a sheet, a strip or a film on its way through the sink. Its lists are not to be changed.
type Print struct {
	ID      string
	Of      string // whose it is: a person's id, or empty
	Session string // the evening that it belongs to, or empty
	What    Pass
	Began   time.Time
	Stays   []Stay     // every place where it was, in order; the last is where it is, or was when it left
	Left    *Exit      // nil while it is in the sink
	Last    Said       // the latest that was said of it: what undo takes back
	Odd     []PrintOdd // in the order of the events
}

// A Stay is a print's time in one place.
type Stay struct {
	Step  process.Step
	Bath  string // the bath's id, or empty
	Batch string // or empty
	Since time.Time
	For   time.Duration // that it is to be there, draining and all; 0 where nobody set one
	Drain time.Duration // the part of For that it hangs and drains
	Said  Said          // the entry that put it there
}

// Due returns when a stay is over and when the print is to be lifted out to drain; ok is false where no time was set.
func (s *Stay) Due() (lift, due time.Time, ok bool) {
	due = s.Since.Add(s.For)
	return due.Add(-s.Drain), due, s.For > 0
}

// A Said is an entry, as far as it says who said it.
type Said struct {
	Entry, By, Device string
	At                time.Time
}

// An Exit is how a print left the sink.
type Exit struct {
	Said
	Abandoned bool
}

// PrintOdd is something about a print that is odd and stays in the book.
type PrintOdd struct {
	Kind  PrintOddKind
	Entry string
}

// PrintOddKind is a key of the message catalogue.
type PrintOddKind string

// What can be odd about a print.
const (
	NeverStarted PrintOddKind = "never_started" // it was moved, and nobody said that it was started: it counts for nothing
	WentBack     PrintOddKind = "went_back"     // to a place that comes earlier in its way
	CameBack     PrintOddKind = "came_back"     // after it had left
	StartedTwice PrintOddKind = "started_twice" // the first that stands counts
)
