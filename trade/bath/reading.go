package bath

import (
	"math"
)

// A Reading is what a test said of a bath. The spreads with which people and papers err are from memory. The likelihoods
// of a reading's classes sum to 1; those of a number are densities, but for a factor that is the same in every room.
type Reading interface {
	// likely returns the logarithm of the likelihood of the reading where the bath holds c.
	likely(c Contents, b *Bath) float64
	// needsTitration reports whether the bath's acid must be known.
	needsTitration() bool
}

// The errors of the tests, from memory: standard deviations, of the logarithm where the value is a ratio.
const (
	stripSpread    = 0.20 // of a silver strip held to its scale
	phSpread       = 0.25 // of pH paper, pH
	turnSpread     = 0.20 // of the turn that somebody sees, pH
	clearingSpread = 0.20 // of a clearing time against a fresh one
	levelSpread    = 0.02 // of a volume read, as a share of the bath as made
	dropSpread     = 0.50 // of the silver at which the drop test clouds
	stainSpread    = 0.80 // of the last fixer's silver at which a drop stains a print
)

// Where the signs change, from memory but for the indicator (yellow below 5.2, handbook).
const (
	// SpentPH is where the indicator begins to turn and a stop bath is spent.
	SpentPH   = 5.2
	turnSeen  = 5.5 // where most people see it turned, in white light
	dropCloud = 3.0 // g/L of silver at which half of all drop tests cloud
	dropStain = 0.5 // g/L of silver in the last fixer at which half of all prints are stained by a drop
)

// StripRead is a silver test strip held to its scale: the number of the step that it matched, 0 for less than the
// first, len(Steps) for the last or more.
type StripRead struct {
	Steps []float64 // g/L, rising
	Class int
}

func (r StripRead) likely(c Contents, _ *Bath) float64 {
	at := math.Log(math.Max(c.PerLitre(Silver), 1e-6))
	low, high := r.between()
	return logOf(normal((high-at)/stripSpread)-normal((low-at)/stripSpread), len(r.Steps)+1)
}

// between returns the logarithms of the silver between which the strip reads as it does.
func (r StripRead) between() (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	if r.Class > 0 {
		low = r.edge(r.Class - 1)
	}
	if r.Class < len(r.Steps) {
		high = r.edge(r.Class)
	}
	return low, high
}

// edge returns the logarithm of the silver where a strip passes from one step to the next: half-way between them on the
// scale of ratios; under the first step as far as above it.
func (r StripRead) edge(step int) float64 {
	s := r.Steps
	switch {
	case step > 0:
		return math.Log(s[step-1]*s[step]) / 2
	case len(s) > 1:
		return math.Log(s[0]) - math.Log(s[1]/s[0])/2
	default:
		return math.Log(s[0] / math.Sqrt2)
	}
}

func (StripRead) needsTitration() bool { return false }

// PHRead is a pH read off a paper or a meter.
type PHRead struct{ PH float64 }

func (r PHRead) likely(c Contents, b *Bath) float64 {
	z := (r.PH - b.Titration.PH(c.PerLitre(Developer))) / phSpread
	return -z * z / 2
}

func (PHRead) needsTitration() bool { return true }

// IndicatorRead is whether the indicator has turned, seen in white light.
type IndicatorRead struct{ Turned bool }

func (r IndicatorRead) likely(c Contents, b *Bath) float64 {
	z := (b.Titration.PH(c.PerLitre(Developer)) - turnSeen) / turnSpread
	if !r.Turned {
		z = -z
	}
	return logOf(normal(z), 2)
}

func (IndicatorRead) needsTitration() bool { return true }

// ClearingRead is a film's clearing time as a multiple of that in the same fixer when fresh. Taken as inverse to the
// thiosulfate (from memory); silver lengthens it, too, so the reading is a wide one.
type ClearingRead struct{ Times float64 }

func (r ClearingRead) likely(c Contents, b *Bath) float64 {
	left := c.PerLitre(Thiosulfate) / b.Made.PerLitre(Thiosulfate)
	z := (math.Log(r.Times) + math.Log(math.Max(left, 1e-3))) / clearingSpread
	return -z * z / 2
}

func (ClearingRead) needsTitration() bool { return false }

// LevelRead is how much of the bath there is, by a mark on the tray or poured back into a measure.
type LevelRead struct{ Litres float64 }

func (r LevelRead) likely(c Contents, b *Bath) float64 {
	z := (r.Litres - c[Liquid]) / (levelSpread * b.Made[Liquid])
	return -z * z / 2
}

func (LevelRead) needsTitration() bool { return false }

// DropRead is the drop test of a fixer: whether it clouded. A passed one proves little.
type DropRead struct{ Clouded bool }

func (r DropRead) likely(c Contents, _ *Bath) float64 {
	z := math.Log(math.Max(c.PerLitre(Silver), 1e-6)/dropCloud) / dropSpread
	if !r.Clouded {
		z = -z
	}
	return logOf(normal(z), 2)
}

func (DropRead) needsTitration() bool { return false }

// PrintDropRead is a drop of sulfide or selenite on a washed print's margin: whether it stained. Silver that stays in a
// print comes of the last fixer, so it is read as that bath's silver against a threshold, from memory and wide.
type PrintDropRead struct{ Stained bool }

func (r PrintDropRead) likely(c Contents, _ *Bath) float64 {
	z := math.Log(math.Max(c.PerLitre(Silver), 1e-6)/dropStain) / stainSpread
	if !r.Stained {
		z = -z
	}
	return logOf(normal(z), 2)
}

func (PrintDropRead) needsTitration() bool { return false }

func normal(z float64) float64 {
	switch {
	case math.IsInf(z, 1):
		return 1
	case math.IsInf(z, -1):
		return 0
	}
	return 0.5 * math.Erfc(-z/math.Sqrt2)
}

// slip is the chance that somebody notes a reading down wrong, from memory; it keeps one odd reading from ruling out
// every room.
const slip = 0.01

// logOf returns the logarithm of a class's likelihood, of so many classes that a slip may land on alike.
func logOf(chance float64, classes int) float64 {
	return math.Log((1-slip)*math.Max(chance, 0) + slip/float64(classes))
}
