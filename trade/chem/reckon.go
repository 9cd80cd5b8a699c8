package chem

import (
	"math"
	"strconv"

	"wetside/trade/reckoning"
)

// A Result is a solved mixture with all that led there.
type Result struct {
	State
	Species []Species
	Notes   []Note
	// Reckoning holds the pH, opened down to each constant, and the ionic strength.
	Reckoning []reckoning.Reckoning
}

// Explain solves the mixture and tells how it came about.
func (m *Mixture) Explain() Result {
	state := m.Solve()
	r := Result{State: state, Species: m.Species(), Notes: m.notes(state.PH)}
	strength := m.reckonIonic(r)
	balance := reckoning.Reckoning{
		Rule: "charge_balance", Puts: m.asked(),
		Result: reckoning.Figure{Name: "ph", Value: state.PH, Unit: reckoning.PH},
	}
	balance.Puts = append(balance.Puts, m.temperature())
	balance.Puts = append(balance.Puts, m.reckonConstants()...)
	balance.Puts = append(balance.Puts, m.reckonGamma(strength).Figure())
	r.Reckoning = []reckoning.Reckoning{balance, strength}
	return r
}

func (m *Mixture) temperature() reckoning.Figure {
	return reckoning.Figure{Name: "temperature", Value: float64(m.at), Unit: reckoning.C, Origin: reckoning.Asked}
}

// asked returns the amounts that are not 0.
func (m *Mixture) asked() []reckoning.Figure {
	var all []reckoning.Figure
	for i := range m.parts {
		if m.parts[i].amount > 0 {
			all = append(all, reckoning.Figure{
				Name: "amount", Of: m.parts[i].substance.Name(), Value: m.parts[i].amount, Unit: reckoning.MolPerKg,
				Origin: reckoning.Asked,
			})
		}
	}
	return all
}

// reckonConstants returns the pK of water and of each acid in the mixture, which open to how they follow from 25 °C.
func (m *Mixture) reckonConstants() []reckoning.Figure {
	all := []reckoning.Figure{m.reckonConstant("water", water()).Figure()}
	for i := range m.families {
		f := &m.families[i]
		if f.total == 0 {
			continue
		}
		a := acids[f.of]
		for s, c := range a.constants {
			of := a.key
			if len(a.constants) > 1 {
				of += " " + strconv.Itoa(s+1)
			}
			all = append(all, m.reckonConstant(of, c).Figure())
		}
	}
	return all
}

func (m *Mixture) reckonConstant(of string, c Constant) reckoning.Reckoning {
	heat := reckoning.Figure{Name: "enthalpy", Of: of, Value: c.DH, Unit: reckoning.KJPerMol, Origin: reckoning.FromMemory}
	if !c.DHMemory {
		heat.Origin, heat.Source = c.Origin, c.Source
	}
	puts := []reckoning.Figure{
		{Name: "pk_25", Of: of, Value: c.PK25, Origin: c.Origin, Source: c.Source}, heat,
	}
	if c.DCp != 0 {
		puts = append(puts, reckoning.Figure{
			Name: "heat_capacity", Of: of, Value: c.DCp, Unit: reckoning.JPerMolK, Origin: reckoning.FromMemory,
		})
	}
	return reckoning.Reckoning{
		Rule: "pk_at_temperature", Puts: append(puts, m.temperature()),
		Result: reckoning.Figure{Name: "pk", Of: of, Value: c.At(m.at)},
	}
}

// reckonIonic says what the ionic strength is: half the sum of each ion's molality times its charge squared.
func (m *Mixture) reckonIonic(r Result) reckoning.Reckoning {
	var puts []reckoning.Figure
	for _, s := range r.Species {
		if s.Charge != 0 && s.Molality > 0 {
			puts = append(puts, reckoning.Figure{Name: "ion", Of: s.Name, Value: s.Molality, Unit: reckoning.MolPerKg})
		}
	}
	return reckoning.Reckoning{
		Rule: "ionic_strength", Puts: puts,
		Result: reckoning.Figure{Name: "ionic_strength", Value: r.IonicStrength, Unit: reckoning.MolPerKg},
	}
}

// reckonGamma says what the activity coefficient of a single charge is.
func (m *Mixture) reckonGamma(strength reckoning.Reckoning) reckoning.Reckoning {
	return reckoning.Reckoning{
		Rule: "davies",
		Puts: []reckoning.Figure{
			{Name: "debye_huckel", Value: m.slope, Origin: reckoning.Standard, Source: iapws95},
			{Name: "davies_linear", Value: daviesLinear, Origin: reckoning.Standard, Source: kthDavies},
			strength.Figure(), m.temperature(),
		},
		Result: reckoning.Figure{Name: "activity_coefficient", Value: m.gamma},
	}
}

// A Needed is how much of a substance a titration took.
type Needed struct {
	Amount    Amount
	Reckoning reckoning.Reckoning
}

// TitrateExplained is Titrate with its reckoning: the amounts there were, the pH they had and the one wanted.
func (m *Mixture) TitrateExplained(i int, ph float64) (Needed, error) {
	before := m.Explain()
	n, err := m.Titrate(i, ph)
	if err != nil {
		return Needed{}, err
	}
	s := m.parts[i].substance
	puts := append(m.asked(), before.Reckoning[0].Figure(),
		reckoning.Figure{Name: "wanted_ph", Value: ph, Unit: reckoning.PH, Origin: reckoning.Asked})
	return Needed{
		Amount: Amount{Substance: s, Molality: n},
		Reckoning: reckoning.Reckoning{
			Rule: "titration", Puts: puts,
			Result: reckoning.Figure{Name: "needed", Of: s.Name(), Value: math.Max(n, 0), Unit: reckoning.MolPerKg},
		},
	}, nil
}
