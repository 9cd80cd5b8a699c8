package darkroom

import (
	"wetside/trade/bath"
	"wetside/trade/material"
)

// OneShot reports whether a film developer is used once: so where its label says nothing else (common practice).
func (p *Product) OneShot() bool { return p.Reuse == "" || p.Reuse == "one-shot" }

// Label returns what the product's label says that a litre of working solution does of each material, where strength is
// the chemical's share of it. What a whole bottle does stands in proportion to the part of the smallest pack that goes into
// a litre; it is left out where pack or strength is not known.
func (p *Product) Label(strength float64) bath.Label {
	var label bath.Label
	for m, c := range p.Capacity {
		if !c.Given() || m == material.None {
			continue
		}
		perLitre := 0.0
		switch {
		case !c.Value.PerBottle && c.Value.Per > 0:
			perLitre = 1000 / c.Value.Per.ML()
		case c.Value.PerBottle && len(p.Packs) > 0 && p.Packs[0].Holds.Value > 0:
			perLitre = strength * 1000 / p.Packs[0].Holds.Value.ML()
		}
		label[m] = bath.Capacity{Area: float64(c.Value.Area) * perLitre, Rolls: c.Value.Rolls * perLitre}
		if c.Value.Rolls > 0 {
			label[m].Area = 0
		}
	}
	return label
}
