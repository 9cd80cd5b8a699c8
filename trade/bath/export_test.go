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
	r := &Rooms{past: p, baths: len(p.Baths), rooms: rooms, state: make([]Contents, len(rooms)*len(p.Baths))}
	var f stream
	for i := range rooms {
		p.replay(&f, &rooms[i], r.state[i*r.baths:(i+1)*r.baths])
	}
	return r, nil
}

// ByEach returns what ends a place room by room.
func (e *Ends) ByEach(place int) []Ending { return e.by[place] }
