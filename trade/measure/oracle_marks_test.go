package measure_test

// The oracle of this package: everything in the files oracle*_test.go was written from the package
// comment and the published tables alone, by someone who had not read the search, in the plainest way that came
// to mind. It lists every action of the space, one by one, and takes the best by the order of choice.

import (
	"math"
	"math/big"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// A mark is one reading that a person can take: on a mark, or half-way between two.
type mark struct {
	vessel, scale int
	number        *big.Rat // in the scale's unit; grams for a balance
	half          bool
	volume        quantity.Volume
	numbered      bool
	foreign       bool    // on a scale of another system than the reader's
	t, h          float64 // permissible error and setting half-width, mL
}

// ratOf returns r as a big rational.
func ratOf(r quantity.Ratio) *big.Rat { return big.NewRat(r.Num(), r.Den()) }

// marksOf lists all readings of vessel v of the problem.
func marksOf(p measure.Problem, v int) []*mark {
	var all []*mark
	for s, scale := range p.Vessels[v].Scales {
		from, to, step := ratOf(scale.From), ratOf(scale.To), ratOf(scale.Step)
		halfStep := new(big.Rat).Quo(step, big.NewRat(2, 1))
		for at := from; at.Cmp(to) <= 0; at = new(big.Rat).Add(at, step) {
			if at.Sign() > 0 {
				all = append(all, newMark(p, v, s, at, false))
			}
			between := new(big.Rat).Add(at, halfStep)
			next := new(big.Rat).Add(at, step)
			if p.Vessels[v].HalfMarks && p.Vessels[v].Kind != measure.Balance && next.Cmp(to) <= 0 {
				all = append(all, newMark(p, v, s, between, true))
			}
		}
	}
	return all
}

func newMark(p measure.Problem, v, s int, at *big.Rat, half bool) *mark {
	vessel, scale := p.Vessels[v], p.Vessels[v].Scales[s]
	m := &mark{vessel: v, scale: s, number: at, half: half}
	m.foreign = vessel.Kind != measure.Balance && scale.Unit.System() != p.System
	if !half && scale.Numbered.Sign() > 0 {
		m.numbered = new(big.Rat).Quo(at, ratOf(scale.Numbered)).IsInt()
	}
	if vessel.Kind == measure.Balance {
		grams, _ := at.Float64()
		perMl := float64(p.Density)
		m.volume = quantity.Volume(math.Round(grams / perMl * float64(quantity.Millilitre)))
		m.t = permissible(vessel, scale, grams, 0) / perMl
		m.h = setting(vessel, scale, half) / perMl
		return m
	}
	exact := new(big.Rat).Mul(at, new(big.Rat).SetInt64(int64(scale.Unit.Volume())))
	m.volume = quantity.Volume(halfUp(exact))
	m.t = permissible(vessel, scale, m.volume.ML(), capacity(vessel))
	m.h = setting(vessel, scale, half)
	return m
}

// halfUp rounds to the nearest whole number, halves up.
func halfUp(r *big.Rat) int64 {
	twice := new(big.Rat).Add(r, big.NewRat(1, 2))
	return new(big.Int).Div(twice.Num(), twice.Denom()).Int64()
}

// capacity is a vessel's largest mark, mL.
func capacity(v measure.Vessel) float64 {
	most := 0.0
	for _, s := range v.Scales {
		most = max(most, s.To.Float()*s.Unit.Volume().ML())
	}
	return most
}

// astmE1272 is ASTM E1272-02(2012) Table 1: capacity, class A, class B, all in mL; from 1000 mL up the
// figures are from memory. Class B is within twice class A. A capacity that is not listed takes the tolerance of
// the next smaller one that is.
var astmE1272 = [][3]float64{
	{5, 0.05, 0.10},
	{10, 0.10, 0.20},
	{25, 0.17, 0.34},
	{50, 0.25, 0.50},
	{100, 0.50, 1.00},
	{250, 1.00, 2.00},
	{500, 2.00, 4.00},
	{1000, 3.00, 6.00},
	{2000, 6.00, 12.00},
	{4000, 14.50, 29.00},
}

// permissible returns t: the room's own, or by kind. Reading and size in mL; for a balance the reading in g.
func permissible(v measure.Vessel, s measure.Scale, reading, size float64) float64 {
	if v.Own != nil {
		return max(v.Own.Abs, v.Own.Rel*reading)
	}
	switch v.Kind {
	case measure.Cylinder:
		column := 2
		if v.Class == measure.ClassA {
			column = 1
		}
		t := astmE1272[0][column]
		for _, row := range astmE1272 {
			if row[0] <= size {
				t = row[column]
			}
		}
		return t
	case measure.Syringe: // ISO 7886-1:2017 table 1; the 4 % from memory.
		small := size < 5
		switch {
		case reading >= size/2 && small:
			return 0.05 * reading
		case reading >= size/2:
			return 0.04 * reading
		case small:
			return 0.015*size + 0.02*reading
		}
		return 0.015*size + 0.01*reading
	case measure.Pipette: // Half a step, from memory.
		return division(v, s) / 2
	case measure.Balance: // Half a step, from memory.
		return s.Step.Float() / 2
	case measure.Jug, measure.Beaker: // A household standard's 5 %; for a beaker from memory.
	}
	return 0.05 * reading
}

// division returns one division of a scale: mL, or g on a balance.
func division(v measure.Vessel, s measure.Scale) float64 {
	if v.Kind == measure.Balance {
		return s.Step.Float()
	}
	return s.Step.Float() * s.Unit.Volume().ML()
}

// setting returns h, the half-width of setting to a reading: mL, or g on a balance.
func setting(v measure.Vessel, s measure.Scale, half bool) float64 {
	if v.InnerWidth > 0 && v.Kind != measure.Balance {
		width := float64(v.InnerWidth)
		return math.Pi / 4 * width * width / 1000 // a disc of one millimetre, mm³ to mL
	}
	onMark, between := 0.25, 0.5
	if v.Setting.OnMark > 0 {
		onMark = v.Setting.OnMark
	}
	if v.Setting.Between > 0 {
		between = v.Setting.Between
	}
	if half {
		return between * division(v, s)
	}
	return onMark * division(v, s)
}
