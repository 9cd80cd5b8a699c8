package material

import (
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Unit80 is the area (m²) of the counting unit of 80 in², one sheet of 8×10.
// Source: The Darkroom Cookbook, 3rd ed., p. 108 (Anchell3).
const Unit80 quantity.Area = 80 * inch * inch / 1e6

// Area returns the area in m² that a sheet or a roll has to be processed, edges, leader and all, and how it
// came about. A roll's width and length are from memory, as the figure says. An empty size has none.
func (s Size) Area() (quantity.Area, reckoning.Figure) {
	w, l, origin := s.sides()
	f := reckoning.Figure{
		Name: "area", Of: s.String(), Value: float64(w) * float64(l) / 1e6, Unit: reckoning.M2,
	}
	f.By = &reckoning.Reckoning{
		Rule: "area",
		Puts: []reckoning.Figure{
			{Name: "width", Of: f.Of, Value: float64(w), Unit: reckoning.MM, Origin: origin},
			{Name: "length", Of: f.Of, Value: float64(l), Unit: reckoning.MM, Origin: origin},
		},
		Result: reckoning.Figure{Name: f.Name, Of: f.Of, Value: f.Value, Unit: f.Unit},
	}
	return quantity.Area(f.Value), f
}

// sides returns width and length in mm and where they are from. A 36-exposure film is 1.58 to 1.63 m long, a
// 120 film 61.5 mm × about 0.82 m, a 24-exposure one shorter by twelve frames of 38 mm: all from memory.
func (s Size) sides() (w, l quantity.Length, o reckoning.Origin) {
	switch s.Roll {
	case Roll135x36:
		return 35, 1600, reckoning.FromMemory
	case Roll135x24:
		return 35, 1600 - 12*38, reckoning.FromMemory
	case Roll120:
		return 61.5, 820, reckoning.FromMemory
	case NoRoll:
	}
	return s.Width, s.Height, reckoning.Asked
}

// Units80 returns how many counting units of 80 in² a sheet or a roll counts for against a printed capacity:
// a sheet by its area; a roll of 135-36 or 120 one unit by convention, whatever its area (Fixer Capacity,
// brodie-tyrrell.org: BT-fixer); a roll of 135-24 two thirds, by its frames (from memory).
func (s Size) Units80() (float64, reckoning.Figure) {
	f := reckoning.Figure{Name: "units_80", Of: s.String(), Unit: reckoning.One}
	switch s.Roll {
	case Roll135x36, Roll120:
		f.Value, f.Origin, f.Source = 1, reckoning.Standard, "BT-fixer"
	case Roll135x24:
		f.Value, f.Origin = 24.0/36, reckoning.FromMemory
	case NoRoll:
		a, area := s.Area()
		f.Value = float64(a / Unit80)
		unit := reckoning.Figure{
			Name: "unit_80", Value: float64(Unit80), Unit: reckoning.M2, Origin: reckoning.Standard, Source: "Anchell3",
		}
		f.By = &reckoning.Reckoning{
			Rule: "units_by_area", Puts: []reckoning.Figure{area, unit},
			Result: reckoning.Figure{Name: f.Name, Of: f.Of, Value: f.Value, Unit: f.Unit},
		}
	}
	return f.Value, f
}
