package bath

import (
	"math"

	"wetside/trade/reckoning"
)

// LeastDeveloper returns the share of its fresh strength at which a developer in a tray has reached the end of its
// label's open-tray life.
func LeastDeveloper() reckoning.Figure {
	return reckoning.Figure{Name: "least_developer", Value: 0.5, Unit: reckoning.Share, Origin: reckoning.FromMemory}
}

// Air is a developer in an open tray. It loses agent in proportion to the tray's surface and to time, as the air that
// comes to it decides and not how much agent there is (from memory), so that at the made-up volume it falls to
// LeastDeveloper in the label's open-tray life. The agent is told in litres of fresh developer. What prints use up is not
// in it: the label's capacity counts that.
type Air struct {
	Litres float64 // in the tray now
	Agent  float64 // L of fresh developer that hold as much agent
	Rate   float64 // L of fresh developer's agent that the tray loses an hour
}

// NewAir returns a fresh developer of so many litres in a tray in which the label gives it so many hours. A label that
// gives none, 0 hours, is taken as losing nothing.
func NewAir(litres, hours float64) Air {
	a := Air{Litres: litres, Agent: litres}
	if hours > 0 {
		a.Rate = litres * (1 - LeastDeveloper().Value) / hours
	}
	return a
}

// Spread returns the developer in a tray of so many times the surface.
func (a Air) Spread(surfaces float64) Air {
	a.Rate *= surfaces
	return a
}

// Wait returns what is left after so many hours in the tray.
func (a Air) Wait(hours float64) Air {
	a.Agent = math.Max(0, a.Agent-a.Rate*hours)
	return a
}

// Lose returns what is left after so many litres of it were carried out, spilt or poured off.
func (a Air) Lose(litres float64) Air {
	if a.Litres <= 0 || litres >= a.Litres {
		return Air{Rate: a.Rate}
	}
	a.Agent *= 1 - litres/a.Litres
	a.Litres -= litres
	return a
}

// TopUp returns the tray with so many litres of fresh developer poured in.
func (a Air) TopUp(litres float64) Air {
	a.Litres += litres
	a.Agent += litres
	return a
}

// Share returns the strength, as a share of the fresh one; 0 of an empty tray.
func (a Air) Share() float64 {
	if a.Litres <= 0 {
		return 0
	}
	return a.Agent / a.Litres
}

// Left returns for how many hours more the developer keeps at least LeastDeveloper of its strength, if nothing is poured
// in or taken out; infinity where the air does nothing to it.
func (a Air) Left() float64 {
	over := a.Agent - LeastDeveloper().Value*a.Litres
	if over <= 0 {
		return 0
	}
	return over / a.Rate
}

// Reckon opens Left.
func (a Air) Reckon() reckoning.Reckoning {
	return reckoning.Reckoning{
		Rule: "hours_in_open_tray",
		Puts: []reckoning.Figure{
			figure("bath_volume", a.Litres, reckoning.L),
			figure("developer_strength", a.Share(), reckoning.Share),
			LeastDeveloper(),
			{Name: "agent_lost_an_hour", Value: a.Rate, Unit: reckoning.L, Origin: reckoning.FromMemory},
		},
		Result: figure("open_tray_left", a.Left()*3600, reckoning.S),
	}
}
