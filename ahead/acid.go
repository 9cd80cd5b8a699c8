package ahead

import (
	"strings"

	"wetside/trade/bath"
	"wetside/trade/chem"
	"wetside/trade/quantity"
)

// An acid is what makes a stop bath one, as made up.
type acid struct {
	name    string // as package chem knows it
	molal   float64
	assumed bool
}

// acids holds the titration of each stop bath that was reckoned, so that like ones are reckoned once.
type acids struct{ of map[acid]*bath.Titration }

func newAcids() *acids { return &acids{of: map[acid]*bath.Titration{}} }

// declared returns the acid that the label declares, at the lesser end of its share, taken to fill a litre as water does;
// a usual one where it declares none.
func (b *Bath) acid() acid {
	if b.Product != nil {
		for _, c := range b.Product.Contains {
			name := strings.ToLower(strings.TrimSpace(c.Substance))
			if name != "acetic acid" && name != "citric acid" {
				continue
			}
			s, err := chem.Lookup(name)
			strength := b.strength()
			if err != nil || strength == 0 || !c.Share.Given() || c.Share.Value.From <= 0 {
				continue
			}
			density := 1.0
			if b.Product.Density.Given() {
				density = float64(b.Product.Density.Value)
			}
			return acid{name: name, molal: c.Share.Value.From * density * 1000 * strength / s.Dry().MolarMass()}
		}
	}
	return acid{name: "acetic acid", molal: bath.StopAcid().Value, assumed: true}
}

// acidAssumed reports whether nobody declared the stop bath's acid, so that a usual one is taken.
func (b *Bath) acidAssumed() bool { return b.acid().assumed }

// temperature of stop baths, where the constants are taken.
const temperature quantity.Celsius = 20

// within is how near the titration follows the solver, pH.
const within = 0.002

// titration returns how the developer that is carried in changes a stop bath's pH.
func (a *acids) titration(b *Bath) (*bath.Titration, error) {
	if b.Product != nil && b.Product.Acid.Given() && !b.Product.Acid.Value {
		return nil, nil // what it does is not to neutralise; its label tells how much
	}
	what := b.acid()
	if t := a.of[what]; t != nil {
		return t, nil
	}
	carbonate, sulfite := bath.CarriedDeveloper()
	var amounts []chem.Amount
	for _, x := range []struct {
		name  string
		molal float64
	}{{what.name, what.molal}, {"sodium carbonate", 0}, {"sodium sulfite", 0}} {
		s, err := chem.Lookup(x.name)
		if err != nil {
			return nil, err
		}
		amounts = append(amounts, chem.Amount{Substance: s, Molality: x.molal})
	}
	m, err := chem.Mix(temperature, amounts...)
	if err != nil {
		return nil, err
	}
	curve, err := m.CarryIn([]float64{0, carbonate.Value, sulfite.Value}, 1, within)
	if err != nil {
		return nil, err
	}
	t, err := bath.NewTitration(func(share float64) (float64, error) { return curve.At(share), nil })
	if err != nil {
		return nil, err
	}
	a.of[what] = t
	return t, nil
}
