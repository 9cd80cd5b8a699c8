package facts

import (
	"strconv"
	"strings"

	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// number writes an exact number: a whole or a short decimal as such, anything else as a fraction, 1/3 or 4 1/2.
func number(r quantity.Ratio) string {
	if d := r.Den(); d == 1 {
		return strconv.FormatInt(r.Num(), 10)
	}
	for places, ten := 1, int64(10); places <= 6; places, ten = places+1, ten*10 {
		if ten%r.Den() == 0 {
			s := strconv.FormatFloat(r.Float(), 'f', places, 64)
			return strings.TrimRight(s, "0")
		}
	}
	return strconv.FormatInt(r.Num(), 10) + "/" + strconv.FormatInt(r.Den(), 10)
}

func grade(g measure.Grade) string { return [...]string{"A", "B", "C"}[g] }

func manner(m measure.Manner) string {
	return [...]string{"in_jug", "poured", "first_jug", "apart", "weighed", "intermediate"}[m]
}

func do(d measure.Do) string {
	return [...]string{"pour", "fill", "weigh", "start", "tip", "rinse", "stir"}[d]
}

func what(w measure.What) string {
	return [...]string{"chemical", "A", "B", "water", "intermediate", "mix"}[w]
}

func aspect(a measure.Aspect) string {
	return [...]string{
		"readings", "accuracy", "vessels", "total_ml", "chemical_used_ml", "other_scales", "between_marks",
	}[a]
}

func origin(o reckoning.Origin) string {
	return [...]string{"computed", "asked", "label", "measured", "standard", "common_practice", "from_memory"}[o]
}
