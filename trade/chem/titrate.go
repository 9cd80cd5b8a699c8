package chem

import (
	"math"
)

// closePH is how near to the wanted pH a titration ends.
const closePH = 1e-9

// Titrate returns how much more of the i-th substance (mol per kg of water) brings the mixture to a pH, which must
// lie between the pH now and that with MostAmount of it; the mixture is left as it was. The pH has to rise or fall
// all the way as the substance is added, as it does for an acid or a base. A *RangeError with the ends that can be
// reached, of "ph". It panics where i is not from 0 to Len() − 1.
func (m *Mixture) Titrate(i int, ph float64) (float64, error) {
	start := m.parts[i].amount
	at := func(n float64) float64 {
		m.parts[i].amount = start + n
		return m.Solve().PH
	}
	now, end := at(0), at(MostAmount-start)
	n, err := 0.0, error(nil)
	if low, high := min(now, end), max(now, end); !(ph >= low-closePH && ph <= high+closePH) {
		err = &RangeError{Of: "ph", Value: ph, Low: low, High: high}
	} else {
		n = search(at, ph, 0, MostAmount-start)
	}
	at(0)
	return n, err
}

// search returns where f, which rises or falls from low to high, is `want`: by halving a ladder of amounts for the scale
// first, and by halving and chords inside it.
func search(f func(float64) float64, want, low, high float64) float64 {
	fLow, fHigh := f(low)-want, f(high)-want
	switch {
	case math.Abs(fLow) <= closePH || low == high:
		return low
	case math.Abs(fHigh) <= closePH:
		return high
	}
	up := fHigh > fLow
	for turn := range 200 {
		x := low + (high-low)/2
		switch {
		case turn < 40 && low == 0:
			x = high / 8 // down to the scale of the answer
		case turn%3 != 0 && fHigh != fLow:
			if chord := low - fLow*(high-low)/(fHigh-fLow); chord > low && chord < high {
				x = chord
			}
		}
		y := f(x) - want
		if math.Abs(y) <= closePH || x == low || x == high {
			return x
		}
		if (y < 0) == up {
			low, fLow = x, y
		} else {
			high, fHigh = x, y
		}
	}
	return low + (high-low)/2
}

// Buffer returns how much of an acid and of its salt (mol per kg of water), `total` together, give a pH at the
// temperature of the mixture that holds them as its substances 0 and 1; whatever else is in it stays. The mixture is left
// holding them. A *RangeError with the ends that can be reached, of "ph", and of "amount" for a total that is not above
// 0 or more than MostAmount; then the mixture is left as it was. It panics with fewer than two substances.
func (m *Mixture) Buffer(total, ph float64) (acid, base float64, err error) {
	if !(total > 0 && total <= MostAmount) {
		return 0, 0, &RangeError{Of: "amount", Value: total, Low: 0, High: MostAmount}
	}
	before := [2]float64{m.parts[0].amount, m.parts[1].amount}
	at := func(share float64) float64 {
		m.parts[0].amount, m.parts[1].amount = total*(1-share), total*share
		return m.Solve().PH
	}
	none, all := at(0), at(1)
	if low, high := min(none, all), max(none, all); !(ph >= low-closePH && ph <= high+closePH) {
		m.parts[0].amount, m.parts[1].amount = before[0], before[1]
		m.Solve()
		return 0, 0, &RangeError{Of: "ph", Value: ph, Low: low, High: high}
	}
	at(search(at, ph, 0, 1))
	return m.parts[0].amount, m.parts[1].amount, nil
}

// Henderson returns the pH of a buffer by the rule of thumb pK + log10(base/acid), without activities: Henderson's
// and Hasselbalch's. It is 0.1 to 0.5 from the whole model in a usual bath. NaN where one of the two is not above 0.
func Henderson(pk, acid, base float64) float64 {
	if !(acid > 0 && base > 0) {
		return math.NaN()
	}
	return pk + math.Log10(base/acid)
}
