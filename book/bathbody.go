package book

import (
	"wetside/darkroom"
)

// Made says how well it is known when a bath was made.
type Made string

// The ways to know.
const (
	MadeThen      Made = ""          // when the entry happened
	MadeEstimated Made = "estimated" // about when the entry happened
	MadeUnknown   Made = "unknown"   // some time before the entry happened: the bath was there before the book
)

// Use is what a bath without a product is for.
type Use string

// The uses. A bath with a product has none.
const (
	NoUse   Use = ""
	Rinse   Use = "rinse"   // water between two baths
	Holding Use = "holding" // water in which prints wait for the wash
)

// Serves says what a bath is kept for.
type Serves string

// What a bath can be kept for.
const (
	ServesAny   Serves = "" // nobody said
	ServesPaper Serves = "paper"
	ServesFilm  Serves = "film"
)

// Mixed says that a bath was made and poured, and from which lots; or that one stands that was begun before the book.
type Mixed struct {
	Bath     string         `json:"bath"`
	Product  string         `json:"product,omitempty"`  // its id; empty for water
	Dilution string         `json:"dilution,omitempty"` // the label's words; empty for water
	Volume   string         `json:"volume"`             // the user's figure or the mark's own words
	Times    int            `json:"times,omitempty"`    // jugfuls of Volume each; 0 means one
	Tray     string         `json:"tray,omitempty"`     // its id
	Tank     string         `json:"tank,omitempty"`     // its id
	Into     darkroom.State `json:"into,omitempty"`     // the bottle that it stands in, where it is in no tray or tank
	From     []Draw         `json:"from,omitempty"`     // empty for a bath begun before the book
	Made     Made           `json:"made,omitempty"`     // how well the moment is known
	Before   []Prints       `json:"before,omitempty"`   // a guess of what went through before the book
	Use      Use            `json:"use,omitempty"`      // of water
	Place    darkroom.Bath  `json:"place,omitempty"`    // of a fixer: one bath, first of two, second of two
	Pair     string         `json:"pair,omitempty"`     // the id of the other bath of two
	For      Serves         `json:"for,omitempty"`
	Whose    string         `json:"whose,omitempty"` // a person's id; empty: the room's
	Ounce    Ounce          `json:"ounce,omitempty"`
}

// Kind returns BathMixed.
func (*Mixed) Kind() Kind { return BathMixed }

// Worked says that a load went through baths. Whoever put it through is the entry's by.
type Worked struct {
	Baths []string `json:"baths"` // ids, in the order in which the load went through; unknown ones are kept and reported
	Prints
	Drain string `json:"drain,omitempty"` // how long it drained between baths where that is not the room's: 20 s
}

// Kind returns BathWorked.
func (*Worked) Kind() Kind { return BathWorked }

// Tested says what a test showed.
type Tested struct {
	Bath     string    `json:"bath,omitempty"`  // its id; empty for a test of a batch
	Batch    string    `json:"batch,omitempty"` // of prints, for a drop on one of them
	Test     Test      `json:"test"`
	Result   string    `json:"result"`             // as ReadTestResult reads it
	Steps    []float64 `json:"steps,omitempty"`    // of the silver strip that was used, g/L, rising
	Material string    `json:"material,omitempty"` // of the print or film that it was made with
	Ounce    Ounce     `json:"ounce,omitempty"`
}

// Kind returns BathTested.
func (*Tested) Kind() Kind { return BathTested }

// With is what a bath is topped up with.
type With string

// What baths are topped up with.
const (
	WithFresh       With = "fresh"       // working solution
	WithWater       With = "water"       //
	WithReplenisher With = "replenisher" //
)

// ToppedUp says that something was poured into a bath that stands.
type ToppedUp struct {
	Bath     string `json:"bath"`
	With     With   `json:"with"`
	Volume   string `json:"volume"`
	Times    int    `json:"times,omitempty"`    // of Volume each; 0 means once
	Product  string `json:"product,omitempty"`  // its id; empty: the bath's own
	Dilution string `json:"dilution,omitempty"` // the label's words; empty: the bath's own
	Load     string `json:"load,omitempty"`     // the entry of the load that it replaces what went with
	From     []Draw `json:"from,omitempty"`     // out of which lots
	Ounce    Ounce  `json:"ounce,omitempty"`
}

// Kind returns BathToppedUp.
func (*ToppedUp) Kind() Kind { return BathToppedUp }

// Moved says that the second bath of a pair became the first, and that the first went. The fresh one that takes its
// place is a bath of its own, which names its pair when it is mixed.
type Moved struct {
	First  string `json:"first"`  // goes
	Second string `json:"second"` // becomes the first
	Leaving
}

// Kind returns BathMoved.
func (*Moved) Kind() Kind { return BathMoved }

// Leaving is how a bath went.
type Leaving struct {
	Why    string `json:"why,omitempty"`
	To     string `json:"to,omitempty"`     // drain, collected, ...: the room's own word
	Can    string `json:"can,omitempty"`    // the waste can's id, of what was collected; empty: nobody named one
	Volume string `json:"volume,omitempty"` // what was left of it
	Ounce  Ounce  `json:"ounce,omitempty"`
}

// PouredBack says that a bath went into a bottle.
type PouredBack struct {
	Bath   string         `json:"bath"`
	Into   darkroom.State `json:"into"` // full bottle, part bottle, floating lid
	Bottle string         `json:"bottle,omitempty"`
	Volume string         `json:"volume,omitempty"` // what went back, where somebody measured
	Ounce  Ounce          `json:"ounce,omitempty"`
}

// Kind returns BathPouredBack.
func (*PouredBack) Kind() Kind { return BathPouredBack }

// PouredOut says that a bath went from its bottle into a tray or tank again.
type PouredOut struct {
	Bath   string `json:"bath"`
	Tray   string `json:"tray,omitempty"` // its id
	Tank   string `json:"tank,omitempty"` // its id
	Volume string `json:"volume,omitempty"`
	Ounce  Ounce  `json:"ounce,omitempty"`
}

// Kind returns BathPouredOut.
func (*PouredOut) Kind() Kind { return BathPouredOut }

// Disposed says that a bath was discarded or collected.
type Disposed struct {
	Bath string `json:"bath"`
	Leaving
}

// Kind returns BathDiscarded.
func (*Disposed) Kind() Kind { return BathDiscarded }

// Held says that prints were put in holding, where a batch waits for its wash.
type Held struct {
	Batch string   `json:"batch"`          // its id, the same for all that are washed together
	Bath  string   `json:"bath,omitempty"` // the holding bath's id
	Tray  string   `json:"tray,omitempty"` // its id
	Loads []string `json:"loads,omitempty"`
	Prints
}

// Kind returns BatchHeld.
func (*Held) Kind() Kind { return BatchHeld }

// WashStep is a moment of a wash.
type WashStep string

// The moments of a wash.
const (
	WashStarted WashStep = "started"
	WashMore    WashStep = "more in" // another print was put in: the clock starts again
	WashDone    WashStep = "done"
	WashStopped WashStep = "stopped" // before its time
)

// Washed says how the wash of a batch goes.
type Washed struct {
	Batch   string   `json:"batch"`
	Step    WashStep `json:"step"`
	Put     *Prints  `json:"put,omitempty"`     // what was put in, where it was not in holding
	Way     string   `json:"way,omitempty"`     // still, running, cascade, standing: in the room's own words
	Water   string   `json:"water,omitempty"`   // its temperature: 12 °C
	Changes int      `json:"changes,omitempty"` // of water, until now
}

// Kind returns BatchWashed.
func (*Washed) Kind() Kind { return BatchWashed }
