package book

import (
	"slices"
	"time"
)

// A Bath is a bath as it was made.
type Bath struct {
	ID      string
	Entry   string // the entry that says so
	MixedAt time.Time
	By      string // a person's id, or empty
	Mixed   Mixed  // in the words of the entry
}

// A making is one entry's say about a bath.
type making struct {
	moment
	bath Bath
}

func (s *State) tellMixed(e Entry, b *Mixed) error {
	if err := s.tellDraws(e, b.From, b.Ounce); err != nil {
		return err
	}
	m := making{momentOf(e), Bath{b.Bath, e.ID, e.HappenedAt, e.By, *b}}
	list := slices.Clip(s.baths[b.Bath])
	i, _ := slices.BinarySearchFunc(list, m, compareMakings)
	s.baths[b.Bath] = slices.Insert(list, i, m)
	return nil
}

func compareMakings(a, b making) int { return a.compare(&b.moment) }

// Baths returns the baths that were made and not taken back, the earliest first.
func (s *State) Baths() []Bath {
	var made []making
	for _, list := range s.baths {
		for _, m := range slices.Backward(list) {
			if s.corrections.stands(m.entry) {
				made = append(made, m)
				break
			}
		}
	}
	slices.SortFunc(made, compareMakings)
	out := make([]Bath, 0, len(made))
	for _, m := range made {
		out = append(out, m.bath)
	}
	return out
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
