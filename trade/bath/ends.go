package bath

import "slices"

// Limits say when a bath is spent. A zero field is no limit.
type Limits struct {
	// Silver is the most silver of a fixer at film strength, g/L; it shrinks with the thiosulfate.
	Silver float64
	// FilmStrength is the thiosulfate at film strength, g/L.
	FilmStrength float64
	// Thiosulfate is the least thiosulfate, g/L.
	Thiosulfate float64
	// Developer is the share of developer at which a stop bath is spent.
	Developer float64
}

// An Ask is a question after how many sheets more the baths on a path are spent.
type Ask struct {
	Sheet
	Through []int
	Limits  []Limits // for each bath of Through
}

// Ending is what ends a bath.
type Ending uint8

// The endings.
const (
	NoEnding Ending = iota
	BySilver
	ByThiosulfate
	ByPH
)

// Most is the count where the reckoning stops looking for an end.
const Most = 1 << 20

// mostFollowed is the same where sheets must be followed one by one.
const mostFollowed = 20000

// Ends are the sheets that are left in each possible room, for each bath of an Ask.
type Ends struct {
	counts [][]int32 // by bath of the path, then by room
	by     [][]Ending
}

// Counts are three quantiles of a count: nine rooms in ten reach P10, half reach P50, one in ten P90.
type Counts struct{ P10, P50, P90 int }

// Ends counts the sheets that each bath of the path still does, going through one by one: the most after which its
// limits hold. The error is an *Error.
func (r *Rooms) Ends(ask Ask) (*Ends, error) {
	if err := r.past.checkPath(-1, ask.Sheet, ask.Through); err != nil {
		return nil, err
	}
	n := len(r.rooms)
	e := &Ends{counts: make([][]int32, len(ask.Through)), by: make([][]Ending, len(ask.Through))}
	for p := range ask.Through {
		e.counts[p], e.by[p] = make([]int32, n), make([]Ending, n)
	}
	lines := make([][]line, len(ask.Through))
	for p := range lines {
		lines[p] = ask.Limits[p].lines()
	}
	load := ask.load(&r.past.Prior)
	spread(n, func() func(int) {
		var l lifts
		return func(i int) {
			r.endsOf(&l, &ask, lines, load.in(&r.rooms[i]), r.held(i), func(p, count int, by Ending) {
				e.counts[p][i], e.by[p][i] = int32(count), by
			})
		}
	})
	return e, nil
}

// lifts are a path's transfers of 1, 2, 4, … sheets.
type lifts struct {
	stream
	by   [doublings]transfer
	made int
}

// doublings reach Most.
const doublings = 21

// endsOf finds the ends of one room: in closed form, by doubling where there is none, or sheet by sheet.
func (r *Rooms) endsOf(l *lifts, ask *Ask, lines [][]line, one passing, state []Contents, found func(p, count int, by Ending)) {
	path := ask.Through
	if len(path) == 0 {
		return
	}
	if !one.even(0, state, r.past.Baths, path) {
		follow(r.past, ask, one, state, found)
		return
	}
	l.open(state, r.past.Baths, path, one)
	l.made = 0
	found(0, Most, NoEnding)
	for p, b := range path[1:] {
		if len(lines[p+1]) == 0 || one.carry == 0 && one.silver == 0 {
			found(p+1, Most, NoEnding)
			continue
		}
		if by := ask.Limits[p+1].passed(&state[b]); by != NoEnding {
			found(p+1, 0, by)
			continue
		}
		count, by, ok := l.closed(p, lines[p+1], one.carry)
		if !ok {
			count, by = l.last(p, &ask.Limits[p+1], state[b], one.carry)
		}
		found(p+1, count, by)
	}
}

// last returns the most sheets after which a bath's limits hold: doubled until they don't, then closed in on from the
// largest step down. They hold now. A limit once passed stays passed, since what is carried in only grows.
func (l *lifts) last(p int, limits *Limits, now Contents, carry float64) (int, Ending) {
	if l.made == 0 {
		l.by[0].one(l.volumes[:l.n], carry)
		l.made = 1
	}
	x := l.x
	count, step := 0, 0
	by := NoEnding
	for ; step < doublings; step++ {
		if by = l.after(&x, step, p, limits, &now); by != NoEnding {
			break
		}
		for i := range followed {
			l.by[step].apply(&x[i], &l.s[i])
		}
		count += 1 << step
	}
	if by == NoEnding {
		return Most, NoEnding
	}
	for step--; step >= 0; step-- {
		if ends := l.after(&x, step, p, limits, &now); ends != NoEnding {
			by = ends
			continue
		}
		for i := range followed {
			l.by[step].apply(&x[i], &l.s[i])
		}
		count += 1 << step
	}
	if count >= Most {
		return Most, NoEnding
	}
	return count, by
}

// after tells what limit bath p has passed 2^step sheets after x.
func (l *lifts) after(x *[len(followed)][longest]float64, step, p int, limits *Limits, c *Contents) Ending {
	for l.made <= step {
		l.by[l.made].twice(&l.by[l.made-1])
		l.made++
	}
	for i, a := range followed {
		c[a] = l.by[step].on(&x[i], &l.s[i], p)
	}
	return limits.passed(c)
}

// passed tells which limit a bath has passed.
func (l *Limits) passed(c *Contents) Ending {
	switch {
	case l.Developer > 0 && c.PerLitre(Developer) >= l.Developer:
		return ByPH
	case l.Silver > 0 && c[Silver]*l.FilmStrength > l.Silver*c[Thiosulfate]:
		return BySilver
	case l.Thiosulfate > 0 && c.PerLitre(Thiosulfate) < l.Thiosulfate:
		return ByThiosulfate
	}
	return NoEnding
}

// broughtIn reports whether a bath's one limit is of what sheets bring in. Into the first bath of a path they come dry: it never ends by that.
func (l *Limits) broughtIn() bool { return *l == Limits{Developer: l.Developer} }

// follow takes sheet after sheet through the path until its baths are spent: where a fixer is the first of the path.
func follow(past *Past, ask *Ask, one passing, now []Contents, found func(p, count int, by Ending)) {
	state := slices.Clone(now)
	wanted := make([]int, 0, len(ask.Through))
	for p := range ask.Through {
		wanted = append(wanted, p)
	}
	for n := 0; len(wanted) > 0; n++ {
		if n > 0 {
			fillUp(&state[ask.Through[0]], &now[ask.Through[0]])
			one.through(state, past.Baths, ask.Through)
		}
		wanted = slices.DeleteFunc(wanted, func(p int) bool {
			by := ask.Limits[p].passed(&state[ask.Through[p]])
			switch {
			case by != NoEnding:
				found(p, max(0, n-1), by)
			case ask.Limits[p] == (Limits{}) || p == 0 && ask.Limits[p].broughtIn() || n >= mostFollowed:
				found(p, Most, NoEnding)
			default:
				return false
			}
			return true
		})
	}
}

// fillUp keeps the first bath of a path at its level with what it held, so that it does not run dry ahead of time.
func fillUp(c, now *Contents) {
	if lacks := now[Liquid] - c[Liquid]; lacks > now[Liquid]/2 {
		for a := range c {
			c[a] += now[a] * lacks / now[Liquid]
		}
	}
}

// Of returns the quantiles of a bath of the path, by its place in it.
func (e *Ends) Of(place int) Counts { return countsOf(e.counts[place]) }

// First returns the quantiles of the count at which the first of several baths ends, and how often each is the first.
func (e *Ends) First(places ...int) Counts {
	counts := slices.Clone(e.counts[places[0]])
	for _, p := range places[1:] {
		for i, n := range e.counts[p] {
			counts[i] = min(counts[i], n)
		}
	}
	return countsOf(counts)
}

// By returns what ends a bath in most of the rooms, and whether it is that of a later place's which comes first.
func (e *Ends) By(places ...int) (place int, by Ending) {
	tally := make([][ByPH + 1]int, len(e.counts))
	for i := range e.counts[places[0]] {
		first := places[0]
		for _, p := range places[1:] {
			if e.counts[p][i] < e.counts[first][i] {
				first = p
			}
		}
		tally[first][e.by[first][i]]++
	}
	place, times := places[0], -1
	for _, p := range places {
		for ending, n := range tally[p] {
			if n > times {
				place, by, times = p, Ending(ending), n
			}
		}
	}
	return place, by
}

// Each returns the counts of a place room by room, in the rooms' order.
func (e *Ends) Each(place int) []int32 { return slices.Clone(e.counts[place]) }
