package plan

import (
	"time"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/hazard/meet"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/temper"
)

// A Request is what is asked.
type Request struct {
	File darkroom.File
	Now  time.Time // in the room's own zone
	// Alternatives is how many other ways of measuring are given with each bath, up to 4.
	Alternatives int
	// Whose is the name of whoever plans for themself: of the lots, their own are used first, then the room's, never another's.
	// Empty: the room, with its own alone.
	Whose string
}

// A Plan is the answer.
type Plan struct {
	Name   string // the darkroom's
	Starts time.Time
	System quantity.System
	Loads  []Load
	Baths  []Bath // in the order in which the work goes through them, paper first
	Order  []int  // indexes of Baths, in the order of mixing
	// DayBefore is what must be made up before the session: powders and their cooling.
	DayBefore []Stock
	Missing   []Missing
	Findings  []Finding // about the whole session
	Cautions  []Caution // said once, at the head
	// Never is what must never meet among all that is in use and the chlorine bleach under the sink; water onto an acid is said at
	// its bath.
	Never []meet.Pair
	Cost  Cost
}

// A Load is one line of what is to be made, with what it comes to.
type Load struct {
	Material  material.Material
	Size      material.Size
	Sheets    int // as asked, strips apart
	Rolls     int
	Strips    int
	Standard  process.Standard
	Fixing    process.Fixing
	WashAid   bool
	Area      quantity.Area // strips counted
	Units     float64       // of 80 in²
	Times     []Timed       // the chain for this load
	Reckoning reckoning.Reckoning
}

// Timed is one step of a load's chain.
type Timed struct {
	Step        process.Step
	Bath        int // index into Plan.Baths, -1 for plain water
	Time, Drain time.Duration
	Figure      reckoning.Figure // the time's, with its origin
	Agitation   string
}

// A Bath is one working solution in one vessel, made once or several times in the evening.
type Bath struct {
	ID           string // "developer", "stop", "fixer-1", "film-developer": unique in a plan, stable
	Step         process.Step
	Role         process.Role
	Materials    []material.Material
	Product      string // empty: plain water
	Dilution     dilution.Dilution
	Words        string // the label's words, as written
	Tray         string // name, or empty
	Tank         string
	Colour       string
	Rolls        int // in the tank at a time
	Window       quantity.Window
	WindowFigure reckoning.Figure // how the wanted volume came about
	Volume       quantity.Volume  // of the best choice, or what is wanted where none was found
	Depth        quantity.Length  // at Volume; 0 for a tank
	Makings      int
	Life         *Life // why so many makings, where a label's capacity says so
	// WaterFirst says that about three quarters of the water goes in before the chemical.
	WaterFirst bool
	Tolerance  float64
	Lots       []Draw
	Mix        measure.Result
	Vessels    []measure.Vessel // what Mix's indexes mean
	// Rinse names the vessels that another bath's chemical was in before, in the order of mixing.
	Rinse       []string
	Temperature quantity.Celsius
	Temper      *temper.Result // nil where the taps are not known
	// TemperVessel is where hot and cold are brought together, TemperTimes times over.
	TemperVessel string
	TemperTimes  int
	// TemperInPlace says that TemperVessel is the jug which the bath is made up in: the chemical goes into that water.
	TemperInPlace bool
	Together      Together
	Cautions      []Caution // special to this bath
	Findings      []Finding
}

// Together is how many sheets of the largest size are in a tray at once.
type Together struct {
	Usual, Most int
}

// Life is what a bath does by its label.
type Life struct {
	Load    float64 // what the evening wants, as a part of one making's capacity (1 is all of it)
	Figures []reckoning.Figure
}

// A Draw is what is taken from one lot.
type Draw struct {
	Lot     int // index into File.Shelf.Lots; -1: from the stock of DayBefore
	Stock   int // index into Plan.DayBefore, or -1
	Product string
	Amount  quantity.Volume // for all makings
	Left    quantity.Volume // afterwards; 0 where unknown
	Unknown bool            // how much is left is not known: look before you start
	Opens   bool            // a bottle that is still closed
}

// A Stock is a powder to be made up, the whole packet.
type Stock struct {
	Product  string
	Packets  int
	Makes    quantity.Volume // per packet
	Vessel   string          // that holds it, or empty: none does
	Start    quantity.Volume // of water, at MixAt
	MixAt    quantity.Celsius
	Figures  []reckoning.Figure // origin of Start and MixAt
	Temper   *temper.Result
	Cautions []Caution
	Findings []Finding
	Lot      int // the packet's lot, or -1
	// Keeps is the stock's keeping time in a full bottle by its label, Given or not.
	Keeps darkroom.As[quantity.Period]
}

// Missing is something the plan needs and the room lacks.
type Missing struct {
	Kind    MissingKind
	Product string // or role, tray, ...
	Role    process.Role
	Need    quantity.Volume
	Have    quantity.Volume
	Bath    string // ID
	// Near is what would serve in its stead, where there is something.
	Near string
	// Steps are those whose baths lack a tray, in the order of the work, Bath's the first; Material is what goes through
	// them. Both are of NoTray alone.
	Steps    []process.Step
	Material material.Material
}

// MissingKind says what is lacking.
type MissingKind string

// What can be missing.
const (
	NoProduct  MissingKind = "no_product"   // no product of this role for this material
	NoDilution MissingKind = "no_dilution"  // the product names none for this material
	TooLittle  MissingKind = "too_little"   // of a product
	NoLot      MissingKind = "no_lot"       // the product is known, none stands there
	OutOfDate  MissingKind = "out_of_date"  // all lots are past their date
	NoTray     MissingKind = "no_tray"      // none of this role that holds the sheet
	NoTraySize MissingKind = "no_tray_size" // a tray that nobody measured
	NoTank     MissingKind = "no_tank"
	NoVessel   MissingKind = "no_vessel" // none to measure with
	NoHolder   MissingKind = "no_holder" // nothing holds a whole packet
)

// A Finding is something to say, with its figures; words has a sentence for each kind.
type Finding struct {
	Kind    FindingKind
	Subject string // the user's own word: a product, a tray, a vessel, a lot
	Other   string
	Figures []reckoning.Figure // named; the sentence takes them by name
	// At is about when it comes, by the clock in the room, where the work goes on evenly from the session's start to its
	// end; zero where nobody said when that is.
	At time.Time
}

// FindingKind is a key of the message catalogue.
type FindingKind string

// The findings.
const (
	NothingToMake     FindingKind = "nothing_to_make"
	LeftUnknown       FindingKind = "left_unknown"  // a lot's content: look first
	LotPastDate       FindingKind = "lot_past_date" // set aside: label's keeping time is over
	LotAgeUnknown     FindingKind = "lot_age_unknown"
	LeastPerRollShort FindingKind = "least_per_roll_short" // too little chemical for the film, said before pouring
	LeastPerRollOK    FindingKind = "least_per_roll_ok"
	CoversReels       FindingKind = "covers_reels"
	SeveralMakings    FindingKind = "several_makings"
	SeveralByCount    FindingKind = "several_by_count" // by the count to the safe end
	TestTonight       FindingKind = "test_tonight"     // it lasts, and the test comes due
	SeveralRuns       FindingKind = "several_runs"     // the tank takes fewer reels than there are rolls
	CapacityUnknown   FindingKind = "capacity_unknown"
	OneAtATime        FindingKind = "one_at_a_time"
	SheetsTogether    FindingKind = "sheets_together"
	SmallerTray       FindingKind = "smaller_tray" // much liquid in a large tray: a smaller one, or one tray in turn
	TrayShared        FindingKind = "tray_shared"  // one tray used in turn
	WarmRoom          FindingKind = "warm_room"    // print at the water's temperature with a shorter time
	ColdRoom          FindingKind = "cold_room"    // the same, colder and longer
	ColonAmbiguous    FindingKind = "colon_ambiguous"
	PartPacket        FindingKind = "part_packet"
	StandardAssumed   FindingKind = "standard_assumed"
	FixingAssumed     FindingKind = "fixing_assumed"
	ArchivalOneBath   FindingKind = "archival_one_bath" // use two baths, and tone
	FilmFixerApart    FindingKind = "film_fixer_apart"
	TimeUnknown       FindingKind = "time_unknown"
	TapsUnknown       FindingKind = "taps_unknown"
	DepthLow          FindingKind = "depth_low"
	NeverInVessel     FindingKind = "never_in_vessel" // a vessel kept apart
	TwoProducts       FindingKind = "two_products"    // two would do; the one with more in date was taken
	CoolingHours      FindingKind = "cooling_hours"
	PacketNotHeld     FindingKind = "packet_not_held"
	StockMustBeMade   FindingKind = "stock_must_be_made"
)

// Cost is what the session's chemicals cost, in hundredths of Currency.
type Cost struct {
	Currency string
	Total    int64
	Parts    []CostPart
	// PerUnit is per 80 in² (one 8×10), PerHead per person; 0 where nothing is known.
	PerUnit, PerHead int64
	Unpriced         []string // products without a price
	Reckoning        reckoning.Reckoning
}

// CostPart is one product's share of the cost.
type CostPart struct {
	Product string
	Amount  quantity.Volume
	Cost    int64
	Figures []reckoning.Figure
}
