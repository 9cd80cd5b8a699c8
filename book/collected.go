package book

import (
	"time"

	"wetside/trade/process"
	"wetside/trade/quantity"
)

// ToCollected is where a bath goes that is put by to be collected.
const ToCollected = "collected"

// Collected returns how much used fixer is put by to be collected (mL, see quantity.Volume), in all cans and in none, as it was
// measured when it went, else as it was mixed, without what was taken away since; since is when the first of it was.
func (s *State) Collected() (total quantity.Volume, since time.Time) {
	for _, c := range s.Waste() {
		for i := range c.Now {
			p := &c.Now[i]
			if p.Of != process.Fixer {
				continue
			}
			total += p.Left()
			if since.IsZero() || p.At.Before(since) {
				since = p.At
			}
		}
	}
	return total, since
}
