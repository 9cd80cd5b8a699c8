package measure

import (
	"math"

	"wetside/trade/quantity"
)

// A cost packs criteria 1 to 10 of the choice into one number, the first criterion highest, so that costs of parts
// without a vessel in common add up and a smaller number is the better choice.
type cost uint64

// The places of the criteria. Numbers stay far below their fields' ends: at most 56 readings in one choice.
const (
	onePlain   cost = 1       // a distinct reading without a number
	oneForeign cost = 1 << 6  // a distinct reading on another system's scale
	oneMark    cost = 1 << 12 // a distinct reading
	isApart    cost = 1 << 18 // measured apart
	oneTurned  cost = 1 << 19 // a vessel read on more than one scale
	oneHalf    cost = 1 << 26 // a reading between marks, each time
	oneVessel  cost = 1 << 33
	notClose   cost = 1 << 40
	oneReading cost = 1 << 41
	gradeB     cost = 1 << 50
	gradeC     cost = 2 << 50
)

func markCost(foreign, numbered bool) cost {
	c := oneMark
	if foreign {
		c += oneForeign
	}
	if !numbered {
		c += onePlain
	}
	return c
}

// grade returns the grade of a whole cost.
func (c cost) grade() Grade { return Grade(c / gradeB) }

// readings returns the number of readings of a whole cost.
func (c cost) readings() int { return int(c % gradeB / oneReading) }

// vessels returns the number of vessels.
func (c cost) vessels() int { return int(c % notClose / oneVessel) }

// halves returns how many readings lie between marks, each time counted.
func (c cost) halves() int { return int(c % oneVessel / oneHalf) }

// foreign returns the number of distinct readings on another system's scales.
func (c cost) foreign() int { return int(c % oneMark / oneForeign) }

// times returns the cost of readings that are done n times over.
func (c cost) times(n int) cost { return c + cost(n-1)*(c%oneVessel/oneHalf)*oneHalf }

// beside returns what readings of two costs cost together at least, where they have some vessels in common.
func (c cost) beside(o cost, common int) cost {
	if common == 0 {
		return c + o
	}
	halves := cost(c.halves()+o.halves()) * oneHalf
	vessels := cost(c.vessels()+o.vessels()-common) * oneVessel
	return vessels + halves + max(c%oneHalf, o%oneHalf)
}

// A rank is a choice's place by criteria 1 to 12; smaller is better.
type rank struct {
	cost cost
	dist quantity.Volume // of the total from the wanted one
	e    int64           // |bias| + U in multiples of Tie
}

func (r rank) compare(o rank) int {
	switch {
	case r.cost != o.cost:
		return sign(r.cost < o.cost)
	case r.dist != o.dist:
		return sign(r.dist < o.dist)
	case r.e != o.e:
		return sign(r.e < o.e)
	}
	return 0
}

func sign(less bool) int {
	if less {
		return -1
	}
	return 1
}

// inTies returns an error in multiples of Tie.
func inTies(e float64) int64 { return int64(math.Round(e / Tie)) }

// away returns how far a total is from the wanted one.
func away(total, want quantity.Volume) quantity.Volume {
	if total < want {
		return want - total
	}
	return total - want
}

// A use is one reading in a choice, how often it is done, and by how much each chemical's share strays, relatively,
// for each mL that it errs.
type use struct {
	at    int32
	times int32
	by    [2]float64
}

// costOf returns the packed criteria 4 to 10 but for isApart, of readings that may share vessels and marks.
func (b *bench) costOf(uses []use) cost {
	var c cost
	for i, u := range uses {
		r := &b.all[u.at]
		if r.between {
			c += cost(u.times) * oneHalf
		}
		first, turned, seen := -1, false, false // first: the vessel's first scale so far
		for _, w := range uses[:i] {
			o := &b.all[w.at]
			seen = seen || w.at == u.at
			if o.vessel != r.vessel {
				continue
			}
			if first < 0 {
				first = int(o.scale)
			}
			turned = turned || int(o.scale) != first
		}
		if !seen {
			c += r.cost
		}
		if first < 0 {
			c += oneVessel
		} else if int(r.scale) != first && !turned {
			c += oneTurned
		}
	}
	return c
}
