package words

import (
	"strings"

	"wetside/trade/measure"
)

// A teller tells one choice.
type teller struct {
	v       *Voice
	b       Batch
	c       measure.Choice
	named   bool // ounces with their system
	rounds  []round
	jugfuls int
	bottled bool         // the bottle that waits for the tank was spoken of
	told    map[int]bool // steps that were told together with the one before
}

// A round is a run of steps done in turn, n times over.
type round struct {
	steps  []int // indexes into Choice.Steps
	each   []int // how often each is done within one round
	n      int
	jugful bool // it makes a jugful of the bath
	first  int  // number of its first jugful, from 1
	thin   bool // it makes the intermediate dilution
}

func newTeller(v *Voice, c measure.Choice, b Batch) *teller {
	t := &teller{v: v, b: b, c: c, named: v.both || bothOunces(b.Vessels), told: map[int]bool{}}
	for i := 0; i < len(c.Steps); {
		end := i
		for end < len(c.Steps) && c.Steps[end].Group == c.Steps[i].Group {
			end++
		}
		t.add(i, end)
		i = end
	}
	return t
}

// add makes a round of the steps from up to end.
func (t *teller) add(from, end int) {
	r := round{n: max(t.c.Steps[from].Rounds, 1)}
	r.thin = t.c.Manner == measure.Intermediate && t.beforeThinned(end)
	for i := from; i < end; i++ {
		s := t.c.Steps[i]
		r.steps = append(r.steps, i)
		r.each = append(r.each, max(s.Times/r.n, 1))
		r.jugful = r.jugful || s.Do == measure.Fill && !r.thin
	}
	if r.jugful {
		r.first = t.jugfuls + 1
		t.jugfuls += r.n
	}
	t.rounds = append(t.rounds, r)
}

// beforeThinned reports whether the intermediate dilution is used only from step i on.
func (t *teller) beforeThinned(i int) bool {
	for _, s := range t.c.Steps[:i] {
		if s.Do == measure.Pour && s.What == measure.Made {
			return false
		}
	}
	return true
}

// round tells the steps of a round once; nth is which time it is, from 0.
func (t *teller) round(r round, nth int, unrolled bool) []Line {
	var lines []Line
	for k, i := range r.steps {
		if t.told[i] {
			continue
		}
		l := t.step(r, k, nth, unrolled)
		if l.Kind != Reading {
			lines = append(lines, l)
			continue
		}
		lines = append(lines, t.reading(l, r, k, nth, unrolled)...)
	}
	return lines
}

// reading adds to a measuring line what comes next, and repeats it as often as it is done in the round.
func (t *teller) reading(l Line, r round, k, nth int, unrolled bool) []Line {
	times := r.each[k]
	l.Next = phrase(strings.Join(t.next(r, k, nth, unrolled), t.v.say("list.semicolon", nil)))
	if times == 1 {
		return []Line{l}
	}
	if !unrolled {
		l.Say = append(l.Say, phrase(" "+t.v.say("mix.again", args{"Times": t.v.Times(times)}))...)
		return []Line{l}
	}
	var lines []Line
	for i := range times {
		one := l
		which := t.v.say("next.pour", args{"Nth": t.v.Ordinal(i + 1), "Of": t.v.Word(times)})
		one.Next = append(phrase(which), joined(t.v, l.Next)...)
		lines = append(lines, one)
	}
	return lines
}

// joined sets a semicolon before a phrase that says something.
func joined(v *Voice, p Phrase) Phrase {
	if len(p) == 0 {
		return nil
	}
	return append(phrase(v.say("list.semicolon", nil)), p...)
}

// next returns the clauses of what comes after a reading.
func (t *teller) next(r round, k, nth int, unrolled bool) []string {
	var clauses []string
	if fill, ok := t.fillAfter(r, k); ok && t.c.Steps[r.steps[k]].What != measure.Water {
		clauses = append(clauses, t.v.say("next.water", args{"Mark": t.mark(fill).short}))
	}
	if !r.jugful || t.jugfuls < 2 {
		return clauses
	}
	of := args{"Of": t.v.CountWord("jugfuls", t.jugfuls), "Nth": t.v.Ordinal(r.first + nth)}
	switch last := r.first + r.n - 1; {
	case unrolled || r.n == 1:
		return append(clauses, t.v.say("next.jugful", of))
	case r.n == t.jugfuls:
		return append(clauses, t.v.say("next.alike", of))
	case r.n == 2:
		of["Last"] = t.v.Ordinal(last)
		return append(clauses, t.v.say("next.two_jugfuls", of))
	default:
		of["Last"] = t.v.Ordinal(last)
		return append(clauses, t.v.say("next.jugfuls", of))
	}
}

// fillAfter returns the filling up that follows step k in its round.
func (t *teller) fillAfter(r round, k int) (measure.Step, bool) {
	for _, i := range r.steps[k+1:] {
		if s := t.c.Steps[i]; s.Do == measure.Fill {
			return s, true
		}
	}
	return measure.Step{}, false
}

// step tells step k of a round.
func (t *teller) step(r round, k, nth int, unrolled bool) Line {
	i := r.steps[k]
	s := t.c.Steps[i]
	switch s.Do {
	case measure.Pour, measure.Fill, measure.Weigh:
		return t.measured(r, k)
	case measure.Start:
		return t.start(i)
	case measure.Tip:
		last := r.n == 1 || unrolled && nth == r.n-1
		return t.tip(r, k, last && i+1 < len(t.c.Steps) && t.c.Steps[i+1].Do == measure.Stir)
	case measure.Rinse:
		return t.rinse(r, k)
	case measure.Stir:
	}
	if r.thin {
		return t.line(Action, i, "mix.stir_thin", args{"Chemical": t.chemical()})
	}
	if t.b.Tank {
		return t.line(Action, i, "mix.stir_bottle", nil)
	}
	return t.line(Action, i, "mix.stir", args{"Into": t.into()})
}

// start tells the water that goes in before the chemical: to about a mark of the jug, where it has one there.
func (t *teller) start(i int) Line {
	s := t.c.Steps[i]
	scale, number, ok := StartMark(t.c, t.b.Vessels, i)
	if !ok {
		return t.line(Action, i, "mix.start", args{"Into": t.vessel(s.Vessel)})
	}
	s.Scale, s.Mark = scale, number
	m := t.mark(s)
	l := t.line(Action, i, "mix.start_mark", args{"Mark": m.full})
	l.Number, l.Unit = m.number, m.unit
	return l
}

// measured tells a reading.
func (t *teller) measured(r round, k int) Line {
	i := r.steps[k]
	s := t.c.Steps[i]
	m := t.mark(s)
	a := args{"What": heavy(t.what(s.What)), "Mark": m.full, "Amount": m.number + string(nbsp) + m.unit}
	if s.Vessel >= 0 {
		a["Vessel"] = t.vessel(s.Vessel)
	}
	key := t.measuredKey(r, k)
	if fill, ok := t.fillAfter(r, k); ok && s.Do != measure.Fill && fill.Vessel != s.Vessel {
		key += "_into"
		a["Into"] = t.vessel(fill.Vessel)
	}
	l := t.line(Reading, i, key, a)
	l.Number, l.Unit = m.number, m.unit
	return l
}

// measuredKey returns the message of a reading: to a mark, up to a mark that something is under already, weighed.
func (t *teller) measuredKey(r round, k int) string {
	s := t.c.Steps[r.steps[k]]
	holds := t.holdsSomething(r, k)
	switch {
	case s.Do == measure.Weigh:
		return "mix.weigh"
	case holds && s.Do == measure.Fill:
		return "mix.fill_up"
	case holds:
		return "mix.pour_up"
	}
	return "mix.pour"
}

// holdsSomething reports whether something is in the vessel of step k before it.
func (t *teller) holdsSomething(r round, k int) bool {
	s := t.c.Steps[r.steps[k]]
	if s.Do != measure.Fill {
		next, ok := t.fillAfter(r, k)
		if !ok || next.Vessel != s.Vessel {
			return false
		}
	}
	for _, i := range r.steps[:k] {
		switch t.c.Steps[i].Do {
		case measure.Pour, measure.Weigh, measure.Start:
			return true
		case measure.Fill, measure.Tip, measure.Rinse, measure.Stir:
		}
	}
	return false
}

// tip tells the pouring into the tray, together with the stirring where that comes next.
func (t *teller) tip(r round, k int, stir bool) Line {
	key := "mix.tip"
	switch {
	case t.b.Tank && t.bottled:
		return t.line(Action, r.steps[k], "mix.tip_bottle", nil)
	case t.b.Tank:
		t.bottled = true
		return t.line(Action, r.steps[k], "mix.tip_tank", args{"Into": t.into()})
	case t.b.WaterFirst && t.onWater(r, k):
		key = "mix.tip_water"
	}
	if stir {
		key += "_stir"
		t.told[r.steps[k]+1] = true
	}
	return t.line(Action, r.steps[k], key, args{"Into": t.into()})
}

// last tells the pouring into the tray that a choice of one jugful does not speak of, where the tray is known.
func (t *teller) last() []Line {
	if t.b.Into == "" {
		return nil
	}
	for _, s := range t.c.Steps {
		if s.Do == measure.Tip {
			return nil
		}
	}
	key := "mix.tip_stir"
	if t.b.Tank {
		key = "mix.tip_tank_stir"
	}
	return []Line{t.line(Action, -1, key, args{"Into": t.into()})}
}

// onWater reports whether the tray holds water already and what is poured in now is the chemical.
func (t *teller) onWater(r round, k int) bool {
	if t.c.Manner != measure.Apart && t.c.Manner != measure.Weighed || k == 0 {
		return false
	}
	before := t.c.Steps[:r.steps[k]]
	last := before[len(before)-1]
	if last.What == measure.Water || last.Do == measure.Fill {
		return false
	}
	for _, s := range before {
		if s.What == measure.Water && s.Do != measure.Start {
			return true
		}
	}
	return false
}

// rinse tells where a small measure is rinsed into: what is filled up next, or the tray.
func (t *teller) rinse(r round, k int) Line {
	s := t.c.Steps[r.steps[k]]
	into := t.into()
	if fill, ok := t.fillAfter(r, k); ok {
		into = t.vessel(fill.Vessel)
	}
	key := "mix.rinse"
	switch {
	case s.Vessel >= 0 && t.b.Vessels[s.Vessel].Kind == measure.Balance:
		key = "mix.rinse_weighed"
	case s.What == measure.Mix:
		key = "mix.rinse_mix"
	}
	return t.line(Action, r.steps[k], key, args{"Vessel": t.vessel(s.Vessel), "Into": into})
}

func (t *teller) vessel(i int) string {
	if i < 0 || i >= len(t.b.Vessels) {
		return t.v.say("the.vessel", nil)
	}
	return t.v.the(t.b.Vessels[i].Name)
}

func (t *teller) into() string { return t.v.into(t.b.Into, t.b.Tank) }

// into names the tray or tank that the mix is for.
func (v *Voice) into(name string, tank bool) string {
	kind := "tray"
	if tank {
		kind = "tank"
	}
	name = own(name)
	word := v.say("word."+kind, nil)
	switch {
	case name == "":
		return v.say("the."+kind, nil)
	case strings.Contains(strings.ToLower(name), strings.ToLower(word)):
		return v.the(name)
	}
	return v.say("the.named_"+kind, args{"Name": name})
}

// what names what is handled.
func (t *teller) what(w measure.What) string {
	switch w {
	case measure.PartA:
		return t.v.say("what.part_a", args{"Chemical": t.chemical()})
	case measure.PartB:
		return t.v.say("what.part_b", args{"Chemical": t.chemical()})
	case measure.Water:
		return t.v.say("what.water", nil)
	case measure.Made:
		return t.v.say("what.made", args{"Chemical": t.chemical()})
	case measure.Mix:
		return t.v.say("what.mix", nil)
	case measure.Chemical:
	}
	return t.chemical()
}

func (t *teller) chemical() string { return t.v.chemical(t.b) }

// chemical names the chemical of a batch: by its own name, else as concentrate or stock.
func (v *Voice) chemical(b Batch) string {
	name := own(b.Chemical)
	switch {
	case name == "" && b.Dilution.FromStock:
		return v.say("what.stock", nil)
	case name == "":
		return v.say("what.concentrate", nil)
	case b.Dilution.FromStock:
		return v.stock(name)
	}
	return name
}

// stock names the stock of a product: "film developer stock" of "film developer, powder".
func (v *Voice) stock(name string) string {
	if strings.Contains(strings.ToLower(name), strings.ToLower(v.say("what.stock", nil))) {
		return name
	}
	bare := strings.TrimSuffix(name, " "+v.say("what.powder", nil))
	return v.say("what.stock_of", args{"Chemical": strings.TrimSuffix(bare, ",")})
}
