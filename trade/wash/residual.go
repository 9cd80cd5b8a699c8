package wash

import (
	"math"
	"time"

	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// Stain is what a drop of a residual-thiosulfate test leaves on a blank margin, read within the time that the test names.
type Stain uint8

// The stains. The zero value is not seen.
const (
	StainUnsaid Stain = iota
	NoStain           // nothing to be seen
	FaintStain        // a breath of cream
	ClearStain        // tan
	DarkStain         // brown
)

// Stains returns the stains in their order, the cleanest first.
func Stains() []Stain { return []Stain{NoStain, FaintStain, ClearStain, DarkStain} }

// String returns the stain's key; empty for StainUnsaid.
func (s Stain) String() string {
	switch s {
	case NoStain:
		return "none"
	case FaintStain:
		return "faint"
	case ClearStain:
		return "clear"
	case DarkStain:
		return "dark"
	case StainUnsaid:
	}
	return ""
}

// Between returns the thiosulfate that a stain stands for, g/m²: none up to 0.01, faint up to 0.03, clear up to 0.1, dark up
// to 1. All from memory: a drop tells a class and not a figure.
func (s Stain) Between() (least, most reckoning.Figure) {
	bounds := [...][2]float64{NoStain: {0, 0.01}, FaintStain: {0.01, 0.03}, ClearStain: {0.03, 0.1}, DarkStain: {0.1, 1}}
	if int(s) >= len(bounds) {
		s = StainUnsaid
	}
	least = figure("stain_least", bounds[s][0], reckoning.GPerM2, reckoning.FromMemory)
	most = figure("stain_most", bounds[s][1], reckoning.GPerM2, reckoning.FromMemory)
	return least, most
}

// A Test is what was left of a load after a wash, found by a test.
type Test struct {
	Load    Load
	Setting Setting
	Way     Way           // not LongChanges: say its contact with StillChanges
	Contact time.Duration // of each vessel of a cascade
	Time    time.Duration // washed so long
	Found   Found
}

// A Calibration is what a test has told of a room's washing.
type Calibration struct {
	// Factor is reckoned with: the time constant of what leaves slowest is so many times the default.
	Factor float64
	// Short and Long are the factors as small and as large as the test leaves them; 0: Factor itself.
	Short, Long float64
	// Blind is what the test can't tell from nothing, g/m²; 0: it told a figure.
	Blind      float64
	Test       Test // that it is from; the zero Test where there is none
	Findings   []Finding
	Reckonings []reckoning.Reckoning
}

// What a test may change, and what is still open after it; from memory.
const (
	mostFactor    = 8    // either way; more is a slip of the test, or another process
	reading       = 1.15 // by which the ends of what was read may be off, as a factor of the time constant
	leastMeasured = 1e-6 // g/m²
)

// Calibrate returns the time constant, as a factor of the default, with which the wash that was tested leaves what the test
// found. A figure is met. A stain or a range is a band: where the default leaves something within it nothing is moved, and the
// band only narrows what an untested room leaves open; else all that can be told is that band, and its worse end, the most
// that may have been left, is met. What is more than 8 times off the default is TestFar: slower by more is not believed, and
// faster by more not at all. The error is a *ProblemError.
func Calibrate(t Test) (Calibration, error) {
	r := Request{Load: t.Load, Setting: t.Setting, Limit: Limit{Standard: process.WorkPrint}}
	if err := t.check(r); err != nil {
		return Calibration{}, err
	}
	least, most := t.Found.Between()
	short, long := t.factorFor(r, least), t.factorFor(r, most)
	c := Calibration{Factor: long, Short: short / reading, Long: long * reading, Test: t}
	if !t.Found.Plain() && least == 0 {
		c.Blind = most
	} else if t.Found.Stain != StainUnsaid {
		_, none := NoStain.Between()
		c.Blind = none.Value
	}
	switch {
	case !t.Found.Plain() && short <= 1 && long >= 1:
		c.Factor, c.Short, c.Long = 1, max(c.Short, 1/Band().Value), min(c.Long, Band().Value)
		c.find(TestAgrees, t.leftWith(r, 1), figure("stain_most", most, reckoning.GPerM2, reckoning.FromMemory))
	case long <= 1.0/mostFactor: // a slip must not shorten a wash
		c.Factor, c.Short, c.Long = 1, 1/Band().Value, Band().Value
		c.find(TestFar, most, figure("factor", mostFactor, reckoning.One, reckoning.FromMemory))
	case long >= mostFactor:
		c.find(TestFar, most, figure("factor", mostFactor, reckoning.One, reckoning.FromMemory))
	}
	c.reckon(least, most)
	return c, nil
}

func (c *Calibration) find(k FindingKind, left float64, limit reckoning.Figure) {
	c.Findings = append(c.Findings, Finding{
		Kind: k, Got: figure("left", left, reckoning.GPerM2, reckoning.Computed), Limit: limit,
	})
}

// check returns what is malformed in a calibration that somebody made, or nil.
func (c *Calibration) check() error {
	in := func(f float64) bool { return f >= 1.0/mostFactor/reading && f <= mostFactor*reading }
	for _, f := range []float64{c.Factor, c.short(), c.long()} {
		if !in(f) {
			return &ProblemError{whyOf(f), "own", f}
		}
	}
	if c.short() > c.Factor || c.long() < c.Factor {
		return &ProblemError{WhyNegative, "own", min(c.Factor-c.short(), c.long()-c.Factor)}
	}
	return nil
}

func (c *Calibration) short() float64 { return given(c.Short, c.Factor) }

func (c *Calibration) long() float64 { return given(c.Long, c.Factor) }

func given(f, otherwise float64) float64 {
	if f == 0 {
		return otherwise
	}
	return f
}

func (t Test) check(r Request) error {
	if err := r.check(); err != nil {
		return err
	}
	offered := false
	for _, w := range t.Setting.ways() {
		offered = offered || w == t.Way && w != LongChanges
	}
	switch {
	case !offered:
		return &ProblemError{WhyNotHere, "way", float64(t.Way)}
	case t.Time <= 0 || t.Time > longest:
		return &ProblemError{whyOf(float64(t.Time)), "time", t.Time.Seconds()}
	case t.Way == Cascade && (t.Contact <= 0 || t.Contact > longest):
		return &ProblemError{whyOf(float64(t.Contact)), "contact", t.Contact.Seconds()}
	}
	return t.Found.check()
}

// leftWith returns what the tested wash leaves with a factor on the time constant.
func (t Test) leftWith(r Request, factor float64) float64 {
	r.Own = &Calibration{Factor: factor}
	s := r.solver()
	p := s.plan(t.Way)
	if c := t.contact(); c > 0 {
		p.contact = c // as it was done, however short
	}
	return s.model.walk(p).at(t.Time.Seconds())
}

// contact is the contact time as the test had it, s; 0: the default's.
func (t Test) contact() float64 {
	switch t.Way {
	case Cascade:
		return t.Contact.Seconds()
	case StillChanges:
		return t.Setting.Contact.Seconds()
	case StandingTray:
		return t.Setting.Beat.Seconds()
	case Running, LongChanges, NoWay:
	}
	return 0
}

// factorFor returns the factor that leaves want, within mostFactor either way.
func (t Test) factorFor(r Request, want float64) float64 {
	low, high := 1.0/mostFactor, float64(mostFactor)
	if t.leftWith(r, low) >= want {
		return low
	}
	if t.leftWith(r, high) <= want {
		return high
	}
	const halvings = 50
	for range halvings {
		mid := math.Sqrt(low * high)
		if t.leftWith(r, mid) < want {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// reckon says how the factor came about: of what was found, the end that was met.
func (c *Calibration) reckon(least, most float64) {
	t := c.Test
	tau := TimeConstant(t.Load.Material, t.Load.Aid)
	puts := []reckoning.Figure{
		figure("found", most, reckoning.GPerM2, reckoning.Measured), seconds("washed", t.Time, reckoning.Measured), tau,
	}
	if least != most {
		puts[0].Name = "found_most"
		puts = append([]reckoning.Figure{figure("found_least", least, reckoning.GPerM2, reckoning.Measured)}, puts...)
	}
	c.Reckonings = []reckoning.Reckoning{{
		Rule: "residual_test", Puts: puts, Result: figure("own_factor", c.Factor, reckoning.One, reckoning.Measured),
	}}
}
