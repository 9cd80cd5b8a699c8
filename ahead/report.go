package ahead

import (
	"time"

	"wetside/book"
	"wetside/trade/bath"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// A Report is what is coming for every bath of a scene.
type Report struct {
	At    time.Time
	Baths []Outlook
	// Lead is the one thing to say of all together: all is good, or what to do next.
	Lead Finding
	Due  []Due // what is due, the soonest first
	// Learned is what the room's tests have taught, by material; empty where nobody tested.
	Learned []Learned
	// Effective is the effective sample size of the draws, of Draws.
	Effective float64
	Draws     int
}

// An Outlook is what is coming for one bath.
type Outlook struct {
	Bath  Bath
	Index int // of Scene.Baths
	Chain Chain
	// Left is how many sheets of 8×10 it still does, After how many after tonight's; nil where that is unknown, or the
	// answer is another way of working.
	Left, After *bath.Counts
	// Done is what went through since it was made, in 8×10; Guessed the part of it that nobody counted.
	Done, Guessed float64
	End           End
	// Silver is what the fixer holds, g/L; Thiosulfate likewise; PH a stop bath's, 0 where it is not known.
	Silver, Thiosulfate bath.Span
	PH                  float64
	// Label is what the label's capacity leaves, LabelAll what it was; nil where the label names none for the material.
	Label, LabelAll *int
	// TestAfter is after how many more sheets the test of Tests[0] is due; 0 is now.
	TestAfter int
	Tests     []book.Test // that tell something of this bath, the most telling first
	Lead      Finding     // the one honest sentence
	More      []Finding   // what belongs to it
	Helps     []Help      // what would help, and what would not
	Reckoning []reckoning.Reckoning
	Course    *Course // how it goes on; nil where nothing is counted
}

// By is what ends a bath.
type By string

// What ends a bath.
const (
	ByLabel       By = "label"
	BySilver      By = "silver"
	ByThiosulfate By = "thiosulfate"
	BySecondBath  By = "second bath"
	ByPH          By = "ph"
	ByTrayTime    By = "tray time"
	ByKeeping     By = "keeping"
	ByTest        By = "test"
	ByUnknown     By = "unknown"
	ByAdvice      By = "advice" // another way of working
)

// End is what ends a bath, after how many sheets in all since it was made, and on which day at the latest.
type End struct {
	By   By
	At   int       // sheets of 8×10 in all, the safe end; 0 where nothing is counted
	Date time.Time // zero where it is not known
	// DateOf says where the day is from.
	DateOf reckoning.Figure
}

// A Course is a bath's amount against the sheets still to come.
type Course struct {
	Of    bath.Amount
	From  float64 // sheets of 8×10 done until now
	Ahead bath.Course
	Limit float64 // of a stop bath's pH; the fixer's falls and stands in Ahead
}

// A Help is another way of working, with what it would do.
type Help struct {
	Kind HelpKind
	Left bath.Counts // in the same bath, sheets of 8×10
	More bool        // whether it is a tenth more than now, at least
}

// HelpKind is a key of the message catalogue.
type HelpKind string

// What may help.
const (
	HelpTwoBaths  HelpKind = "two_baths"
	HelpOneBath   HelpKind = "one_bath"
	HelpWorkPrint HelpKind = "work_print"
	HelpRC        HelpKind = "rc"
	HelpFB        HelpKind = "fb"
	HelpStronger  HelpKind = "film_strength"
	HelpMore      HelpKind = "half_as_much_more" // liquid
	HelpDrain     HelpKind = "drain_longer"      // ten seconds more
	HelpRinse     HelpKind = "water_rinse"
)

// A Due is something that is due.
type Due struct {
	Kind DueKind
	Bath int // index of Report.Baths
	Day  time.Time
	Test book.Test
}

// DueKind is a key of the message catalogue.
type DueKind string

// What can be due.
const (
	DueTest    DueKind = "test"
	DueChange  DueKind = "change"  // spent, or will be tonight
	DueDate    DueKind = "date"    // its keeping time ends
	DueForward DueKind = "forward" // the second moves forward
	DueBothNew DueKind = "both_new"
)

// Learned is what was believed of a material before and what is believed now, with what was seen.
type Learned struct {
	Chain                       Chain
	CarryBefore, CarryNow       bath.Span // mL/m²
	SilverBefore, SilverNow     bath.Span // g/m² that the fixer dissolves
	Tests                       int
	CoatingBefore, CoatingAfter bath.Span // g/m²
}

// A Finding is something to say, with its figures; words has a sentence for each kind.
type Finding struct {
	Kind     FindingKind
	Subject  string // the user's own word, or a key that the sentence knows
	Standard process.Standard
	Fixing   process.Fixing
	By       By
	Test     book.Test
	Date     time.Time
	Figures  []reckoning.Figure
}

// FindingKind is a key of the message catalogue.
type FindingKind string

// What leads.
const (
	UseFor       FindingKind = "use_for"        // safe, likely
	UseForMany   FindingKind = "use_for_many"   // more than the evening could want
	UseForLabel  FindingKind = "use_for_label"  // safe: the label's count alone
	UseUntil     FindingKind = "use_until"      // nothing counts it, the date ends it
	OneShot      FindingKind = "one_shot"       // a film developer that is poured away after its film
	AtSafeEnd    FindingKind = "at_safe_end"    // likely: test before the next sheet
	Spent        FindingKind = "spent"          // do not use it
	PastDate     FindingKind = "past_date"      // do not use it
	FailedTest   FindingKind = "failed_test"    // do not use it
	UseTwoBaths  FindingKind = "use_two_baths"  // archival fibre prints in one bath
	PourOut      FindingKind = "pour_out"       // a developer of unknown age
	TestFirst    FindingKind = "test_first"     // a fixer of unknown age
	UnknownAge   FindingKind = "unknown_age"    // anything else of unknown age
	NoRule       FindingKind = "no_rule"        // the label names nothing for this material
	ForFilmAlone FindingKind = "for_film_alone" // a bath used for film is not for paper
)

// What stands beside it.
const (
	LabelDiffers    FindingKind = "label_differs" // label, safe
	MovesForward    FindingKind = "moves_forward"
	BothNew         FindingKind = "both_new"
	StripCannot     FindingKind = "strip_cannot" // limit, step
	NotByRedLight   FindingKind = "not_by_red_light"
	Guessed         FindingKind = "guessed" // guessed, done
	TonightEnough   FindingKind = "tonight_enough"
	TonightShort    FindingKind = "tonight_short" // tonight, safe
	AcidAssumed     FindingKind = "acid_assumed"
	StandardTaken   FindingKind = "standard_taken"
	AgeGuessed      FindingKind = "age_guessed"
	WorkedOn        FindingKind = "worked_on" // sheets went through after it was spent
	BeforeItWasMade FindingKind = "before_it_was_made"
	RoomLimit       FindingKind = "room_limit"        // the room's own limit was used
	AidShortensWash FindingKind = "aid_shortens_wash" // printed: what others print with it
	LevelDown       FindingKind = "level_down"        // lacks: top up to the mark
	LevelSinks      FindingKind = "level_sinks"       // after: top up after so many; carry_per_sheet
	AirSooner       FindingKind = "air_sooner"        // Date: shallow as it is, the air ends it before its label's hours
	StripHigh       FindingKind = "strip_high"        // strips: so many in a row show more silver than was counted
	StripLow        FindingKind = "strip_low"         // strips: likewise less
	InBottle        FindingKind = "in_bottle"         // tonight, short: what it would do of tonight, poured out
)

// What leads for all baths together.
const (
	AllGood     FindingKind = "all_good" // count of baths; test and after how many, where one is due
	DoNext      FindingKind = "do_next"  // Subject: the bath; By
	NothingHere FindingKind = "nothing_stands_here"
)
