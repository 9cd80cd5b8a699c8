package measure_test

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// A flavour is what a random problem is about.
type flavour string

// flavours lists them; they are drawn in turn.
func flavours() []flavour {
	return []flavour{
		"plain", "water first", "half marks", "two scales", "widths and settings", "own errors", "syringe", "balance",
		"little chemical", "kept apart", "two chemicals", "two chemicals, jug alone", "undiluted", "US reader", "imperial reader", "coarse",
		"twins", "wide window", "jug alone", "two chemicals", "two chemicals, jug alone", "two chemicals",
	}
}

// A dice draws random problems.
type dice struct {
	*rand.Rand
	flavour flavour
}

// pick returns one of the values.
func pick[T any](d dice, values ...T) T { return values[d.IntN(len(values))] }

// chance is true with probability p.
func (d dice) chance(p float64) bool { return d.Float64() < p }

// is says whether the flavour is one of these.
func (d dice) is(fs ...flavour) bool { return slices.Contains(fs, d.flavour) }

// marks draws a scale with few marks.
func (d dice) marks(unit quantity.VolumeUnit, from, step, most int64) measure.Scale {
	n := 1 + d.Int64N(most)
	return scale(unit, from, from+step*(n-1), step, pick(d, 0, step, 2*step))
}

func (d dice) jug(name string) measure.Vessel {
	v := measure.Vessel{Name: name, Kind: pick(d, measure.Jug, measure.Jug, measure.Beaker)}
	v.Scales = []measure.Scale{d.marks(quantity.UnitML, pick[int64](d, 50, 100, 200, 250, 500), pick[int64](d, 50, 100, 250), 5)}
	if d.is("two scales", "US reader", "imperial reader") || d.chance(0.3) {
		unit := pick(d, quantity.UnitUSOunce, quantity.UnitImperialOunce)
		v.Scales = append(v.Scales, d.marks(unit, pick[int64](d, 1, 2, 4, 8), pick[int64](d, 1, 2, 4, 8), 4))
	}
	return d.finish(v)
}

func (d dice) small(name string) measure.Vessel {
	v := measure.Vessel{Name: name, Kind: measure.Cylinder, Class: pick(d, measure.NoClass, measure.ClassA, measure.ClassB)}
	switch kind := d.IntN(10); {
	case kind < 2 || d.is("syringe"):
		v.Kind, v.Class = pick(d, measure.Syringe, measure.Syringe, measure.Pipette), measure.NoClass
		step := pick[int64](d, 1, 2, 5, 10)
		from := step * pick[int64](d, 1, 2, 5, 9)
		v.Scales = []measure.Scale{tenths(from, from+step*d.Int64N(4), step, pick[int64](d, 0, 10))}
	default:
		v.Scales = []measure.Scale{d.marks(quantity.UnitML, pick[int64](d, 5, 10, 20, 40, 90), pick[int64](d, 1, 5, 10, 20), 4)}
	}
	if d.is("two scales") && d.chance(0.5) {
		v.Scales = append(v.Scales, d.marks(quantity.UnitUSOunce, 1, 1, 2))
	}
	return d.finish(v)
}

// finish adds what any vessel may have.
func (d dice) finish(v measure.Vessel) measure.Vessel {
	v.HalfMarks = d.is("half marks") && d.chance(0.7) || d.chance(0.05)
	if d.is("own errors") || d.chance(0.1) {
		v.Own = &measure.Permissible{Abs: pick(d, 0, 0.2, 1, 5), Rel: pick(d, 0, 0.005, 0.02, 0.1)}
	}
	if d.is("widths and settings") {
		v.InnerWidth = pick[quantity.Length](d, 0, 15, 30, 100)
		v.Setting = measure.Setting{OnMark: pick(d, 0, 0.1, 0.5), Between: pick(d, 0, 0.3, 1)}
	}
	if d.is("kept apart") {
		v.NotForChemical, v.NotForWater = d.chance(0.3), d.chance(0.3)
	}
	if d.is("coarse") {
		v.Own = &measure.Permissible{Abs: 0.5, Rel: 0.005}
	}
	return v
}

func (d dice) balance(name string) measure.Vessel {
	v := measure.Vessel{Name: name, Kind: measure.Balance}
	from := pick[int64](d, 5, 20, 50, 100)
	v.Scales = []measure.Scale{d.marks(quantity.UnitML, from, pick[int64](d, 1, 5, 10), 4)}
	v.HalfMarks = d.chance(0.2)
	if d.chance(0.3) {
		v.Own = &measure.Permissible{Abs: 0.1}
	}
	return v
}

// vessels draws a small kit, its names in no order.
func (d dice) vessels() []measure.Vessel {
	count := 0
	name := func(what string) string {
		count++
		return fmt.Sprintf("%c%d %s", 'a'+rune(d.IntN(26)), count, what)
	}
	all := []measure.Vessel{d.jug(name("jug"))}
	if d.is("two chemicals", "two chemicals, jug alone") {
		all[0].Scales = []measure.Scale{d.marks(quantity.UnitML, pick[int64](d, 50, 100, 250), pick[int64](d, 50, 100, 250), 5)}
	}
	if d.is("coarse") {
		all = []measure.Vessel{d.jug(name("jug")), d.jug(name("jug")), d.small(name("small"))}
	} else if (d.chance(0.8) || d.is("syringe")) && !d.is("jug alone", "two chemicals, jug alone") {
		all = append(all, d.small(name("small")))
	}
	switch {
	case d.is("balance"):
		all = append(all, d.balance(name("balance")))
	case d.is("twins"):
		twin := all[d.IntN(len(all))]
		twin.Name = name("twin")
		all = append(all, twin)
	case d.chance(0.3) && !d.is("jug alone", "two chemicals, jug alone"):
		all = append(all, d.jug(name("jug")))
	}
	d.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all
}

// parts returns a dilution of whole or half parts.
func parts(twice ...int64) dilution.Dilution {
	var x dilution.Dilution
	last := len(twice) - 1
	for _, a := range twice[:last] {
		x.Chemicals = append(x.Chemicals, ratio(a, 2))
	}
	x.Water = ratio(twice[last], 2)
	return x
}

// label draws a usual dilution.
func (d dice) label() dilution.Dilution {
	switch {
	case d.is("two chemicals", "two chemicals, jug alone"):
		return pick(d, parts(2, 2, 20), parts(2, 2, 4), parts(2, 4, 14), parts(4, 2, 6), parts(2, 2, 40), parts(2, 2, 0))
	case d.is("undiluted"):
		return parts(2, 0)
	case d.is("coarse"):
		return oneTo(pick[int64](d, 50, 100, 150, 200))
	}
	return pick(d, parts(2, 2), parts(4, 6), oneTo(4), oneTo(9), oneTo(14), oneTo(31), oneTo(50), parts(1, 9), parts(2, 1))
}

// problem draws a problem.
func (d dice) problem() measure.Problem {
	p := measure.Problem{Vessels: d.vessels(), Tolerance: pick(d, 0.03, 0.05, 0.08, 0.1, 0.15, 0.2, 0.3)}
	p.WaterFirst = d.is("water first") || d.chance(0.1)
	if d.is("balance") {
		p.Density = pick[quantity.Density](d, 1, 1.1, 1.37)
	}
	switch {
	case d.is("US reader"):
		p.System = quantity.US
	case d.is("imperial reader"):
		p.System = quantity.Imperial
	default:
		p.System = pick(d, quantity.Metric, quantity.Metric, quantity.US)
	}
	p.Dilution = d.label()
	p.Window = quantity.Window{Min: 1, Max: 20 * quantity.Litre}
	total, chemical := quantity.Litre, quantity.Litre/10
	if some := d.some(newQuestion(p)); some != nil {
		total, chemical = some.total, some.usedOf(0)
		if d.chance(0.8) {
			d.plant(&p, some)
		}
	}
	p.Window = d.window(total)
	if d.is("little chemical") || d.chance(0.05) || len(p.Dilution.Chemicals) == 2 && d.chance(0.3) {
		for range p.Dilution.Chemicals {
			p.Available = append(p.Available, pick(d, 0, chemical, chemical/2, chemical*3, quantity.Millilitre))
		}
	}
	return p
}

// some draws an action of the question's space, one of each manner as likely as another; nil: there is none.
func (d dice) some(q *question) *outcome {
	if !q.small() {
		return nil
	}
	var seen [6]int
	var kept [6]action
	v := q.visit(6, func(a action) {
		if seen[a.manner]++; d.IntN(seen[a.manner]) == 0 {
			kept[a.manner] = a
		}
	})
	v.direct()
	if d.is("coarse") {
		v.intermediate()
	}
	order := d.Perm(len(seen))
	switch {
	case d.is("coarse"):
		order = append([]int{int(measure.Intermediate)}, order...)
	case d.is("balance"):
		order = append([]int{int(measure.Weighed)}, order...)
	case q.chemicals == 2:
		made := pick(d, measure.InJug, measure.Poured, measure.FirstJug, measure.Apart)
		order = append([]int{int(made)}, order...)
	}
	for _, i := range order {
		if seen[i] > 0 {
			o := q.work(kept[i])
			return &o
		}
	}
	return nil
}

// plant makes the dilution, and often the tolerance, such that the action is a good one, or nearly.
func (d dice) plant(p *measure.Problem, o *outcome) {
	least := o.chemical[0]
	if len(p.Dilution.Chemicals) == 2 {
		least = min(least, o.chemical[1])
	}
	water := o.total.ML()
	var twice []int64
	for i := range p.Dilution.Chemicals {
		water -= o.chemical[i]
		twice = append(twice, int64(o.chemical[i]/least*2+0.5))
	}
	if p.Dilution.Water.Sign() > 0 {
		water *= pick(d, 1, 1, 1, 1.1, 0.8)
	}
	p.Dilution = parts(append(twice, int64(water/least*2+0.5))...)
	if d.chance(0.5) {
		miss := newQuestion(*p).work(o.action)
		p.Tolerance = min(max(0.01, miss.miss()*pick(d, 0.7, 1.02, 1.3, 2.05)), 1)
	}
}

// window draws one about the total: now and then far from anything, or of one point.
func (d dice) window(total quantity.Volume) quantity.Window {
	w := quantity.Window{Min: total - total/10, Max: total + total/10, Want: pick(d, total, 0)}
	switch d.IntN(8) {
	case 0, 4, 5:
		w.Min, w.Max = total, total
	case 1:
		w = quantity.Window{Min: total, Max: total + total/10, Want: total + total/10}
	case 2:
		w.Want = w.Max
	case 3:
		w = quantity.Window{Min: 3 * total / 7, Max: 3 * total / 6, Want: 3 * total / 7}
	}
	if d.is("two chemicals", "two chemicals, jug alone") && d.chance(0.6) {
		w = quantity.Window{Min: total, Max: total, Want: total}
	}
	if d.is("wide window") {
		w = quantity.Window{Min: total / 2, Max: total * 2, Want: total}
	}
	return w
}
