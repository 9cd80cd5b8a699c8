package ahead

import (
	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// limitOf returns what ends a bath of a chain. The figure is the silver limit as the table or the room has it, nil where
// there is none; ok is false where the answer is another way of working.
func (s *Scene) limitOf(c *Chain, b *Bath, simple *bath.Bath) (l bath.Limits, figure *reckoning.Figure, ok bool) {
	switch b.Role {
	case process.StopBath:
		if simple.Titration != nil {
			l.Developer = simple.Titration.ShareAt(bath.SpentPH)
		}
	case process.Fixer:
		place := c.place(b)
		f, known := bath.SilverLimit(c.Material, c.Standard, place)
		if own, said := s.ownLimit(c, place); said {
			f.Value, f.Origin, f.Source = own, reckoning.Measured, ""
			known = own > 0
		}
		if !known {
			return l, nil, false
		}
		return bath.Limits{
			Silver:       f.Value,
			FilmStrength: bath.FilmStrength().Value,
			Thiosulfate:  simple.Made.PerLitre(bath.Thiosulfate) * bath.LeastThiosulfate().Value,
		}, &f, true
	default:
	}
	return l, nil, true
}

// place returns which fixing bath a fixer is in a chain: a first one works alone for a material that is fixed in one.
func (c *Chain) place(b *Bath) bath.Place {
	if c.Fixing != process.TwoBaths {
		return bath.Alone
	}
	if b.Place == bath.Second {
		return bath.Second
	}
	return bath.First
}

// ownLimit returns the room's own limit, g/L.
func (s *Scene) ownLimit(c *Chain, p bath.Place) (float64, bool) {
	which := darkroom.BathOne
	switch p {
	case bath.First:
		which = darkroom.BathFirst
	case bath.Second:
		which = darkroom.BathSecond
	case bath.Alone:
	}
	own := s.Room.SilverLimits[c.Material][c.Standard][which]
	return own.Value, own.Given()
}
