package ahead

import (
	"math"
	"slices"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/dilution"
	"wetside/trade/process"
)

// plainDilution is the strength from which on a liquid counts as sold ready to use, or as a stock at its own strength:
// its label's parts then say nothing of how much thiosulfate it holds.
const plainDilution = 1.0 / 2

// thiosulfate returns what a fixer holds as made up, g/L: in proportion to its dilution, 1+4 being film strength.
func (b *Bath) thiosulfate() float64 {
	film := bath.FilmStrength().Value
	powder := b.Product != nil && b.Product.Form == darkroom.Powder
	strength := b.strength()
	if powder || strength >= plainDilution || strength == 0 {
		return film
	}
	return film * strength / bath.FilmDilution
}

// strength returns the chemical's share of the working solution, 0 where nobody said.
func (b *Bath) strength() float64 {
	r, err := b.Dilution.Strength(0)
	if err != nil {
		return 0
	}
	return r.Float()
}

// simple turns a bath into what the trade reckons with.
func (b *Bath) simple(acids *acids) (bath.Bath, error) {
	switch b.Role {
	case process.Developer:
		return bath.NewDeveloper(b.Litres), nil
	case process.StopBath:
		t, err := acids.titration(b)
		return bath.NewStop(b.Litres, t), err
	case process.Fixer:
		f := bath.NewFixer(b.Litres, b.thiosulfate())
		f.Made[bath.Silver] = b.began * b.Litres
		return f, nil
	default:
		return bath.NewWater(b.Litres), nil
	}
}

// past turns the scene into what went through its baths.
func (s *Scene) past() (bath.Past, error) {
	p := bath.Past{Prior: s.prior()}
	acids := s.acids
	began := s.beginnings()
	for i := range s.Baths {
		b, err := s.Baths[i].simple(acids)
		if err != nil {
			return p, err
		}
		p.Baths = append(p.Baths, b)
	}
	for i := range s.Events {
		if slices.Contains(began, i) {
			continue
		}
		if step, ok := s.step(&s.Events[i], p.Baths); ok {
			p.Steps = append(p.Steps, step)
		}
	}
	return p, nil
}

// prior is what is believed of the room's materials, with its own draining.
func (s *Scene) prior() bath.Prior {
	p := bath.DefaultPrior()
	if s.Room.DrainTime.Given() {
		for m := range p {
			p[m].Drained = s.Room.DrainTime.Value.Seconds()
		}
	}
	return p
}

func (s *Scene) step(e *Event, baths []bath.Bath) (bath.Step, bool) {
	switch {
	case e.Pass != nil:
		return e.Pass.step(), true
	case e.TopUp != nil:
		made := baths[e.TopUp.Bath].Made
		part := bath.Contents{bath.Liquid: e.TopUp.Litres}
		if !e.TopUp.Water {
			for a := range part {
				part[a] = made[a] * e.TopUp.Litres / made[bath.Liquid]
			}
		}
		return bath.ToppedUp{Bath: e.TopUp.Bath, With: part}, true
	case e.Test != nil:
		reading, ok := e.Test.reading(&baths[e.Test.Bath])
		return bath.Seen{Bath: e.Test.Bath, Test: reading}, ok
	}
	return nil, false
}

func (p *Pass) step() bath.Worked {
	return bath.Worked{
		Sheet:   bath.Sheet{Of: p.Material, Area: p.Area, Drained: p.Drained.Seconds()},
		Sheets:  p.Sheets,
		Through: p.Baths,
	}
}

// reading turns a test's result into what narrows the room's rates; ok is false where it narrows none of them.
func (t *Test) reading(b *bath.Bath) (bath.Reading, bool) {
	r := &t.Result
	switch r.Test {
	case book.SilverStrip:
		class, err := r.Class(t.Steps)
		return bath.StripRead{Steps: t.Steps, Class: class}, err == nil && len(t.Steps) > 0
	case book.PHPaper:
		return bath.PHRead{PH: (r.From + r.To) / 2}, b.Titration != nil
	case book.IndicatorTest:
		return bath.IndicatorRead{Turned: r.Verdict == book.Failed}, b.Titration != nil && r.Verdict != book.NoVerdict
	case book.ClearingTime:
		if r.Fresh <= 0 || r.From <= 0 || b.Kind != bath.Fixing {
			return nil, false
		}
		return bath.ClearingRead{Times: r.From / r.Fresh.Seconds()}, true
	case book.DropTest:
		return bath.DropRead{Clouded: r.Verdict == book.Failed}, r.Verdict != book.NoVerdict
	case book.LevelTest:
		return bath.LevelRead{Litres: (r.From + r.To) / 2000}, r.To > 0
	case book.SilverDrop, book.HypoDrop, book.LightTest, book.Thermometer:
	}
	return nil, false
}

// filmDilution is 1+4.
func filmDilution() dilution.Dilution {
	d, err := dilution.Read("1+4", dilution.Options{})
	if err != nil {
		return dilution.Dilution{}
	}
	return d
}

// beginnings finds, for each bath of unknown age, the first silver strip: what it showed at most is taken as what the
// bath began with. It returns the numbers of those events; they teach nothing of the room.
func (s *Scene) beginnings() []int {
	var found []int
	s.Baths = slices.Clone(s.Baths)
	for b := range s.Baths {
		if s.Baths[b].Known != book.MadeUnknown {
			continue
		}
		at := slices.IndexFunc(s.Events, func(e Event) bool {
			return e.Test != nil && e.Test.Bath == b && e.Test.Result.Test == book.SilverStrip
		})
		if at < 0 {
			continue
		}
		r := &s.Events[at].Test.Result
		s.Baths[b].began = r.To
		if r.To <= r.From || math.IsInf(r.To, 1) {
			s.Baths[b].began = r.From * overStep
		}
		found = append(found, at)
	}
	return found
}

// overStep is how far over the step that a strip matched its silver may lie, as a ratio; from memory.
const overStep = 1.25
