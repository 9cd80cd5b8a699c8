package temper

import (
	"context"
	"errors"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// ErrProblem is wrapped by every error about a malformed problem (cold hotter than hot, nothing to make).
var ErrProblem = errors.New("malformed tempering problem")

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
	// Step is what the level can be read to (a vessel's division), for the marks; 0: 50 mL.
	Step quantity.Volume
}

// Status says whether the wanted temperature is in reach.
type Status uint8

// The statuses.
const (
	Reached    Status = iota // with hot and cold tap alone
	WithKettle               // with some boiling water
	WithIce                  // with some ice as part of the water
	OutOfReach               // Nearest is what can be had
)

// Source is what is poured.
type Source uint8

// The sources of water.
const (
	HotTap Source = iota
	ColdTap
	KettleWater
	IceByWeight
)

// A Mark is a level to pour to, cumulative, in the order of pouring; for ice, Grams is what to weigh.
type Mark struct {
	From  Source
	To    quantity.Volume // level after this pour, rounded to Problem.Step
	Grams quantity.Mass   // ice only
}

// Help is what would bring a temperature out of reach into it.
type Help struct {
	What Source
	// Volume of kettle water, or Grams of ice, that would do.
	Volume quantity.Volume
	Grams  quantity.Mass
	// At is the temperature that would be reached.
	At quantity.Celsius
}

// A Result is how to get the water.
type Result struct {
	Status    Status
	Hot, Cold quantity.Volume  // exact amounts, at their own temperatures
	Kettle    quantity.Volume
	Ice       quantity.Mass
	Water     quantity.Celsius // what the thermometer shall say before the chemical goes in
	Marks     []Mark
	AtMarks   quantity.Celsius // the whole's temperature if the rounded marks are poured exactly
	Nearest   quantity.Celsius // the whole's temperature that can be reached; Want where Status is not OutOfReach
	Helps     []Help           // where Status is OutOfReach
	Scald     bool             // water of 50 °C or more is handled
	Reckoning []reckoning.Reckoning
}

// Solve returns how to get the water. The error wraps ErrProblem.
func Solve(ctx context.Context, p Problem) (Result, error) { return Result{}, ErrProblem }
