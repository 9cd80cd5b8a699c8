package plan

import (
	"context"

	"wetside/darkroom"
	"wetside/darkroom/hazards"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// A OneRequest is one bath alone: a label's words and a volume, and what the room has, if there is a room.
type OneRequest struct {
	File     darkroom.File // its bench and shelf; no vessels: the usual bench
	Dilution dilution.Dilution
	Window   quantity.Window
	Role     process.Role      // NoRole: not said
	Material material.Material // None: not said
	// Product names the product; empty: the shelf's own of the role, where there is one.
	Product string
	// Tolerance replaces the product's and the role's; 0: not said.
	Tolerance float64
	// System is the reader's own where there is no room.
	System       quantity.System
	Alternatives int
	// Whose is whoever asks for themself, as in Request.
	Whose string
}

// A One is one bath's answer.
type One struct {
	Dilution  dilution.Dilution
	Window    quantity.Window
	Tolerance float64
	Product   string // the shelf's, or empty
	// Usual says that no bench was given and the usual one was taken.
	Usual    bool
	System   quantity.System
	Vessels  []measure.Vessel
	Result   measure.Result
	Cautions []Caution
	Findings []Finding
	// WaterFirst says that about three quarters of the water goes in before the chemical.
	WaterFirst bool
}

// MakeOne finds the readings of one bath. The error is measure.ErrProblem's or the context's.
func MakeOne(ctx context.Context, r OneRequest) (One, error) {
	out := One{Dilution: r.Dilution, Window: r.Window, System: r.System}
	bench := r.File.Bench
	if r.File.Darkroom.Name != "" {
		out.System = r.File.Darkroom.Units
	}
	if len(bench.Vessels) == 0 {
		bench, out.Usual = UsualBench(), true
	}
	p := r.product()
	out.Product = p.Name
	judge := hazards.NewJudge(r.File)
	out.WaterFirst = waterFirst(judge, &p)
	out.Tolerance = r.Tolerance
	if out.Tolerance == 0 {
		out.Tolerance = strayOf(&p, r.Material == material.Film)
	}
	out.Vessels = vesselsFor(p, bench)
	out.Cautions = oneCautions(judge, &p, r.Dilution)
	res, err := solve(ctx, measure.Problem{
		Dilution: r.Dilution, Window: r.Window, Tolerance: out.Tolerance, Vessels: out.Vessels,
		WaterFirst: out.WaterFirst, Density: p.Density.Value, System: out.System,
	}, r.Alternatives)
	if err != nil {
		return One{}, err
	}
	out.Result = res
	return out, nil
}

// product returns the shelf's product that the request is about, or one without a name of the wanted role.
func (r OneRequest) product() darkroom.Product {
	for _, p := range r.File.Shelf.Products {
		if r.Product != "" && p.Name == r.Product {
			return p
		}
	}
	for _, p := range r.File.Shelf.Products {
		if r.Product == "" && r.Role != process.NoRole && p.Role == r.Role && r.File.Shelf.ProductOf(p, r.Whose) && (r.Material == material.None || serves(&p, r.Material)) {
			return p
		}
	}
	return darkroom.Product{Role: r.Role}
}

// UsualBench returns the vessels that are assumed where nobody said which there are: a litre jug with 100 to 1000 mL by
// 50 and 1 to 32 US fl oz, a 100 mL cylinder from 2 mL by 1, a 10 mL syringe by 0.2. Common practice.
func UsualBench() darkroom.Bench {
	n := func(text string) darkroom.As[quantity.Ratio] {
		v, err := quantity.ReadRatio(text)
		if err != nil {
			panic("plan: usual bench: " + err.Error())
		}
		return darkroom.As[quantity.Ratio]{Value: v, Text: text}
	}
	scale := func(u quantity.VolumeUnit, unit, from, to, step, numbered string) darkroom.Scale {
		return darkroom.Scale{
			Unit: darkroom.As[quantity.VolumeUnit]{Value: u, Text: unit},
			From: n(from), To: n(to), Step: n(step), Numbered: n(numbered),
		}
	}
	return darkroom.Bench{Vessels: []darkroom.Vessel{
		{Name: "litre jug", Kind: measure.Jug, Scales: []darkroom.Scale{
			scale(quantity.UnitML, "mL", "100", "1000", "50", "100"),
			scale(quantity.UnitUSOunce, "US fl oz", "1", "32", "1", "4"),
		}},
		{Name: "100 mL cylinder", Kind: measure.Cylinder, Class: measure.ClassB, Scales: []darkroom.Scale{
			scale(quantity.UnitML, "mL", "2", "100", "1", "10"),
		}},
		{Name: "10 mL syringe", Kind: measure.Syringe, Scales: []darkroom.Scale{
			scale(quantity.UnitML, "mL", "0.2", "10", "0.2", "1"),
		}},
	}}
}
