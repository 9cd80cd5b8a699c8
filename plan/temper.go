package plan

import (
	"context"
	"slices"

	"wetside/darkroom"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/temper"
)

// usualTemperature is the temperature of baths whose label names none: 20 °C, common practice.
const usualTemperature quantity.Celsius = 20

// temperAll finds the water of every bath.
func (m *maker) temperAll(ctx context.Context) {
	w := m.file.Darkroom.Water
	known := w.Cold.Given() && w.Hot.Given()
	asked := false
	for i := range m.plan.Baths {
		b, p := m.bath(i), m.products[i]
		if p == nil || len(b.Mix.Choices) == 0 {
			continue
		}
		b.Temperature = p.Temperature.Or(m.workingTemperature(b))
		asked = true
		if known {
			m.temperBath(ctx, b, p)
		}
	}
	if asked && !known {
		m.find(Finding{Kind: TapsUnknown})
	}
}

// workingTemperature is the developer's, so that all baths of a chain stand at one temperature; else the usual one.
func (m *maker) workingTemperature(b *Bath) quantity.Celsius {
	for i := range m.plan.Baths {
		o := m.bath(i)
		if o.Step == process.Develop && m.film(o) == m.film(b) && m.products[i] != nil && m.products[i].Temperature.Given() {
			return m.products[i].Temperature.Value
		}
	}
	return usualTemperature
}

// temperBath finds hot and cold for one bath. Where one jugful is made up round a chemical from another vessel, the
// water is tempered in that jug, and the chemical goes into it; else in another vessel, by the vesselful.
func (m *maker) temperBath(ctx context.Context, b *Bath, p *darkroom.Product) {
	c := b.Mix.Choices[0]
	chemical := sum(c.Chemical)
	water := c.Total - chemical
	if water <= 0 {
		return
	}
	vessel, holds := inPlace(c, b.Vessels)
	b.TemperInPlace = vessel != ""
	if !b.TemperInPlace {
		vessel, holds = m.waterVessel(p, c, b.Vessels)
	}
	times := quantity.Volume(1)
	for holds > 0 && water/times > holds && times < 2*measure.MaxJugfuls {
		times++
	}
	b.TemperVessel, b.TemperTimes = vessel, int(times)
	b.Temper = m.temper(ctx, temper.Problem{
		Want: b.Temperature, Total: c.Total / times, Chemical: chemical / times, ChemicalAt: m.roomTemperature(),
		Step: m.stepOf(vessel),
	})
	if b.Temper != nil && b.Temper.Status == temper.OutOfReach {
		b.Findings = append(b.Findings, m.warmOrCold(b))
	}
}

// inPlace returns the jug that one jugful is made up in round a chemical measured elsewhere; empty for any other manner.
func inPlace(c measure.Choice, vs []measure.Vessel) (name string, holds quantity.Volume) {
	fills := 0
	for _, s := range c.Steps {
		if s.Do != measure.Fill {
			continue
		}
		fills += s.Times
		name, holds = vs[s.Vessel].Name, s.Volume
	}
	if fills != 1 || (c.Manner != measure.Poured && c.Manner != measure.Weighed) {
		return "", 0
	}
	return name, holds
}

// warmOrCold says that a bath may be used at the temperature that can be had, with another time.
func (m *maker) warmOrCold(b *Bath) Finding {
	f := Finding{Kind: ColdRoom, Subject: b.Product, Figures: []reckoning.Figure{
		{Name: "wanted", Value: float64(b.Temperature), Unit: reckoning.C},
		{Name: "nearest", Value: float64(b.Temper.Nearest), Unit: reckoning.C},
	}}
	if b.Temper.Nearest > b.Temperature {
		f.Kind = WarmRoom
	}
	return f
}

func (m *maker) roomTemperature() quantity.Celsius {
	return m.file.Darkroom.Room.Or(usualTemperature)
}

// temper asks package temper with the room's taps; nil where the taps are not known or nothing sensible comes of it.
func (m *maker) temper(ctx context.Context, p temper.Problem) *temper.Result {
	w := m.file.Darkroom.Water
	if !w.Cold.Given() || !w.Hot.Given() {
		return nil
	}
	p.Cold, p.Hot, p.Kettle, p.Ice = w.Cold.Value, w.Hot.Value, w.Kettle.Value, w.Ice.Value
	res, err := temper.Solve(ctx, p)
	if err != nil {
		return nil
	}
	return &res
}

// waterVessel returns the largest vessel that water for a product may be tempered in: none that the mix itself is
// measured in.
func (m *maker) waterVessel(p *darkroom.Product, c measure.Choice, vs []measure.Vessel) (name string, holds quantity.Volume) {
	for _, v := range m.file.Bench.Vessels {
		if !free(v, p, m.file.Bench) || (v.Kind != measure.Jug && v.Kind != measure.Beaker) {
			continue
		}
		if slices.ContainsFunc(c.Vessels, func(i int) bool { return vs[i].Name == v.Name }) {
			continue
		}
		if h := v.Holds(); h > holds {
			name, holds = v.Name, h
		}
	}
	return name, holds
}

// stepOf returns the division of a vessel's first scale, 0 where it has none.
func (m *maker) stepOf(vessel string) quantity.Volume {
	for _, v := range m.file.Bench.Vessels {
		if v.Name != vessel {
			continue
		}
		return divisionOf(v)
	}
	return 0
}

func divisionOf(v darkroom.Vessel) quantity.Volume {
	for _, s := range v.Scales {
		if s.Grams {
			continue
		}
		if d, err := s.Step.Value.Of(s.Unit.Value.Volume()); err == nil {
			return d
		}
	}
	return 0
}
