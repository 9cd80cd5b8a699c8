package measure

import (
	"context"
	"math"

	"wetside/trade/quantity"
)

// A form is a manner with where its chemical is read.
type form uint8

const (
	formInJug       form = iota // (a)
	formPoured                  // (b)
	formFirstInJug              // (c) like (a)
	formFirstPoured             // (c) like (b)
	formApart                   // (d)
	formViaJug                  // (f), the chemical read in J1
	formViaPour                 // (f), the chemical read elsewhere
	formNeat                    // undiluted
)

// A goal is what a search looks for.
type goal uint8

const (
	toChoose   goal = iota // the best choice
	leastError             // the least |bias| + U
	leastUse               // the least chemical that leaves the bottle
)

// bounds of a search; those of the problem, or narrower ones.
type bounds struct {
	lo, hi, want quantity.Volume
	limit        float64 // |bias| + U at most
	beta         float64 // |bias| at most
	top          int     // readings at most
	without      int     // a vessel that is not used; -1: none
	avail        [2]quantity.Volume
	direct, via  bool // look among (a) to (e), look at (f)
	grade        Grade
}

// A search goes through the space of actions, by number of readings.
type search struct {
	*bench
	bounds
	goal             goal
	of1              int // leastUse: of which chemical
	water, mix, chem []bool
	leastFill        quantity.Volume // of water measured apart
	mostFill         quantity.Volume
	leastPour        quantity.Volume
	mostPour         quantity.Volume
	worth            []float64 // by vessel: least squared relative permissible error of what may be poured
	fine             []float64 // by vessel: the same of whatever may be read
	steady, sure     []float64 // by vessel: least squared relative setting error, and of both errors
	thin             float64   // least squared relative error of any intermediate dilution
	pairings         [MaxJugfuls + 1][phases]pairing
	shared           []pairing // by vessel, pours and phase
	level            int       // the number of readings now looked at
	alikes, mixes    [MaxJugfuls + 1][]fillPlan
	alikeMade        [MaxJugfuls + 1]bool
	mixedMade        [MaxJugfuls + 1]bool
	found            bool
	best             found
	now              found // the choice being looked at
	singlings        [MaxJugfuls + 1]singling
	single, pour     pourPlan // the plans of one reading and of two being looked at
	onlyPairs        bool     // two chemicals: leave out plans that are both of one reading
	noA              bool     // it is known that there is none of grade A where it looks now
	portions         [2][]portion
	lots             [2][2][MaxPours + 1]lot // by phase, chemical and pours
	duos             [2][2][MaxPours + 1][MaxPours + 1][]duo
	least            quantity.Volume
	err              error
	count            uint
	ctx              context.Context
}

// found is the best choice so far.
type found struct {
	rank
	form  form
	fill  fillPlan
	chem  [2]pourPlan
	r, q  int32 // (f): the chemical's reading and the intermediate's
	total quantity.Volume
}

func newSearch(ctx context.Context, b *bench, w bounds, g goal) *search {
	n := len(b.p.Vessels)
	flags := make([]bool, 3*n)
	s := &search{bench: b, bounds: w, goal: g, ctx: ctx, water: flags[:n], mix: flags[n : 2*n], chem: flags[2*n:]}
	for i := range b.p.Vessels {
		v := &b.p.Vessels[i]
		if i == w.without {
			continue
		}
		s.chem[i] = !v.NotForChemical
		s.water[i] = !v.NotForWater && v.fills()
		s.mix[i] = s.water[i] && s.chem[i]
	}
	s.cutTotal()
	x := b.sum * (1 + w.beta)
	s.leastFill = quantity.Volume(max(0, 1-x-Tie) * float64(w.lo))
	s.mostFill = quantity.Volume(min(1, 1-b.sum*(1-w.beta)+Tie) * float64(s.hi))
	f := b.f[0]
	if b.two {
		f = min(f, b.f[1])
	}
	s.leastPour = quantity.Volume(f * (1 - w.beta - Tie) * float64(w.lo) / MaxJugfuls)
	s.mostPour = quantity.Volume(min(1, x+Tie) * float64(s.hi))
	s.least = math.MaxInt64
	s.via = s.via && s.hasThree()
	s.findErrors()
	return s
}

// hasThree reports whether there are vessels for (f): two to mix in, and a third to pour from.
func (s *search) hasThree() bool {
	var mix, pour int
	for v := range s.mix {
		if s.mix[v] {
			mix++
		}
		if s.canPour(v, -1) {
			pour++
		}
	}
	return mix >= 2 && pour >= 3
}

// cutTotal lowers the largest total to what there is chemical for.
func (s *search) cutTotal() {
	for i := range s.chemicals() {
		if most := float64(s.avail[i]) / s.f[i] / max(1-s.beta-2*Tie, Tie); most < float64(s.hi) {
			s.hi = quantity.Volume(most)
		}
	}
}

// findErrors finds the least errors of each vessel, from which it is seen early that a vessel is too coarse.
func (s *search) findErrors() {
	n := len(s.p.Vessels)
	errs := make([]float64, 4*n)
	for i := range errs {
		errs[i] = math.Inf(1)
	}
	s.worth, s.fine, s.steady, s.sure = errs[:n], errs[n:2*n], errs[2*n:3*n], errs[3*n:]
	for v := range s.worth {
		part := s.of(v)
		for i := range part {
			r := &part[i]
			if r.vol <= s.mostPour {
				s.worth[v] = min(s.worth[v], r.z*r.z)
			}
			s.fine[v] = min(s.fine[v], r.z*r.z)
			s.steady[v] = min(s.steady[v], r.y)
			s.sure[v] = min(s.sure[v], r.z*r.z+r.y)
		}
	}
	s.thin = math.Inf(1)
	for v := range s.sure {
		if !s.mix[v] {
			continue
		}
		if !s.p.WaterFirst {
			s.thin = min(s.thin, 2*s.steady[v])
		}
		for r := range s.sure {
			if r != v && s.canPour(r, -1) {
				s.thin = min(s.thin, s.sure[v]+s.sure[r])
			}
		}
	}
}

// run goes through the space until the goal is reached.
func (s *search) run() error {
	top := MaxJugfuls * (MaxPours + 1)
	if s.two {
		top = MaxJugfuls * (2*MaxPours + 1)
	}
	top = min(top, s.top)
	if !s.enough(s.beta) {
		return nil
	}
	for s.level = 1; s.level <= top && !s.done(); s.level++ {
		if err := s.ctx.Err(); err != nil {
			return err
		}
		switch {
		case s.p.Dilution.Water.Sign() == 0 && s.two:
			s.neatTwo()
		case s.p.Dilution.Water.Sign() == 0:
			s.neat()
		default:
			s.look()
		}
	}
	return s.err
}

// enough reports whether there may be enough chemical for choices that stray no farther than beta.
func (s *search) enough(beta float64) bool {
	for i := range s.chemicals() {
		if float64(s.avail[i]) < s.f[i]*(1-beta-2*Tie)*float64(s.lo) {
			return false
		}
	}
	return true
}

// done reports whether no higher number of readings can be better.
func (s *search) done() bool {
	if s.err != nil {
		return true
	}
	return s.goal == toChoose && s.found &&
		(s.grade == GradeC || s.best.cost.grade() == GradeA || !s.enough(s.p.Tolerance/4))
}

// cancelled reports, once in a while, whether the context is done.
func (s *search) cancelled() bool {
	if s.count++; s.count&1023 == 0 && s.err == nil {
		s.err = s.ctx.Err()
	}
	return s.err != nil
}

// room returns how large |bias| + U and |bias| may be for a choice of s.level readings, at least this cost and at
// least this far from the wanted total, that betters what was found; or that none can.
func (s *search) room(c cost, dist quantity.Volume) (limit, beta float64, ok bool) {
	limit, beta = s.limit, min(s.beta, s.limit)
	if s.goal != toChoose || !s.found {
		return limit, beta, true
	}
	at, b := rank{cost: c + cost(s.level)*oneReading, dist: dist, e: math.MinInt64}, s.best.rank
	if s.grade == GradeC {
		at.cost += gradeC + notClose
		return limit, beta, at.compare(b) < 0
	}
	if b.cost.grade() == GradeB {
		return s.roomBeside(at, b, limit, beta)
	}
	beta = min(beta, s.p.Tolerance/4)
	if at.compare(b) > 0 {
		return 0, 0, false
	}
	at.cost += notClose
	if at.compare(b) > 0 {
		limit = min(limit, s.p.Tolerance/2)
	}
	return limit, beta, true
}

// roomBeside is room where a choice b of grade B was found: one of grade A betters it in any case.
func (s *search) roomBeside(at, b rank, limit, beta float64) (float64, float64, bool) {
	at.cost += gradeB
	better := at.compare(b) <= 0
	if !s.noA {
		if !better {
			beta = min(beta, s.p.Tolerance/4)
		}
		return limit, beta, true
	}
	at.cost += notClose
	if at.compare(b) > 0 {
		limit = min(limit, s.p.Tolerance/2)
	}
	return limit, beta, better
}

// put keeps a choice to look at, so that none is made anew.
func (s *search) put(f found) *found {
	s.now = f
	return &s.now
}

// offer takes a choice where it is better than what was found. c is its cost without grade, readings and closeness,
// stray the largest |bias| of its chemicals, e |bias| + U.
func (s *search) offer(f *found, c cost, stray, e float64) {
	switch s.goal {
	case leastError:
		if e < s.limit {
			s.limit, s.found = e, true
		}
		return
	case leastUse:
		if u := s.used(f, s.of1); u < s.least {
			s.least, s.found, s.avail[s.of1] = u, true, u-1
			s.cutTotal()
		}
		return
	case toChoose:
	}
	t := s.p.Tolerance
	c += cost(s.level) * oneReading
	if e > t/2+Tie {
		c += notClose
	}
	switch {
	case s.grade == GradeC:
		c += gradeC
	case stray > t/4+Tie:
		c += gradeB
	}
	f.rank = rank{c, away(f.total, s.want), inTies(e)}
	if s.found {
		if d := f.compare(s.best.rank); d > 0 || d == 0 && !s.before(f) {
			return
		}
	}
	s.best, s.found = *f, true
}

// used returns how much of chemical i leaves its bottle.
func (b *bench) used(f *found, i int) quantity.Volume {
	v := f.chem[i].vol
	switch f.form {
	case formInJug, formFirstInJug:
		if i == 1 {
			v -= f.chem[0].vol
		}
	case formViaJug, formViaPour:
		return b.all[f.r].vol
	case formPoured, formFirstPoured, formApart, formNeat:
	}
	return v.Times(f.rounds())
}
