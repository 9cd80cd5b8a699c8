package book

import (
	"slices"
	"strings"

	"wetside/trade/process"
)

// effects returns what a print did to baths and batches: one load through all the baths that it has been in, and a word
// to each batch that it lay with. A print that was never started did nothing.
func (t *track) effects() []*deed {
	p := &t.print
	if !p.Started() {
		return nil
	}
	var all []*deed
	start := &p.Stays[0]
	if through := p.through(); len(through) > 0 {
		all = append(all, t.deed(start, Load{Through: through, Pass: p.What}))
	}
	held := ""
	for i := range p.Stays {
		s := &p.Stays[i]
		if s.Batch == "" {
			continue
		}
		switch s.Step {
		case process.Hold:
			held = s.Batch
			all = append(all, t.deed(s, HoldingPut{Batch: s.Batch, Bath: s.Bath, Loads: []string{start.Said.Entry}, Pass: p.What}))
		case process.Wash:
			w := WashMoment{Batch: s.Batch, Step: WashMore}
			if held != s.Batch {
				w.Put = &p.What
			}
			all = append(all, t.deed(s, w))
		default: // a batch is of holding and wash
		}
	}
	return all
}

// deed returns what a stay did, at the moment when it began, in the place of the entry that began it.
func (t *track) deed(s *Stay, did Did) *deed {
	by := t.print.Of
	if by == "" {
		by = s.Said.By
	}
	d := &deed{by: by, did: did}
	for i := range t.said {
		if t.said[i].entry == s.Said.Entry {
			d.moment = t.said[i].moment
		}
	}
	return d
}

// through returns the baths that a print has been in, in order, but the holding bath: there it does no work.
func (p *Print) through() []string {
	var ids []string
	for i := range p.Stays {
		s := &p.Stays[i]
		if s.Bath == "" || s.Step == process.Hold || len(ids) > 0 && ids[len(ids)-1] == s.Bath || len(ids) == maxThrough {
			continue
		}
		ids = append(ids, s.Bath)
	}
	return ids
}

// Prints returns the prints that are in the sink, by when they were started, then by id. Those that were moved and never
// started are among them where they are somewhere: somebody said so.
func (s *State) Prints() []Print {
	all := make([]Print, 0, len(s.inSink))
	for id := range s.inSink {
		all = append(all, s.prints[id].print)
	}
	return byBeginning(all)
}

// PrintsOf returns all prints of an evening, in the sink and out of it, in the order of Prints.
func (s *State) PrintsOf(session string) []Print {
	var all []Print
	for _, t := range s.prints {
		if t.print.Session == session && t.print.Started() {
			all = append(all, t.print)
		}
	}
	return byBeginning(all)
}

// Print returns one print; ok is false where nothing that stands was said of it.
func (s *State) Print(id string) (p Print, ok bool) {
	t := s.prints[id]
	if t == nil || len(t.print.Stays) == 0 && t.print.Left == nil {
		return p, false
	}
	return t.print, true
}

func byBeginning(all []Print) []Print {
	slices.SortStableFunc(all, func(a, b Print) int {
		if c := a.Began.Compare(b.Began); c != 0 {
			return c
		}
		return strings.Compare(a.ID, b.ID)
	})
	return all
}
