package book

import (
	"slices"
	"time"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/quantity"
)

// A Bath is a bath and its life until now. Its lists are not to be changed.
type Bath struct {
	ID      string
	Entry   string    // the entry that says it was mixed
	MixedAt time.Time // see Made; for an unknown age, since when the book has known the bath
	By      string    // a person's id, or empty
	Mixed   Mixed     // in the words of the entry
	Made    Made

	Dilution dilution.Dilution // as read; zero for water
	Volume   quantity.Volume   // as mixed, all jugfuls
	Place    darkroom.Bath     // in two-bath fixing now; empty where nobody said
	Before   []Pass            // a guess of what went through before the book; see BeforeUnknown

	Events      []Event     // all that happened to it, in order, not its mix; a load is in the life of each of its baths
	Stood       []Container // in what it stood, in order; the last is where it is now or was when it went
	Gone        *Departure  // nil while it is there
	Totals      []Total     // by material, in the order of material.All; what was before the book counts as estimated
	Comes, Goes []string    // the baths that stood next before and after it in loads, in the order in which they first did
	Pair        *Pair       // the pair of fixing baths that it belongs to, or nil
	Findings    []Finding
}

// BeforeUnknown reports whether nobody knows what went through before the book.
func (b *Bath) BeforeUnknown() bool { return b.Made == MadeUnknown && len(b.Before) == 0 }

// In returns what the bath stands in now, or stood in when it went.
func (b *Bath) In() Container { return b.Stood[len(b.Stood)-1] }

// A Container is what a bath stands in, from a moment on.
type Container struct {
	State              darkroom.State // a tray or a kind of bottle; empty for a tank and where nobody said
	Tray, Tank, Bottle string         // ids of tray and tank; the bottle in the user's words
	Since              time.Time
}

// A Departure is how a bath went.
type Departure struct {
	Entry string
	At    time.Time
	Moved bool // it was the first of two, and the second took its place
	Leave
}

// A Total is how much of a material went through.
type Total struct {
	Material           material.Material
	Counted, Estimated Sum
}

// A Sum is how many sheets, strips and rolls of all sizes, and their area.
type Sum struct {
	Loads, Sheets, Strips, Rolls int
	Area                         quantity.Area // m², without the strips in Unsized
	Unsized                      int           // strips of which neither the entries nor the room say what part of a sheet they are
}

// A making is one entry's say that a bath was mixed.
type making struct {
	moment
	bath Bath
}

// mix returns the mix of a bath that holds, the latest that was not taken back, and how many others stand; nil for none.
func (s *State) mix(id string) (m *making, others int) {
	list := s.baths[id]
	for i := range slices.Backward(list) {
		switch {
		case !s.corrections.stands(list[i].entry):
		case m == nil:
			m = &list[i]
		default:
			others++
		}
	}
	return m, others
}

// leaving returns the standing deed by which a bath went, nil for none.
func (s *State) leaving(id string) *deed {
	for _, d := range s.deeds[id] {
		if d.takesAway(id) && s.corrections.stands(d.entry) {
			return d
		}
	}
	return nil
}

func (d *deed) takesAway(id string) bool {
	switch did := d.did.(type) {
	case Disposal:
		return true
	case Move:
		return did.First == id
	default:
		return false
	}
}

// Baths returns the baths that were made and not taken back, the earliest first, each with its life, but those that rest.
func (s *State) Baths() []Bath {
	s.derived.used.Store(true)
	return slices.Clone(s.derived.baths.get(s.lives))
}

func (s *State) lives() []Bath {
	var made []*making
	for id := range s.baths {
		if m, _ := s.mix(id); m != nil {
			made = append(made, m)
		}
	}
	slices.SortFunc(made, func(a, b *making) int { return a.compare(&b.moment) })
	out := make([]Bath, 0, len(made))
	pairs := s.pairsOnce()
	for _, m := range made {
		out = append(out, s.life(m, pairs))
	}
	return out
}

func (s *State) pairsOnce() map[string]*Pair {
	s.derived.used.Store(true)
	return s.derived.pairs.get(s.pairs)
}

// Bath returns a bath and its life; false where no standing entry says that it was mixed, or it rests.
func (s *State) Bath(id string) (Bath, bool) {
	m, _ := s.mix(id)
	if m == nil {
		return Bath{}, false
	}
	return s.life(m, s.pairsOnce()), true
}

// Events returns all that happened to baths and batches but their mixes, in order, each once, those of unknown baths among
// them, but what rests.
func (s *State) Events() []Event {
	s.derived.used.Store(true)
	return slices.Clone(s.derived.events.get(s.allEvents))
}

func (s *State) allEvents() []Event {
	var all []*deed
	seen := map[*deed]bool{}
	for _, lists := range []map[string][]*deed{s.deeds, s.batches} {
		for _, list := range lists {
			for _, d := range list {
				if !seen[d] && s.corrections.stands(d.entry) {
					seen[d] = true
					all = append(all, d)
				}
			}
		}
	}
	slices.SortFunc(all, compareDeeds)
	events, strip := make([]Event, 0, len(all)), s.roomStrip()
	for _, d := range all {
		events = append(events, d.event(strip))
	}
	return events
}

// Product returns a product by its id, as it is or, where it was removed, as it last was; there says which. Whose it is, ProductOwner
// says.
func (s *State) Product(id string) (p darkroom.Product, there bool) {
	h := s.products.find(id)
	if h == nil {
		return p, false
	}
	if now := h.now(&s.corrections); now != nil {
		p, there = now.value, true
	} else {
		for _, was := range slices.Backward(h.said) {
			if !was.removed && s.corrections.stands(was.entry) {
				p = was.value
				break
			}
		}
	}
	p.Whose = "" // it was an id
	return p, there
}

// Openings returns what is to be said beside a draw: that the bottles it draws from, where they still stand unopened, were
// opened on that day (2026-12-03). Packets are used up, not opened.
func (s *State) Openings(from []Draw, day string) []Body {
	var all []Body
	said := map[string]bool{}
	for _, d := range from {
		l, known := s.Lot(d.Lot)
		if known && !l.Lot.Opened.Given() && l.Lot.Packets == 0 && !l.Lot.Stock && !said[d.Lot] {
			said[d.Lot] = true
			all = append(all, &LotOpened{Lot: d.Lot, Opened: day})
		}
	}
	return all
}
