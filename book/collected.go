package book

import (
	"time"

	"wetside/trade/process"
	"wetside/trade/quantity"
)

// ToCollected is where a bath goes that is put by to be collected.
const ToCollected = "collected"

// Collected returns how much used fixer was put by to be collected (mL, see quantity.Volume), as it was measured when it went,
// else as it was mixed; since is when the first of it was. What was taken away since, no entry says.
func (s *State) Collected() (total quantity.Volume, since time.Time) {
	for _, b := range s.Baths() {
		if b.Gone == nil || b.Gone.To != ToCollected {
			continue
		}
		if p, _ := s.Product(b.Mixed.Product); p.Role != process.Fixer {
			continue
		}
		v := b.Gone.Volume
		if v == 0 {
			v = b.Volume
		}
		total += v
		if since.IsZero() || b.Gone.At.Before(since) {
			since = b.Gone.At
		}
	}
	return total, since
}
