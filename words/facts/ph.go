package facts

import "wetside/trade/chem"

// PH is a solved mixture: what `wetside ph --json` prints.
type PH struct {
	PH            float64 `json:"ph"`
	IonicStrength float64 `json:"ionic_strength"` // mol per kg of water
	// Indicative says that the mixture is too salty for the model to be more than a hint.
	Indicative bool        `json:"indicative"`
	Notes      []string    `json:"notes"`
	Reckoning  []Reckoning `json:"reckoning"`
}

// OfPH takes a solved mixture apart.
func OfPH(r chem.Result) PH {
	out := PH{
		PH: r.PH, IonicStrength: r.IonicStrength, Indicative: r.Indicative, Notes: []string{}, Reckoning: []Reckoning{},
	}
	for _, n := range r.Notes {
		out.Notes = append(out.Notes, string(n))
	}
	for _, x := range r.Reckoning {
		out.Reckoning = append(out.Reckoning, OfReckoning(x))
	}
	return out
}
