package temper

import (
	"math"

	"wetside/trade/quantity"
)

// marks rounds the pours to what the level can be read to and returns them with the temperature that the
// whole then has: the water's level to the nearest mark, but not above where it leaves room for the chemical
// (that goes in later, and the whole's own mark comes last); the first pour to the mark next below or above that brings
// the whole nearer to want. Ice is rounded to the gram.
func (p Problem) marks(pours []pour, want quantity.Celsius) ([]Mark, quantity.Celsius) {
	var all lot
	for _, q := range pours {
		all = all.with(q.lot)
	}
	level := p.level(volume(all.ml()))
	if level == 0 {
		return nil, temperatureOf(all.with(p.chemical()).h)
	}
	if len(pours) == 1 && pours[0].from == IceByWeight {
		return p.onlyIce(pours[0])
	}
	if len(pours) == 1 {
		return []Mark{{From: pours[0].from, To: level}}, p.poured(lot{}, pours[0].lot.h, level)
	}
	if pours[0].from == IceByWeight {
		return p.iced(pours, level)
	}
	return p.twoMarks(pours, level, want)
}

// twoMarks tries the marks on either side of what the first pour had to be for a level: the whole's
// temperature rises or falls with it, so one of the two is the best there is.
func (p Problem) twoMarks(pours []pour, level quantity.Volume, want quantity.Celsius) ([]Mark, quantity.Celsius) {
	first, second := pours[0], pours[1]
	ideal, _ := p.split(p.waterTo(level, pours, want), first.from, second.from)
	down := volume(ideal.lot.ml()) / p.Step * p.Step
	var best []Mark
	var bestAt quantity.Celsius
	for _, to := range []quantity.Volume{min(down, level), min(down+p.Step, level)} {
		part := lot{first.lot.mass * to.ML() / first.lot.ml(), first.lot.h}
		t := p.poured(part, second.lot.h, level)
		if best != nil && math.Abs(float64(t-want)) >= math.Abs(float64(bestAt-want)) {
			continue
		}
		best, bestAt = nil, t
		if to > 0 {
			best = append(best, Mark{From: first.from, To: to})
		}
		if to < level {
			best = append(best, Mark{From: second.from, To: level})
		}
	}
	return best, bestAt
}

// waterTo returns the water that stands at a level and with the chemical makes the whole as warm as wanted.
func (p Problem) waterTo(level quantity.Volume, pours []pour, want quantity.Celsius) lot {
	chem, h := p.chemical(), waterAt(want).h
	m := at(temperatureOf(pours[0].lot.with(pours[1].lot).h), level.ML()).mass
	return lot{m, h + chem.mass/m*(h-chem.h)}
}

func (p Problem) iced(pours []pour, level quantity.Volume) ([]Mark, quantity.Celsius) {
	ice, tap := pours[0], pours[1]
	grams := math.Round(ice.lot.mass)
	marks := []Mark{{From: tap.from, To: level}}
	if grams > 0 {
		marks = []Mark{{From: IceByWeight, Grams: quantity.Mass(grams)}, marks[0]}
	}
	return marks, p.poured(lot{grams, ice.lot.h}, tap.lot.h, level)
}

func (p Problem) onlyIce(ice pour) ([]Mark, quantity.Celsius) {
	grams := math.Round(ice.lot.mass)
	return []Mark{{From: IceByWeight, Grams: quantity.Mass(grams)}},
		temperatureOf(lot{grams, ice.lot.h}.with(p.chemical()).h)
}

// poured returns the temperature of the whole after water with enthalpy h was poured onto first up to a level, read
// when both have mixed, and the chemical was added.
func (p Problem) poured(first lot, h float64, level quantity.Volume) quantity.Celsius {
	second := lot{max(at(p.Want, level.ML()).mass-first.mass, 0), h}
	for range turns {
		t := temperatureOf(first.with(second).h)
		second.mass = max(at(t, level.ML()).mass-first.mass, 0)
	}
	return temperatureOf(first.with(second).with(p.chemical()).h)
}

// level returns the mark for so much water. A tenth of a division too much is not seen.
func (p Problem) level(water quantity.Volume) quantity.Volume {
	room := p.Step / 10
	if p.Chemical == 0 {
		room = p.Step / 2
	}
	return (water + room) / p.Step * p.Step
}
