package measure_test

import (
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// fraction returns a figure that is a multiple of 1/1000 or of 1/64.
func fraction(x float64) quantity.Ratio {
	for _, den := range []int64{1, 64, 1000} {
		if n := int64(x*float64(den) + 0.5); float64(n)/float64(den) == x {
			r, err := quantity.NewRatio(n, den)
			if err != nil {
				panic(err)
			}
			return r
		}
	}
	panic("no such figure in these tests")
}

func scaleIn(u quantity.VolumeUnit, from, to, step, numbered float64) measure.Scale {
	return measure.Scale{Unit: u, From: fraction(from), To: fraction(to), Step: fraction(step), Numbered: fraction(numbered)}
}

func inML(from, to, step, numbered float64) measure.Scale {
	return scaleIn(quantity.UnitML, from, to, step, numbered)
}

func inOz(from, to, step, numbered float64) measure.Scale {
	return scaleIn(quantity.UnitUSOunce, from, to, step, numbered)
}
