package plan

import "wetside/trade/measure"

// rinses names, for every bath, the vessels that another product was in before it, in the order of mixing: they are
// washed between.
func (m *maker) rinses() {
	last := map[string]string{} // vessel → product
	for _, i := range m.plan.Order {
		b := m.bath(i)
		if len(b.Mix.Choices) == 0 {
			continue
		}
		seen := map[string]bool{}
		for _, s := range b.Mix.Choices[0].Steps {
			if s.Vessel < 0 || (s.Do != measure.Pour && s.Do != measure.Fill) {
				continue
			}
			name := b.Vessels[s.Vessel].Name
			if before, used := last[name]; used && before != b.Product && !seen[name] {
				b.Rinse = append(b.Rinse, name)
			}
			seen[name] = true
		}
		for name := range seen {
			last[name] = b.Product
		}
	}
}
