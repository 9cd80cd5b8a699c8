package measure_test

import (
	"fmt"
	"math"
	"math/big"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// trace reads a choice's steps as the action that a person would do who follows them.
func (q *question) trace(c measure.Choice) (action, error) {
	a := action{manner: c.Manner, apart: c.Manner == measure.Apart}
	for _, s := range c.Steps {
		if s.Do != measure.Pour && s.Do != measure.Fill && s.Do != measure.Weigh {
			continue
		}
		m, err := q.find(s)
		if err != nil {
			return a, err
		}
		switch {
		case s.What == measure.Chemical || s.What == measure.PartA || s.What == measure.Made:
			err = a.doses[0].add(m, s.Times)
		case s.What == measure.PartB:
			err = a.doses[1].add(m, s.Times)
		case s.Do == measure.Fill && c.Manner == measure.Intermediate && a.q == nil:
			a.r, a.q = a.doses[0][0].m, m
			a.doses[0] = plan{}
		case s.Do == measure.Fill || s.What == measure.Water:
			a.apart = a.apart || s.Do == measure.Pour
			err = a.fills.add(m, s.Times)
		default:
			err = fmt.Errorf("no use known for step %+v", s)
		}
		if err != nil {
			return a, err
		}
	}
	return a, q.settle(&a)
}

// settle finds out whether each jugful has its own chemical, and whether it is measured in the jug.
func (q *question) settle(a *action) error {
	n := a.fills.times()
	if n == 0 {
		a.apart = true
		return nil
	}
	a.inJug = !a.apart && a.doses[0][0].m != nil && a.doses[0][0].m.vessel == a.fills[0].m.vessel
	a.every = a.manner == measure.InJug || a.manner == measure.Poured ||
		a.manner == measure.Weighed && !a.apart && n > 1 && a.doses[0].times() == n
	if !a.every {
		return nil
	}
	for i := range q.chemicals {
		for j := range a.doses[i] {
			if a.doses[i][j].n%n != 0 {
				return fmt.Errorf("%d pours are not shared out to %d jugfuls", a.doses[i][j].n, n)
			}
			a.doses[i][j].n /= n
		}
	}
	return nil
}

// add adds a reading to a plan.
func (p *plan) add(m *mark, times int) error {
	for i := range p {
		if p[i].m == nil || p[i].m == m {
			p[i].m = m
			p[i].n += times
			return nil
		}
	}
	return fmt.Errorf("a third reading in one plan: %+v", m)
}

// find returns the reading of a step.
func (q *question) find(s measure.Step) (*mark, error) {
	if s.Vessel < 0 || s.Vessel >= len(q.marks) {
		return nil, fmt.Errorf("no vessel %d", s.Vessel)
	}
	for _, m := range q.marks[s.Vessel] {
		if m.scale == s.Scale && m.half == s.Half && m.number.Cmp(ratOf(s.Mark)) == 0 {
			if m.volume != s.Volume {
				return nil, fmt.Errorf("step %+v has volume %v, its mark is at %v", s, s.Volume, m.volume)
			}
			return m, nil
		}
	}
	return nil, fmt.Errorf("no such mark: %+v", s)
}

// same says whether two plans have the same readings in any order.
func (p plan) same(o plan) bool { return p == o || p == plan{o[1], o[0]} }

// holds says whether the space of the question has the action.
func (q *question) holds(a action) bool {
	found := false
	v := q.visit(q.rankOf(&outcome{action: a}).readings, func(b action) {
		found = found || a.manner == b.manner && a.inJug == b.inJug && a.apart == b.apart &&
			a.dosings() == b.dosings() && a.doses[0].same(b.doses[0]) && a.doses[1].same(b.doses[1]) &&
			a.fills.same(b.fills) && a.r == b.r && a.q == b.q
	})
	if a.manner == measure.Intermediate {
		v.intermediate()
	} else {
		v.direct()
	}
	return found
}

// exactBias returns the bias of chemical i in exact arithmetic.
func (q *question) exactBias(o *outcome, i int) float64 {
	rat := func(v quantity.Volume) *big.Rat { return new(big.Rat).SetInt64(int64(v)) }
	s := o.doses[i].volume().Times(o.dosings())
	if o.inJug && i == 1 {
		s -= o.doses[0].volume().Times(o.dosings())
	}
	share := new(big.Rat).Quo(rat(s), rat(o.total))
	if o.r != nil {
		share.Mul(share, new(big.Rat).Quo(rat(o.r.volume), rat(o.q.volume)))
	}
	parts := ratOf(q.Dilution.Water)
	for _, a := range q.Dilution.Chemicals {
		parts.Add(parts, ratOf(a))
	}
	wanted := new(big.Rat).Quo(ratOf(q.Dilution.Chemicals[i]), parts)
	bias, _ := new(big.Rat).Sub(share.Quo(share, wanted), big.NewRat(1, 1)).Float64()
	return bias
}

// disagreement compares a result with the oracle's optimum (nil: nothing can be made) and says what differs;
// empty where nothing does.
func (q *question) disagreement(got measure.Result, want *outcome) string {
	if want == nil {
		return q.wronglyImpossible(got)
	}
	if got.Status != measure.Optimal || len(got.Choices) == 0 {
		return fmt.Sprintf("status %v with %d choices, want %s", got.Status, len(got.Choices), q.sayOutcome(want))
	}
	c := got.Choices[0]
	a, err := q.trace(c)
	if err != nil {
		return fmt.Sprintf("steps that can't be followed: %v; want %s", err, q.sayOutcome(want))
	}
	o := q.work(a)
	both := fmt.Sprintf("\n  got  %s\n  want %s", q.sayOutcome(&o), q.sayOutcome(want))
	if order, step := o.rank.compare(want.rank, 0); order != 0 {
		return fmt.Sprintf("parted by step %d (%d; -1: the solver's is better)%s", step, order, both)
	}
	if g, w := q.names(&o.action), q.names(&want.action); fmt.Sprint(g) != fmt.Sprint(w) {
		return fmt.Sprintf("names %v, want %v%s", g, w, both)
	}
	if !q.holds(a) {
		return "outside the space" + both
	}
	if what := q.misstated(c, &o); what != "" {
		return what + both
	}
	if what := q.misordered(c, &a); what != "" {
		return what + both
	}
	return ""
}

// wronglyImpossible compares a result with what is to be said where nothing can be made.
func (q *question) wronglyImpossible(got measure.Result) string {
	lack, short, least := q.lacking()
	if got.Status != measure.Impossible || len(got.Choices) != 0 {
		return fmt.Sprintf("status %v with %d choices, want impossible, lack %v", got.Status, len(got.Choices), lack)
	}
	if got.Lack != lack || got.Short != short || got.NeedAtLeast != least {
		return fmt.Sprintf("impossible for lack %v, short of %d, need %.10g mL; want %v, %d, %.10g mL",
			got.Lack, got.Short, got.NeedAtLeast.ML(), lack, short, least.ML())
	}
	return ""
}

// misstated compares what a choice says of itself with what comes of its steps.
func (q *question) misstated(c measure.Choice, o *outcome) string {
	const near = 1e-12
	worst := 0.0
	for i := range q.chemicals {
		if d := math.Abs(q.exactBias(o, i) - o.bias); i == 0 || d < worst {
			worst = d
		}
	}
	set := uint(0)
	for _, v := range c.Vessels {
		set |= 1 << v
	}
	strength, vessels := 0.0, uint(0)
	o.each(q.chemicals, func(m *mark, _ int) { vessels |= 1 << m.vessel })
	for i := range q.chemicals {
		strength += o.chemical[i] / o.total.ML()
		if len(c.Chemical) != q.chemicals || len(c.ChemicalUsed) != q.chemicals {
			return "chemicals are missing"
		}
		if math.Abs(c.Chemical[i].ML()-o.chemical[i]) > 1e-9 || math.Abs(c.ChemicalUsed[i].ML()-o.used[i]) > 1e-9 {
			return fmt.Sprintf("chemical %v, used %v mL", c.Chemical[i].ML(), c.ChemicalUsed[i].ML())
		}
	}
	switch {
	case worst > near:
		return "the oracle's own bias is not exact"
	case c.Total != o.total:
		return fmt.Sprintf("total %v mL", c.Total.ML())
	case math.Abs(c.Bias-o.bias) > near:
		return fmt.Sprintf("bias %v, want %v", c.Bias, o.bias)
	case math.Abs(c.Uncertainty-o.u) > near:
		return fmt.Sprintf("U %v, want %v", c.Uncertainty, o.u)
	case c.Grade != o.rank.grade || c.Within != (c.Grade != measure.GradeC):
		return fmt.Sprintf("grade %v, within %v", c.Grade, c.Within)
	case c.Readings != o.rank.readings:
		return fmt.Sprintf("%d readings", c.Readings)
	case math.Abs(c.Strength-strength) > near:
		return fmt.Sprintf("strength %v, want %v", c.Strength, strength)
	case set != vessels || len(c.Vessels) != o.rank.vessels:
		return fmt.Sprintf("vessels %v", c.Vessels)
	}
	return ""
}

// sayOutcome writes an outcome with its rank in one line.
func (q *question) sayOutcome(o *outcome) string {
	return fmt.Sprintf("%s; total %.10g mL, bias %.6g, U %.6g, rank %+v", q.say(&o.action), o.total.ML(), o.bias, o.u, o.rank)
}
