package doors

import (
	"time"

	"wetside/access"
)

// How often a passphrase may be tried. ASVS 5.0, 6.3.1 asks for a limit; the figures are ours: somebody who forgot gets
// five tries at once, and whoever guesses 100 an hour at one name.
const (
	triesHere, triesHereEvery       = 5, time.Minute       // of one name from one address
	triesOfName, triesOfNameEvery   = 20, 36 * time.Second // of one name, wherever from
	triesAddress, triesAddressEvery = 20, time.Minute      // of one address, whatever name
	remembered                      = 20_000               // of each
)

// limits are what is counted of tries.
type limits struct{ here, name, address *access.Limit }

func newLimits(now func() time.Time) limits {
	return limits{
		here:    access.NewLimit(now, triesHere, triesHereEvery, remembered),
		name:    access.NewLimit(now, triesOfName, triesOfNameEvery, remembered),
		address: access.NewLimit(now, triesAddress, triesAddressEvery, remembered),
	}
}

// take takes a try of each; wait is how long until there is one.
func (l *limits) take(name, address string) (wait time.Duration) {
	taken := []func(){}
	for _, x := range []struct {
		limit *access.Limit
		who   string
	}{{l.here, name + "\x00" + address}, {l.address, address}, {l.name, name}} {
		if wait := x.limit.Take(x.who); wait > 0 {
			for _, back := range taken {
				back()
			}
			return wait
		}
		taken = append(taken, func() { x.limit.Give(x.who) })
	}
	return 0
}

// give gives the try back: it was a good one.
func (l *limits) give(name, address string) {
	l.here.Give(name + "\x00" + address)
	l.address.Give(address)
	l.name.Give(name)
}
