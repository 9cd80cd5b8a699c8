package process

import (
	"time"

	"wetside/trade/material"
	"wetside/trade/reckoning"
)

// Wants is what is wanted of a chain beyond the plain one.
type Wants struct {
	Fixing     Fixing // FixingUnsaid counts as OneBath
	WashingAid bool   // for FB and film; RC needs none, and there it changes nothing
	StopRinse  bool   // water in place of the stop bath
	Toning     bool   // for papers
	PreWash    bool   // for film
	Hold       bool   // RC too waits in a holding bath, for minutes; FB always does
	// SecondFixLater leaves the second fixing bath until a batch is together: after the holding bath.
	SecondFixLater bool
}

// A Stage is one step of a chain with its times. They are defaults: a product's label goes before them.
type Stage struct {
	Step Step
	Role Role // of the chemical, NoRole for water
	// Time is the default, between Least and Most. It is 0 where nothing but the label, the chart or the eye can
	// say it: a film's developer, drying, the clearing check, and a holding bath, which has only a Most.
	Time, Least, Most time.Duration
	Drain             time.Duration      // after the step, 0 where nothing drains
	Figures           []reckoning.Figure // time, time_least, time_most, drain, as far as there are any; s
}

// Chain returns the steps that a material goes through, in order; nil for material.None.
//
// Paper: developer, stop or rinse, fixer, second fixer. RC then (held for minutes, if wanted, and rinsed and
// toned) is washed and dried; FB waits in a holding bath of changed water, then the second fixer if it was left, the
// toner, the washing aid, the wash, drying. Film: pre-wash, developer, stop or rinse, fixer, clearing check,
// rinse, washing aid, wash, wetting agent, hung to dry. Common practice.
//
// Times of fixing are for a rapid fixer at film strength; plain thiosulfate takes longer.
func Chain(m material.Material, w Wants) []Stage {
	steps := chain(m, w)
	stages := make([]Stage, 0, len(steps))
	for _, s := range steps {
		stages = append(stages, stage(m, s, w))
	}
	return stages
}

func chain(m material.Material, w Wants) []Step {
	var c steps
	c.add(m == material.Film && w.PreWash, PreWash)
	c.add(true, Develop)
	c.add(!w.StopRinse, Stop)
	c.add(w.StopRinse, StopRinse)
	c.add(true, Fix)
	switch m {
	case material.RC:
		c.rc(w)
	case material.FB:
		c.fb(w)
	case material.Film:
		c.film(w)
	case material.None:
		return nil
	}
	c.add(true, Dry)
	return c
}

type steps []Step

func (c *steps) add(wanted bool, s Step) {
	if wanted {
		*c = append(*c, s)
	}
}

func (c *steps) rc(w Wants) {
	two := w.Fixing == TwoBaths
	c.add(two && !w.SecondFixLater, SecondFix)
	c.add(w.Hold || two && w.SecondFixLater, Hold)
	c.add(two && w.SecondFixLater, SecondFix)
	c.add(w.Toning, Rinse)
	c.add(w.Toning, Tone)
	c.add(true, Wash)
}

func (c *steps) fb(w Wants) {
	two := w.Fixing == TwoBaths
	c.add(two && !w.SecondFixLater, SecondFix)
	c.add(true, Hold)
	c.add(two && w.SecondFixLater, SecondFix)
	c.add(w.Toning, Tone)
	c.add(w.WashingAid, WashAid)
	c.add(true, Wash)
}

func (c *steps) film(w Wants) {
	c.add(true, CheckClearing)
	c.add(w.Fixing == TwoBaths, SecondFix)
	c.add(true, Rinse)
	c.add(w.WashingAid, WashAid)
	c.add(true, Wash)
	c.add(true, Wet)
}

func stage(m material.Material, s Step, w Wants) Stage {
	g := Stage{Step: s, Role: s.Role()}
	t := timesOf(m, s, w)
	g.take(&g.Time, "time", t.usual, s)
	g.take(&g.Least, "time_least", t.least, s)
	g.take(&g.Most, "time_most", t.most, s)
	if s.Liquid() {
		d := Drain()
		g.Drain = seconds(d.Value)
		g.Figures = append(g.Figures, d)
	}
	return g
}

// take sets a time and its figure; a time of 0 has none.
func (g *Stage) take(to *time.Duration, name string, t said, s Step) {
	if t.t == 0 {
		return
	}
	*to = t.t
	g.Figures = append(g.Figures, reckoning.Figure{
		Name: name, Of: s.String(), Value: t.t.Seconds(), Unit: reckoning.S, Origin: t.origin, Source: t.source,
	})
}

// StripPart returns what part of a sheet a test strip is where a room says nothing.
func StripPart() reckoning.Figure {
	return reckoning.Figure{Name: "strip", Value: 0.25, Origin: reckoning.CommonPractice}
}

// Drain returns how long a print drains between two baths by default, 10 s (from memory). Handbooks
// say 5 to 15 s: see DrainRange.
func Drain() reckoning.Figure {
	return reckoning.Figure{Name: "drain", Value: 10, Unit: reckoning.S, Origin: reckoning.FromMemory}
}

// DrainRange returns the shortest and the longest draining that was found printed: 5 s between fixers
// (analogue-photography.org, fixing prints: APorg-fix) and 15 s by one corner (US Army subcourse
// SS0509: Army-SS0509-45).
func DrainRange() (least, most reckoning.Figure) {
	least = reckoning.Figure{
		Name: "drain_least", Value: 5, Unit: reckoning.S, Origin: reckoning.Standard, Source: "APorg-fix",
	}
	most = reckoning.Figure{
		Name: "drain_most", Value: 15, Unit: reckoning.S, Origin: reckoning.Standard, Source: "Army-SS0509-45",
	}
	return least, most
}

func seconds(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }
