package bath

import (
	"math"

	"wetside/trade/material"
)

// A Sheet is one sheet, strip or roll on its way through the baths.
type Sheet struct {
	Of      material.Material
	Area    float64 // m²
	Drained float64 // s between baths; 0 stands for the default
}

// A Step is one thing that happened to the baths: Worked, ToppedUp, Taken or Seen.
type Step interface{ step() }

// Worked says that sheets went through baths, one by one.
type Worked struct {
	Sheet
	Sheets  float64 // how many; the last may be a part of one
	Through []int   // the baths in order, by their index
}

// ToppedUp says that something was poured into a bath.
type ToppedUp struct {
	Bath int
	With Contents
}

// Taken says that so much of a bath was poured off, spilt or dried up.
type Taken struct {
	Bath   int
	Litres float64
}

// Seen says that somebody looked or tested; it changes no bath, only what is known of the room.
type Seen struct {
	Bath int
	Test Reading
}

func (Worked) step()   {}
func (ToppedUp) step() {}
func (Taken) step()    {}
func (Seen) step()     {}

// CarryOver is the drain curve of a material: what it holds at once and after long draining, and how fast it drains.
type CarryOver struct {
	Rest  float64 // mL/m² after long draining
	Fresh float64 // mL/m² at once
	Tau   float64 // s
}

// After returns how much is carried after so many seconds of draining, mL/m².
func (c CarryOver) After(seconds float64) float64 {
	if c.Tau <= 0 {
		return c.Rest
	}
	return c.Rest + (c.Fresh-c.Rest)*math.Exp(-seconds/c.Tau)
}

// bromidePerSilver is the bromide that comes free with each gram of silver that is developed: the ratio of the atomic
// masses, 79.904 to 107.8682 (IUPAC standard atomic weights 2021, abridged).
const bromidePerSilver = 79.904 / 107.8682

// passing is one sheet in one possible room: what it carries and what it gives.
type passing struct {
	carry   float64 // L out of every bath
	silver  float64 // g that the first fixer dissolves
	bromide float64 // g that the developer sets free
}

// load is a sheet with what all rooms share.
type load struct {
	of    material.Material
	area  float64 // m²
	carry float64 // L, in a room of factor 1
}

func (s Sheet) load(prior *Prior) load {
	stuff := &prior[s.Of]
	drained := s.Drained
	if drained <= 0 {
		drained = stuff.Drained
	}
	return load{s.Of, s.Area, s.Area * stuff.CarryOver.After(drained) / 1000}
}

// in returns the sheet's passing in one room.
func (l load) in(room *Room) passing {
	r := &room[l.of]
	coated := l.area * r.Coating
	return passing{
		carry:   r.Carry * l.carry,
		silver:  coated * r.Undeveloped,
		bromide: coated * (1 - r.Undeveloped) * bromidePerSilver,
	}
}

func (s Sheet) in(room *Room, prior *Prior) passing { return s.load(prior).in(room) }

// times returns the passing of a part of the sheet.
func (p passing) times(part float64) passing {
	return passing{p.carry * part, p.silver * part, p.bromide * part}
}

// through takes one sheet through the baths and returns what it carries out of the last of them.
func (p passing) through(state []Contents, baths []Bath, path []int) Contents {
	var wet Contents
	silver := p.silver
	for _, b := range path {
		c := &state[b]
		c.add(wet)
		switch baths[b].Kind {
		case Developing:
			c[Bromide] += p.bromide
		case Fixing:
			c[Silver] += silver
			silver = 0
		case Water, Stopping:
		}
		wet = c.out(p.carry)
	}
	return wet
}

// out takes so many litres out of a bath, or all that it has.
func (c *Contents) out(litres float64) Contents {
	if c[Liquid] <= 0 {
		return Contents{}
	}
	part := math.Min(1, litres/c[Liquid])
	var wet Contents
	for a := range c {
		wet[a] = c[a] * part
		c[a] -= wet[a]
	}
	return wet
}
