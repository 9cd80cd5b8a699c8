package measure

import (
	"context"
	"math"

	"wetside/trade/quantity"
)

// Solve returns the best choice, up to Options.Alternatives others, and what to get or what is lacking where the best is
// of grade C or there is none. The error is for a malformed problem (*ProblemError, which wraps ErrProblem) or a
// cancelled context.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	if err := p.check(); err != nil {
		return Result{}, err
	}
	if o.Alternatives < 0 || o.Alternatives > MaxAlternatives {
		return Result{}, &ProblemError{What: BadAlternatives}
	}
	b, w, err := prepare(&p)
	if err != nil {
		return Result{}, err
	}
	defer b.free()
	a, err := b.choose(ctx, w)
	if err != nil {
		return Result{}, err
	}
	if a.lack == LackChemical {
		return b.lacking(ctx, w, a)
	}
	r := Result{Status: Impossible, Lack: LackVessel}
	if a.ok {
		r = Result{Choices: []Choice{b.choice(&a.best)}}
	}
	if !a.good() && !o.NoAdvice {
		if r.Advice, err = b.advise(ctx, a); err != nil {
			return Result{}, err
		}
	}
	if a.ok && o.Alternatives > 0 {
		others, err := b.alternatives(ctx, w, a, o.Alternatives)
		if err != nil {
			return Result{}, err
		}
		r.Choices = append(r.Choices, others...)
	}
	return r, nil
}

// prepare lays out a problem's bench and the bounds of its space.
func prepare(p *Problem) (*bench, bounds, error) {
	w := bounds{
		lo: p.Window.Min, hi: p.Window.Max, want: p.Window.Want, top: math.MaxInt, without: -1,
		avail: [2]quantity.Volume{math.MaxInt64, math.MaxInt64},
	}
	if w.want == 0 {
		w.want = w.hi
	}
	for i, v := range p.Available {
		if v > 0 {
			w.avail[i] = v
		}
	}
	f, err := p.Dilution.Strength(0)
	if err != nil {
		return nil, w, &ProblemError{What: BadDilution}
	}
	stray := p.stray()
	least := quantity.Volume(f.Float() * (1 - stray - Tie) * float64(w.lo) / MaxJugfuls)
	most := quantity.Volume(min(1, f.Float()*(1+stray+Tie)) * float64(w.hi))
	b, err := newBench(p, least, most)
	return b, w, err
}

// stray returns the largest |bias| of a choice.
func (p *Problem) stray() float64 { return max(Stray, p.Tolerance) }

// An answer is what choosing came to.
type answer struct {
	best  found
	ok    bool
	grade Grade   // GradeA: the choices are of grade A or B
	limit float64 // of |bias| + U, for choices beside the best
	via   bool    // (f) is in the space
	lack  Lack    // LackChemical: with more chemical there would be something, or something better than grade C
}

// good reports whether the best choice is of grade A or B.
func (a answer) good() bool { return a.ok && a.grade != GradeC }

// choose returns the best choice of the space, or, where that is for want of chemical, what would be with enough.
func (b *bench) choose(ctx context.Context, w bounds) (answer, error) {
	full := w
	full.avail = [2]quantity.Volume{math.MaxInt64, math.MaxInt64}
	for _, look := range [...]func(context.Context, bounds) (answer, error){b.chooseGood, b.chooseRough} {
		a, err := look(ctx, w)
		if a.ok || err != nil || w.avail == full.avail {
			if a.ok || err != nil {
				return a, err
			}
			continue
		}
		if a, err = look(ctx, full); a.ok || err != nil {
			a.lack = LackChemical
			return a, err
		}
	}
	return answer{}, nil
}

// chooseGood returns the best choice of grade A or B.
func (b *bench) chooseGood(ctx context.Context, w bounds) (answer, error) {
	w.limit, w.beta, w.direct = b.p.Tolerance, b.p.Tolerance, true
	a, err := b.search(ctx, w)
	if a.ok || err != nil || !b.canThin() {
		return a, err
	}
	w.direct, w.via = false, true
	return b.search(ctx, w)
}

// chooseRough returns the best choice of grade C, where there is no better one.
func (b *bench) chooseRough(ctx context.Context, w bounds) (answer, error) {
	w.direct, w.via, w.grade, w.beta, w.limit = true, b.canThin(), GradeC, b.p.stray(), math.Inf(1)
	s := newSearch(ctx, b, w, leastError)
	if err := s.run(); err != nil || !s.found {
		return answer{}, err
	}
	w.limit = Keep * s.limit
	return b.search(ctx, w)
}

// canThin reports whether (f) can be in the space at all.
func (b *bench) canThin() bool { return !b.two && b.p.Dilution.Water.Sign() > 0 }

// search chooses within bounds.
func (b *bench) search(ctx context.Context, w bounds) (answer, error) {
	s := newSearch(ctx, b, w, toChoose)
	err := s.run()
	return answer{best: s.best, ok: s.found && err == nil, grade: w.grade, limit: w.limit, via: w.via}, err
}

// lacking tells of which chemical there is too little, and how much it takes at least; full is what would be with
// enough.
func (b *bench) lacking(ctx context.Context, w bounds, full answer) (Result, error) {
	r := Result{Status: Impossible, Lack: LackChemical}
	avail := w.avail
	w.avail = [2]quantity.Volume{math.MaxInt64, math.MaxInt64}
	w.top, w.limit, w.beta, w.via = full.best.cost.readings(), full.limit, min(full.limit, b.p.stray()), full.via
	w.direct = !full.via || full.grade == GradeC
	var err error
	for i := range b.chemicals() {
		r.Short = i
		if r.NeedAtLeast, err = b.leastUsed(ctx, w, i, b.used(&full.best, i)); err != nil || r.NeedAtLeast > avail[i] {
			return r, err
		}
	}
	w.avail[0] = avail[0] // enough of each, not of both at once
	r.NeedAtLeast, err = b.leastUsed(ctx, w, r.Short, math.MaxInt64)
	return r, err
}

// leastUsed returns the least of chemical i that a choice within bounds uses, where one is known that uses so much.
func (b *bench) leastUsed(ctx context.Context, w bounds, i int, known quantity.Volume) (quantity.Volume, error) {
	w.avail[i] = known - 1
	s := newSearch(ctx, b, w, leastUse)
	s.of1, s.least = i, known
	err := s.run()
	return s.least, err
}
