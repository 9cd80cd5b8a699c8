package sink

import (
	"slices"

	"wetside/book"
	"wetside/trade/material"
	"wetside/trade/process"
)

// A Share is what one person has in the sink.
type Share struct {
	Person string  // an id; empty: nobody said whose it is
	Places []Place // in the order of the work, paper first
}

// A Place is where prints of one person lie.
type Place struct {
	Step   process.Step
	Film   bool // in the tank
	Prints int
}

// Owner is whose a print is: whom it was told for, else whoever put it in; empty where nobody said.
func Owner(p *book.Print) string {
	if p.Of == "" && len(p.Stays) > 0 {
		return p.Stays[0].Said.By
	}
	return p.Of
}

// Shares returns who has what in the sink, in holding and in the wash, by when the first of it was put in. What is stray is
// nobody's of tonight.
func (s *Sink) Shares(state *book.State) []Share {
	var all []Share
	for _, p := range state.Prints() {
		now := p.Now()
		if slices.ContainsFunc(s.Stray, func(x book.Print) bool { return x.ID == p.ID }) ||
			now.Batch != "" && !slices.ContainsFunc(s.Batches, func(b Batch) bool { return b.ID == now.Batch }) {
			continue
		}
		who := Owner(&p)
		i := slices.IndexFunc(all, func(x Share) bool { return x.Person == who })
		if i < 0 {
			i, all = len(all), append(all, Share{Person: who})
		}
		all[i].put(Place{Step: now.Step, Film: p.What.Material == material.Film, Prints: 1})
	}
	return all
}

// put adds a print to a place, which keeps the order of the work.
func (s *Share) put(p Place) {
	at := slices.IndexFunc(s.Places, func(o Place) bool { return !o.before(&p) })
	switch {
	case at < 0:
		s.Places = append(s.Places, p)
	case p.before(&s.Places[at]):
		s.Places = slices.Insert(s.Places, at, p)
	default:
		s.Places[at].Prints++
	}
}

func (p *Place) before(o *Place) bool {
	if p.Film != o.Film {
		return o.Film
	}
	return p.Step.Before(o.Step)
}
