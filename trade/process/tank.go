package process

import (
	"math"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Covers returns what covers so many reels in a tank, covers[0] being for one reel, covers[1] for two and so
// on; false where that is not said (too many reels, or none).
func Covers(covers []quantity.Volume, reels int) (quantity.Volume, bool) {
	if reels < 1 || reels > len(covers) || covers[reels-1] <= 0 {
		return 0, false
	}
	return covers[reels-1], true
}

// Runs returns how many rolls go into a tank at a time so that all get done in the fewest runs, full ones first:
// three rolls in a tank of two reels are 2, 1. Nil where the tank takes none.
func Runs(covers []quantity.Volume, rolls int) []int {
	most := 0
	for n := range covers {
		if covers[n] > 0 {
			most = n + 1
		}
	}
	if most == 0 || rolls < 1 {
		return nil
	}
	var runs []int
	for ; rolls > most; rolls -= most {
		runs = append(runs, most)
	}
	return append(runs, rolls)
}

// Kind is what a film developer's least per roll is counted in.
type Kind uint8

// The kinds of chemical.
const (
	Concentrate Kind = iota // a liquid as bought
	Stock                   // made up from a powder
)

// LeastPerRoll returns the least chemical that a roll of film (one unit of 80 in²) wants, whatever the dilution,
// where the product's label names none: 5 mL of concentrate, 100 mL of stock. From memory: many labels say
// more, so the answer is to be shown as such.
func LeastPerRoll(k Kind) reckoning.Figure {
	f := reckoning.Figure{Name: "least_per_roll", Value: 5, Unit: reckoning.ML, Origin: reckoning.FromMemory}
	if k == Stock {
		f.Value = 100
	}
	return f
}

// A Share is how a working solution's chemical is shared out among rolls.
type Share struct {
	Enough  bool
	PerRoll quantity.Volume // of chemical, for each roll
	Lacks   quantity.Volume // of chemical for each roll, 0 where there is enough
	// What would help, each by itself, where there is not enough:
	Total    quantity.Volume  // this much working solution at the same strength
	Strength float64          // or this strength in the same volume, 1/26 is 0.0385; 0 where even undiluted is not enough
	Rolls    int              // or no more than so many rolls
	Figure   reckoning.Figure // of PerRoll
}

// ShareOf returns whether chemical in a working solution of total is enough for so many rolls, at least being needed
// for each in mL (a label's figure, or LeastPerRoll). A hard limit, whatever the dilution. quantity.ErrRange for
// amounts or rolls that are not above nothing.
func ShareOf(chemical, total quantity.Volume, rolls int, least reckoning.Figure) (Share, error) {
	if chemical <= 0 || total < chemical || rolls < 1 || !(least.Value >= 0) || least.Value > quantity.MaxVolume.ML() {
		return Share{}, quantity.ErrRange
	}
	want := quantity.Volume(math.Round(least.Value * float64(quantity.Millilitre)))
	s := Share{PerRoll: chemical / quantity.Volume(rolls), Enough: true}
	s.Figure = reckoned("chemical_per_roll", s.PerRoll.ML(), reckoning.ML, "chemical_per_roll",
		reckoning.Figure{Name: "chemical", Value: chemical.ML(), Unit: reckoning.ML},
		reckoning.Figure{Name: "rolls", Value: float64(rolls), Origin: reckoning.Asked}, least)
	if lacks := want - s.PerRoll; lacks > grain {
		return s.helped(chemical, total, rolls, want), nil
	}
	return s, nil
}

// grain is what a share may be short of by the rounding of exact volumes: far below what can be measured.
const grain = quantity.Millilitre / 1000

func (s Share) helped(chemical, total quantity.Volume, rolls int, want quantity.Volume) Share {
	s.Enough = false
	s.Lacks = want - s.PerRoll
	s.Rolls = int(chemical / (want - grain)) // want lies above grain, or nothing would lack
	needed := want.ML() * float64(rolls)
	if more := needed / chemical.ML() * total.ML(); more <= quantity.MaxVolume.ML() {
		s.Total = quantity.Volume(math.Ceil(more * float64(quantity.Millilitre)))
	}
	if needed <= total.ML() {
		s.Strength = needed / total.ML()
	}
	return s
}
