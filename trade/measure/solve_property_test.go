package measure_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// drawnVessel draws one of the bench's vessels, sometimes read between its marks or calibrated.
func drawnVessel(t *rapid.T, name string) measure.Vessel {
	v := rapid.SampledFrom(benchVessels()).Draw(t, "vessel")
	v.Name = name
	if rapid.Bool().Draw(t, "one scale") {
		v.Scales = v.Scales[:1]
	}
	v.HalfMarks = rapid.IntRange(0, 4).Draw(t, "half marks") == 0
	if rapid.IntRange(0, 3).Draw(t, "own") == 0 {
		v.Own = &measure.Permissible{Abs: rapid.Float64Range(0, 2).Draw(t, "abs"), Rel: rapid.Float64Range(0, 0.03).Draw(t, "rel")}
	}
	v.NotForChemical = rapid.IntRange(0, 9).Draw(t, "not for chemical") == 0
	v.NotForWater = rapid.IntRange(0, 9).Draw(t, "not for water") == 0
	return v
}

// drawnProblem draws a problem with a few vessels.
func drawnProblem(t *rapid.T) measure.Problem {
	var vs []measure.Vessel
	for i := range rapid.IntRange(1, 4).Draw(t, "vessels") {
		vs = append(vs, drawnVessel(t, "vessel "+strconv.Itoa(i)))
	}
	parts := fmt.Sprintf("1+%d", rapid.IntRange(0, 60).Draw(t, "water"))
	if rapid.IntRange(0, 9).Draw(t, "two") == 0 {
		parts, vs = "1+"+parts+"0", vs[:min(3, len(vs))] // the space of two chemicals is large
	}
	most := float64(rapid.IntRange(3, 20).Draw(t, "most")) * 100
	p := mix(parts, most*rapid.Float64Range(0.7, 1).Draw(t, "least"), most, rapid.Float64Range(0.05, 0.4).Draw(t, "tolerance"), vs...)
	p.WaterFirst = rapid.IntRange(0, 3).Draw(t, "water first") == 0
	p.System = quantity.System(rapid.IntRange(0, 1).Draw(t, "system"))
	if rapid.Bool().Draw(t, "available") {
		for range p.Dilution.Chemicals {
			p.Available = append(p.Available, quantity.Volume(rapid.IntRange(20, 800).Draw(t, "there is"))*quantity.Millilitre)
		}
	}
	return p
}

func solvedDrawn(t *rapid.T, p measure.Problem, o measure.Options) measure.Result {
	r, err := measure.Solve(t.Context(), p, o)
	if err != nil {
		t.Fatalf("Solve: %v", err)
	}
	return r
}

// standing returns a choice's figures by the first twelve criteria, less being better, worked from its steps.
func standing(p measure.Problem, c measure.Choice) []float64 {
	type mark struct {
		vessel, scale int
		at            string
	}
	marks, scales := map[mark]bool{}, map[int]map[int]bool{}
	var half, foreign, plain, turned float64
	for _, s := range c.Steps {
		if s.Do != measure.Pour && s.Do != measure.Fill && s.Do != measure.Weigh {
			continue
		}
		if s.Half {
			half += float64(s.Times)
		}
		if scales[s.Vessel] == nil {
			scales[s.Vessel] = map[int]bool{}
		}
		scales[s.Vessel][s.Scale] = true
		sc := p.Vessels[s.Vessel].Scales[s.Scale]
		m := mark{s.Vessel, s.Scale, fmt.Sprint(s.Mark.Num(), "/", s.Mark.Den())}
		if marks[m] {
			continue
		}
		marks[m] = true
		if sc.Unit.System() != p.System {
			foreign++
		}
		n, err := s.Mark.Quo(sc.Numbered)
		if err != nil || n.Den() != 1 || s.Half {
			plain++
		}
	}
	for _, of := range scales {
		if len(of) > 1 {
			turned++
		}
	}
	flag := func(b bool) float64 {
		if b {
			return 1
		}
		return 0
	}
	e := math.Abs(c.Bias) + c.Uncertainty
	return []float64{
		float64(c.Grade), float64(c.Readings), flag(e > p.Tolerance/2+measure.Tie), float64(len(scales)), half, turned,
		flag(c.Manner == measure.Apart), float64(len(marks)), foreign, plain, math.Abs(float64(c.Total - p.Window.Want)),
		math.Round(e / measure.Tie),
	}
}

// TestChoicesKeepTheRules: the total lies in the window, no bottle gives more than it holds, nothing is negative, what the
// steps say adds up, and all choices say what they are.
func TestChoicesKeepTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawnProblem(t)
		r := solvedDrawn(t, p, measure.Options{NoAdvice: true, Alternatives: measure.MaxAlternatives})
		if (r.Status == measure.Optimal) != (len(r.Choices) > 0) || (r.Status == measure.Optimal) != (r.Lack == measure.LackNothing) {
			t.Fatalf("status %v, %d choices, lack %v", r.Status, len(r.Choices), r.Lack)
		}
		for i, c := range r.Choices {
			keepsTheRules(t, p, c)
			if (c.Differs == nil) != (i == 0) {
				t.Errorf("choice %d differs by %v", i, c.Differs)
			}
			if i > 0 && slices.Compare(standing(p, r.Choices[i-1]), standing(p, c)) > 0 {
				t.Errorf("choice %d stands before %d", i, i-1)
			}
		}
	})
}

func keepsTheRules(t *rapid.T, p measure.Problem, c measure.Choice) {
	if c.Total < p.Window.Min || c.Total > p.Window.Max {
		t.Errorf("total %g mL is outside the window", c.Total.ML())
	}
	used := make([]quantity.Volume, len(p.Dilution.Chemicals))
	readings := 0
	for i, s := range c.Steps {
		if s.Times < 1 || s.Rounds < 1 || s.Times%s.Rounds != 0 || s.Volume < 0 {
			t.Errorf("step %d: %+v", i, s)
		}
		if s.Do != measure.Pour && s.Do != measure.Fill && s.Do != measure.Weigh {
			continue
		}
		readings += s.Times
		switch s.What {
		case measure.Chemical, measure.PartA:
			used[0] += s.Volume.Times(s.Times)
		case measure.PartB:
			used[1] += s.Volume.Times(s.Times)
		case measure.Water, measure.Made, measure.Mix:
		}
	}
	inJug := len(used) == 2 && usesUpTo(c)
	for i, u := range c.ChemicalUsed {
		if i < len(p.Available) && u > p.Available[i] {
			t.Errorf("%g mL of chemical %d used, %g there", u.ML(), i, p.Available[i].ML())
		}
		onTop := inJug && i == 1 // B is read on top of A
		if u <= 0 || c.Chemical[i] <= 0 || c.Chemical[i] > u || u != used[i] && !onTop {
			t.Errorf("chemical %d: %g mL in the total, %g used, %g poured", i, c.Chemical[i].ML(), u.ML(), used[i].ML())
		}
	}
	e := math.Abs(c.Bias) + c.Uncertainty
	grade := measure.GradeC
	switch {
	case len(used) > 1: // A wants both biases small; the choice tells one
		grade = c.Grade
	case e <= p.Tolerance+measure.Tie && math.Abs(c.Bias) <= p.Tolerance/4+measure.Tie:
		grade = measure.GradeA
	case e <= p.Tolerance+measure.Tie:
		grade = measure.GradeB
	}
	if c.Grade != grade {
		t.Errorf("grade %v, bias %g and U %g make it %v", c.Grade, c.Bias, c.Uncertainty, grade)
	}
	if readings != c.Readings || c.Uncertainty < 0 || c.Within != (e <= p.Tolerance+measure.Tie) {
		t.Errorf("%d readings for %d, U %g, within %v", c.Readings, readings, c.Uncertainty, c.Within)
	}
}

// usesUpTo reports whether B is read on top of A in one jug.
func usesUpTo(c measure.Choice) bool {
	for _, s := range c.Steps {
		if s.What == measure.PartB && s.Do == measure.Pour {
			return c.Manner == measure.InJug || c.Manner == measure.FirstJug && len(c.Vessels) == 1
		}
	}
	return false
}

// TestOrderOfVesselsDoesNotMatter: the bench may be written down in any order.
func TestOrderOfVesselsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawnProblem(t)
		q := p
		q.Vessels = rapid.Permutation(p.Vessels).Draw(t, "order")
		o := measure.Options{NoAdvice: true, Alternatives: measure.MaxAlternatives}
		a, b := solvedDrawn(t, p, o), solvedDrawn(t, q, o)
		if len(a.Choices) != len(b.Choices) || a.Lack != b.Lack || a.NeedAtLeast != b.NeedAtLeast {
			t.Fatalf("%d choices, lack %v, need %v; in another order %d, %v, %v", len(a.Choices), a.Lack, a.NeedAtLeast,
				len(b.Choices), b.Lack, b.NeedAtLeast)
		}
		for i := range a.Choices {
			if x, y := told(p, a.Choices[i]), told(q, b.Choices[i]); x != y {
				t.Errorf("%s\nin another order\n%s", x, y)
			}
		}
	})
}

// TestTwiceTheSize: everything twice as large gives the same choice, twice as large.
func TestTwiceTheSize(t *testing.T) {
	two := quantity.Int(2)
	double := func(r quantity.Ratio) quantity.Ratio {
		d, err := r.Mul(two)
		if err != nil {
			panic(err)
		}
		return d
	}
	rapid.Check(t, func(t *rapid.T) {
		p := drawnProblem(t)
		q := p
		q.Vessels, q.Available = slices.Clone(p.Vessels), slices.Clone(p.Available)
		for i := range q.Vessels {
			own := measure.Permissible{Abs: 0.5, Rel: 0.01}
			p.Vessels[i].Own = &own
			q.Vessels[i].Own = &measure.Permissible{Abs: 1, Rel: 0.01}
			q.Vessels[i].Scales = slices.Clone(p.Vessels[i].Scales)
			for k := range q.Vessels[i].Scales {
				s := &q.Vessels[i].Scales[k]
				s.From, s.To, s.Step, s.Numbered = double(s.From), double(s.To), double(s.Step), double(s.Numbered)
			}
		}
		q.Window = quantity.Window{Min: 2 * p.Window.Min, Max: 2 * p.Window.Max, Want: 2 * p.Window.Want}
		for i := range q.Available {
			q.Available[i] *= 2
		}
		o := measure.Options{NoAdvice: true}
		a, b := solvedDrawn(t, p, o), solvedDrawn(t, q, o)
		if len(a.Choices) != len(b.Choices) || b.NeedAtLeast != 2*a.NeedAtLeast {
			t.Fatalf("%d choices and %d", len(a.Choices), len(b.Choices))
		}
		for i, c := range a.Choices {
			d := b.Choices[i]
			if d.Total != 2*c.Total || math.Abs(d.Bias-c.Bias) > 1e-12 || math.Abs(d.Uncertainty-c.Uncertainty) > 1e-12 {
				t.Errorf("%+v, twice as large %+v", c, d)
			}
		}
	})
}

// TestOneMoreVesselIsNeverWorse: a vessel that is not wanted is left on the shelf.
func TestOneMoreVesselIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawnProblem(t)
		q := p
		q.Vessels = append(slices.Clone(p.Vessels), drawnVessel(t, "one more"))
		o := measure.Options{NoAdvice: true}
		a, b := solvedDrawn(t, p, o), solvedDrawn(t, q, o)
		if len(a.Choices) == 0 {
			return
		}
		if a.Choices[0].Manner == measure.Intermediate && len(b.Choices) > 0 && b.Choices[0].Manner != measure.Intermediate {
			return // (f) gives way to whatever (a) to (e) reach of grade A or B, however many readings that takes
		}
		if len(b.Choices) == 0 {
			if b.Lack == measure.LackChemical && a.Choices[0].Grade == measure.GradeC {
				return // with the vessel and more chemical it would be good, so it is said that there is too little
			}
			t.Fatal("nothing can be made with one vessel more")
		}
		x, y := standing(p, a.Choices[0]), standing(q, b.Choices[0])
		if x[0] == float64(measure.GradeC) && y[0] == x[0] {
			return // what is kept of grade C depends on the least error there is
		}
		if slices.Compare(y, x) > 0 {
			t.Errorf("%v\nwith one more %v", x, y)
		}
	})
}

// TestLargeBenchAgainstItsParts: a choice by (a) to (e) with one chemical reads three vessels at most, so the best of a
// large bench is the best of all its threes. The threes are small enough for the comparison with the whole space.
func TestLargeBenchAgainstItsParts(t *testing.T) {
	checked := 0
	for i, p := range instances(20) {
		if len(p.Dilution.Chemicals) > 1 || i%2 == 0 && testing.Short() {
			continue
		}
		o := measure.Options{NoAdvice: true}
		r := solve(t, p, o)
		if len(r.Choices) == 0 || r.Choices[0].Grade == measure.GradeC || r.Choices[0].Manner == measure.Intermediate {
			continue
		}
		checked++
		got, best := standing(p, r.Choices[0]), []float64(nil)
		n := len(p.Vessels)
		for set := range 1 << n {
			q := p
			q.Vessels = nil
			for v := range n {
				if set>>v&1 == 1 {
					q.Vessels = append(q.Vessels, p.Vessels[v])
				}
			}
			if len(q.Vessels) != 3 {
				continue
			}
			part := solve(t, q, o)
			if len(part.Choices) == 0 || part.Choices[0].Manner == measure.Intermediate {
				continue
			}
			if s := standing(q, part.Choices[0]); best == nil || slices.Compare(s, best) < 0 {
				best = s
			}
		}
		if slices.Compare(got, best) != 0 {
			t.Errorf("instance %d: %s\n got %v\nwant %v", i, told(p, r.Choices[0]), got, best)
		}
	}
	if checked < 8 {
		t.Errorf("only %d instances compared", checked)
	}
}
