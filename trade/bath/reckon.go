package bath

import "wetside/trade/reckoning"

// Reckon opens the count of a bath of the path, by its place: what a sheet gives and carries, what the limit is now, and
// the sheets to it in the room of the medians. limit is the table's figure with its origin, nil for a stop bath.
func (r *Rooms) Reckon(ask Ask, place int, limit *reckoning.Figure, ends *Ends) []reckoning.Reckoning {
	b := ask.Through[place]
	carry := r.CarryReckoning(ask.Sheet)
	puts := []reckoning.Figure{
		{Name: "bath_volume", Value: r.Litres(b).P50, Unit: reckoning.L, Origin: reckoning.Measured},
		carry.Figure(),
	}
	rule := "sheets_to_thinning"
	switch r.past.Baths[b].Kind {
	case Fixing:
		rule = "sheets_to_silver"
		puts = append(puts, r.silverReckoning(&ask).Figure(),
			figure("silver_now", r.Now(b, Silver).P50, reckoning.GPerL),
			r.limitReckoning(b, &ask.Limits[place], limit).Figure())
	case Stopping:
		rule = "sheets_to_ph"
		puts = append(puts, figure("developer_now", r.Now(b, Developer).P50, reckoning.Share),
			figure("developer_most", ask.Limits[place].Developer, reckoning.Share))
	case Developing, Water:
	}
	puts = append(puts,
		reckoning.Figure{Name: "carry_spread", Value: carrySpread, Unit: reckoning.Share, Origin: reckoning.FromMemory},
		reckoning.Figure{Name: "rooms_drawn", Value: float64(len(r.rooms)), Unit: reckoning.One, Origin: reckoning.Computed})
	count := ends.Of(place)
	return []reckoning.Reckoning{
		{Rule: rule, Puts: puts, Result: figure("sheets_safe", float64(count.P10), reckoning.One)},
		{Rule: "sheets_in_half_the_rooms", Puts: puts[:1], Result: figure("sheets_likely", float64(count.P50), reckoning.One)},
	}
}

func (r *Rooms) silverReckoning(ask *Ask) reckoning.Reckoning {
	area, coating := ask.Area, r.Coating(ask.Of).P50
	dissolved := r.Dissolved(ask.Of).P50
	return reckoning.Reckoning{
		Rule: "silver_per_sheet",
		Puts: []reckoning.Figure{
			{Name: "sheet_area", Value: area, Unit: reckoning.M2, Origin: reckoning.Computed},
			r.believed("coating", coating, reckoning.GPerM2),
			r.believed("undeveloped", dissolved/coating, reckoning.Share),
		},
		Result: figure("silver_per_sheet", area*dissolved, reckoning.G),
	}
}

// CarryReckoning opens how much of a bath a sheet carries along in the room of the medians, mL.
func (r *Rooms) CarryReckoning(s Sheet) reckoning.Reckoning {
	stuff := &r.past.Prior[s.Of]
	drained := s.Drained
	if drained <= 0 {
		drained = stuff.Drained
	}
	default10 := stuff.CarryOver.After(stuff.Drained)
	q := r.Carry(s.Of).P50 * stuff.CarryOver.After(drained) / default10
	return reckoning.Reckoning{
		Rule: "carry_per_sheet",
		Puts: []reckoning.Figure{
			{Name: "sheet_area", Value: s.Area, Unit: reckoning.M2, Origin: reckoning.Computed},
			{Name: "drained", Value: drained, Unit: reckoning.S, Origin: reckoning.CommonPractice},
			r.believed("carry_over", q, reckoning.MLPerM2),
		},
		Result: figure("carry_per_sheet", s.Area*q, reckoning.ML),
	}
}

func (r *Rooms) limitReckoning(b int, l *Limits, limit *reckoning.Figure) reckoning.Reckoning {
	now := r.Now(b, Thiosulfate).P50
	puts := []reckoning.Figure{
		figure("thiosulfate_now", now, reckoning.GPerL),
		{Name: "film_strength", Value: l.FilmStrength, Unit: reckoning.GPerL, Origin: reckoning.FromMemory},
	}
	if limit != nil {
		puts = append([]reckoning.Figure{*limit}, puts...)
	}
	value := 0.0
	if l.FilmStrength > 0 {
		value = l.Silver * now / l.FilmStrength
	}
	return reckoning.Reckoning{Rule: "silver_limit_now", Puts: puts, Result: figure("silver_limit_now", value, reckoning.GPerL)}
}

// believed is a figure from memory until something was seen in the room.
func (r *Rooms) believed(name string, value float64, u reckoning.Unit) reckoning.Figure {
	origin := reckoning.FromMemory
	if r.past.seen() {
		origin = reckoning.Measured
	}
	return reckoning.Figure{Name: name, Value: value, Unit: u, Origin: origin}
}

func figure(name string, value float64, u reckoning.Unit) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: value, Unit: u, Origin: reckoning.Computed}
}
