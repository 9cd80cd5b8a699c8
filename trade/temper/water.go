package temper

import (
	"sort"

	"wetside/trade/quantity"
)

//go:generate ../../tools/water_table table.go

// node is the water of one degree.
type node struct {
	rho float64 // kg/m³
	h   float64 // kJ/kg
}

// Lowest and Highest are the temperatures between which water is reckoned with here.
const (
	Lowest  quantity.Celsius = 0
	Highest quantity.Celsius = 100
)

// Density returns the density of water at t (g/mL) at 101.325 kPa, by IAPWS-95. quantity.ErrRange outside
// Lowest to Highest. The table is met to within 5e-8 g/mL.
func Density(t quantity.Celsius) (quantity.Density, error) {
	if !inRange(t) {
		return 0, quantity.ErrRange
	}
	return quantity.Density(waterAt(t).rho / 1000), nil
}

// Enthalpy returns the specific enthalpy of water at t (kJ/kg; 0 for the liquid at the triple point) at
// 101.325 kPa, by IAPWS-95. quantity.ErrRange outside Lowest to Highest. The table is met to within 7e-5 kJ/kg (2e-5 K).
func Enthalpy(t quantity.Celsius) (float64, error) {
	if !inRange(t) {
		return 0, quantity.ErrRange
	}
	return waterAt(t).h, nil
}

func inRange(t quantity.Celsius) bool { return t >= Lowest && t <= Highest } // false for NaN

// waterAt interpolates the table by the cubic through the four nearest nodes. t is in range.
func waterAt(t quantity.Celsius) node {
	i := min(max(int(t)-1, 0), len(table)-4)
	x := float64(t) - float64(i)
	w := [4]float64{
		-(x - 1) * (x - 2) * (x - 3) / 6,
		x * (x - 2) * (x - 3) / 2,
		-x * (x - 1) * (x - 3) / 2,
		x * (x - 1) * (x - 2) / 6,
	}
	var n node
	for k, wk := range w {
		n.rho += wk * table[i+k].rho
		n.h += wk * table[i+k].h
	}
	return n
}

// temperatureOf returns the temperature of water with the enthalpy h, at the ends of the table where h lies beyond.
func temperatureOf(h float64) quantity.Celsius {
	if h <= table[0].h {
		return Lowest
	}
	if h >= table[len(table)-1].h {
		return Highest
	}
	i := sort.Search(len(table), func(i int) bool { return table[i].h > h })
	low, high := quantity.Celsius(i-1), quantity.Celsius(i)
	t := low + quantity.Celsius((h-table[i-1].h)/(table[i].h-table[i-1].h))
	for range 4 { // secant slope of one degree; the error shrinks by 1e-3 a turn
		t += quantity.Celsius((h - waterAt(t).h) / (table[i].h - table[i-1].h))
		t = min(max(t, low), high)
	}
	return t
}
