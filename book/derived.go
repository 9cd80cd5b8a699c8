package book

import (
	"sync"
	"sync/atomic"
)

// derived is what was worked out of a state for whoever asked, on nearly every page: it is worked out once between two entries. A
// state has its own; of waste cans, which most entries do not touch, copies share what they have.
type derived struct {
	used   atomic.Bool // something but the cans was worked out
	baths  worked[[]Bath]
	pairs  worked[map[string]*Pair]
	events worked[[]Event]
	waste  *worked[[]WasteCan]
}

// worked is something that is worked out by whoever asks first.
type worked[T any] struct {
	once  sync.Once
	value T
}

func (o *worked[T]) get(work func() T) T {
	o.once.Do(func() { o.value = work() })
	return o.value
}

func newDerived() *derived { return &derived{waste: &worked[[]WasteCan]{}} }

// again returns what a state has in which other things rest, or a copy of it.
func (d *derived) again() *derived { return &derived{waste: d.waste} }

// after returns what a state has that was told a body.
func (d *derived) after(body Body) *derived {
	switch body.(type) {
	case *Worked, *Tested, *ToppedUp, *PouredBack, *PouredOut, *Held, *Washed, *FaultFound, *PrintStarted, *PrintMoved, *PrintLeft,
		*EveningOpened, *EveningJoined, *EveningClosed, *Ticked, *Told, *ProbeRead, *Answered,
		*LotReceived, *LotOpened, *LotCounted, *LotDrawn, *LotDiscarded, *Stock:
		if d.used.Load() {
			return d.again()
		}
		return d
	default:
		return newDerived()
	}
}
