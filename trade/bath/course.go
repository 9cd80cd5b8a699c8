package bath

import (
	"math"
	"slices"
)

// A Course is what becomes of one amount of one bath as sheets go through.
type Course struct {
	Sheets []int
	At     []Span // per litre, or pH
	Limit  []Span // the most silver that the thiosulfate then allows, g/L; nil where there is no such limit
}

// Course follows a bath of an Ask's path, by its place, at a number of points up to so many sheets. a is Silver,
// Thiosulfate or Developer; a stop bath with a titration is told as pH where a is Developer. The error is an *Error.
func (r *Rooms) Course(ask Ask, place int, a Amount, upTo, number int) (Course, error) {
	if err := r.past.checkPath(-1, ask.Sheet, ask.Through); err != nil {
		return Course{}, err
	}
	c := Course{}
	for i := range number + 1 {
		c.Sheets = append(c.Sheets, upTo*i/number)
	}
	c.Sheets = slices.Compact(c.Sheets)
	at := make([][]float64, len(c.Sheets))
	limit := make([][]float64, len(c.Sheets))
	for i := range at {
		at[i], limit[i] = make([]float64, len(r.rooms)), make([]float64, len(r.rooms))
	}
	l := &ask.Limits[place]
	load := ask.load(&r.past.Prior)
	spread(len(r.rooms), func() func(int) {
		state := make([]Contents, r.baths)
		return func(i int) {
			copy(state, r.held(i))
			r.follow(&ask, load.in(&r.rooms[i]), state, c.Sheets, func(point int) {
				b := ask.Through[place]
				at[point][i] = r.told(b, a, &state[b])
				if l.FilmStrength > 0 {
					limit[point][i] = l.Silver * state[b].PerLitre(Thiosulfate) / l.FilmStrength
				}
			})
		}
	})
	for i := range at {
		c.At = append(c.At, spanOf(at[i]))
		if l.FilmStrength > 0 && l.Silver > 0 {
			c.Limit = append(c.Limit, spanOf(limit[i]))
		}
	}
	return c, nil
}

func (r *Rooms) told(b int, a Amount, c *Contents) float64 {
	if t := r.past.Baths[b].Titration; t != nil && a == Developer {
		return t.PH(c.PerLitre(Developer))
	}
	return c.PerLitre(a)
}

// follow takes sheets through one by one and stops at each point.
func (r *Rooms) follow(ask *Ask, one passing, state []Contents, points []int, at func(point int)) {
	first := state[ask.Through[0]]
	done := 0
	for i, n := range points {
		for ; done < n; done++ {
			fillUp(&state[ask.Through[0]], &first)
			one.through(state, r.past.Baths, ask.Through)
		}
		at(i)
	}
}

// After lets the rooms live on: the past with further steps, in the same possible rooms. What is Seen in them is not
// weighed. The error is an *Error.
func (r *Rooms) After(steps ...Step) (*Rooms, error) {
	after, _, err := r.liveOn(steps)
	return after, err
}

// Learn lets the rooms live on and keeps them by how likely they make what is Seen in the steps. No room is drawn anew, so
// they grow alike: Effective says how many still differ, and where that is few Past.Draw does better. The error is an *Error.
func (r *Rooms) Learn(steps ...Step) (*Rooms, error) {
	after, likely, err := r.liveOn(steps)
	if err != nil {
		return nil, err
	}
	effective := weigh(likely)
	kept := after.keep(r.Len(), likely)
	kept.Effective, kept.Tried = r.Effective*effective/float64(r.Len()), r.Tried
	return kept, nil
}

// liveOn returns the rooms after further steps, with the logarithms of how likely each makes what is Seen in them.
func (r *Rooms) liveOn(steps []Step) (*Rooms, []float64, error) {
	next := &Past{Baths: r.past.Baths, Steps: steps, Prior: r.past.Prior}
	if err := next.check(); err != nil {
		return nil, nil, err
	}
	after := &Rooms{
		past: r.past, baths: r.baths, rooms: r.rooms, state: make([]Contents, len(r.rooms)*r.baths), apart: r.baths,
		Effective: r.Effective, Tried: r.Tried,
	}
	lived, likely := next.laidOut(), make([]float64, len(r.rooms))
	spread(len(r.rooms), func() func(int) {
		var f stream
		return func(i int) {
			copy(after.held(i), r.held(i))
			likely[i] = lived.live(&f, &after.rooms[i], after.held(i))
		}
	})
	return after, likely, nil
}

// TopUp returns how many litres the first bath of a path lacks to what was made up after so many sheets more: every dry
// sheet carries its liquid out of it. The error is an *Error.
func (r *Rooms) TopUp(ask Ask, sheets float64) (Span, error) {
	if err := r.past.checkPath(-1, ask.Sheet, ask.Through); err != nil {
		return Span{}, err
	}
	if !sound(sheets) {
		return Span{}, &Error{BadAmount, -1, -1}
	}
	if len(ask.Through) == 0 {
		return Span{}, &Error{NoSuchBath, -1, -1}
	}
	load, first := ask.load(&r.past.Prior), ask.Through[0]
	made := r.past.Baths[first].Made[Liquid]
	return r.over(func(i int) float64 {
		left := r.held(i)[first][Liquid] - load.in(&r.rooms[i]).carry*sheets
		return made - math.Max(0, left)
	}), nil
}
