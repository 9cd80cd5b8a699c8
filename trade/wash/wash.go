package wash

import (
	"time"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Way is a way of washing.
type Way uint8

// The ways of washing. The zero value is none.
const (
	NoWay        Way = iota
	StillChanges     // the vessel is filled, left for the contact time and dumped, again and again
	LongChanges      // the same with longer contact, so that the fewest fillings do
	Running          // filled once, then fresh water runs through
	Cascade          // from vessel to vessel against the flow, the last one the cleanest
	StandingTray     // fresh water runs in, and all of it is dumped at a beat
)

// AllWays returns the ways in their order.
func AllWays() []Way { return []Way{StillChanges, LongChanges, Running, Cascade, StandingTray} }

// String returns the way's key, as in JSON and in the message catalogue; empty for NoWay.
func (w Way) String() string {
	switch w {
	case StillChanges:
		return "still_changes"
	case LongChanges:
		return "long_changes"
	case Running:
		return "running"
	case Cascade:
		return "cascade"
	case StandingTray:
		return "standing_tray"
	case NoWay:
	}
	return ""
}

// A Load is what is washed together.
type Load struct {
	Material material.Material
	Area     quantity.Area    // of all of it, one side counted
	Aid      bool             // a washing aid went before; it changes nothing for RC
	Water    quantity.Celsius // of the wash water; must be given, 0 is ice-cold
	Start    float64          // thiosulfate in the last bath, g/L; 0: that of a fresh rapid fixer at film strength
}

// A Setting is what there is to wash in.
type Setting struct {
	Vessel  quantity.Volume // water around the load in the tray, tank or washer; of each vessel of a cascade
	Flow    quantity.Volume // of fresh water in a minute; 0: no running water, and the ways that need it are not offered
	Stages  int             // vessels of the cascade; below 2: none
	Loads   int             // as large as this, one after another through the cascade; 0 and 1: this one alone
	Contact time.Duration   // of each still change, where longer than the least; 0: the least
	Beat    time.Duration   // between the dumps of a standing tray; 0: every 3 min for film, 5 for FB, 1 for RC
}

// A Limit is what may be left.
type Limit struct {
	Standard process.Standard // where Own is 0
	Own      float64          // the room's own, g/m² of thiosulfate
}

// A Request asks how to wash a load to a limit.
type Request struct {
	Load    Load
	Setting Setting
	Limit   Limit
	Own     *Calibration // from a residual test of this room; nil: none yet
}

// Status says whether a way gets to the limit.
type Status uint8

// The statuses.
const (
	Reached    Status = iota
	OutOfReach        // not within 24 hours and 500 changes
)

// A Result is one way of washing.
type Result struct {
	Way      Way
	Status   Status
	Time     time.Duration   // to the limit, whole seconds, rounded up
	Safe     time.Duration   // the same where the time constants are as long as they may be; 0: then out of reach
	Contact  time.Duration   // of each change or each vessel; 0 for running water
	Changes  int             // fillings, by hand or of the vessels of a cascade; running water has one
	Water    quantity.Volume // fillings and what ran through
	Left     float64         // g/m² of thiosulfate
	Findings []Finding
	// Reckonings are of the time and of the water.
	Reckonings []reckoning.Reckoning
}

// SafeTime returns Safe, which leads; Time where not even that is sure to get there.
func (r Result) SafeTime() time.Duration { return max(r.Safe, r.Time) }

// An Answer is every way that the setting allows.
type Answer struct {
	Limit    reckoning.Figure // g/m², with its source
	Start    reckoning.Figure // g/m² in the material before the wash
	Ways     []Result         // in the order of AllWays
	Cheapest int              // in Ways, the least water; -1 where no way gets there
	Fastest  int              // in Ways, the least time; -1 where no way gets there
	Findings []Finding
	// Reckonings are of the start and of the time constants.
	Reckonings []reckoning.Reckoning
}

// A Point is what is left at a time.
type Point struct {
	At        time.Duration
	Left      float64 // g/m² of thiosulfate
	Low, High float64 // the same with the time constants as short and as long as they may be
}

// FindingKind says what a finding is about, a key of the message catalogue.
type FindingKind string

// The findings.
const (
	RCTooLong       FindingKind = "rc_too_long"       // RC stays wet for Got, longer than Limit: edges lift
	ContactTooShort FindingKind = "contact_too_short" // Got was asked for each change, Limit is the least and was taken
	AidNoUse        FindingKind = "aid_no_use"        // a washing aid does nothing for RC
	Untested        FindingKind = "untested"          // the time constant is from memory or optimistic: times may be Limit times as long
	TestFar         FindingKind = "test_far"          // Got after that time asks for a factor beyond Limit: slower by more was not believed, faster not at all
	TestAgrees      FindingKind = "test_agrees"       // the default would leave Got, which the test does not contradict
	TestTooCoarse   FindingKind = "test_too_coarse"   // the test can't tell less than Got from nothing, and Limit is less
	FlowTooSmall    FindingKind = "out_of_reach"      // this way does not get to the limit
)

// A Finding is something to be told beside a figure.
type Finding struct {
	Kind       FindingKind
	Got, Limit reckoning.Figure
}
