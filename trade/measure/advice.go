package measure

import (
	"context"
	"math"
	"strconv"

	"wetside/trade/quantity"
)

// A candidate is a usual vessel and the best choice with it.
type candidate struct {
	get  Vessel
	best found
	judgement
}

// advise returns the usual vessel that serves best when it is added to the bench, or nil where none betters anything.
func (b *bench) advise(ctx context.Context, now answer) (*Advice, error) {
	worst := math.Inf(1)
	if now.ok {
		worst = b.eOf(&now.best)
	}
	for _, look := range [...]func(*bench, context.Context, bounds) (answer, error){(*bench).chooseGood, (*bench).chooseRough} {
		list, err := b.candidates(ctx, look)
		if err != nil {
			return nil, err
		}
		if c := pick(list, worst); c != nil {
			return &Advice{Get: c.get, Uncertainty: c.u, Bias: c.bias}, nil
		}
	}
	return nil, nil
}

// candidates returns the best choice with each usual vessel that gives one.
func (b *bench) candidates(
	ctx context.Context, look func(*bench, context.Context, bounds) (answer, error),
) ([]candidate, error) {
	var list []candidate
	for _, v := range usualVessels(b.p.System) {
		p := *b.p
		p.Vessels = append(append(make([]Vessel, 0, len(p.Vessels)+1), p.Vessels...), v)
		with, w, err := prepare(&p)
		if err != nil {
			return nil, err
		}
		a, err := look(with, ctx, w)
		if a.ok {
			var buf [8]use
			list = append(list, candidate{v, a.best, with.judge(&a.best, with.uses(&a.best, buf[:0]))})
		}
		with.free()
		if err != nil {
			return nil, err
		}
	}
	return list, nil
}

// pick returns the candidate that serves best, or nil where none betters the grade, or within grade C the worst
// |bias| + U there is so far.
func pick(list []candidate, worst float64) *candidate {
	least := math.Inf(1)
	for _, c := range list {
		least = min(least, c.e)
	}
	var best *candidate
	for i := range list {
		c := &list[i]
		if c.best.cost.grade() == GradeC && (c.e > Keep*least+Tie || c.e > worst-Tie) {
			continue
		}
		if best == nil || c.best.before(&best.best) {
			best = c
		}
	}
	return best
}

// before reports whether a choice stands before another by grade and readings alone.
func (f *found) before(g *found) bool {
	if f.cost.grade() != g.cost.grade() {
		return f.cost.grade() < g.cost.grade()
	}
	return f.cost.readings() < g.cost.readings()
}

// usualVessels returns what a darkroom gets, the first first: common practice, no source. Cylinders are of class B with
// the least graduation of ASTM E1272-02(2012) Table 1.
func usualVessels(sys quantity.System) []Vessel {
	list := []Vessel{
		metric(Cylinder, 100, "100 mL cylinder", 20, 10, 100),
		metric(Syringe, 10, "10 mL syringe", 2, 2, 10),
		metric(Jug, 1000, "litre jug", 1000, 500, 1000),
		metric(Cylinder, 250, "250 mL cylinder", 40, 20, 200),
		metric(Cylinder, 25, "25 mL cylinder", 5, 5, 50),
		metric(Cylinder, 10, "10 mL cylinder", 2, 2, 10),
		metric(Cylinder, 50, "50 mL cylinder", 10, 10, 100),
		metric(Syringe, 5, "5 mL syringe", 2, 2, 10),
		metric(Syringe, 20, "20 mL syringe", 10, 10, 50),
		metric(Jug, 2000, "two-litre jug", 2000, 1000, 2000),
	}
	switch sys {
	case quantity.US:
		list = append(list, ounces(quantity.UnitUSOunce, 32), ounces(quantity.UnitUSOunce, 4))
	case quantity.Imperial:
		list = append(list, ounces(quantity.UnitImperialOunce, 40), ounces(quantity.UnitImperialOunce, 4))
	case quantity.Metric:
	}
	return list
}

// metric returns a vessel with one scale in mL; first mark, step and numbering in tenths.
func metric(kind Kind, size int64, name string, from, step, numbered int64) Vessel {
	v := Vessel{Name: name, Kind: kind, Scales: []Scale{{
		Unit: quantity.UnitML, From: part(from, 10), To: quantity.Int(size), Step: part(step, 10), Numbered: part(numbered, 10),
	}}}
	if kind == Cylinder {
		v.Class = ClassB
	}
	return v
}

// ounces returns a graduate in fluid ounces: a large one by the ounce, a small one by the quarter.
func ounces(unit quantity.VolumeUnit, size int64) Vessel {
	s := Scale{Unit: unit, From: quantity.Int(1), To: quantity.Int(size), Step: quantity.Int(1), Numbered: quantity.Int(4)}
	if size < 10 {
		s.From, s.Step, s.Numbered = part(1, 4), part(1, 4), quantity.Int(1)
	}
	return Vessel{
		Name: strconv.FormatInt(size, 10) + " fl oz graduate", Kind: Cylinder, Class: ClassB, Scales: []Scale{s},
	}
}

// part returns n/den, for the fixed figures of the usual vessels.
func part(n, den int64) quantity.Ratio {
	r, err := quantity.NewRatio(n, den)
	if err != nil {
		return quantity.Ratio{}
	}
	return r
}
