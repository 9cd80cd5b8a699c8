package chem

import (
	"math"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// The keys of sources.
const (
	phreeqc    = "PHREEQC"    // the databases of USGS PHREEQC 3
	libreTexts = "LibreTexts" // LibreTexts reference tables, E1
	kthDavies  = "KTH-Davies" // the help text of KTH's equilibrium-diagram program
	iapws95    = "IAPWS-95"   // density, with the dielectric constant of IAPWS R8-97
)

// The ends of the range of temperature in which pH is reckoned, °C.
const (
	Coldest quantity.Celsius = 10
	Warmest quantity.Celsius = 40
)

// Of a reaction at the standard temperature.
const (
	gasConstant = 8.31446261815324 // J/(mol K), SI 2019
	standardAt  = 298.15           // K
)

// A Constant is a dissociation constant: the acid gives off one proton. It holds at infinite dilution.
type Constant struct {
	PK25   float64 // at 25 °C
	DH     float64 // enthalpy of dissociation at 25 °C, kJ/mol
	DCp    float64 // change of heat capacity, J/(mol K); 0 where unknown: then van 't Hoff
	Origin reckoning.Origin
	Source string // of PK25 where Origin is Standard; DCp, and DH where DHMemory, are from memory throughout
	// DHMemory says that the enthalpy is nobody's page; it moves a pK by 0.003 a kelvin for 5 kJ/mol.
	DHMemory bool
}

// At returns the pK at temperature t: ΔG(T) = ΔH(T) − T ΔS(T) with a constant change of heat capacity,
// pK = ΔG/(R T ln 10).
func (c Constant) At(t quantity.Celsius) float64 {
	T := float64(t) + 273.15
	h, cp := c.DH*1000, c.DCp
	s := h/standardAt - c.PK25*gasConstant*math.Ln10
	dT := T - standardAt
	dh := h + cp*dT
	ds := s + cp*math.Log(T/standardAt)
	return (dh/T - ds) / (gasConstant * math.Ln10)
}

// water returns the ion product of water: the llnl database; minteq.v4 has 13.997, phreeqc 14.00.
func water() Constant {
	return Constant{PK25: 13.995, DH: 55.815, DCp: -196, Origin: reckoning.Standard, Source: phreeqc, DHMemory: true}
}

// slopes holds the Debye-Hückel coefficient A (log10, molal) at 10, 15, …, 40 °C. It is
// 1.824829e6 √ρ/(εT)^1.5 with the density (g/mL) of IAPWS-95 and the dielectric constant of IAPWS R8-97,
// reckoned with python3-iapws 1.5.2. Never written to.
var slopes = [...]float64{0.4976355, 0.5014906, 0.5055362, 0.5097806, 0.5142292, 0.5188851, 0.5237508}

// DebyeHuckel returns the coefficient A of the activity model at t, kg^½/mol^½: 0.5098 at 25 °C (0.509 in textbooks,
// which is per litre). A *RangeError outside Coldest to Warmest.
func DebyeHuckel(t quantity.Celsius) (float64, error) {
	if err := checkTemperature(t); err != nil {
		return 0, err
	}
	return slopeAt(t), nil
}

// slopeAt interpolates slopes by the cubic through four nodes, to within 3e-7.
func slopeAt(t quantity.Celsius) float64 {
	i := min(max(int(t-Coldest)/5-1, 0), len(slopes)-4)
	x := float64(t-Coldest)/5 - float64(i)
	return slopes[i]*-(x-1)*(x-2)*(x-3)/6 + slopes[i+1]*x*(x-2)*(x-3)/2 -
		slopes[i+2]*x*(x-1)*(x-3)/2 + slopes[i+3]*x*(x-1)*(x-2)/6
}

func checkTemperature(t quantity.Celsius) error {
	if t >= Coldest && t <= Warmest { // false for NaN
		return nil
	}
	return &RangeError{Of: "temperature", Value: float64(t), Low: float64(Coldest), High: float64(Warmest)}
}

// MostReliable is the ionic strength, mol/kg, above which a pH is marked indicative. The activity model itself is
// good to about 0.1; to here it meets measured alkalis within about 0.1 of pH.
const MostReliable = 0.5

// heldAbove is the ionic strength, mol/kg, from which on the activity coefficients are held: Davies' linear term
// would otherwise give a trebly charged ion in a fixer a coefficient of thousands. Own choice.
const heldAbove = 1.0

// daviesLinear is the factor of Davies' linear term, kg/mol.
const daviesLinear = 0.3

// Davies returns log10 of the activity coefficient of an ion of charge z at an ionic strength (mol/kg), with the
// Debye-Hückel coefficient a: −a z² (√I/(1+√I) − 0.3 I) (KTH-Davies; 0.3 is Davies' own of 1962, older copies
// print 0.2 or 0.15). From 1 mol/kg on it stays what it is there. An uncharged species has 0.
func Davies(a float64, z int, ionicStrength float64) float64 {
	i := min(max(ionicStrength, 0), heldAbove)
	root := math.Sqrt(i)
	return -a * float64(z*z) * (root/(1+root) - daviesLinear*i)
}
