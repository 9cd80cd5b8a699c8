package wash

import (
	"time"

	"wetside/trade/material"
)

// A Put is something put into shared water and still in it.
type Put struct {
	At       time.Time
	Material material.Material
}

// A Clock is the one clock of all that shares the water.
type Clock struct {
	Started  time.Time // when the last was put in: all start again, changes too
	Restarts int       // how often it was started again
	Out      time.Time // when all come out
	Findings []Finding // of RC that will have been in too long by then, the first of it
}

// Together returns the clock of what is in the water and needs that time, counted from the last print put in; whoever
// needs the longest tells needs. Things put in at one instant do not restart it. ok is false where nothing is in the water.
// Source: Wikipedia, Photographic fixer (WP-fixer): an hour, counted from the last print put in.
func Together(puts []Put, needs time.Duration) (c Clock, ok bool) {
	if len(puts) == 0 {
		return Clock{}, false
	}
	seen := map[int64]bool{}
	for _, p := range puts {
		if len(seen) == 0 || p.At.After(c.Started) {
			c.Started = p.At
		}
		seen[p.At.UnixNano()] = true
	}
	c.Restarts = len(seen) - 1
	c.Out = c.Started.Add(max(needs, 0))
	c.Findings = c.overlong(puts)
	return c, true
}

// overlong finds the RC print that was put in first, where it will have been in too long.
func (c Clock) overlong(puts []Put) []Finding {
	longest := time.Duration(-1)
	for _, p := range puts {
		if p.Material == material.RC {
			longest = max(longest, c.Out.Sub(p.At))
		}
	}
	if f, long := Overlong(material.RC, longest); long {
		return []Finding{f}
	}
	return nil
}

// Counted returns the changes that count among fillings that each stood so long: those that were dumped before least are taken
// together with the next ones until they have stood it, since two quick dumps are not two changes. What is
// still short at the end does not count. Negative times are nothing.
func Counted(stood []time.Duration, least time.Duration) []time.Duration {
	var counted []time.Duration
	sum := time.Duration(0)
	for _, s := range stood {
		sum += max(s, 0)
		if sum >= least && sum > 0 {
			counted = append(counted, sum)
			sum = 0
		}
	}
	return counted
}
