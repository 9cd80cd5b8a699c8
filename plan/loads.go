package plan

import (
	"slices"

	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// loads resolves what is to be made: permanence, area, units.
func (m *maker) loads() {
	for _, l := range m.file.Session.ToMake {
		x := Load{
			Material: l.Material, Size: l.Size.Value, Sheets: l.Sheets, Rolls: l.Rolls, Strips: l.Strips,
		}
		if x.Sheets+x.Rolls+x.Strips == 0 {
			x.Sheets = 1
		}
		m.wanted(&x, l.Wanted)
		m.area(&x)
		m.plan.Loads = append(m.plan.Loads, x)
		m.loadBaths = append(m.loadBaths, map[process.Step]int{})
	}
	if len(m.plan.Loads) == 0 {
		m.find(Finding{Kind: NothingToMake})
	}
}

// wanted takes the session's wish, else the room's own standard, else an assumption that is said.
func (m *maker) wanted(x *Load, w darkroom.Wanted) {
	room := m.file.Darkroom.Standards[x.Material]
	x.Standard, x.Fixing = w.Standard, w.Fixing
	if x.Standard == process.StandardUnsaid {
		x.Standard = room.Standard
	}
	if x.Fixing == process.FixingUnsaid {
		x.Fixing = room.Fixing
	}
	x.WashAid = w.WashingAid.Or(room.WashingAid.Value)
	if x.Material.Paper() && x.Standard == process.StandardUnsaid {
		x.Standard = process.Exhibition
		m.find(Finding{Kind: StandardAssumed, Subject: x.Material.String()})
	}
	if x.Fixing == process.FixingUnsaid {
		x.Fixing = process.OneBath
		if x.Material == material.FB {
			x.Fixing = process.TwoBaths
			m.find(Finding{Kind: FixingAssumed, Subject: x.Material.String()})
		}
	}
	if x.Material == material.FB && x.Standard == process.Archival && x.Fixing == process.OneBath {
		m.find(Finding{Kind: ArchivalOneBath})
	}
}

// area adds up what goes through the baths, strips as parts of a sheet.
func (m *maker) area(x *Load) {
	one, fig := x.Size.Area()
	usual := process.StripPart()
	strip, origin := usual.Value, usual.Origin
	if s := m.file.Darkroom.Strip; s.Given() {
		strip, origin = s.Value.Float(), reckoning.Measured
	}
	count := float64(x.Sheets+x.Rolls) + strip*float64(x.Strips)
	x.Area = quantity.Area(count) * one
	x.Units = float64(x.Area / material.Unit80)
	x.Reckoning = reckoning.Reckoning{
		Rule: "area_of_load",
		Puts: []reckoning.Figure{
			{Name: "pieces", Value: float64(x.Sheets + x.Rolls), Origin: reckoning.Asked},
			{Name: "strips", Value: float64(x.Strips), Origin: reckoning.Asked},
			{Name: "strip_part", Value: strip, Unit: reckoning.Share, Origin: origin},
			fig,
		},
		Result: reckoning.Figure{Name: "area", Value: float64(x.Area), Unit: reckoning.M2},
	}
}

// largest returns the largest sheet of the given materials, by area, and whether there is any.
func (m *maker) largest(of []material.Material) (material.Size, bool) {
	var best material.Size
	found := false
	for _, l := range m.plan.Loads {
		if l.Size.Roll != material.NoRoll || !has(of, l.Material) {
			continue
		}
		if !found || l.Size.Width*l.Size.Height > best.Width*best.Height {
			best, found = l.Size, true
		}
	}
	return best, found
}

func has[T comparable](list []T, x T) bool { return slices.Contains(list, x) }
