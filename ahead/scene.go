package ahead

import (
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
)

// A Scene is what stands in a room, what was done with it and what is asked.
type Scene struct {
	Room   darkroom.Room
	Baths  []Bath
	Events []Event // oldest first
	Chains []Chain // the ways that are asked about, the one that matters most first
	// Tonight is what the session still wants, Ends when it ends; both may be missing.
	Tonight []Pass
	Ends    time.Time
	// Now is the moment that is asked about, in the room's own zone.
	Now time.Time
	// Draws is how many possible rooms are drawn, 4,000 where it is 0. Seed shifts them all.
	Draws int
	Seed  uint64
	acids *acids // shared by the scenes that are made of this one
	aside bool   // another way of working: what the tests say of the counting is not asked
	// Helps asks for what would help and what would not: each is a reckoning of its own.
	Helps bool
	// Courses asks for how each bath goes on, for a curve.
	Courses bool
}

// A Bath is one bath that stands there or is to be mixed.
type Bath struct {
	ID      string // the book's or the plan's
	Name    string // as people call it: "fixer 1"; see Name
	Apart   string // what parts it from another of that name: where it stands
	ByDay   bool   // or, in a bottle, the day it was made
	Nth     int    // else its number among them, from 2 on
	Role    process.Role
	Place   bath.Place // of a fixer
	Product *darkroom.Product
	// Dilution is how it was made up, Words as the label says it.
	Dilution dilution.Dilution
	Words    string
	Litres   float64
	Tray     string
	Tank     string
	Colour   string
	Film     bool // kept for film
	Paper    bool // kept for paper
	// Made is when it was made; MadeBy a person's id. Known says how well.
	Made   time.Time
	MadeBy string
	Whose  string // a person's id; empty: the room's
	Known  book.Made
	// Container is where it is now, Since when.
	Container darkroom.State
	Since     time.Time
	// InTray is how long it stood open before that.
	InTray time.Duration
	// Changes is how often the pair that a fixer belongs to has been changed, PairSheets what went through since both
	// were new, in 8×10.
	Changes    int
	PairSheets float64
	// Gone says that it was discarded or collected.
	Gone bool

	began float64 // silver that a fixer of unknown age began with at most, g/L
}

// A Pass is like sheets that went through baths, or shall.
type Pass struct {
	Material  material.Material
	Area      float64 // m² of one
	Sheets    float64 // how many; the last may be a part of one
	Drained   time.Duration
	Baths     []int // indexes of Scene.Baths in the order of use
	Estimated bool
}

// Units returns the pass in sheets of 8×10.
func (p *Pass) Units() float64 { return p.Area * p.Sheets / Area8x10 }

// An Event is one thing that happened: one of its parts is given.
type Event struct {
	At    time.Time
	Entry string // the book's
	Pass  *Pass
	TopUp *TopUp
	Test  *Test
}

// A TopUp is what was poured into a bath.
type TopUp struct {
	Bath   int
	Litres float64
	Water  bool // plain water; else as the bath was made up
}

// A Test is what a test showed.
type Test struct {
	Bath   int
	Result book.TestResult
	Steps  []float64 // of the silver strip, g/L
}

// A Chain is the way of one material through baths, with how long it shall last.
type Chain struct {
	Material material.Material
	Standard process.Standard
	Fixing   process.Fixing
	Baths    []int // indexes of Scene.Baths in the order of use
	// Assumed says that nobody said the standard, and exhibition was taken.
	Assumed bool
	// WashAid says that a washing aid follows.
	WashAid bool
	// Drained is how long prints drain from now on; 0 is as long as the room says.
	Drained time.Duration
}

// Area8x10 is the area of the counting sheet, 80 in², m².
const Area8x10 = 80 * 25.4 * 25.4 / 1e6
