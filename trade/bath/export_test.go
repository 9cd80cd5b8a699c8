package bath

// RoomAt returns the possible room at standard normal numbers: coating, undeveloped and carry of each material in turn.
func (p *Prior) RoomAt(z [dimensions]float64) Room {
	at := point(z)
	return p.room(&at)
}

// RoomsOf lets given rooms live the past, unweighed.
func (p *Past) RoomsOf(rooms ...Room) (*Rooms, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	r := &Rooms{past: p, baths: len(p.Baths), rooms: rooms, state: make([]Contents, len(rooms)*len(p.Baths)), apart: len(p.Baths)}
	var f stream
	for i := range rooms {
		p.fresh(r.held(i))
		p.laidOut().live(&f, &rooms[i], r.held(i))
	}
	return r, nil
}

// ByEach returns what ends a place room by room.
func (e *Ends) ByEach(place int) []Ending { return e.by[place] }

// Found is a count with its ending.
type Found struct {
	N  int
	By Ending
}

// Ways finds the ends of a place in each room in three ways: in closed form (N −1 where there is none), by doubling and
// sheet by sheet.
func (r *Rooms) Ways(ask Ask, place int) (closed, doubled, followed []Found) {
	lines := ask.Limits[place].lines()
	for i := range r.rooms {
		one := ask.in(&r.rooms[i], &r.past.Prior)
		now := r.held(i)
		var l lifts
		l.open(now, r.past.Baths, ask.Through, one)
		if by := ask.Limits[place].passed(&now[ask.Through[place]]); by != NoEnding {
			closed, doubled = append(closed, Found{0, by}), append(doubled, Found{0, by})
		} else {
			n, by, ok := l.closed(place-1, lines, one.carry)
			if !ok {
				n = -1
			}
			closed = append(closed, Found{n, by})
			n, by = l.last(place-1, &ask.Limits[place], now[ask.Through[place]], one.carry)
			doubled = append(doubled, Found{n, by})
		}
		follow(r.past, &ask, one, now, func(p, n int, by Ending) {
			if p == place {
				followed = append(followed, Found{n, by})
			}
		})
	}
	return closed, doubled, followed
}

// CountsOf returns the quantiles of counts.
func CountsOf(counts []int32) Counts { return countsOf(counts) }

// Likely returns the logarithm of the likelihood of a reading where a bath holds c.
func Likely(r Reading, c Contents, b *Bath) float64 { return r.likely(c, b) }
