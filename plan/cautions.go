package plan

import (
	"slices"
	"strings"

	"wetside/darkroom"
	"wetside/trade/process"
	"wetside/trade/temper"
)

// cautions puts what holds for all of the mixing at the head, once, and at a bath only what is special to it.
func (m *maker) cautions() {
	mixing, hot := len(m.plan.DayBefore) > 0, false
	for _, i := range m.plan.Order {
		b, p := m.bath(i), m.products[i]
		if p == nil {
			continue
		}
		mixing = true
		b.Cautions = bathCautions(b, p)
		if !hot && scalding(b) { // said where the hot tap is first used: what is repeated is not read
			hot = true
			b.Cautions = append(b.Cautions, Caution{Kind: HotWater, Subject: p.Name})
		}
	}
	if !mixing {
		return
	}
	m.plan.Cautions = []Caution{{Kind: GlovesGoggles}, {Kind: LabelFirst}, {Kind: NoKitchenware}, {Kind: Air}}
	if c := m.file.Darkroom.PoisonCentre; c != "" {
		m.plan.Cautions = append(m.plan.Cautions, Caution{Kind: PoisonCentre, Subject: c})
	}
}

// bathCautions returns what is special to a bath.
func bathCautions(b *Bath, p *darkroom.Product) []Caution {
	var out []Caution
	add := func(k CautionKind, yes bool) {
		if yes {
			out = append(out, Caution{Kind: k, Subject: p.Name, Hazards: p.Hazards})
		}
	}
	out = append(out, acidUnknown(p)...)
	add(AcidIntoWater, p.Acid.Value)
	add(StrongAlkali, p.Alkali.Value)
	add(Corrosive, hazard(p, "H314") && !p.Acid.Value && !p.Alkali.Value)
	add(Sensitiser, hazard(p, "H317") || hazard(p, "H334"))
	add(FixerNoDrain, p.Role == process.Fixer && b.Step != process.SecondFix)
	return out
}

func scalding(b *Bath) bool {
	return b.Temper != nil && b.Temper.Status != temper.OutOfReach && b.Temper.Scald
}

func hazard(p *darkroom.Product, h string) bool {
	return slices.ContainsFunc(p.Hazards, func(x string) bool { return strings.HasPrefix(x, h) })
}
