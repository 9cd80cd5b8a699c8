package measure_test

import (
	"fmt"
	"strings"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// say writes an action in one line: "in jug: 1x 100 mL @jug | 1x 1000 mL @jug". Chemicals stand before
// the bar, each its own; water after it, the fill that takes the chemical first.
func (q *question) say(a *action) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s%s: ", mannerName(a.manner), map[bool]string{true: " apart"}[a.apart && a.manner == measure.Weighed])
	if a.r != nil {
		fmt.Fprintf(&b, "%s in %s, of it ", q.sayMark(a.r), q.sayMark(a.q))
	}
	for i := range q.chemicals {
		if i > 0 {
			b.WriteString(" & ")
		}
		b.WriteString(q.sayPlan(a.doses[i], a.dosings()))
	}
	if a.fills[0].m != nil {
		b.WriteString(" | " + q.sayPlan(a.fills, 1))
	}
	return b.String()
}

func (q *question) sayPlan(p plan, times int) string {
	var all []string
	for _, x := range p {
		if x.m != nil {
			all = append(all, fmt.Sprintf("%dx %s", x.n*times, q.sayMark(x.m)))
		}
	}
	return strings.Join(all, " + ")
}

func (q *question) sayMark(m *mark) string {
	number, _ := m.number.Float64()
	v := q.Vessels[m.vessel]
	return fmt.Sprintf("%g %s @%s", number, unitName(v, v.Scales[m.scale].Unit), v.Name)
}

func unitName(v measure.Vessel, u quantity.VolumeUnit) string {
	if v.Kind == measure.Balance {
		return "g"
	}
	return map[quantity.VolumeUnit]string{
		quantity.UnitML: "mL", quantity.UnitLitre: "L", quantity.UnitUSOunce: "fl oz",
		quantity.UnitImperialOunce: "imp fl oz",
	}[u]
}

func mannerName(m measure.Manner) string {
	return [...]string{"in jug", "poured", "first jug", "apart", "weighed", "intermediate"}[m]
}
