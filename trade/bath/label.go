package bath

import (
	"math"
	"slices"

	"wetside/trade/material"
	"wetside/trade/reckoning"
)

// A Capacity is what a label says that a litre of working solution does of one material: an area, or rolls.
type Capacity struct {
	Area  float64 // m² per litre; 0 where Rolls is given
	Rolls float64 // rolls per litre
}

// Label is a label's capacity by material; the zero Capacity is none.
type Label [material.Film + 1]Capacity

// Done is what went through a bath of one material.
type Done struct {
	Of    material.Material
	Area  float64 // m²
	Rolls float64 // counted against a capacity in rolls alone
}

// part returns what a load is of the capacity of so many litres. known is false where the label gives none, or none that
// the load can be held against.
func (l *Label) part(d Done, litres float64) (part float64, known bool) {
	if d.Of < material.RC || d.Of > material.Film || litres <= 0 {
		return 0, false
	}
	c := l[d.Of]
	switch {
	case c.Rolls > 0:
		return d.Rolls / (c.Rolls * litres), d.Rolls > 0 || d.Area == 0
	case c.Area > 0:
		return d.Area / (c.Area * litres), true
	}
	return 0, false
}

// LabelUsed returns which part of the label's capacity of so many litres was used: loads of different materials add as
// fractions of it, a trade rule. Above 1 it is spent. unknown are the materials that the label says nothing about; they
// are not counted.
func LabelUsed(l *Label, litres float64, done ...Done) (used reckoning.Reckoning, unknown []material.Material) {
	used = reckoning.Reckoning{Rule: "label_used", Puts: []reckoning.Figure{
		{Name: "bath_volume", Value: litres, Unit: reckoning.L, Origin: reckoning.Measured},
	}}
	sum := 0.0
	for _, d := range done {
		part, known := l.part(d, litres)
		if !known {
			if !slices.Contains(unknown, d.Of) {
				unknown = append(unknown, d.Of)
			}
			continue
		}
		sum += part
		used.Puts = append(used.Puts, figureOf(d.Of, "part_of_capacity", part, l[d.Of].puts(d)))
	}
	used.Result = figure("label_used", sum, reckoning.Share)
	return used, unknown
}

// LabelLeft returns how many more of a sheet the label's capacity allows after a part of it was used, rounded down and
// never below 0. A roll has Rolls 1, a sheet its Area. ok is false where the label says nothing about the material.
func LabelLeft(l *Label, litres, used float64, sheet Done) (left reckoning.Reckoning, ok bool) {
	part, known := l.part(sheet, litres)
	if !known || !(part > 0) {
		return reckoning.Reckoning{}, false
	}
	sheets := math.Max(0, math.Floor((1-used)/part+1e-9))
	return reckoning.Reckoning{
		Rule: "label_left",
		Puts: []reckoning.Figure{
			{Name: "bath_volume", Value: litres, Unit: reckoning.L, Origin: reckoning.Measured},
			figure("label_used", used, reckoning.Share),
			figureOf(sheet.Of, "part_of_capacity", part, l[sheet.Of].puts(sheet)),
		},
		Result: figure("sheets_by_label", sheets, reckoning.One),
	}, true
}

// puts are the label's figure and what is held against it.
func (c Capacity) puts(d Done) []reckoning.Figure {
	if c.Rolls > 0 {
		return []reckoning.Figure{
			{Name: "capacity_rolls", Value: c.Rolls, Unit: reckoning.One, Origin: reckoning.Label},
			{Name: "rolls", Value: d.Rolls, Unit: reckoning.One, Origin: reckoning.Asked},
		}
	}
	return []reckoning.Figure{
		{Name: "capacity_area", Value: c.Area, Unit: reckoning.M2, Origin: reckoning.Label},
		{Name: "area", Value: d.Area, Unit: reckoning.M2, Origin: reckoning.Asked},
	}
}

// figureOf is a share that comes of the figures put in, said of a material.
func figureOf(m material.Material, name string, value float64, puts []reckoning.Figure) reckoning.Figure {
	f := figure(name, value, reckoning.Share)
	f.Of = m.String()
	return reckoning.Reckoning{Rule: name, Puts: puts, Result: f}.Figure()
}
