package darkroom

import (
	"strconv"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

func roomRules() []rule[Room] { return []rule[Room]{stepsRise} }

// stepsRise refuses silver strips whose steps do not rise.
func stepsRise(r *reader, n *node, room *Room) {
	for i := 1; i < len(room.SilverStrip) && r.clean("silver_strip"); i++ {
		if room.SilverStrip[i] <= room.SilverStrip[i-1] {
			r.badField(n, "silver_strip", Problem{Kind: ProblemNotRising})
		}
	}
}

// hotAboveCold refuses a hot tap that is colder than the cold one.
func hotAboveCold(r *reader, n *node, w *Water) {
	if w.Hot.Given() && w.Cold.Given() && w.Hot.Value < w.Cold.Value {
		r.badField(n, "hot", Problem{Kind: ProblemHotBelowCold, Expected: Expected{Low: w.Cold.Text}})
	}
}

// goesWith notes a field that has no meaning beside what another one says.
func (r *reader) goesWith(n *node, name string, given bool, beside string) {
	if given {
		r.badField(n, name, Problem{Kind: ProblemDoesNotGo, Expected: Expected{Other: beside}})
	}
}

func vesselRules() []rule[Vessel] { return []rule[Vessel]{vesselKindRules, unitsOfKind, notTooLarge} }

// vesselKindRules refuses what has no meaning for a vessel of this kind.
func vesselKindRules(r *reader, n *node, v *Vessel) {
	if blank(n.Get("kind")) || !r.clean("kind") {
		return
	}
	kind := "kind: " + sayIn(kinds())(v.Kind)
	r.goesWith(n, "class", v.Class != measure.NoClass && v.Kind != measure.Cylinder, kind)
	balance := v.Kind == measure.Balance
	r.goesWith(n, "inner_width", balance && v.InnerWidth.Given(), kind)
	r.goesWith(n, "half_marks", balance && v.HalfMarks.Given(), kind)
	if v.PermissibleError.Given() && v.PermissibleError.Value.Abs > 0 {
		_, mass, err := ReadPermissible(v.PermissibleError.Text, r.ounce)
		r.goesWith(n, "permissible_error", err == nil && mass != balance, kind)
	}
}

// unitsOfKind refuses grams on a jug and millilitres on a balance.
func unitsOfKind(r *reader, n *node, v *Vessel) {
	if blank(n.Get("kind")) || !r.clean("kind") {
		return
	}
	for i, s := range v.Scales {
		if s.Unit.Given() && s.Grams != (v.Kind == measure.Balance) {
			r.inItem(n, "scales", i, func(n *node) {
				r.badField(n, "unit", Problem{Kind: ProblemDoesNotGo, Expected: Expected{Other: "kind: " + sayIn(kinds())(v.Kind)}})
			})
		}
	}
}

// notTooLarge refuses a jug of 900 L: nobody lifts it.
func notTooLarge(r *reader, n *node, v *Vessel) {
	const maxGrams = 100_000
	for i, s := range v.Scales {
		p := Problem{Kind: ProblemOutOfBounds, Expected: Expected{What: "mark", High: "200 L"}}
		tooMuch := false
		if s.Grams {
			p.Expected.High = "100,000 g"
			tooMuch = s.To.Value.Cmp(quantity.Int(maxGrams)) > 0
		} else if s.Unit.Given() && s.To.Given() {
			to, err := s.To.Value.Of(s.Unit.Value.Volume())
			tooMuch = err != nil || to > maxVessel
			p.Found = s.To.Text + " " + s.Unit.Text
		}
		if tooMuch {
			r.inItem(n, "scales", i, func(n *node) { r.badField(n, "to", p) })
		}
	}
}

// inItem runs look on item i of what was read from the list called name; rows left blank in a form do not count.
func (r *reader) inItem(n *node, name string, i int, look func(*node)) {
	list := n.Get(name)
	for k, v := range list.Items {
		if list.Loose && blank(v) {
			continue
		}
		if i == 0 {
			r.in(name, func() { r.in(item(k), func() { look(v) }) })
			return
		}
		i--
	}
}

func scaleRules() []rule[Scale] { return []rule[Scale]{marksRise, marksDivide, numbersHit} }

// complete reports whether a scale's first mark, last mark and step could be read.
func (s *Scale) complete() bool { return s.From.Given() && s.To.Given() && s.Step.Given() }

// marksRise refuses a scale whose last mark is not above its first.
func marksRise(r *reader, n *node, s *Scale) {
	if s.complete() && s.To.Value.Cmp(s.From.Value) <= 0 {
		r.badField(n, "to", Problem{Kind: ProblemNotAbove, Expected: Expected{Other: "from", Low: s.From.Text}})
	}
}

// steps returns how many steps lie between the first mark and the last; false where it is no whole number.
func (s *Scale) steps() (int64, bool) {
	span, err := s.To.Value.Sub(s.From.Value)
	if err != nil {
		return 0, false
	}
	steps, err := span.Quo(s.Step.Value)
	return steps.Num(), err == nil && steps.Den() == 1
}

// maxSteps is how many steps a scale may have: a burette has 500, a balance of 1 kg by 0.01 g has 100,000.
const (
	maxSteps        = 2000
	maxStepsBalance = 1_000_000
)

// marksDivide refuses a scale whose last mark no whole number of steps reaches, and one of absurdly many marks.
func marksDivide(r *reader, n *node, s *Scale) {
	if !s.complete() || s.To.Value.Cmp(s.From.Value) <= 0 {
		return
	}
	steps, whole := s.steps()
	limit := int64(maxSteps)
	if s.Grams {
		limit = maxStepsBalance
	}
	switch {
	case !whole:
		r.badField(n, "step", Problem{
			Kind: ProblemMarksDoNotDivide, Found: s.Step.Text,
			Expected: Expected{Low: s.From.Text, High: s.To.Text},
		})
	case steps > limit:
		r.badField(n, "step", Problem{
			Kind: ProblemTooManyMarks, Found: strconv.FormatInt(steps, 10),
			Expected: Expected{High: thousands(int(limit))},
		})
	}
}

// numbersHit refuses a numbering that no mark carries: 100 on a scale of 25, 75, 125.
func numbersHit(r *reader, n *node, s *Scale) {
	if !s.complete() || !s.Numbered.Given() || !r.clean("from", "to", "step") {
		return
	}
	steps, whole := s.steps()
	mark := s.From.Value
	for range min(steps, maxSteps) + 1 {
		times, err := mark.Quo(s.Numbered.Value)
		if !whole || err != nil || times.Den() == 1 {
			return
		}
		if mark, err = mark.Add(s.Step.Value); err != nil {
			return
		}
	}
	r.badField(n, "numbered", Problem{
		Kind: ProblemNumbersMiss, Found: s.Numbered.Text,
		Expected: Expected{Low: s.From.Text, High: s.To.Text, Other: s.Step.Text},
	})
}

func trayRules() []rule[Tray] { return []rule[Tray]{fillFits} }

// fillFits refuses more than a tray can hold. Walls slope, so up to a fifth more than width × length × depth passes.
func fillFits(r *reader, n *node, t *Tray) {
	if !t.Inside.Given() || !t.Depth.Given() || !t.Fill.Given() {
		return
	}
	const mm3PerML, slope = 1000, 1.2
	ml := float64(t.Inside.Value.Width) * float64(t.Inside.Value.Height) * float64(t.Depth.Value) / mm3PerML
	if t.Fill.Value.ML() > slope*ml {
		r.badField(n, "fill", Problem{
			Kind:     ProblemOverBrim,
			Expected: Expected{High: strconv.FormatFloat(ml/1000, 'f', 1, 64) + " L"},
		})
	}
}

// coversRise refuses a tank in which two reels are covered by no more than one.
func coversRise(r *reader, n *node, t *Tank) {
	for _, f := range n.Get("covers").Fields {
		all := t.Covers[f.Key]
		for i := 1; i < len(all); i++ {
			if all[i].Given() && all[i-1].Given() && all[i].Value <= all[i-1].Value {
				r.in("covers", func() { r.badField(n.Get("covers"), f.Key, Problem{Kind: ProblemNotRising}) })
				break
			}
		}
	}
}
