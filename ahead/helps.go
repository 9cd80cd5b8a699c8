package ahead

import (
	"slices"
	"time"

	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// helpDraws is how many rooms another way of working is reckoned in.
const helpDraws = 1000

// helps reckons other ways of working, in the same possible rooms.
func (l *looker) helps(o *Outlook) []Help {
	if o.Bath.Role != process.Fixer && o.Bath.Role != process.StopBath || o.Left.P10 == 0 {
		return nil
	}
	var out []Help
	for _, h := range otherWays(o) {
		s := *l.scene
		s.Helps, s.Courses, s.Draws, s.Tonight, s.aside = false, false, helpDraws, nil, true
		s.Baths, s.Chains = slices.Clone(s.Baths), []Chain{o.Chain}
		s.Chains[0].Baths = slices.Clone(o.Chain.Baths)
		h.change(&s, o.Index)
		r, err := Look(s)
		if err != nil {
			continue
		}
		at := slices.IndexFunc(r.Baths, func(x Outlook) bool { return x.Index == o.Index })
		if at < 0 || r.Baths[at].Left == nil {
			continue
		}
		left := *r.Baths[at].Left
		if o.End.By == ByLabel && left.P10 == o.Left.P10 {
			continue // the label is in the way of both
		}
		out = append(out, Help{h.kind, left, float64(left.P10) >= 1.1*float64(o.Left.P10)})
	}
	return out
}

type way struct {
	kind   HelpKind
	change func(s *Scene, index int)
}

// otherWays are those that differ from how the bath is worked.
func otherWays(o *Outlook) []way {
	var ways []way
	add := func(when bool, kind HelpKind, change func(s *Scene, index int)) {
		if when {
			ways = append(ways, way{kind, change})
		}
	}
	fixer, c := o.Bath.Role == process.Fixer, &o.Chain
	add(fixer && c.Fixing != process.TwoBaths && c.Material.Paper(), HelpTwoBaths, secondFixer)
	add(fixer && c.Standard != process.WorkPrint && c.Material.Paper(), HelpWorkPrint, func(s *Scene, _ int) {
		s.Chains[0].Standard = process.WorkPrint
	})
	add(c.Material == material.FB, HelpRC, func(s *Scene, _ int) { s.Chains[0].Material = material.RC })
	add(fixer && o.Bath.thiosulfate() < bath.FilmStrength().Value*0.95, HelpStronger, func(s *Scene, index int) {
		s.Baths[index].Dilution = filmDilution()
	})
	add(true, HelpMore, func(s *Scene, index int) { s.Baths[index].Litres *= 1.5 })
	add(true, HelpDrain, func(s *Scene, _ int) {
		drained := time.Duration(process.Drain().Value) * time.Second
		if s.Room.DrainTime.Given() {
			drained = s.Room.DrainTime.Value
		}
		s.Chains[0].Drained = drained + 10*time.Second
	})
	return ways
}

// secondFixer puts a fresh second fixer behind the one that stands there.
func secondFixer(s *Scene, index int) {
	second := s.Baths[index]
	s.Baths[index].Place = bath.First
	second.ID, second.Place = second.ID+" second", bath.Second
	s.Baths = append(s.Baths, second)
	c := &s.Chains[0]
	c.Fixing = process.TwoBaths
	at := slices.Index(c.Baths, index)
	c.Baths = slices.Insert(c.Baths, at+1, len(s.Baths)-1)
}
