package draw

import (
	"math"
	"time"

	"wetside/trade/quantity"
	"wetside/trade/wash"
	"wetside/words"
)

// washPoints is how many points a line of what is left has.
const washPoints = 200

// farTest is how many times the longest wash a test may be away, so that the ways are not squeezed by its mark.
const farTest = 3

// LeftOf returns the picture of what is left against time, of as many ways as one picture holds: the fastest and the
// cheapest are among them. false where no way gets there. Its size is left to the page.
func LeftOf(v *words.Voice, r wash.Request, a wash.Answer) (Left, bool) {
	left := Left{Limit: a.Limit.Value, Say: LeftWords{
		Picture: v.Label("thiosulfate_left"), Amount: v.Label("thiosulfate_left"), Time: v.Label("minutes"), Limit: v.Figure(a.Limit),
	}}
	longest, more := time.Duration(0), -MaxWays
	for _, w := range a.Ways {
		if w.Status == wash.Reached {
			longest, more = max(longest, w.Time), more+1
		}
	}
	upTo := longest * 5 / 4
	if own := r.Own; own != nil && own.Test.Time > 0 && own.Test.Time <= farTest*longest {
		low, high := own.Test.Found.Between()
		left.Found = &LeftFound{At: own.Test.Time.Minutes(), Low: low, High: high, Name: v.Label("your_test")}
		upTo = min(max(upTo, own.Test.Time*26/25), 24*time.Hour)
	}
	if longest < 10*time.Minute {
		left.Say.Minutes = func(m float64) string { return v.Number(tenths(m)) }
	}
	for i, w := range a.Ways {
		switch {
		case w.Status != wash.Reached:
		case more > 0 && i != a.Fastest && i != a.Cheapest:
			more--
		default:
			points, err := wash.Curve(r, w, upTo, washPoints)
			if err != nil {
				return left, false
			}
			line := LeftWay{Name: v.WashWay(w.Way), Reaches: new(words.WashRounded(w.Time).Minutes())}
			for _, x := range points {
				line.Points = append(line.Points, Sample{At: x.At.Minutes(), Amount: x.Left})
			}
			left.Ways = append(left.Ways, line)
		}
	}
	return left, len(left.Ways) > 0
}

// tenths rounds minutes up to a tenth.
func tenths(m float64) quantity.Ratio {
	r, err := quantity.NewRatio(int64(math.Ceil(10*m-1e-9)), 10)
	if err != nil {
		return quantity.Ratio{}
	}
	return r
}
