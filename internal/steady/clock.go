package steady

import (
	"sync/atomic"
	"time"
)

// A Clock goes on evenly. It is safe for use by several goroutines.
type Clock struct {
	wall    func() time.Time
	elapsed func() time.Duration
	start   time.Time // what it showed when nothing had elapsed, without NotBefore
	first   time.Duration
	later   atomic.Int64 // what NotBefore added, ns
}

// New returns a clock that shows what wall shows now, and goes on as elapsed does. The zone is wall's.
func New(wall func() time.Time, elapsed func() time.Duration) *Clock {
	return &Clock{wall: wall, elapsed: elapsed, start: wall().Round(0), first: elapsed()}
}

// Now returns the time. Its zone and day are the room's, whatever a change to or from summer time does.
func (c *Clock) Now() time.Time {
	return c.start.Add(c.elapsed() - c.first + time.Duration(c.later.Load()))
}

// NotBefore moves the clock on to an instant where it stands before it, and returns by how much. It is for the begin: last
// is when the book was last written to.
func (c *Clock) NotBefore(last time.Time) time.Duration {
	behind := last.Sub(c.Now())
	if behind <= 0 {
		return 0
	}
	c.later.Add(int64(behind))
	return behind
}

// Off returns how far the machine's clock stands from this one: above 0, it is later. A second or so is nothing.
func (c *Clock) Off() time.Duration { return c.wall().Round(0).Sub(c.Now()) }
