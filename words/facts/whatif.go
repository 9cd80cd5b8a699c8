package facts

import (
	"wetside/plan"
	"wetside/trade/bath"
)

// WhatIf is an evening as it is wanted and as it would be, bath by bath.
type WhatIf struct {
	Baths []Compared `json:"baths"`
	Now   Plan       `json:"now"`
	Then  Plan       `json:"then"`
}

// Compared is one bath in both.
type Compared struct {
	ID   string `json:"id"`
	Now  Side   `json:"now"`
	Then Side   `json:"then"`
}

// Side is one of both; makings are 0 where there is no such bath.
type Side struct {
	Makings    int     `json:"makings"`
	VolumeML   float64 `json:"volume_ml"`
	ChemicalML float64 `json:"chemical_ml"`
	Left       *Counts `json:"sheets_8x10_left"` // of a fresh one
}

// OfWhatIf puts an evening and the other side by side.
func OfWhatIf(w plan.WhatIf) WhatIf {
	out := WhatIf{Baths: []Compared{}, Now: OfPlan(w.Now), Then: OfPlan(w.Then)}
	left := func(c *bath.Counts) *Counts {
		if c == nil {
			return nil
		}
		return &Counts{c.P10, c.P50, c.P90}
	}
	for _, b := range w.Baths {
		out.Baths = append(out.Baths, Compared{
			ID:   b.ID,
			Now:  Side{b.MakingsNow, b.VolumeNow.ML(), b.ChemicalNow.ML(), left(b.LeftNow)},
			Then: Side{b.MakingsThen, b.VolumeThen.ML(), b.ChemicalThen.ML(), left(b.LeftThen)},
		})
	}
	return out
}
