package measure

import (
	"wetside/trade/dilution"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Limits of the search.
const (
	MaxJugfuls      = 8
	MaxPours        = 3
	MaxVessels      = 64
	MaxVessel       = 200 * quantity.Litre
	MaxMarks        = 1000   // of a scale
	MaxBalanceMarks = 100000 // of a balance's scale
	MaxAlternatives = 4
)

// Constants of the choice.
const (
	// Tie is how near two relative errors count as equal.
	Tie = 1e-9
	// Stray is the largest |bias| of a choice, where the tolerance is not larger: beyond it the mix is not this
	// dilution. From memory.
	Stray = 0.5
	// Keep is how many times the least |bias| + U a choice of grade C may have.
	Keep = 1.5
)

// A Problem is what is to be measured with what.
type Problem struct {
	Dilution dilution.Dilution
	// Window of the total; Want lies in it, and 0 counts as its upper end.
	Window    quantity.Window
	Tolerance float64 // relative; above 0, at most 1
	Vessels   []Vessel
	// Available is what there is of each chemical, in the order of Dilution.Chemicals; nil or 0: unknown.
	Available  []quantity.Volume
	WaterFirst bool
	// Density of the chemical; 0: unknown, so it can't be weighed.
	Density quantity.Density
	// System is the reader's own.
	System quantity.System
}

// Options of the search.
type Options struct {
	// Alternatives is how many choices of another kind are given beside the best; up to 4. Default 0.
	Alternatives int
	// NoAdvice leaves out the search for a vessel to get.
	NoAdvice bool
}

// Status says how a search ended.
type Status uint8

// The statuses.
const (
	Optimal    Status = iota // Choices[0] is the optimum
	Impossible               // nothing can be made with these vessels, this window and this chemical
)

// Grade of a choice.
type Grade uint8

// The grades, best first.
const (
	GradeA Grade = iota
	GradeB
	GradeC
)

// Manner is the kind of action, (a) to (f) of the package comment.
type Manner uint8

// The manners.
const (
	InJug Manner = iota
	Poured
	FirstJug
	Apart
	Weighed
	Intermediate
)

// Do is what a step does.
type Do uint8

// The steps' verbs. Pour, Fill and Weigh are the readings.
const (
	Pour Do = iota
	Fill    // up to a mark
	Weigh
	Start // about three quarters of the water (Volume is just that), no reading
	Tip   // into the tray
	Rinse
	Stir
)

// What is handled in a step.
type What uint8

// The things handled.
const (
	Chemical What = iota // the only one
	PartA
	PartB
	Water
	Made // an intermediate dilution
	Mix  // what is in the vessel by now
)

// A Step is one thing to do, Times times over.
type Step struct {
	Do     Do
	What   What
	Vessel int             // index into Problem.Vessels; -1 where none is named
	Scale  int             // index into the vessel's scales
	Mark   quantity.Ratio  // in the scale's unit (grams for a balance)
	Half   bool            // between two marks
	Volume quantity.Volume // the mark's (the volume weighed, for Weigh)
	Times  int
	// Group numbers the run of like jugfuls (from 0) that the step belongs to; the steps of one group are done in
	// turn, Rounds times over, so in each round this step is done Times/Rounds times.
	Group  int
	Rounds int
}

// A Choice is one way of making the bath.
type Choice struct {
	Manner       Manner
	Grade        Grade
	Total        quantity.Volume
	Chemical     []quantity.Volume // in the total, of each chemical
	ChemicalUsed []quantity.Volume // what leaves each bottle
	Strength     float64           // chemical's share (the sum over chemicals)
	Bias         float64           // relative
	Uncertainty  float64           // relative, k = 2
	Within       bool              // |Bias| + Uncertainty ≤ tolerance
	Readings     int
	Vessels      []int // indexes, the fill vessel first, then in order of use
	Steps        []Step
	Reckoning    []reckoning.Reckoning
	// Differs says, for an alternative, what it gains and costs against the best; nil for the best.
	Differs []Difference
}

// A Difference is one gain or cost of an alternative.
type Difference struct {
	Aspect Aspect
	Gain   bool    // else a cost
	From   float64 // the best's figure
	To     float64 // this one's
}

// Aspect is what differs.
type Aspect uint8

// The aspects.
const (
	Readings Aspect = iota
	Accuracy        // |bias| + U
	VesselCount
	TotalVolume    // mL
	ChemicalVolume // mL used
	OwnScale
	HalfMarkCount
)

// Advice is what to get where the best is grade C or nothing can be made.
type Advice struct {
	Get         Vessel  // from the list of usual vessels
	Uncertainty float64 // with it
	Bias        float64
}

// Lack is why nothing can be made.
type Lack uint8

// The lacks.
const (
	LackNothing  Lack = iota
	LackVessel        // no vessel reaches the window or the chemical's amount
	LackChemical      // enough vessels, too little chemical; see Result.NeedAtLeast
)

// A Result is what Solve found.
type Result struct {
	Status  Status
	Choices []Choice // the best first, then alternatives that differ in kind
	Advice  *Advice
	Lack    Lack
	// NeedAtLeast is the least of chemical Short that a choice would use, where Lack is LackChemical; see the
	// package comment.
	NeedAtLeast quantity.Volume
	Short       int // index into Dilution.Chemicals
}
