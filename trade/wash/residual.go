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
	Left    float64       // g/m² of thiosulfate, where it was measured; else Stain
	Stain   Stain
}

// A Calibration is what tests have told of a room's washing.
type Calibration struct {
	Factor     float64 // the time constant of what leaves slowest is so many times the default
	Band       float64 // and may yet be so many times longer or shorter
	Findings   []Finding
	Reckonings []reckoning.Reckoning
}

// What a test may change, and what is still open after it; from memory.
const (
	mostFactor    = 8    // either way; more is a slip of the test, or another process
	bandOfFigure  = 1.15 // after a measured figure
	bandOfAClass  = 1.3  // after a drop's class
	leastMeasured = 1e-6 // g/m²
)

// Calibrate returns the time constant, as a factor of the default, with which the wash that was tested leaves what the test
// found. A measured figure is met; a stain's class moves the constant only as far as the nearer end of what it stands for, and
// not at all where the default lies within. The error is a *ProblemError.
func Calibrate(t Test) (Calibration, error) {
	r := Request{Load: t.Load, Setting: t.Setting, Limit: Limit{Standard: process.WorkPrint}}
	if err := t.check(r); err != nil {
		return Calibration{}, err
	}
	unchanged := t.leftWith(r, 1)
	want := figure("left", t.Left, reckoning.GPerM2, reckoning.Measured)
	c := Calibration{Factor: 1, Band: bandOfFigure}
	if t.Left == 0 {
		c.Band = bandOfAClass
		least, most := t.Stain.Between()
		switch {
		case unchanged > most.Value:
			want = most
		case unchanged < least.Value:
			want = least
		default:
			c.Findings = []Finding{{Kind: TestAgrees, Got: figure("left", unchanged, reckoning.GPerM2, reckoning.Computed), Limit: most}}
			c.reckon(t, most)
			return c, nil
		}
	}
	c.Factor = t.factorFor(r, want.Value)
	if c.Factor <= 1.0/mostFactor || c.Factor >= mostFactor {
		c.Findings = append(c.Findings, Finding{
			Kind: TestFar, Got: want, Limit: figure("factor", mostFactor, reckoning.One, reckoning.FromMemory),
		})
	}
	c.reckon(t, want)
	return c, nil
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
		return &ProblemError{WhyMissing, "way", float64(t.Way)}
	case t.Time <= 0 || t.Time > longest:
		return &ProblemError{whyOf(float64(t.Time)), "time", t.Time.Seconds()}
	case t.Way == Cascade && (t.Contact <= 0 || t.Contact > longest):
		return &ProblemError{whyOf(float64(t.Contact)), "contact", t.Contact.Seconds()}
	case t.Left == 0 && (t.Stain == StainUnsaid || t.Stain.String() == ""):
		return &ProblemError{WhyMissing, "result", 0}
	case t.Left != 0 && !(t.Left >= leastMeasured && t.Left <= mostStart):
		return &ProblemError{whyOf(t.Left), "result", t.Left}
	}
	return nil
}

// leftWith returns what the tested wash leaves with a factor on the time constant.
func (t Test) leftWith(r Request, factor float64) float64 {
	r.Own = &Calibration{Factor: factor, Band: 1}
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

func (c *Calibration) reckon(t Test, want reckoning.Figure) {
	tau := TimeConstant(t.Load.Material, t.Load.Aid)
	c.Reckonings = []reckoning.Reckoning{{
		Rule:   "residual_test",
		Puts:   []reckoning.Figure{want, seconds("time", t.Time, reckoning.Measured), tau},
		Result: figure("own_factor", c.Factor, reckoning.One, reckoning.Measured),
	}}
}
