package ahead

import (
	"slices"
	"time"

	"wetside/book"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/waste"
)

// A WasteYear is what went through the waste cans in a calendar year, for whoever signs it.
type WasteYear struct {
	Year     int
	At       time.Time // when it was made up
	From, To time.Time // the year's first moment and the first after it
	Cans     []CanYear
	Advice   []waste.Advice
	Here     waste.Here
	// Put and Taken are of all cans, and Fetched is the silver of all that was taken.
	Put, Taken quantity.Volume
	Fetched    Silver
}

// A CanYear is one can's year.
type CanYear struct {
	Can        Can
	Began, End quantity.Volume // in it when the year began and when it ended, or is now
	Put, Taken quantity.Volume
	Rows       []WasteRow
}

// A WasteRow is one line of the year's sheet.
type WasteRow struct {
	book.WasteMove
	Volume quantity.Volume // put in, or taken away
	Silver Silver          // of what was taken away
}

// Of is what a row is about: NoRole for a fetching of several kinds.
func (r *WasteRow) Of() process.Role {
	if r.In != nil {
		return r.In.Of
	}
	of := process.NoRole
	for i := range r.With {
		if i > 0 && r.With[i].Of != of {
			return process.NoRole
		}
		of = r.With[i].Of
	}
	return of
}

// YearOfWaste returns a calendar year of the waste cans; now is in the room's own zone, which says when a year begins. Cans
// that are gone and of which that year tells nothing are left out. The error is that of Look.
func YearOfWaste(s *book.State, year int, now time.Time) (WasteYear, error) {
	y := WasteYear{Year: year, At: now, Here: Here(s, now), Advice: Drains(s, now)}
	y.From = time.Date(year, time.January, 1, 0, 0, 0, 0, now.Location())
	y.To = y.From.AddDate(1, 0, 0)
	cans, err := Waste(s, y.From, now)
	if err != nil {
		return y, err
	}
	for i := range cans {
		c := y.can(&cans[i])
		if len(c.Rows) == 0 && c.Began == 0 && !c.Can.There {
			continue
		}
		y.Cans = append(y.Cans, c)
		y.Put += c.Put
		y.Taken += c.Taken
		for j := range c.Rows {
			y.Fetched.add(&c.Rows[j].Silver)
		}
	}
	return y, nil
}

// PartKnown reports whether of something that was taken away the silver of a part alone is known.
func (y *WasteYear) PartKnown() bool {
	return slices.ContainsFunc(y.Cans, func(c CanYear) bool {
		return slices.ContainsFunc(c.Rows, func(r WasteRow) bool { return r.Silver.Known > 0 && r.Silver.Unknown > 0 })
	})
}

// add adds another's silver. The quantiles are added as they are: the band is then no narrower than the truth.
func (s *Silver) add(o *Silver) {
	s.Grams.P10 += o.Grams.P10
	s.Grams.P50 += o.Grams.P50
	s.Grams.P90 += o.Grams.P90
	s.Known += o.Known
	s.Unknown += o.Unknown
}

func (y *WasteYear) can(c *Can) CanYear {
	out := CanYear{Can: *c}
	for i := range c.Moves {
		m := &c.Moves[i]
		if !m.At.Before(y.To) {
			break
		}
		out.End = m.Level
		if m.At.Before(y.From) {
			out.Began = m.Level
			continue
		}
		row := WasteRow{WasteMove: *m}
		if m.In != nil {
			row.Volume = m.In.Left() // what was taken over from where no can was named may be less than was put by
			out.Put += row.Volume
		} else {
			for k := range m.With {
				row.Volume += m.With[k].Left()
			}
			row.Silver = c.Fetched[m.Entry]
			out.Taken += row.Volume
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// YearsOfWaste returns the calendar years of which the waste cans tell, the latest first, this one always among them.
func YearsOfWaste(s *book.State, now time.Time) []int {
	first := now.Year()
	for _, c := range s.Waste() {
		for i := range c.Moves {
			first = min(first, c.Moves[i].At.In(now.Location()).Year())
		}
	}
	var all []int
	for y := now.Year(); y >= first && len(all) < mostYears; y-- {
		all = append(all, y)
	}
	return all
}

// mostYears are told; a clock that was wrong once may have written others.
const mostYears = 20
