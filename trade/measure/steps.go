package measure

import (
	"cmp"
	"slices"
	"strings"

	"wetside/trade/quantity"
)

// A stepper writes the steps of a choice in the order of doing.
type stepper struct {
	*bench
	f     *found
	steps []Step
	group int
}

func (b *bench) steps(f *found) []Step {
	s := stepper{bench: b, f: f}
	switch f.form {
	case formInJug, formPoured:
		s.jugful(int(f.fill.na), f.fill.na > 1)
	case formFirstInJug, formFirstPoured:
		s.jugful(1, true)
		s.plainFills()
	case formApart, formNeat:
		s.apart()
	case formViaJug, formViaPour:
		s.intermediate()
	}
	return s.steps
}

// what names chemical i.
func (b *bench) what(i int) What {
	switch {
	case !b.two:
		return Chemical
	case i == 0:
		return PartA
	}
	return PartB
}

// read adds a reading, done each times in each of rounds.
func (s *stepper) read(do Do, what What, at int32, each, rounds int) {
	r := &s.all[at]
	if s.p.Vessels[r.vessel].Kind == Balance {
		do = Weigh
	}
	mark, err := s.p.Vessels[r.vessel].Scales[r.scale].markOf(int(r.halves))
	if err != nil { // the scale's grid holds it, so it fits
		mark = quantity.Ratio{}
	}
	s.steps = append(s.steps, Step{
		Do: do, What: what, Vessel: int(r.vessel), Scale: int(r.scale), Mark: mark, Half: r.between, Volume: r.vol,
		Times: each * rounds, Group: s.group, Rounds: rounds,
	})
}

// act adds a step that is no reading.
func (s *stepper) act(do Do, what What, vessel uint8, times int) {
	s.steps = append(s.steps, Step{
		Do: do, What: what, Vessel: int(vessel), Times: times, Group: s.group, Rounds: times,
	})
}

// start adds the water that goes in before the chemical, three quarters of what there will be.
func (s *stepper) start(fill int32, chemical quantity.Volume, rounds int) {
	if !s.p.WaterFirst {
		return
	}
	r := &s.all[fill]
	s.act(Start, Water, r.vessel, rounds)
	s.steps[len(s.steps)-1].Volume = (r.vol - chemical) / 4 * 3
}

// portion is one reading of a pour plan and how often it is poured.
type dose struct {
	at    int32
	times int
}

// doses returns a plan's readings, the larger first.
func (b *bench) doses(p *pourPlan) []dose {
	d := []dose{{p.a, int(p.ka)}}
	if p.b != none {
		d = append(d, dose{p.b, int(p.kb)})
	}
	slices.SortFunc(d, func(x, y dose) int { return b.compareReadings(x.at, y.at) })
	return d
}

// compareReadings orders readings: the larger first, then by vessel's name and scale.
func (b *bench) compareReadings(x, y int32) int {
	r, q := &b.all[x], &b.all[y]
	return cmp.Or(
		cmp.Compare(q.vol, r.vol),
		strings.Compare(b.p.Vessels[r.vessel].Name, b.p.Vessels[q.vessel].Name),
		cmp.Compare(r.scale, q.scale),
	)
}

// jugful adds the jugfuls that take chemical, tipped into the tray where wanted.
func (s *stepper) jugful(rounds int, tip bool) {
	f := s.f
	var chemical quantity.Volume
	for i := range s.chemicals() {
		chemical += f.chem[i].vol
	}
	if !f.inJug() {
		s.start(f.fill.a, chemical, rounds)
	}
	for i := range s.chemicals() {
		if f.inJug() {
			s.read(Pour, s.what(i), f.chem[i].a, 1, rounds)
		} else {
			s.pour(&f.chem[i], s.what(i), rounds)
		}
	}
	s.read(Fill, Water, f.fill.a, 1, rounds)
	if tip {
		s.act(Tip, Mix, f.fill.vessel, rounds)
	}
}

// pour adds the pours of a plan into the vessel that is filled up afterwards, each vessel rinsed into it.
func (s *stepper) pour(p *pourPlan, what What, rounds int) {
	ds := s.doses(p)
	for i, d := range ds {
		s.read(Pour, what, d.at, d.times, rounds)
		if v := s.all[d.at].vessel; i == len(ds)-1 || s.all[ds[i+1].at].vessel != v {
			s.act(Rinse, Water, v, rounds)
		}
	}
}

// plainFills adds the fill plan's jugfuls of plain water after its first, and a stir where there is more than one.
func (s *stepper) plainFills() {
	f := &s.f.fill
	if n := int(f.na) - 1; n > 0 {
		s.group++
		s.read(Fill, Water, f.a, 1, n)
		s.act(Tip, Water, f.vessel, n)
	}
	if f.b != none {
		s.group++
		s.read(Fill, Water, f.b, 1, int(f.nb))
		s.act(Tip, Water, f.vessel, int(f.nb))
	}
	if f.na > 1 || f.b != none {
		s.group++
		s.act(Stir, Mix, f.vessel, 1)
		s.steps[len(s.steps)-1].Vessel = -1
	}
}

// apart adds what is measured apart: the water first where it must be.
func (s *stepper) apart() {
	f := s.f
	water := func() {
		if f.form == formNeat {
			return
		}
		s.each(Water, f.fill.a, int(f.fill.na))
		if f.fill.b != none {
			s.each(Water, f.fill.b, int(f.fill.nb))
		}
	}
	if s.p.WaterFirst {
		water()
	}
	for i := range s.chemicals() {
		ds := s.doses(&f.chem[i])
		for _, d := range ds {
			s.each(s.what(i), d.at, d.times)
		}
		if f.form == formApart {
			s.rinseApart(ds)
		}
	}
	if !s.p.WaterFirst {
		water()
	}
	if f.form == formApart || s.two {
		s.act(Stir, Mix, 0, 1)
		s.steps[len(s.steps)-1].Vessel = -1
	}
}

// each adds a reading that is tipped into the tray, a number of times over.
func (s *stepper) each(what What, at int32, times int) {
	s.read(Pour, what, at, 1, times)
	s.act(Tip, what, s.all[at].vessel, times)
	s.group++
}

// rinseApart adds the rinsing of the vessels that held chemical, with the mix, where no water is measured in them
// afterwards.
func (s *stepper) rinseApart(ds []dose) {
	for i, d := range ds {
		v := s.all[d.at].vessel
		if v == s.f.fill.vessel && !s.p.WaterFirst || i > 0 && v == s.all[ds[0].at].vessel {
			continue
		}
		s.act(Rinse, Mix, v, 1)
		s.group++
	}
}

// intermediate adds (f).
func (s *stepper) intermediate() {
	f := s.f
	if f.form == formViaJug {
		s.read(Pour, Chemical, f.r, 1, 1)
	} else {
		s.start(f.q, s.all[f.r].vol, 1)
		s.read(Pour, Chemical, f.r, 1, 1)
		s.act(Rinse, Water, s.all[f.r].vessel, 1)
	}
	s.read(Fill, Water, f.q, 1, 1)
	s.act(Stir, Made, s.all[f.q].vessel, 1)
	s.group++
	s.start(f.fill.a, f.chem[0].vol, 1)
	s.pour(&f.chem[0], Made, 1)
	s.read(Fill, Water, f.fill.a, 1, 1)
	if f.fill.na > 1 || f.fill.b != none {
		s.act(Tip, Mix, f.fill.vessel, 1)
	}
	s.plainFills()
}

// reads reports whether a step is a reading.
func (s Step) reads() bool {
	switch s.Do {
	case Pour, Fill, Weigh:
		return true
	case Start, Tip, Rinse, Stir:
	}
	return false
}

// vesselsOf returns the vessels of a choice: the fill vessel first, then in order of use.
func (b *bench) vesselsOf(f *found, steps []Step) []int {
	var vs []int
	if f.form != formNeat {
		vs = append(vs, int(f.fill.vessel))
	}
	for _, s := range steps {
		if s.reads() && !slices.Contains(vs, s.Vessel) {
			vs = append(vs, s.Vessel)
		}
	}
	return vs
}

// before reports whether f stands before the best by criterion 13, where all others are equal.
func (s *search) before(f *found) bool { return s.compareNames(f, &s.best) < 0 }

func (b *bench) compareNames(f, g *found) int {
	x, y := b.steps(f), b.steps(g)
	name := func(v int) string { return b.p.Vessels[v].Name }
	if c := slices.CompareFunc(b.vesselsOf(f, x), b.vesselsOf(g, y), func(v, w int) int {
		return strings.Compare(name(v), name(w))
	}); c != 0 {
		return c
	}
	if c := cmp.Compare(b.manner(f), b.manner(g)); c != 0 {
		return c
	}
	readings := func(s Step) bool { return !s.reads() }
	return slices.CompareFunc(slices.DeleteFunc(x, readings), slices.DeleteFunc(y, readings), func(a, c Step) int {
		return cmp.Or(
			cmp.Compare(a.What, c.What), strings.Compare(name(a.Vessel), name(c.Vessel)), cmp.Compare(a.Scale, c.Scale),
			cmp.Compare(c.Volume, a.Volume), cmp.Compare(a.Times, c.Times),
		)
	})
}

// manner returns the exported kind of action.
func (b *bench) manner(f *found) Manner {
	switch f.form {
	case formInJug:
		return InJug
	case formFirstInJug:
		return FirstJug
	case formViaJug, formViaPour:
		return Intermediate
	case formPoured, formFirstPoured, formApart, formNeat:
	}
	switch {
	case b.p.Vessels[f.chem[0].va].Kind == Balance:
		return Weighed
	case f.form == formPoured:
		return Poured
	case f.form == formFirstPoured:
		return FirstJug
	}
	return Apart
}
