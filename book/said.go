package book

import (
	"cmp"
	"slices"
)

// Said returns the ids of the entries about prints and batches and of the corrections of them, whether they stand or not, by
// their positions: what another fold needs to tell the same of them. Of a batch they are what was said of it itself.
func (s *State) Said(prints, batches []string) []string {
	at := map[string]int64{}
	for _, id := range prints {
		if t := s.prints[id]; t != nil {
			for i := range t.said {
				s.corrections.trace(at, t.said[i].entry, t.said[i].position)
			}
		}
	}
	for _, id := range batches {
		for _, d := range s.batches[id] {
			if s.trackOf[d.entry] != "" {
				continue // it is of a print
			}
			s.corrections.trace(at, d.entry, d.position)
		}
	}
	ids := make([]string, 0, len(at))
	for id := range at {
		ids = append(ids, id)
	}
	slices.SortFunc(ids, func(a, b string) int { return cmp.Compare(at[a], at[b]) })
	return ids
}

// trace notes an entry's position, and those of the corrections of it and of these.
func (c *corrections) trace(at map[string]int64, entry string, position int64) {
	if _, known := at[entry]; known {
		return
	}
	at[entry] = position
	for _, t := range c.of[entry] {
		c.trace(at, t.by, t.at)
	}
}
