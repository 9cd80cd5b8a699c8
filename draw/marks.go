package draw

import (
	"fmt"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// maxMarks is how many marks of one scale are looked at. More than a vessel can carry.
const maxMarks = 4000

// A mark is one printed line of a scale.
type mark struct {
	number   quantity.Ratio
	ml       float64
	numbered bool
	nth      int64 // which multiple of the numbered interval, where numbered
}

// A scale is a vessel's printed scale, written out.
type scale struct {
	unit  string
	marks []mark
}

// marksOf writes a scale out: From, From+Step, … up to and not beyond To.
func marksOf(s measure.Scale) ([]mark, error) {
	if s.Step.Sign() <= 0 || s.From.Sign() < 0 || s.To.Cmp(s.From) < 0 {
		return nil, fmt.Errorf("%w: a scale from %g to %g by %g", ErrModel, s.From.Float(), s.To.Float(), s.Step.Float())
	}
	unit := s.Unit.Volume().ML()
	var all []mark
	for n := s.From; n.Cmp(s.To) <= 0; {
		if n.Sign() > 0 {
			all = append(all, newMark(n, s.Numbered, unit))
		}
		next, err := n.Add(s.Step)
		if err != nil || len(all) > maxMarks {
			return nil, fmt.Errorf("%w: a scale with too many marks", ErrModel)
		}
		n = next
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("%w: a scale without marks", ErrModel)
	}
	return all, nil
}

func newMark(n, numbered quantity.Ratio, unit float64) mark {
	m := mark{number: n, ml: n.Float() * unit}
	if numbered.Sign() > 0 {
		if q, err := n.Quo(numbered); err == nil && q.Den() == 1 {
			m.numbered, m.nth = true, q.Num()
		}
	}
	return m
}

// A stop is where to stop on a scale: at marks[at], or half-way from there to the next.
type stop struct {
	at   int
	half bool
}

// stopOf finds the mark to stop at. A mark that is not on the scale is an error: no picture shall show a line
// that the user's own vessel does not have.
func stopOf(marks []mark, number quantity.Ratio, half bool) (stop, error) {
	for i, m := range marks {
		switch {
		case !half && m.number.Cmp(number) == 0:
			return stop{at: i}, nil
		case half && i+1 < len(marks) && m.number.Cmp(number) < 0 && number.Cmp(marks[i+1].number) < 0:
			return stop{at: i, half: true}, nil
		}
	}
	return stop{}, fmt.Errorf("%w: the scale has no mark %g", ErrModel, number.Float())
}

// nearest returns the highest mark that a level reaches, or the first.
func nearest(marks []mark, ml float64) stop {
	s := stop{}
	for i, m := range marks {
		if m.ml <= ml {
			s.at = i
		}
	}
	return s
}

// stride returns how many numbered marks make one step of those whose numbers are written, so that neighbours are
// gap apart: 1, 2, 5, 10, … The marks written are the multiples of stride × the numbered interval.
func stride(marks []mark, y func(float64) float64, gap float64) int64 {
	var numbered []mark
	for _, m := range marks {
		if m.numbered {
			numbered = append(numbered, m)
		}
	}
	least := 1e9
	for i := 1; i < len(numbered); i++ {
		least = min(least, y(numbered[i-1].ml)-y(numbered[i].ml))
	}
	for _, s := range []int64{1, 2, 5, 10, 20, 50, 100, 200, 500} {
		if least*float64(s) >= gap {
			return s
		}
	}
	return 1000
}

// spacing returns the least distance between neighbouring marks as drawn by y.
func spacing(marks []mark, y func(float64) float64) float64 {
	least := 1e9
	for i := 1; i < len(marks); i++ {
		least = min(least, y(marks[i-1].ml)-y(marks[i].ml))
	}
	return least
}
