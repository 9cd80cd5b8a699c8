package keep

import (
	"time"

	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Form is what a product is at the moment.
type Form uint8

// The forms. The zero value is not said.
const (
	NoForm      Form = iota
	Powder           // as bought
	Concentrate      // a liquid as bought
	Stock            // made up from a powder, or to be diluted further
	Working          // as used
)

// Forms returns the forms in their order.
func Forms() []Form { return []Form{Powder, Concentrate, Stock, Working} }

// String returns the form's key; empty for NoForm.
func (f Form) String() string {
	switch f {
	case Powder:
		return "powder"
	case Concentrate:
		return "concentrate"
	case Stock:
		return "stock"
	case Working:
		return "working"
	case NoForm:
	}
	return ""
}

// State is the state of a container.
type State uint8

// The states. The zero value is not said.
const (
	NoState     State = iota
	Unopened          // as bought
	Opened            // as bought, and some of it taken
	FullBottle        // full and stoppered
	PartBottle        // stoppered, with air
	FloatingLid       // tray or tank with a lid that lies on the liquid
	Tray              // open tray or tank
	Tank              // with a lid, and air below it
)

// States returns the states in their order.
func States() []State {
	return []State{Unopened, Opened, FullBottle, PartBottle, FloatingLid, Tray, Tank}
}

// String returns the words as they stand in a darkroom file: full bottle, tray, ...; empty for NoState.
func (s State) String() string {
	switch s {
	case Unopened:
		return "unopened"
	case Opened:
		return "opened"
	case FullBottle:
		return "full bottle"
	case PartBottle:
		return "part bottle"
	case FloatingLid:
		return "floating lid"
	case Tray:
		return "tray"
	case Tank:
		return "tank"
	case NoState:
	}
	return ""
}

// A Product is what is kept.
type Product struct {
	Role  process.Role
	Form  Form
	Label map[State]quantity.Period // the label's own keeping times of this form
}

// A Moment is when something happened. The zero value is not known.
type Moment struct {
	Time    time.Time
	DayOnly bool // only the date is known, as it stands in Time whatever its location
}

// Known reports whether the moment is known.
func (m Moment) Known() bool { return !m.Time.IsZero() }

// Kept is a product in its container.
type Kept struct {
	Product Product
	State   State
	// Level is how full the container is, 1 is full; 0 is not known. A bottle below 0.9 is a part bottle, whatever State says.
	Level   float64
	Warmest *quantity.Celsius // of the place; nil: not known, and taken as no warmer than 24 °C
	// Since is when it was received (Unopened), opened (Opened) or made.
	Since Moment
	// Between is the container in which it stands between sessions; NoState: it never left State.
	Between State
	// InTray is how long it stood in an open tray before, in all; TraySince since when it stands there now, and if that is
	// not known, it stands there since it was made.
	InTray    time.Duration
	TraySince Moment
	Now       time.Time
}

// Status says how it stands.
type Status uint8

// The statuses.
const (
	Unknown Status = iota // Why says what is not known, Tests what settles it
	Good
	Over
)

// Why is what is not known, a key of the message catalogue.
type Why string

// What may not be known.
const (
	AgeUnknown  Why = "age_unknown"  // nobody knows since when
	NoFigure    Why = "no_figure"    // neither the label nor any default says how long
	StateUnsaid Why = "state_unsaid" // the container's state is not said
)

// Rule is what an end goes by, a key of the message catalogue.
type Rule string

// The rules.
const (
	ByLabel   Rule = "label_keeping"   // the label's own keeping time
	ByDefault Rule = "default_keeping" // the default for its kind
	ByTray    Rule = "tray_time"       // the time in the open tray, added up
)

// Test is a test that settles what is unknown, a key of the message catalogue.
type Test string

// The tests. All are of a fixer: nothing else is worth one.
const (
	ClearingTime Test = "clearing_time" // a clip of film, against fresh fixer
	SilverStrip  Test = "silver_strip"  // speaks from about 0.5 g/L up
	DropTest     Test = "drop_test"     // a cloud condemns; none proves nothing
)

// Do is what a careful printer does next, a key of the message catalogue.
type Do string

// What to do.
const (
	Use       Do = "use"
	Discard   Do = "discard"    // as the local rules have it
	TestFirst Do = "test_first" // one of Tests
	AskLabel  Do = "ask_label"  // look for a date, or how long it keeps, on the label
)

// An End is one rule with its end.
type End struct {
	Rule  Rule
	Keeps reckoning.Figure // how long, with its source, D; shortened already
	// Day is the last good day, at midnight UTC.
	Day time.Time
	// Until is the instant, where hours count and it is known since when; else zero, and the whole of Day is good.
	Until time.Time
}

// An Answer is until when it is good, and how sure that is.
type Answer struct {
	Status Status
	Do     Do
	Binds  End  // the first end; zero where Unknown
	Other  *End // a later one
	Days   int  // from Now to the last good day; below 0: over since
	// TrayLeft is how much of its time in an open tray is left; 0 too where there is no rule about trays.
	TrayLeft   time.Duration
	Why        Why
	Tests      []Test
	Disagrees  []reckoning.Figure // what other sources say of the default that was taken, D
	FromFuture bool               // Since lies after Now: one of the two is wrong
}
