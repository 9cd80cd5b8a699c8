package sink

import (
	"time"

	"wetside/book"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// A Sink is an evening's work as it stands at a moment.
type Sink struct {
	Evening  book.Evening // the one that goes on; its ID is empty where none does
	Stations []Station    // in the order of the work, paper first
	Ways     []Way        // what can be started, in the order of what is to be made
	Begun    []book.Print // the evening's prints, in the sink and out of it; where no evening runs, those of none since half a day
	Tags     []Tag        // the prints under way, by when they were started
	Batches  []Batch      // what waits for its wash and what is washed, by when it began
	Stray    []book.Print // still in the sink by the book, from an evening that is over
	Next     int          // index of the tag that is moved next, -1: none
}

// A Station is a place in the sink: a tray, the tank in one of its liquids, the wash.
type Station struct {
	Key     string // unique and stable: the step's, "film-" before it for film
	Step    process.Step
	Role    process.Role // of its chemical; NoRole for water
	Film    bool         // in the tank
	Product string       // empty: water
	Bath    string       // the book's id of what stands there; empty: nobody said that it was made
	Planned string       // the plan's id of the bath, or empty
	Tray    string       // its name, or the tank's
	Colour  string       // the tray's own, as the room says it
	Place   int          // among the stations of its kind, for the pattern beside the colour
	Reading *Reading     // the temperature last read, nil: none tonight
}

// A Reading is a temperature that was read in a bath.
type Reading struct {
	At      time.Time
	Celsius quantity.Celsius
	Entry   string
	Probe   string // the id of the probe that read it by itself; empty: somebody did
}

// A Way is how one kind of load goes through the sink.
type Way struct {
	Key      string // unique and stable: paper-1, film-2
	Material material.Material
	Size     material.Size
	Rolls    int // in the tank at a time, for film
	Stops    []Stop
}

// A Stop is one station of a way and the time there.
type Stop struct {
	Station   int           // index of Sink.Stations
	Time      time.Duration // draining and all; 0 where nobody knows it
	Drain     time.Duration
	Figures   []reckoning.Figure // how the time came about
	Moves     []process.Moving   // of a film's agitation
	Agitation string             // in the label's words
}

// A Tag is a print on its way.
type Tag struct {
	Print   book.Print
	Number  int       // of the evening's prints, from 1
	Station int       // index of Sink.Stations; -1: in a place that the plan does not have
	Way     int       // index of Sink.Ways; -1: of a kind that is not to be made tonight
	Next    int       // the station that it goes to; -1: out of the sink
	Lift    time.Time // when it is lifted to drain, or poured out; zero: no time was set
	Due     time.Time // when it goes on
}

// Timed reports whether a time was set for the tag.
func (t *Tag) Timed() bool { return !t.Due.IsZero() }

// A Batch is prints that share the water.
type Batch struct {
	book.Batch
	Material material.Material
	Station  int       // hold, washing aid or wash; -1: the plan has no such place
	Next     int       // where it goes next: washing aid or wash; -1: out of the sink
	Since    time.Time // since when it lies there: with the washing aid and the wash, since the last print came in
	Due      time.Time // of the washing aid or the wash; zero: neither has begun, or nobody knows its time
}

// TooOld is how long after it was started a print that nobody moved on is taken as forgotten: half a day.
const TooOld = 12 * time.Hour
