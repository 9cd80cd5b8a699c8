package measure

import (
	"math"

	"wetside/trade/quantity"
)

// check returns what is wrong with a problem, a *ProblemError, or nil.
func (p *Problem) check() error {
	if err := p.checkDilution(); err != nil {
		return err
	}
	w := p.Window
	switch {
	case w.Min <= 0 || w.Max < w.Min || w.Max > quantity.MaxVolume:
		return &ProblemError{What: EmptyWindow}
	case w.Want != 0 && (w.Want < w.Min || w.Want > w.Max):
		return &ProblemError{What: WantOutside}
	case !(p.Tolerance > 0 && p.Tolerance <= 1):
		return &ProblemError{What: BadTolerance}
	case !usable(float64(p.Density)):
		return &ProblemError{What: BadDensity}
	case len(p.Vessels) == 0:
		return &ProblemError{What: NoVessel}
	case len(p.Vessels) > MaxVessels:
		return &ProblemError{What: TooManyVessels}
	}
	for i := range p.Vessels {
		if err := p.Vessels[i].check(i); err != nil {
			return err
		}
		for j := range i {
			if p.Vessels[j].Name == p.Vessels[i].Name {
				return &ProblemError{What: SameName, Vessel: p.Vessels[i].Name, Index: i}
			}
		}
	}
	return nil
}

func (p *Problem) checkDilution() error {
	d := p.Dilution
	if len(d.Chemicals) == 0 || len(d.Chemicals) > 2 || d.Water.Sign() < 0 {
		return &ProblemError{What: BadDilution}
	}
	for i, c := range d.Chemicals {
		if c.Sign() <= 0 {
			return &ProblemError{What: BadDilution, Index: i}
		}
	}
	if _, err := d.Total(); err != nil {
		return &ProblemError{What: BadDilution}
	}
	if len(p.Available) != 0 && len(p.Available) != len(d.Chemicals) {
		return &ProblemError{What: BadAvailable}
	}
	for i, a := range p.Available {
		if a < 0 {
			return &ProblemError{What: BadAvailable, Index: i}
		}
	}
	return nil
}

func (v *Vessel) check(index int) error {
	bad := func(what Trouble) error { return &ProblemError{What: what, Vessel: v.Name, Index: index} }
	switch {
	case v.Name == "":
		return bad(NoName)
	case v.Kind > Balance:
		return bad(UnknownKind)
	case len(v.Scales) == 0:
		return bad(NoScale)
	case v.Own != nil && !(usable(v.Own.Abs) && usable(v.Own.Rel)):
		return bad(BadPermissible)
	case !usable(v.Setting.OnMark) || !usable(v.Setting.Between):
		return bad(BadSetting)
	case !usable(float64(v.InnerWidth)):
		return bad(BadWidth)
	}
	for i := range v.Scales {
		if what := v.Scales[i].trouble(v.Kind == Balance); what != "" {
			return &ProblemError{What: what, Vessel: v.Name, Index: i, Scale: &v.Scales[i]}
		}
	}
	return nil
}

// trouble returns what is wrong with a scale, or nothing.
func (s *Scale) trouble(balance bool) Trouble {
	switch {
	case s.Unit > quantity.UnitImperialGallon:
		return BadUnit
	case s.Step.Sign() <= 0:
		return BadStep
	case s.From.Sign() < 0 || s.From.Sign() == 0 && !balance:
		return BadFrom
	case s.Numbered.Sign() < 0:
		return BadNumbered
	case s.To.Cmp(s.From) < 0:
		return ToBelowFrom
	}
	n, err := s.steps()
	switch {
	case err != nil || n.Den() != 1:
		return DoesNotDivide
	case n.Num() >= MaxBalanceMarks || n.Num() >= MaxMarks && !balance:
		return TooManyMarks
	}
	if s.tooLarge(balance) {
		return TooLarge
	}
	if _, err := s.grid(); err != nil {
		return DoesNotDivide
	}
	return ""
}

// tooLarge reports whether the last mark is beyond MaxVessel, or as many kilograms on a balance.
func (s *Scale) tooLarge(balance bool) bool {
	if balance {
		return s.To.Cmp(quantity.Int(int64(MaxVessel/quantity.Millilitre))) > 0
	}
	v, err := s.To.Of(s.Unit.Volume())
	return err != nil || v > MaxVessel
}

// steps returns (To−From)/Step.
func (s *Scale) steps() (quantity.Ratio, error) {
	n, err := s.To.Sub(s.From)
	if err != nil {
		return n, err
	}
	return n.Quo(s.Step)
}

// usable reports whether a figure is finite and not negative.
func usable(x float64) bool { return x >= 0 && !math.IsInf(x, 1) }
