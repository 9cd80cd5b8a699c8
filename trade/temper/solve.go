package temper

import (
	"context"
	"math"

	"wetside/trade/quantity"
)

// Solve returns how to get the water: masses of two waters (and of the chemical, counted as water) that add up to the
// mass of Total at Want, with enthalpies that add up to its enthalpy:
//
//	m_hot + m_cold + m_chem = ρ(Want)·Total
//	m_hot·h(Hot) + m_cold·h(Cold) + m_chem·h(ChemicalAt) = ρ(Want)·Total·h(Want)
//
// Density ρ and enthalpy h by IAPWS-95. Beyond the hot tap the two are hot tap and boiling water, beyond the
// cold tap cold tap and ice at 0 °C (heat of melting by IAPWS-06), where Problem says they can be had.
// The error is that of ctx, or a *ProblemError, which wraps ErrProblem.
func Solve(ctx context.Context, p Problem) (Result, error) {
	if err := ctx.Err(); err != nil {
		return Result{}, err
	}
	if err := p.check(); err != nil {
		return Result{}, err
	}
	if p.Step == 0 {
		p.Step = DefaultStep
	}
	r, pours := p.choose()
	r.Marks, r.AtMarks = p.marks(pours, r.Nearest)
	r.Scald = p.scalds(r)
	r.Reckoning = p.reckon(r)
	return r, nil
}

// A lot is so much water (g), with its enthalpy (kJ/kg).
type lot struct{ mass, h float64 }

// with returns both together.
func (l lot) with(m lot) lot {
	mass := l.mass + m.mass
	if mass == 0 {
		return lot{}
	}
	return lot{mass, (l.mass*l.h + m.mass*m.h) / mass}
}

// at returns so many mL of water at a temperature.
func at(t quantity.Celsius, ml float64) lot {
	n := waterAt(t)
	return lot{n.rho * ml / 1000, n.h}
}

// ml returns the volume at the lot's own temperature; ice counts as the water it melts to.
func (l lot) ml() float64 { return l.mass / waterAt(temperatureOf(l.h)).rho * 1000 }

// whole is what shall come out, chemical what goes into it, and water the lot that is then wanted: in
// enthalpy it may lie outside what water can have.
func (p Problem) whole() lot { return at(p.Want, p.Total.ML()) }

func (p Problem) chemical() lot { return at(p.chemicalAt(), p.Chemical.ML()) }

// chemicalAt is a temperature of the table also where there is no chemical and so none was checked.
func (p Problem) chemicalAt() quantity.Celsius {
	if p.Chemical == 0 {
		return p.Want
	}
	return p.ChemicalAt
}

func (p Problem) water() lot {
	w, c := p.whole(), p.chemical()
	m := w.mass - c.mass
	return lot{m, (w.mass*w.h - c.mass*c.h) / m}
}

// enthalpy returns that of a source of water, kJ/kg.
func (p Problem) enthalpy(s Source) float64 {
	switch s {
	case HotTap:
		return waterAt(p.Hot).h
	case ColdTap:
		return waterAt(p.Cold).h
	case KettleWater:
		return waterAt(Highest).h
	case IceByWeight:
	}
	return waterAt(Lowest).h - latent
}

// slack is by how much (kJ/kg) the water may have to be beyond a source and still counts as in its reach:
// 0.01 K, below what a darkroom's thermometer shows.
const slack = 0.042

// A pour is a lot from a source; pours are in the order of pouring.
type pour struct {
	from Source
	lot  lot
}

// choose finds the two sources and what to take of each.
func (p Problem) choose() (Result, []pour) {
	want := p.water()
	switch {
	case want.h < p.enthalpy(ColdTap)-slack:
		return p.beyond(ColdTap, IceByWeight, WithIce, p.Ice)
	case want.h > p.enthalpy(HotTap)+slack:
		return p.beyond(HotTap, KettleWater, WithKettle, p.Kettle)
	}
	hot, cold := p.split(want, HotTap, ColdTap)
	return p.result(Reached, hot, cold)
}

// split shares out a wanted lot between two sources.
func (p Problem) split(want lot, a, b Source) (pour, pour) {
	ha, hb := p.enthalpy(a), p.enthalpy(b)
	share := 0.0
	if ha != hb {
		share = min(max((want.h-hb)/(ha-hb), 0), 1)
	}
	return pour{a, lot{want.mass * share, ha}}, pour{b, lot{want.mass * (1 - share), hb}}
}

// beyond finds the water where the taps alone do not reach: tap and what helps, or the nearest that can be had.
func (p Problem) beyond(tap, helper Source, s Status, had bool) (Result, []pour) {
	want := p.water()
	reaches := between(want.h, p.enthalpy(tap), p.enthalpy(helper))
	a, b := p.split(want, tap, helper)
	if reaches && had {
		if helper == IceByWeight {
			a, b = b, a // weighed into the empty jug, so that one mark does for both
		}
		return p.result(s, a, b)
	}
	help := Help{What: helper, At: p.Want}
	if !reaches {
		b.lot, help.At = p.all(helper)
	}
	if helper == IceByWeight {
		help.Grams = quantity.Mass(b.lot.mass)
	} else {
		help.Volume = volume(b.lot.ml())
	}
	only := tap
	if had {
		only = helper
	}
	l, _ := p.all(only)
	r, pours := p.result(OutOfReach, pour{only, l})
	r.Helps = []Help{help}
	return r, pours
}

func between(x, a, b float64) bool { return min(a, b)-slack <= x && x <= max(a, b)+slack }

// all returns the water where all of it comes from one source, and the temperature of the whole then. Its mass is
// such that the whole is Total at that temperature.
func (p Problem) all(s Source) (lot, quantity.Celsius) {
	h, chem := p.enthalpy(s), p.chemical()
	l := lot{p.whole().mass - chem.mass, h}
	t := p.Want
	for range turns {
		t = temperatureOf(l.with(chem).h)
		l.mass = max(at(t, p.Total.ML()).mass-chem.mass, 0)
	}
	return l, t
}

// turns is how often a mass is put right for the density at the temperature that follows from it: water expands by
// less than 1e-3 a kelvin, so each turn shrinks the error at least a hundredfold.
const turns = 8

// result puts the pours together. The order given is the order of pouring; pours of nothing are left out.
func (p Problem) result(s Status, pours ...pour) (Result, []pour) {
	r := Result{Status: s}
	var water lot
	kept := make([]pour, 0, len(pours))
	for _, q := range pours {
		if q.lot.mass <= 0 {
			continue
		}
		kept = append(kept, q)
		water = water.with(q.lot)
		switch q.from {
		case HotTap:
			r.Hot = volume(q.lot.ml())
		case ColdTap:
			r.Cold = volume(q.lot.ml())
		case KettleWater:
			r.Kettle = volume(q.lot.ml())
		case IceByWeight:
			r.Ice = quantity.Mass(q.lot.mass)
		}
	}
	r.Water = temperatureOf(water.h)
	r.Nearest = p.Want
	if s == OutOfReach {
		r.Nearest = temperatureOf(water.with(p.chemical()).h)
	}
	return r, kept
}

func (p Problem) scalds(r Result) bool {
	return r.Kettle > 0 || r.Hot > 0 && p.Hot >= ScaldsAt || r.Cold > 0 && p.Cold >= ScaldsAt || r.Water >= ScaldsAt
}

func volume(ml float64) quantity.Volume {
	return quantity.Volume(math.Round(ml * float64(quantity.Millilitre)))
}
