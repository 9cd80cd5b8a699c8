package draw

import (
	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/quantity"
	"wetside/trade/temper"
	"wetside/words"
)

// WaterOf returns the picture of a bath's water: hot and cold to their marks in the bench's vessel that they meet in. It is
// false where nothing is tempered.
func WaterOf(v *words.Voice, b plan.Bath, f darkroom.File) (Tempering, bool) {
	if b.Temper == nil || len(b.Temper.Marks) == 0 {
		return Tempering{}, false
	}
	t := Tempering{Want: b.Temper.Water}
	unit := quantity.UnitML
	if x, ok := f.Bench.Vessel(b.TemperVessel); ok {
		if p, known := f.Shelf.Product(b.Product); known && len(x.Scales) > 0 {
			vessel := x.ForMeasure(p, f.Bench)
			t.Vessel, unit = &vessel, vessel.Scales[0].Unit
		}
	}
	t.Say.Unit = unit.Symbol()
	for _, m := range b.Temper.Marks {
		t.Pours = append(t.Pours, waterPour(v, m, unit, f.Darkroom.Water))
	}
	t.Say.Stop, t.Say.Want = v.Label("stop_here"), v.Temperature(b.Temper.Water)
	t.Say.Label = v.TemperLine(*b.Temper, words.WaterOf(b)).Text()
	return t, true
}

func waterPour(v *words.Voice, m temper.Mark, unit quantity.VolumeUnit, taps darkroom.Water) TemperingPour {
	out := TemperingPour{To: m.To, What: v.Label(map[temper.Source]string{
		temper.HotTap: "hot", temper.ColdTap: "cold", temper.KettleWater: "kettle", temper.IceByWeight: "ice",
	}[m.From])}
	if m.From == temper.IceByWeight {
		out.To, out.Number = 0, v.Mass(m.Grams)
		return out
	}
	if n, ok := unit.Mark(m.To.InUnit(unit)); ok {
		out.Number = n
	} else {
		out.Number = v.Volume(m.To)
	}
	switch m.From {
	case temper.HotTap:
		out.Degree = v.Temperature(taps.Hot.Value)
	case temper.ColdTap:
		out.Degree = v.Temperature(taps.Cold.Value)
	case temper.KettleWater, temper.IceByWeight:
	}
	return out
}
