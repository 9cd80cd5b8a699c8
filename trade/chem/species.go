package chem

import "math"

// A Species is what is dissolved, by itself.
type Species struct {
	Name     string  // its formula: "HCO3^-"
	Acid     string  // the key of its acid: "carbonic"; empty for water's ions and those that take no proton
	Charge   int     // its charge number
	Molality float64 // mol/kg
	Gamma    float64 // activity coefficient
}

// Species solves the mixture and returns all that is dissolved in it: H+, OH−, the ions that take no proton, and
// each acid's forms from the most protonated on.
func (m *Mixture) Species() []Species {
	m.Solve()
	a := math.Exp(m.x)
	all := []Species{
		m.species("H^+", "", 1, a/m.gamma), m.species("OH^-", "", -1, m.kw/(a*m.gamma)),
	}
	for i := range m.parts {
		for _, n := range m.parts[i].substance.row().ions {
			all = m.addIon(all, n, m.parts[i].amount)
		}
	}
	for i := range m.families {
		f := &m.families[i]
		w, sum := [most + 1]float64{1}, 1.0
		for s := range f.steps {
			w[s+1] = w[s] * f.ratio[s] / a
			sum += w[s+1]
		}
		known := &acids[f.of]
		for s := range f.steps + 1 {
			all = append(all, m.species(known.forms[s], known.key, f.charge-s, f.total*w[s]/sum))
		}
	}
	return all
}

func (m *Mixture) species(name, acid string, charge int, n float64) Species {
	return Species{Name: name, Acid: acid, Charge: charge, Molality: n, Gamma: power(m.gamma, charge*charge)}
}

func (m *Mixture) addIon(all []Species, n ion, amount float64) []Species {
	for i := range all {
		if all[i].Name == n.name {
			all[i].Molality += n.n * amount
			return all
		}
	}
	return append(all, m.species(n.name, "", n.charge, n.n*amount))
}
