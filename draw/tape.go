package draw

import (
	"fmt"
	"math"
)

// A Tape is a bath's life as a strip of tape on which its work is tallied: a stroke a sheet, the fifth across, the safe
// end as a heavy mark, the likely end as a fine one. All counts are sheets of 8×10 from the bath's first on.
type Tape struct {
	Work []Stretch // what went through, in its order
	// Ends are where the bath is spent; nil: not known, and the tape goes on as a broken line. They may lie below the work.
	Ends *Ends
	// Label is the capacity that the label gives, where it is to be shown beside the ends; Test is when a test is due.
	Label, Test *float64
	// To is the scale's end, one for all tapes on a page (TapeScale). Less than the work, or 0: the tape's own. Marks
	// beyond it are shown as arrows at its end.
	To   float64
	Size Size
	Say  TapeWords
}

// A Stretch is work done: so many sheets, or parts of one, counted or estimated.
type Stretch struct {
	Sheets    float64
	Estimated bool // drawn broken
}

// TapeWords are the words in the picture. All but Picture may be empty.
type TapeWords struct {
	Picture string // the picture in words, for those who do not see it
	Safe    string // under the number at the safe end: "safe"
	Likely  string // under the number at the likely end: "likely"
	Label   string // at the label's mark: "label"
	Test    string // at the mark of the test: "test"
	Past    string // at the end of the work where it went past the safe end: "7 too many"
	Unknown string // on a tape whose end is not known: "end not known"
	// Number writes a count at a mark; nil: whole, rounded down.
	Number func(float64) string
	// Bundle says how many sheets a stroke stands for, where that is not one; nil: "= 5".
	Bundle func(sheets int) string
}

func (w TapeWords) number(count float64) string {
	if w.Number != nil {
		return w.Number(count)
	}
	return wholeSheets(count)
}

func (w TapeWords) bundle(n float64) string {
	if w.Bundle != nil {
		return w.Bundle(int(n))
	}
	return fmt.Sprintf("= %d", int(n))
}

// done returns the work so far.
func (t Tape) done() float64 {
	sum := 0.0
	for _, s := range t.Work {
		sum += s.Sheets
	}
	return sum
}

// past reports whether the work went beyond the safe end.
func (t Tape) past() bool { return t.Ends != nil && t.done() > t.Ends.Safe+1e-9 }

// counts returns all that lies on the tape.
func (t Tape) counts() []float64 {
	all := []float64{t.done()}
	if t.Ends != nil {
		all = append(all, t.Ends.Safe, t.Ends.Likely)
	}
	for _, c := range []*float64{t.Label, t.Test} {
		if c != nil {
			all = append(all, *c)
		}
	}
	return all
}

// check refuses what makes no picture and returns the scale's end.
func (t Tape) check() (float64, error) {
	for _, s := range t.Work {
		if err := finite("work", s.Sheets); err != nil {
			return 0, err
		}
	}
	if err := finite("tape", append(t.counts(), t.To)...); err != nil {
		return 0, err
	}
	switch done := t.done(); {
	case done > mostSheets || t.To > mostSheets:
		return 0, fmt.Errorf("%w: %g sheets on one tape", ErrModel, max(done, t.To))
	case t.Ends != nil && t.Ends.Likely < t.Ends.Safe:
		return 0, fmt.Errorf("%w: a likely end, %g, before the safe end, %g", ErrModel, t.Ends.Likely, t.Ends.Safe)
	case t.To < done || t.To == 0:
		return TapeScale(t), nil
	}
	return t.To, nil
}

const (
	mostSheets = 1e6 // more than any bath is given
	leastScale = 10
	// cutScale is how many times the shortest tape's own length one scale for several may be, so that the shortest stays
	// legible beside a long one.
	cutScale = 8
)

// TapeScale returns one scale's end for all tapes of a page: round, not below the work on any of them, and as far as
// the farthest mark where that leaves the shortest tape an eighth of the width.
func TapeScale(tapes ...Tape) float64 {
	work, far, short := 0.0, 0.0, math.Inf(1)
	for _, t := range tapes {
		own := 0.0
		for _, c := range t.counts() {
			own = max(own, c)
		}
		far, work = max(far, own), max(work, t.done())
		if own > 0 {
			short = min(short, own)
		}
	}
	return roundUp(max(min(far, cutScale*short), work, leastScale))
}

// bundles are how many sheets one stroke may stand for.
func bundles() []float64 { return []float64{1, 5, 10, 50, 100, 500, 1000, 5000, 10000, 50000, 100000} }

// bundle returns how many sheets a stroke stands for where a sheet is pitch wide, so that strokes are at least so far apart.
func bundle(pitch, least float64) float64 {
	all := bundles()
	for _, n := range all {
		if n*pitch >= least {
			return n
		}
	}
	return all[len(all)-1]
}

// A tally is one stroke.
type tally struct {
	nth       int     // from 0; every fifth lies across the four before it
	part      float64 // of the stroke: 1 or, at the end of the work, less
	estimated bool    // more than half of it is
}

// tallies writes the work out in strokes of n sheets.
func (t Tape) tallies(n float64) []tally {
	done := t.done()
	var all []tally
	for i := 0; float64(i)*n < done-1e-9; i++ {
		from := float64(i) * n
		to := min(from+n, done)
		all = append(all, tally{i, (to - from) / n, t.estimated(from, to) > (to-from)/2})
	}
	return all
}

// estimated returns how much of the work between two counts is estimated.
func (t Tape) estimated(from, to float64) float64 {
	sum, at := 0.0, 0.0
	for _, s := range t.Work {
		if s.Estimated {
			sum += max(0, min(to, at+s.Sheets)-max(from, at))
		}
		at += s.Sheets
	}
	return sum
}
