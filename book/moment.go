package book

import (
	"cmp"
	"slices"
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

// inserted returns a list with one more in its place, after what compares as the same. What stands in the list is not moved:
// other lists may share it. Room behind its end is used: of those that share it one at most has any (Clone clips).
func inserted[T any](list []T, one T, compare func(a, b T) int) []T {
	if n := len(list); n == 0 || compare(list[n-1], one) <= 0 {
		return append(list, one)
	}
	i, _ := slices.BinarySearchFunc(list, one, func(a, b T) int {
		if compare(a, b) <= 0 {
			return -1
		}
		return 1
	})
	return slices.Insert(slices.Clip(list), i, one)
}
