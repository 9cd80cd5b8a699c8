package book

import (
	"cmp"
	"strings"
)

// A moment is an entry's place among all that happened.
type moment struct {
	at       int64 // happened_at in microseconds
	entry    string
	device   string
	position int64
	begins   bool // it is by this entry that the thing is there at all
}

func momentOf(e Entry) moment {
	return moment{at: e.HappenedAt.UnixMicro(), entry: e.ID, device: e.Device, position: e.Position}
}

// compare orders by the instant. Within one instant, as under a clock that stands still, a thing comes before what is done
// with it; then device by device, and what one device says in the order in which it said it. So the order does not depend
// on how the entries of several devices were shuffled on their way into the book.
func (m *moment) compare(n *moment) int {
	switch {
	case m.at != n.at:
		return cmp.Compare(m.at, n.at)
	case m.begins != n.begins && m.begins:
		return -1
	case m.begins != n.begins:
		return 1
	case m.device != n.device:
		return strings.Compare(m.device, n.device)
	}
	return cmp.Compare(m.position, n.position)
}
