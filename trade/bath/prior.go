package bath

import (
	"math"

	"wetside/trade/material"
)

// A Guess is a log-normal guess: half of all rooms lie under the median.
type Guess struct {
	Median float64
	Spread float64 // standard deviation of the logarithm
}

// Quantile returns the value that a share p of rooms lies under.
func (g Guess) Quantile(p float64) float64 {
	return g.Median * math.Exp(g.Spread*math.Sqrt2*math.Erfinv(2*p-1))
}

// Stuff is what is believed of one material in a room that nobody has tested.
type Stuff struct {
	Coating     Guess // silver, g/m²
	Undeveloped Guess // the share of it that the fixer dissolves; never above 1
	Carry       Guess // a factor on CarryOver
	CarryOver   CarryOver
	Drained     float64 // s, where a sheet does not say
}

// Prior is what is believed of each material, by its number.
type Prior [material.Film + 1]Stuff

// Rates are what one material does in one possible room.
type Rates struct {
	Coating     float64 // g/m²
	Undeveloped float64 // share
	Carry       float64 // factor
}

// Room is one possible room: its rates by material.
type Room [material.Film + 1]Rates

// steps of an additive recurrence: the square roots of the first nine primes (Richtmyer's sequence). A draw's numbers
// follow from its own index alone, so a draw is the same however many there are and whoever works it out, and the
// quantiles of some thousand draws lie within a sheet of those of a million independent ones.
var richtmyer = [...]float64{
	math.Sqrt2, 1.7320508075688772, 2.2360679774997896, 2.6457513110645907, 3.3166247903553998,
	3.605551275463989, 4.123105625617661, 4.358898943540674, 4.795831523312719,
}

// dimensions of a possible room: three for each material.
const dimensions = len(richtmyer)

// point is a possible room as standard normal numbers, by material: coating, undeveloped, carry.
type point [dimensions]float64

// shift is by how much a seed moves each dimension's sequence.
type shift [dimensions]float64

func shifts(seed uint64) shift {
	var s shift
	for d := range s {
		s[d] = float64(scramble(seed+uint64(d)*0x9e3779b97f4a7c15)>>11) / (1 << 53)
	}
	return s
}

// point returns the point of an index.
func (s *shift) point(index int) point {
	var z point
	for d := range z {
		u := s[d] + float64(index+1)*richtmyer[d]
		u -= math.Floor(u)
		z[d] = math.Sqrt2 * math.Erfinv(2*min(max(u, 1e-12), 1-1e-12)-1)
	}
	return z
}

// room returns the possible room at a point.
func (p *Prior) room(z *point) Room {
	var room Room
	for m := material.RC; m <= material.Film; m++ {
		at := 3 * int(m-material.RC)
		s := &p[m]
		room[m] = Rates{
			Coating:     s.Coating.at(z[at]),
			Undeveloped: math.Min(1, s.Undeveloped.at(z[at+1])),
			Carry:       s.Carry.at(z[at+2]),
		}
	}
	return room
}

func (g Guess) at(z float64) float64 {
	if g.Spread == 0 {
		return g.Median
	}
	return g.Median * math.Exp(g.Spread*z)
}

// Draw returns the possible room of an index; seed shifts them all.
func (p *Prior) Draw(index int, seed uint64) Room {
	start := shifts(seed)
	z := start.point(index)
	return p.room(&z)
}

// scramble is the finaliser of SplitMix64 (Steele, Lea and Flood 2014).
func scramble(x uint64) uint64 {
	x ^= x >> 30
	x *= 0xbf58476d1ce4e5b9
	x ^= x >> 27
	x *= 0x94d049bb133111eb
	return x ^ x>>31
}

// Median returns the room whose every rate is the stated one.
func (p *Prior) Median() Room {
	var room Room
	for m := range p {
		room[m] = Rates{p[m].Coating.Median, math.Min(1, p[m].Undeveloped.Median), p[m].Carry.Median}
	}
	return room
}
