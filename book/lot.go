package book

import (
	"math"
	"time"

	"wetside/darkroom"
	"wetside/trade/quantity"
)

// A Lot is one lot as it is now.
type Lot struct {
	ID        string
	ProductID string
	Whose     string // a person's id; empty: the room's
	// Lot is what the darkroom file would say of it now. Its left is in the words of the last count, or, where
	// something was drawn since, worked out from them; its product is empty where the product is gone, its owner always.
	Lot darkroom.Lot
	// Entry is the entry that put it on the shelf.
	Entry string
	// Gone says whether it has left the shelf, and how.
	Gone Gone
	// Overdrawn is set where more was drawn than was thought to be there; what is left is then unknown.
	Overdrawn bool

	ounce Ounce // what ounces in its words are, where they do not say
}

// Gone is how a lot left the shelf.
type Gone uint8

// The ways of leaving. The zero value: it is there.
const (
	There     Gone = iota
	UsedUp         // all of it was drawn
	ThrownOut      // discarded
)

// act is what a happening does to a lot.
type act uint8

const (
	actReceived act = iota
	actOpened
	actCounted
	actDrawn
	actDiscarded
)

// A happening is one entry's effect on one lot.
type happening struct {
	moment
	do     act
	amount amount  // of a draw or a count
	said   *saying // of everything but a draw; kept apart, because draws are many
}

// A saying is what an entry said of a lot in words.
type saying struct {
	words   string                 // of a count
	opened  darkroom.As[time.Time] // the day
	product string                 // of a receipt: the product's id
	whose   string                 // of a receipt: its owner's
	lot     darkroom.Lot           // of a receipt: the rest
	ounce   Ounce
}

// lotNow works out how a lot is now; false where no standing entry put it on the shelf. Where two entries together say
// what can't be, the lot says less: more left than it holds is unknown, a day of coming after that of opening is none.
func (s *State) lotNow(id string) (Lot, bool) {
	l, there := s.lotAsSaid(id)
	if l.Lot.Left.Given() && l.Lot.Holds.Given() && l.Lot.Left.Value > l.Lot.Holds.Value {
		l.Lot.Left, l.Lot.LeftUnknown = darkroom.As[quantity.Volume]{}, true
	}
	if o := l.Lot.Opened; o.Given() {
		if o.Value.Before(l.Lot.Received.Value) {
			l.Lot.Received = darkroom.As[time.Time]{}
		}
		if o.Value.Before(l.Lot.Made.Value) {
			l.Lot.Made = darkroom.As[time.Time]{}
		}
	}
	return l, there
}

// lotAsSaid is lotNow with whatever the entries say.
func (s *State) lotAsSaid(id string) (Lot, bool) {
	came, from := s.receipt(id)
	if came == nil {
		return Lot{}, false
	}
	l := Lot{ID: id, ProductID: came.said.product, Whose: came.said.whose, Lot: came.said.lot, Entry: came.entry, ounce: came.said.ounce}
	var p darkroom.Product
	if now := s.products.now(l.ProductID, &s.corrections); now != nil {
		p = now.value
	}
	l.Lot.Product = p.Name
	left := level{lot: &l.Lot, ounce: came.said.ounce, density: p.Density.Value}
	for i, h := range s.lots[id] {
		if !s.corrections.stands(h.entry) {
			continue
		}
		switch h.do {
		case actOpened:
			l.Lot.Opened = h.said.opened
		case actDiscarded:
			l.Gone = ThrownOut
		case actCounted:
			if i == from {
				left.count(h)
			}
		case actDrawn:
			if i > from {
				left.draw(h.amount)
			}
		case actReceived:
		}
	}
	l.Overdrawn = left.settle()
	if l.Gone == There && left.empty {
		l.Gone = UsedUp
	}
	return l, true
}

// receipt returns the standing entry that put a lot on the shelf, nil for none, and the index of the last standing
// count of what is in it: draws before that are in the count. A receipt that says what is left is a count. -1: never
// counted, so all draws are from the full lot.
func (s *State) receipt(id string) (came *happening, counted int) {
	counted = -1
	for i := range s.lots[id] {
		h := &s.lots[id][i]
		if h.do != actReceived && h.do != actCounted || !s.corrections.stands(h.entry) {
			continue
		}
		if h.do == actReceived {
			came = h
		}
		if h.do == actCounted || h.said.lot.Left.Given() || h.said.lot.LeftUnknown {
			counted = i
		}
	}
	return came, counted
}

// A level follows what is in a lot from a count through the draws after it.
type level struct {
	lot     *darkroom.Lot
	ounce   Ounce
	density quantity.Density

	drawn   quantity.Volume
	packets int
	some    bool // something was drawn
	unsure  bool // by an amount that can't be taken off
	all     bool // the last draw took all
	empty   bool
}

// count starts anew from what was seen. Words of another ounce than the lot's say theirs.
func (v *level) count(h happening) {
	if h.amount.packets > 0 {
		v.lot.Packets = int(h.amount.packets)
		return
	}
	v.lot.Left, v.lot.LeftUnknown = darkroom.As[quantity.Volume]{}, h.amount.unknown
	if !h.amount.unknown {
		words := under(v.ounce, &setting[string]{value: h.said.words, ounce: h.said.ounce}, clearWords)
		v.lot.Left = darkroom.As[quantity.Volume]{Value: h.amount.volume, Text: words}
	}
}

// draw takes an amount off.
func (v *level) draw(a amount) {
	v.some = true
	switch {
	case a.all:
		v.all = true
	case a.packets > 0:
		v.packets += int(a.packets)
	case a.mass > 0 && v.density > 0:
		v.drawn += quantity.Volume(math.Round(float64(a.mass) / float64(v.density) * float64(quantity.Millilitre)))
	case a.mass > 0:
		v.unsure = true
	default:
		v.drawn += a.volume
	}
}

// settle writes what is left into the lot and reports whether more was drawn than there was.
func (v *level) settle() (overdrawn bool) {
	if !v.some {
		return false
	}
	had := v.lot.Left
	if !had.Given() && !v.lot.LeftUnknown {
		had = v.lot.Holds
	}
	left := had.Value - v.drawn
	switch {
	case v.all, v.packets > 0 && v.packets >= v.lot.Packets, had.Given() && left == 0:
		v.empty = true
		return v.packets > v.lot.Packets
	case v.lot.Packets > 0:
		v.lot.Packets -= v.packets
		return false
	case v.unsure, !had.Given(), left < 0:
		v.lot.Left, v.lot.LeftUnknown = darkroom.As[quantity.Volume]{}, true
		return had.Given() && left < 0
	}
	v.lot.Left = exact(left, had.Text, v.ounce)
	return false
}

// exact returns a worked-out volume with words like the given ones, and the value that those words have.
func exact(v quantity.Volume, like string, o Ounce) darkroom.As[quantity.Volume] {
	words := exactWords(v, like, o)
	if read, err := quantity.ReadVolume(words, quantity.NoOunce); err == nil {
		v = read
	}
	return darkroom.As[quantity.Volume]{Value: v, Text: words}
}
