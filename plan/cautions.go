package plan

import (
	"cmp"
	"slices"

	"wetside/darkroom"
	"wetside/darkroom/hazards"
	"wetside/trade/dilution"
	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/meet"
	"wetside/trade/process"
	"wetside/trade/temper"
)

// cautions puts what holds for all of the mixing at the head, once, and at a bath only what is special to it.
func (m *maker) cautions() {
	m.stockCautions()
	var used, open []string
	hot := false
	use := func(p *darkroom.Product, mix hazards.Mixing) {
		if !slices.Contains(used, p.Name) {
			used = append(used, p.Name)
			if !judgedByLabel(p, mix) {
				open = append(open, p.Name)
			}
		}
	}
	for _, i := range m.plan.Order {
		b, p := m.bath(i), m.products[i]
		if p == nil {
			continue
		}
		mix := mixing(m.judge, p, b.Dilution)
		b.Cautions = bathCautions(m.judge, b, p, mix)
		if slices.Contains(used, p.Name) { // what it does was said where it is poured from first
			b.Cautions = slices.DeleteFunc(b.Cautions, func(c Caution) bool { return c.Kind == Harmful })
		}
		if !hot && scalding(b) { // said where the hot tap is first used: what is repeated is not read
			hot = true
			b.Cautions = append(b.Cautions, Caution{Kind: HotWater, Subject: p.Name})
		}
		use(p, mix)
	}
	for _, x := range m.plan.DayBefore {
		p := m.product(x.Product)
		use(p, mixing(m.judge, p, dilution.Dilution{}))
	}
	if len(used) == 0 {
		return
	}
	m.plan.Cautions = headCautions(m.file.Darkroom, open)
	m.plan.Never = slices.DeleteFunc(m.judge.Never(m.file, used, true), func(x meet.Pair) bool { return x.A == meet.Water })
}

// stockCautions puts what is special to a powder where it is made up.
func (m *maker) stockCautions() {
	for i := range m.plan.DayBefore {
		s := &m.plan.DayBefore[i]
		p := m.product(s.Product)
		s.Cautions = append([]Caution{{Kind: PowderDust, Subject: p.Name, Hazards: p.Hazards}}, harmful(p, mixing(m.judge, p, dilution.Dilution{}))...)
		if s.MixAt >= scalds {
			s.Cautions = append(s.Cautions, Caution{Kind: HotWater, Subject: p.Name})
		}
	}
}

// headCautions is what is said once; open are the products that can't be judged, or not wholly.
func headCautions(room darkroom.Room, open []string) []Caution {
	out := []Caution{{Kind: GlovesGoggles}, {Kind: LabelFirst}}
	if len(open) > 0 {
		out = append(out, Caution{Kind: NotJudged, Names: open})
	}
	out = append(out, Caution{Kind: NoKitchenware}, Caution{Kind: Air})
	if room.Place == darkroom.School {
		out = append(out, Caution{Kind: PupilsTongs})
	}
	return append(out, AidCautions(room)...)
}

// AidCautions is what to do once it has happened, and whom to call.
func AidCautions(room darkroom.Room) []Caution {
	out := []Caution{{Kind: InEye}, {Kind: Spilt}, {Kind: Swallowed}}
	if room.PoisonCentre == "" {
		return append(out, Caution{Kind: PoisonBlank})
	}
	return append(out, Caution{Kind: PoisonCentre, Subject: room.PoisonCentre})
}

// Products are the names of what is in use, each once, in the order of mixing.
func (p Plan) Products() []string {
	var out []string
	add := func(name string) {
		if name != "" && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	for _, s := range p.DayBefore {
		add(s.Product)
	}
	for _, i := range p.Order {
		add(p.Baths[i].Product)
	}
	return out
}

// mixing judges a product as it is mixed; impossible shares are not judged.
func mixing(j *hazards.Judge, p *darkroom.Product, d dilution.Dilution) hazards.Mixing {
	mix, err := j.Mixing(p, d)
	if err != nil {
		none := hazard.Result{NotJudged: []hazard.Ingredient{{Name: hazard.Undeclared}}}
		return hazards.Mixing{From: none, Works: none, Acid: p.Acid.Value, Alkali: p.Alkali.Value}
	}
	return mix
}

// judgedByLabel tells whether a product is judged: all that it declares, or, where it declares nothing, by its label's statements.
func judgedByLabel(p *darkroom.Product, mix hazards.Mixing) bool {
	if len(p.Contains) == 0 {
		return len(p.Hazards) > 0
	}
	return mix.From.Judged() && mix.From.Whole()
}

// bathCautions returns what is special to a bath.
func bathCautions(j *hazards.Judge, b *Bath, p *darkroom.Product, mix hazards.Mixing) []Caution {
	var out []Caution
	add := func(yes bool, c Caution) {
		if yes {
			c.Subject, c.Hazards = p.Name, p.Hazards
			out = append(out, c)
		}
	}
	out = append(out, acidUnknown(j, p, mix)...)
	add(mix.Acid, Caution{Kind: AcidIntoWater})
	add(mix.Alkali, Caution{Kind: StrongAlkali})
	out = append(out, harmful(p, mix)...)
	add(mix.Vapour != "" && p.Role != process.StopBath, Caution{Kind: Vapour, Other: mix.Vapour})
	add(mix.Vapour != "" && p.Role == process.StopBath, Caution{Kind: OdourlessStop, Other: mix.Vapour})
	add(p.Role == process.Toner, Caution{Kind: TonerApart})
	add(p.Role == process.Fixer && b.Step != process.SecondFix, Caution{Kind: FixerNoDrain})
	return out
}

// harmful says what a product does as it is poured from, and what its working solution still does: of the label's statements and the
// reckoned ones both, as neither knows all.
func harmful(p *darkroom.Product, mix hazards.Mixing) []Caution {
	var out []Caution
	codes := slices.Clone(mix.From.Codes)
	if mix.From.State != hazard.Stock {
		codes = append(codes, p.Hazards...)
	}
	if harms := ghs.HarmsOf(codes); len(harms) > 0 {
		out = append(out, Caution{
			Kind: Harmful, Subject: p.Name, Hazards: p.Hazards, From: mix.From.State, Harms: harms, Thinned: mix.Works.Harms(),
		})
	}
	if g, because := mix.From.Gloves(); g == hazard.ThickGlove {
		out = append(out, Caution{Kind: ThickGloves, Subject: p.Name, Other: because})
	}
	return out
}

// acidUnknown says of a stop bath that nobody declared, before anything is poured: if it is an acid, water goes first.
func acidUnknown(j *hazards.Judge, p *darkroom.Product, mix hazards.Mixing) []Caution {
	if p.Role == process.StopBath && !p.Acid.Given() && !mix.Acid && !waterFirst(j, p) {
		return []Caution{{Kind: AcidUnknown, Subject: cmp.Or(p.Name, p.Role.String())}}
	}
	return nil
}

// oneCautions returns the cautions of one bath alone, of which no head is shown.
func oneCautions(j *hazards.Judge, p *darkroom.Product, d dilution.Dilution) []Caution {
	mix := mixing(j, p, d)
	if p.Name == "" {
		return acidUnknown(j, p, mix)
	}
	var out []Caution
	if !judgedByLabel(p, mix) {
		out = append(out, Caution{Kind: NotJudged, Names: []string{p.Name}})
	}
	return append(out, bathCautions(j, &Bath{Step: process.NoStep, Role: p.Role}, p, mix)...)
}

func scalding(b *Bath) bool {
	return b.Temper != nil && b.Temper.Status != temper.OutOfReach && b.Temper.Scald
}
