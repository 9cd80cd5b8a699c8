package bath

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"wetside/trade/material"
)

// Rooms are possible rooms, equally likely after what was seen, each with what its baths hold now.
type Rooms struct {
	past  *Past
	baths int
	rooms []Room
	// state is what room i holds in bath b, at i·apart + b: apart is the number of baths, or 0 where nothing has happened
	// and all rooms hold what was made up.
	state []Contents
	apart int
	// Effective is the effective sample size of the weighing, the number of rooms where nothing was seen.
	Effective float64
	// Tried is how many possible rooms were weighed.
	Tried int
}

// The floor of the effective sample size, as a share of the rooms asked for: under it rooms are drawn anew from where the
// likely ones lie, so many times at most.
const (
	leastEffective = 0.2
	mostTries      = 6
)

// Draw makes n possible rooms, lets each live the past and keeps them by how likely they make what was seen. The same
// seed gives the same rooms, whatever the number of cores. The error is an *Error.
func (p *Past) Draw(n int, seed uint64) (*Rooms, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if !p.seen() {
		t := p.try(n, seed, nil)
		t.rooms.Effective, t.rooms.Tried = float64(n), n
		return t.rooms, nil
	}
	best := p.try(n, seed, nil)
	tried := n
	for last := best; best.effective < leastEffective*float64(n) && tried < mostTries*n; tried += n {
		last = p.try(n, seed, aim(last.points, last.weight))
		if last.effective > best.effective {
			best = last
		}
	}
	kept := best.rooms.keep(n, best.weight)
	kept.Effective, kept.Tried = best.effective, tried
	return kept, nil
}

func (p *Past) seen() bool {
	return slices.ContainsFunc(p.Steps, func(s Step) bool { _, is := s.(Seen); return is })
}

// trial is a number of possible rooms with their weights.
type trial struct {
	rooms     *Rooms
	points    []point
	weight    []float64
	effective float64
}

// try makes n possible rooms, aimed or as the prior has them, and lets them live the past.
func (p *Past) try(n int, seed uint64, a *aimed) *trial {
	nb := len(p.Baths)
	r := &Rooms{past: p, baths: nb, rooms: make([]Room, n)}
	if len(p.Steps) > 0 {
		r.apart = nb
	}
	r.state = make([]Contents, max(n*r.apart, nb))
	t := &trial{rooms: r}
	seen := p.seen()
	if seen {
		t.points, t.weight = make([]point, n), make([]float64, n)
	}
	lived := p.laidOut()
	start := shifts(seed)
	p.fresh(r.state[:nb])
	spread(n, func() func(int) {
		var f stream
		return func(i int) {
			z := start.point(i)
			likely := 0.0
			if a != nil {
				z, likely = a.at(&z)
			}
			r.rooms[i] = p.Prior.room(&z)
			if r.apart > 0 {
				p.fresh(r.held(i))
				likely += lived.live(&f, &r.rooms[i], r.held(i))
			}
			if seen {
				t.points[i], t.weight[i] = z, likely
			}
		}
	})
	if seen {
		t.effective = weigh(t.weight)
	}
	return t
}

// spread calls do for every number under n, over the cores, some at a time. What one call does never depends on another.
// Every worker has its own do, with what that keeps.
func spread(n int, worker func() func(i int)) {
	const some = 250
	workers := min(runtime.GOMAXPROCS(0), n/some+1)
	var next atomic.Int64
	var wait sync.WaitGroup
	for range workers {
		wait.Go(func() {
			do := worker()
			for {
				end := int(next.Add(some))
				for i := end - some; i < min(end, n); i++ {
					do(i)
				}
				if end >= n {
					return
				}
			}
		})
	}
	wait.Wait()
}

// weigh turns logarithms of likelihoods into weights that sum to 1 and returns the effective sample size.
func weigh(likely []float64) float64 {
	most := slices.Max(likely)
	if math.IsInf(most, -1) {
		most = 0
	}
	sum := 0.0
	for i, l := range likely {
		likely[i] = math.Exp(l - most)
		sum += likely[i]
	}
	squares := 0.0
	for i := range likely {
		if sum == 0 { // nothing explains what was seen: what is believed stays
			likely[i] = 1 / float64(len(likely))
		} else {
			likely[i] /= sum
		}
		squares += likely[i] * likely[i]
	}
	return 1 / squares
}

// keep returns n rooms drawn by weight, each as often as its weight says, to within one (systematic resampling).
func (r *Rooms) keep(n int, weight []float64) *Rooms {
	kept := &Rooms{past: r.past, baths: r.baths, rooms: make([]Room, 0, n), state: make([]Contents, 0, n*r.baths), apart: r.baths}
	upTo, i := weight[0], 0
	for k := range n {
		at := (float64(k) + 0.5) / float64(n)
		for upTo < at && i < len(weight)-1 {
			i++
			upTo += weight[i]
		}
		kept.rooms = append(kept.rooms, r.rooms[i])
		kept.state = append(kept.state, r.held(i)...)
	}
	return kept
}

// held returns what the baths of a room hold.
func (r *Rooms) held(i int) []Contents { return r.state[i*r.apart : i*r.apart+r.baths] }

// Len returns how many rooms there are.
func (r *Rooms) Len() int { return len(r.rooms) }

// A Span is three quantiles: one room in ten lies under P10, half under P50, one in ten above P90.
type Span struct{ P10, P50, P90 float64 }

// spanOf returns the span of values and leaves them in another order.
func spanOf(values []float64) Span {
	low, middle, high := select3(values)
	return Span{low, middle, high}
}

// Now returns how much of an amount there is per litre of a bath.
func (r *Rooms) Now(bath int, a Amount) Span {
	return r.over(func(i int) float64 { return r.held(i)[bath].PerLitre(a) })
}

// A Portion is so many litres of a bath.
type Portion struct {
	Bath   int
	Litres float64
}

// In returns how much of an amount there is in portions of baths poured together, room by room: what one room has more of in
// one bath it has more of in the others, too.
func (r *Rooms) In(portions []Portion, a Amount) Span {
	return r.over(func(i int) float64 {
		sum := 0.0
		for _, p := range portions {
			sum += p.Litres * r.held(i)[p.Bath].PerLitre(a)
		}
		return sum
	})
}

// Litres returns how much of a bath there is.
func (r *Rooms) Litres(bath int) Span {
	return r.over(func(i int) float64 { return r.held(i)[bath][Liquid] })
}

// PH returns a stop bath's pH. The error is an *Error where its acid is not known.
func (r *Rooms) PH(bath int) (Span, error) {
	t := r.past.Baths[bath].Titration
	if t == nil {
		return Span{}, &Error{NoTitration, -1, bath}
	}
	return r.over(func(i int) float64 { return t.PH(r.held(i)[bath].PerLitre(Developer)) }), nil
}

func (r *Rooms) over(value func(i int) float64) Span {
	values := make([]float64, len(r.rooms))
	for i := range values {
		values[i] = value(i)
	}
	return spanOf(values)
}

// Carry returns what is believed of a material's carry-over in this room after the default draining, mL/m².
func (r *Rooms) Carry(m material.Material) Span {
	s := &r.past.Prior[m]
	q := s.CarryOver.After(s.Drained)
	return r.over(func(i int) float64 { return q * r.rooms[i][m].Carry })
}

// Dissolved returns what is believed of the silver that a material gives to the fixer, g/m².
func (r *Rooms) Dissolved(m material.Material) Span {
	return r.over(func(i int) float64 { return r.rooms[i][m].Coating * r.rooms[i][m].Undeveloped })
}

// Coating returns what is believed of a material's silver, g/m².
func (r *Rooms) Coating(m material.Material) Span {
	return r.over(func(i int) float64 { return r.rooms[i][m].Coating })
}
