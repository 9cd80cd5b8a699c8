package temper

import (
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// A Problem is water to be brought to a temperature.
type Problem struct {
	Cold, Hot quantity.Celsius // the taps
	Want      quantity.Celsius // of the whole, with the chemical
	Total     quantity.Volume  // of the whole, with the chemical, at Want
	// Chemical is the volume of what is added, 0 for none, and ChemicalAt its temperature.
	Chemical   quantity.Volume
	ChemicalAt quantity.Celsius
	Kettle     bool // boiling water can be had
	Ice        bool // ice can be had
	// Step is what the level can be read to (a vessel's division), for the marks; 0: DefaultStep.
	Step quantity.Volume
}

// DefaultStep is the division of a usual litre jug, 50 mL.
const DefaultStep = 50 * quantity.Millilitre

// Status says whether the wanted temperature is in reach.
type Status uint8

// The statuses.
const (
	Reached    Status = iota // with hot and cold tap alone
	WithKettle               // with some boiling water
	WithIce                  // with some ice as part of the water
	OutOfReach               // Nearest is what can be had
)

// String returns a stable snake_case key.
func (s Status) String() string {
	return [...]string{"reached", "with_kettle", "with_ice", "out_of_reach"}[s]
}

// Source is what is poured.
type Source uint8

// The sources of water.
const (
	HotTap Source = iota
	ColdTap
	KettleWater
	IceByWeight
)

// String returns a stable snake_case key.
func (s Source) String() string {
	return [...]string{"hot_tap", "cold_tap", "kettle", "ice"}[s]
}

// A Mark is a level to pour to, cumulative, in the order of pouring; for ice, Grams is what to weigh.
type Mark struct {
	From  Source
	To    quantity.Volume // level after this pour, on a multiple of Problem.Step; 0 for ice, which is weighed
	Grams quantity.Mass   // ice only, whole grams
}

// Help is what would bring a temperature out of reach into it, or nearest to it.
type Help struct {
	What Source
	// Volume of kettle water (at the boil), or Grams of ice, that would do.
	Volume quantity.Volume
	Grams  quantity.Mass
	// At is the temperature that the whole would have: Problem.Want where it can be reached so.
	At quantity.Celsius
}

// A Result is how to get the water.
type Result struct {
	Status    Status
	Hot, Cold quantity.Volume // exact amounts, at their own temperatures
	Kettle    quantity.Volume // boiling
	Ice       quantity.Mass
	Water     quantity.Celsius // what the thermometer shall say before the chemical goes in
	// Marks are empty where the whole water is less than half of Problem.Step.
	Marks     []Mark
	AtMarks   quantity.Celsius // the whole's temperature if the rounded marks are poured exactly
	Nearest   quantity.Celsius // the whole's temperature that can be reached; Want where Status is not OutOfReach
	Helps     []Help           // where Status is OutOfReach
	Scald     bool             // water of ScaldsAt or more is handled
	Reckoning []reckoning.Reckoning
}

// ScaldsAt is from where water is handled as hot enough to scald, 50 °C: from memory.
const ScaldsAt quantity.Celsius = 50
