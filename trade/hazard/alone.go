package hazard

import (
	"slices"

	"wetside/trade/hazard/ghs"
	"wetside/trade/reckoning"
)

// A step is the class that a mixture gets from a share on.
type step struct {
	class ghs.Class
	from  float64
}

// The sources of the limits of what is never summed.
const (
	cmrSource   = "TRGS201-CMR"
	birthUS     = "OSHA-2024corr"
	sensSource  = "CLP-candle"
	organSource = "TRGS201-STOT"
	againSource = "UBA-6.13"
)

// dryFrom is the share from which fire and oxidising of the substance itself are told of a mixture; our own choice, as
// only a test can tell.
const dryFrom = 90.0

// stepsOf returns the generic limits of a class that is judged alone, and where they are from.
func stepsOf(c ghs.Class, law Law) (steps []step, source string) {
	switch c.Kind() {
	case ghs.Allergy:
		if c == ghs.SkinSens1A {
			return []step{{c, 0.1}}, sensSource
		}
		return []step{{c, 1}}, sensSource
	case ghs.Breath:
		return []step{{c, 1}}, "" // from memory
	case ghs.Genes, ghs.Cancer:
		if c == ghs.Muta2 || c == ghs.Carc2 {
			return []step{{c, 1}}, cmrSource
		}
		return []step{{c, 0.1}}, cmrSource
	case ghs.Birth, ghs.Milk:
		return birth(c, law)
	case ghs.Once, ghs.Airways, ghs.Drowsy, ghs.Repeated:
		return organs(c)
	case ghs.Fire, ghs.Heating, ghs.Oxidiser, ghs.Metals:
		return []step{{c, dryFrom}}, ""
	default:
		return nil, ""
	}
}

func birth(c ghs.Class, law Law) ([]step, string) {
	switch {
	case law.american():
		return []step{{c, 0.1}}, birthUS
	case c == ghs.Repr2:
		return []step{{c, 3}}, cmrSource
	}
	return []step{{c, 0.3}}, cmrSource
}

func organs(c ghs.Class) ([]step, string) {
	switch c {
	case ghs.STOTSE1:
		return []step{{c, 10}, {ghs.STOTSE2, 1}}, organSource
	case ghs.STOTSE2:
		return []step{{c, 10}}, organSource
	case ghs.STOTRE1:
		return []step{{c, 10}, {ghs.STOTRE2, 1}}, againSource
	case ghs.STOTRE2:
		return []step{{c, 10}}, againSource
	default: // H335, H336
		return []step{{c, 20}}, organSource
	}
}

// alone gives the classes of one substance that are never summed.
func (v *Verdict) alone(p Part, law Law) {
	done := map[ghs.Kind]bool{}
	for _, l := range p.Substance.Limits {
		k := l.Class.Kind()
		if k == ghs.Skin || k == ghs.Eyes {
			continue
		}
		done[k] = true
		r := rule{"specific_limit", l.From, p.Substance.Limited.Source}
		if slices.Contains(p.Substance.Recalled, k) {
			r.source = ""
		}
		v.reached(p, r, l.Class)
	}
	for _, c := range p.Substance.Classes {
		if done[c.Kind()] {
			continue
		}
		steps, source := stepsOf(c, law)
		for _, s := range steps {
			v.reached(p, rule{"single_limit", s.from, source}, s.class)
		}
	}
}

// reached gives a class where one substance's share reaches the limit, and keeps how where it comes within a tenth of it.
func (v *Verdict) reached(p Part, r rule, c ghs.Class) {
	if !atLeast(p.Share, r.limit/10) {
		return
	}
	yes := atLeast(p.Share, r.limit)
	f := reckoning.Figure{Name: "part_of_limit", Of: c.Code(), Value: p.Share / r.limit}
	v.Reckoning = append(v.Reckoning, reckoning.Reckoning{Rule: r.name, Puts: []reckoning.Figure{p.figure(), r.figure()}, Result: f})
	if !yes {
		return
	}
	v.give(c)
	if c.Kind() == ghs.Birth {
		v.affects(p.Substance.Effects)
	}
}

// affects adds what a substance harms behind H360 or H361: capitals are the surer.
func (v *Verdict) affects(effects string) {
	has := v.Effects + effects
	v.Effects = ""
	for _, pair := range []string{"Ff", "Dd"} {
		for _, letter := range pair {
			if slices.Contains([]rune(has), letter) {
				v.Effects += string(letter)
				break
			}
		}
	}
}

// elicits names a sensitiser that is there from a tenth of its limit on, where the mixture is not classed for allergy (CLP-II-2.8).
func (v *Verdict) elicits(p Part) {
	for _, c := range p.Substance.Classes {
		if c.Kind() != ghs.Allergy && c.Kind() != ghs.Breath {
			continue
		}
		steps, _ := stepsOf(c, EU)
		from := steps[0].from
		for _, l := range p.Substance.LimitsOf(c.Kind()) {
			from = l.From
		}
		classed := slices.ContainsFunc(v.Classes, func(d ghs.Class) bool { return d.Kind() == c.Kind() })
		if !classed && atLeast(p.Share, from/10) && !slices.Contains(v.Elicits, p.Substance.Name) {
			v.Elicits = append(v.Elicits, p.Substance.Name)
		}
	}
}

// supplements gives EUH031 and EUH032 from the substance's share on.
func (v *Verdict) supplements(p Part) {
	for _, s := range p.Substance.Supplements {
		if atLeast(p.Share, s.From) && !slices.Contains(v.Supplements, s.Code) {
			v.Supplements = append(v.Supplements, s.Code)
			slices.Sort(v.Supplements)
		}
	}
}
