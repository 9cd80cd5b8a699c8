package hazard

import (
	"math"
	"slices"

	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
	"wetside/trade/reckoning"
)

// A Part is so many mass per cent of a substance.
type Part struct {
	Substance substance.Substance
	Share     float64
}

// A Verdict is what the concentration rules give for exact shares.
type Verdict struct {
	Classes []ghs.Class // in the standard's order
	Effects string      // behind H360 and H361: F, D, FD, f, d, fd
	// Elicits are sensitisers that are named though the mixture is not classed for them (EUH208).
	Elicits []string
	// Supplements are EUH031, EUH032.
	Supplements []string
	// UnknownAcute is the share of unknown acute toxicity where it changes the reckoning, else 0.
	UnknownAcute float64
	Reckoning    []reckoning.Reckoning
}

// Judge applies the concentration rules to known substances, and counts unknown mass per cent, in ingredients of 1 % and more,
// as of unknown acute toxicity.
func Judge(parts []Part, unknown float64, law Law) Verdict {
	var v Verdict
	v.acute(parts, unknown)
	v.skin(parts)
	v.eyes(parts)
	for _, p := range parts {
		v.alone(p, law)
		v.supplements(p)
	}
	v.water(parts)
	slices.Sort(v.Classes)
	v.Classes = slices.Compact(v.Classes)
	v.Classes = worst(v.Classes)
	for _, p := range parts {
		v.elicits(p)
	}
	return v
}

// worst keeps the severest class of each kind.
func worst(classes []ghs.Class) []ghs.Class {
	return slices.DeleteFunc(slices.Clone(classes), func(c ghs.Class) bool {
		return slices.ContainsFunc(classes, func(d ghs.Class) bool {
			return d.Severer(c) || c == ghs.EyeDam1 && d.Code() == ghs.SkinCorr1.Code()
		})
	})
}

// atLeast tells whether a sum reaches a limit: equal is enough, and binary fractions are not to blame.
func atLeast(sum, limit float64) bool { return sum >= limit-1e-9*math.Max(1, limit) }

func (v *Verdict) give(c ghs.Class) { v.Classes = append(v.Classes, c) }

// A rule is one that weighs shares and compares their sum with a limit, mass per cent.
type rule struct {
	name   string
	limit  float64
	source string // empty from memory
}

// A weighed share of a sum.
type weighed struct {
	part   Part
	weight float64
	basis  substance.Basis
}

// sum adds weighed shares up, keeps how, and tells whether the limit is reached. Nothing is kept of a sum of nothing.
func (v *Verdict) sum(r rule, ws []weighed) bool {
	if len(ws) == 0 {
		return false
	}
	total, puts := 0.0, make([]reckoning.Figure, 0, 2*len(ws)+1)
	for _, w := range ws {
		total += w.part.Share * w.weight
		puts = append(puts, w.part.figure(), reckoning.Figure{
			Name: "hazard_weight", Of: w.part.Substance.Name, Value: w.weight, Origin: w.basis.Origin(), Source: w.basis.Source,
		})
	}
	puts = append(puts, r.figure())
	v.Reckoning = append(v.Reckoning, reckoning.Reckoning{
		Rule: r.name, Puts: puts, Result: reckoning.Figure{Name: "weighed_share", Value: total / 100, Unit: reckoning.Share},
	})
	return atLeast(total, r.limit)
}

func (p Part) figure() reckoning.Figure {
	return reckoning.Figure{Name: "ingredient_share", Of: p.Substance.Name, Value: p.Share / 100, Unit: reckoning.Share, Origin: reckoning.Label}
}

func (r rule) figure() reckoning.Figure {
	f := reckoning.Figure{Name: "class_limit", Value: r.limit / 100, Unit: reckoning.Share, Origin: reckoning.Standard, Source: r.source}
	if r.source == "" {
		f.Origin = reckoning.FromMemory
	}
	return f
}

// Harms returns what a mixture does, by its statements. A sensitiser that EUH208 names can still bring on an allergy that is there;
// it makes nobody allergic by its class, and is no harm here.
func (r Result) Harms() []ghs.Harm { return ghs.HarmsOf(r.Codes) }

// Judged tells whether anything stands behind a judgement: a known ingredient, or a label's own statements. Where it is false nothing
// may be called harmless.
func (r Result) Judged() bool { return len(r.known) > 0 || len(r.Codes) > 0 }

// Whole tells whether everything declared was judged.
func (r Result) Whole() bool { return len(r.NotJudged) == 0 }
