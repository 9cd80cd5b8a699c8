package temper

import (
	"slices"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// The keys of sources, in docs/sources.md.
const (
	iapws95 = "IAPWS-95"
	iapws06 = "IAPWS-06"
)

// reckon says how a result came about: the mass of the whole, the temperature of the water before the
// chemical, the shares of the two waters, the temperature at the marks.
func (p Problem) reckon(r Result) []reckoning.Reckoning {
	want, chem := p.whole(), p.chemical()
	total := ml("total", p.Total, reckoning.Asked)
	target := celsius("want", p.Want, reckoning.Asked)
	mass := said("mass_of_whole", []reckoning.Figure{total, target, density("density_want", p.Want)},
		reckoning.Figure{Name: "mass", Value: want.mass, Unit: reckoning.G})
	water := said("water_before_chemical", []reckoning.Figure{
		mass.Result, enthalpy("enthalpy_want", p.Want),
	}, celsius("water", r.Water, reckoning.Computed))
	if p.Chemical > 0 {
		water.Puts = append(water.Puts,
			ml("chemical", p.Chemical, reckoning.Asked), celsius("chemical_at", p.ChemicalAt, reckoning.Asked),
			reckoning.Figure{Name: "chemical_mass", Value: chem.mass, Unit: reckoning.G},
			enthalpy("enthalpy_chemical", p.ChemicalAt))
	}
	all := append([]reckoning.Reckoning{mass, water}, p.reckonWaters(r, water)...)
	if r.Status == OutOfReach {
		all = append(all, said("nearest_temperature", []reckoning.Figure{target},
			celsius("nearest", r.Nearest, reckoning.Computed)))
	}
	if len(r.Marks) > 0 {
		all = append(all, said("temperature_at_marks", []reckoning.Figure{ml("step", p.Step, reckoning.Measured)},
			celsius("at_marks", r.AtMarks, reckoning.Computed)))
	}
	return all
}

// reckonWaters says how much of each source there is.
func (p Problem) reckonWaters(r Result, water reckoning.Reckoning) []reckoning.Reckoning {
	puts := []reckoning.Figure{
		water.Figure(), celsius("cold", p.Cold, reckoning.Asked), enthalpy("enthalpy_cold", p.Cold),
		celsius("hot", p.Hot, reckoning.Asked), enthalpy("enthalpy_hot", p.Hot),
	}
	var all []reckoning.Reckoning
	for _, v := range []struct {
		name string
		v    quantity.Volume
	}{{"hot", r.Hot}, {"cold", r.Cold}} {
		if v.v > 0 {
			all = append(all, said("two_waters", puts, ml(v.name, v.v, reckoning.Computed)))
		}
	}
	if r.Kettle > 0 {
		all = append(all, said("kettle_water", with(puts, enthalpy("enthalpy_boiling", Highest)),
			ml("kettle", r.Kettle, reckoning.Computed)))
	}
	if r.Ice > 0 {
		melting := reckoning.Figure{
			Name: "heat_of_melting", Value: latent, Unit: reckoning.KJPerKg, Origin: reckoning.Standard, Source: iapws06,
		}
		all = append(all, said("ice_by_weight", with(puts, melting),
			reckoning.Figure{Name: "ice", Value: float64(r.Ice), Unit: reckoning.G}))
	}
	return all
}

func said(rule string, puts []reckoning.Figure, result reckoning.Figure) reckoning.Reckoning {
	return reckoning.Reckoning{Rule: rule, Puts: puts, Result: result}
}

func ml(name string, v quantity.Volume, o reckoning.Origin) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: v.ML(), Unit: reckoning.ML, Origin: o}
}

func celsius(name string, t quantity.Celsius, o reckoning.Origin) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: float64(t), Unit: reckoning.C, Origin: o}
}

func density(name string, t quantity.Celsius) reckoning.Figure {
	return reckoning.Figure{
		Name: name, Value: waterAt(t).rho, Unit: reckoning.KgPerM3, Origin: reckoning.Standard, Source: iapws95,
	}
}

func enthalpy(name string, t quantity.Celsius) reckoning.Figure {
	return reckoning.Figure{
		Name: name, Value: waterAt(t).h, Unit: reckoning.KJPerKg, Origin: reckoning.Standard, Source: iapws95,
	}
}

// with returns a copy of puts with one more.
func with(puts []reckoning.Figure, f reckoning.Figure) []reckoning.Figure {
	return append(slices.Clip(puts), f)
}
