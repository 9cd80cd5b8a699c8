package bath

import (
	"math"
	"slices"
)

// A life is a past laid out for many rooms: like sheets that followed each other as one step, and of each load what all
// rooms share.
type life struct {
	*Past
	steps []Step
	loads []load // by step; of a load that was worked
}

func (p *Past) laidOut() *life {
	l := &life{Past: p}
	for _, s := range p.Steps {
		w, is := s.(Worked)
		if is && l.joins(&w) {
			continue
		}
		l.steps = append(l.steps, s)
		var shared load
		if is {
			shared = w.load(&p.Prior)
		}
		l.loads = append(l.loads, shared)
	}
	return l
}

// joins puts sheets to the step before if they are like it.
func (l *life) joins(w *Worked) bool {
	if len(l.steps) == 0 {
		return false
	}
	before, is := l.steps[len(l.steps)-1].(Worked)
	if !is || before.Sheet != w.Sheet || !slices.Equal(before.Through, w.Through) || !whole(before.Sheets) || !whole(w.Sheets) {
		return false
	}
	before.Sheets += w.Sheets
	l.steps[len(l.steps)-1] = before
	return true
}

func whole(sheets float64) bool { return sheets == math.Trunc(sheets) }

// live lets one possible room live the past from a given state and returns the logarithm of the likelihood of what was
// seen. Of a sheet's way it follows what decides when baths are spent.
func (l *life) live(f *stream, room *Room, state []Contents) float64 {
	likely := 0.0
	for i, s := range l.steps {
		switch s := s.(type) {
		case Worked:
			if len(s.Through) > 0 {
				l.pass(f, l.loads[i].in(room), state, &s)
			}
		case ToppedUp:
			state[s.Bath].add(s.With)
		case Taken:
			state[s.Bath].out(s.Litres)
		case Seen:
			likely += s.Test.likely(state[s.Bath], &l.Baths[s.Bath])
		}
	}
	return likely
}

// pass lets sheets go through, all at once where the result is the same.
func (l *life) pass(f *stream, one passing, state []Contents, w *Worked) {
	whole, part := math.Modf(w.Sheets)
	l.fill(state, w, one, nil)
	n := int(whole)
	if one.even(n, state, l.Baths, w.Through) {
		one.pass(f, n, state, l.Baths, w.Through)
	} else {
		for range n {
			one.through(state, l.Baths, w.Through)
		}
	}
	if part > 0 {
		one.times(part).through(state, l.Baths, w.Through)
	}
}
