package evidence

import (
	"slices"
	"time"

	"wetside/book"
	"wetside/trade/fault"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// What is early, long and stacked. From memory, but for the bleaching: BT-fixer saw it begin after some ten minutes in fresh
// rapid fixer.
const (
	earlyPart = 0.75 // of the planned time
	longTimes = 3.0  // the planned time
	bleaches  = 10 * time.Minute
	together  = 6 // prints in one fixer that can still be shuffled
)

// A stay is how long a print was somewhere.
type stay struct {
	*book.Stay
	until time.Time
	work  fault.Where
}

func (s stay) lasted() time.Duration { return s.until.Sub(s.Since) }

// prints says what was odd about how long tonight's prints lay in their trays, and how many together. The worst is told.
func (g *gatherer) prints() {
	var early, unfixed, long *stay
	fixing := map[string][]stay{}
	all := g.state.Prints()
	for i := range all {
		for _, s := range stays(&all[i]) {
			if !g.since(s.until, tonight) {
				continue
			}
			short := s.For > 0 && float64(s.lasted()) < earlyPart*float64(s.For)
			switch s.Step {
			case process.Develop:
				if short && (early == nil || s.lasted() < early.lasted()) {
					early = &s
				}
			case process.Fix, process.SecondFix:
				if short && (unfixed == nil || s.lasted() < unfixed.lasted()) {
					unfixed = &s
				}
				if s.lasted() >= bleaches && float64(s.lasted()) > longTimes*float64(s.For) && (long == nil || s.lasted() > long.lasted()) {
					long = &s
				}
				fixing[s.Bath] = append(fixing[s.Bath], s)
			default:
			}
		}
	}
	for _, x := range []struct {
		kind fault.FactKind
		stay *stay
	}{{fault.LeftEarly, early}, {fault.LeftFixEarly, unfixed}, {fault.LayLongInFix, long}} {
		if x.stay != nil {
			g.say(x.kind, x.stay.work, lasted("in_it", x.stay.lasted()), lasted("planned", x.stay.For))
		}
	}
	for i := range g.report.Baths {
		o := &g.report.Baths[i]
		if n := most(fixing[o.Bath.ID]); n > together {
			g.of(o, fault.LoadsStacked, reckoning.Figure{Name: "sheets", Value: float64(n), Origin: reckoning.Measured})
		}
	}
}

// stays are the places where a print was, each until it was moved on; one that nobody moved on tells nothing.
func stays(p *book.Print) (all []stay) {
	work := fault.OnPrint
	if p.What.Material == material.Film {
		work = fault.OnFilm
	}
	for i := range p.Stays {
		s := stay{Stay: &p.Stays[i], work: work}
		switch {
		case i+1 < len(p.Stays):
			s.until = p.Stays[i+1].Since
		case p.Left != nil && !p.Left.Abandoned:
			s.until = p.Left.At
		}
		if s.lasted() > 0 {
			all = append(all, s)
		}
	}
	return all
}

// most returns how many of the stays there were at once.
func most(stays []stay) int {
	best := 0
	for _, s := range stays {
		n := 0
		for _, o := range stays {
			if !o.Since.After(s.Since) && o.until.After(s.Since) {
				n++
			}
		}
		best = max(best, n)
	}
	return best
}

// LooksBack is how far back Of looks at batches of prints, which rest by then: whoever asks wakes them (book.State.NeedsBatches).
const LooksBack = washHolds

// washHolds is how long a wash or a test of a print is remembered: prints are looked at weeks later.
const washHolds = 60 * 24 * time.Hour

// rcMost is how long resin-coated paper may lie in water: half an hour is far beyond any printed time. From memory.
const rcMost = 30 * time.Minute

// washes says what is known of how prints and films were washed, and what drops on them showed: the last of each tells.
func (g *gatherer) washes() {
	said := map[fault.Where]map[fault.FactKind][]reckoning.Figure{}
	for _, b := range g.state.Batches() {
		w := washOf(&b)
		if said[w] == nil {
			said[w] = map[fault.FactKind][]reckoning.Figure{}
		}
		for _, e := range b.Events {
			if g.since(e.At, washHolds) {
				washFacts(said[w], e)
			}
		}
		if in := rcInWater(&b, g.at); in > rcMost && g.since(b.Since, washHolds) {
			said[w][fault.LongInWash] = []reckoning.Figure{lasted("in_it", in)}
		}
	}
	for _, w := range []fault.Where{fault.OnPrint, fault.OnFilm} {
		for _, k := range []fault.FactKind{
			fault.WashCutShort, fault.WashFailed, fault.WashPassed, fault.SilverFailed, fault.WaterReadWarm, fault.LongInWash,
		} {
			if figures, ok := said[w][k]; ok {
				g.say(k, w, figures...)
			}
		}
	}
}

// washFacts notes what one event of a batch says.
func washFacts(said map[fault.FactKind][]reckoning.Figure, e book.Event) {
	switch did := e.Did.(type) {
	case book.WashMoment:
		switch did.Step {
		case book.WashStopped:
			said[fault.WashCutShort] = nil
		case book.WashDone:
			delete(said, fault.WashCutShort)
		case book.WashStarted, book.WashMore:
		}
		if did.Water.Given() && did.Water.Value > fixerMost {
			said[fault.WaterReadWarm] = []reckoning.Figure{celsius("read", float64(did.Water.Value), reckoning.Measured)}
		}
	case book.TestMade:
		verdict := did.Result.Verdict
		switch {
		case did.Result.Test == book.HypoDrop && verdict == book.Failed:
			said[fault.WashFailed] = nil
			delete(said, fault.WashPassed)
		case did.Result.Test == book.HypoDrop && verdict == book.Passed:
			said[fault.WashPassed] = nil
			delete(said, fault.WashFailed)
		case did.Result.Test == book.SilverDrop && verdict == book.Failed:
			said[fault.SilverFailed] = nil
		}
	default:
	}
}

// washOf says whether a batch is film or prints.
func washOf(b *book.Batch) fault.Where {
	if len(b.Prints) > 0 && !slices.ContainsFunc(b.Prints, func(p book.Pass) bool { return p.Material != material.Film }) {
		return fault.OnFilm
	}
	return fault.OnPrint
}

// rcInWater is how long the resin-coated prints of a batch have lain in the wash; 0 for other prints.
func rcInWater(b *book.Batch, now time.Time) time.Duration {
	rc := slices.ContainsFunc(b.Prints, func(p book.Pass) bool { return p.Material == material.RC })
	if !rc || b.Wash == nil {
		return 0
	}
	end := b.Wash.Ended
	if end.IsZero() {
		end = now
	}
	if in := end.Sub(b.Wash.Started); in < tonight { // else nobody said that it ended
		return in
	}
	return 0
}
