package fault

import "wetside/trade/reckoning"

// FactKind is what is known of a room tonight: a key of the message catalogue.
type FactKind string

// What is known of developers.
const (
	DeveloperReadCold   FactKind = "developer_read_cold"   // read, wanted
	DeveloperReadWarm   FactKind = "developer_read_warm"   // read, wanted
	DeveloperReadRight  FactKind = "developer_read_right"  // read, wanted
	DeveloperPast       FactKind = "developer_past"        // its time is over
	DeveloperAgeUnknown FactKind = "developer_age_unknown" //
	DeveloperFresh      FactKind = "developer_fresh"       // made within hours, and little went through
	DeveloperOverCount  FactKind = "developer_over_count"  // done, of what its label does
	DeveloperStripPale  FactKind = "developer_strip_pale"  // the room-light strip came paler than in fresh developer
	DeveloperStripDark  FactKind = "developer_strip_dark"  // it came as dark
	DeveloperThin       FactKind = "developer_thin"        // mixed thinner than its label says
	DeveloperStrongMix  FactKind = "developer_strong_mix"  // mixed stronger
	LittlePerRoll       FactKind = "little_per_roll"       // chemical_per_roll, least_per_roll
)

// What is known of stop baths and fixers.
const (
	StopSpentNow      FactKind = "stop_spent_now" // turned, or past its count or its time
	StopNearly        FactKind = "stop_nearly"
	StopAgeUnknown    FactKind = "stop_age_unknown"
	StopStrongMix     FactKind = "stop_strong_mix" // mixed stronger than its label says
	NoStopStands      FactKind = "no_stop_stands"
	FixerSpentNow     FactKind = "fixer_spent_now" // by count
	FixerNearly       FactKind = "fixer_nearly"
	FixerFailed       FactKind = "fixer_failed" // a test
	FixerPassed       FactKind = "fixer_passed" // a test, with nothing through it since that counts
	FixerPast         FactKind = "fixer_past"   // its time is over
	FixerAgeUnknown   FactKind = "fixer_age_unknown"
	FixerFresh        FactKind = "fixer_fresh"         // made within a day or two, and little went through
	FixerReadWarm     FactKind = "fixer_read_warm"     // read
	FixerThin         FactKind = "fixer_thin"          // mixed thinner than its label says for the material
	FixerChangedOften FactKind = "fixer_changed_often" // changes of the pair
	FixerForBoth      FactKind = "fixer_for_both"      // film and paper went through it
)

// What is known of the work.
const (
	Unlogged      FactKind = "unlogged"        // guessed, done: nobody counted
	NewHand       FactKind = "new_hand"        // whoever mixed it had mixed nothing here before
	LoadsStacked  FactKind = "loads_stacked"   // sheets in one load
	LevelLow      FactKind = "level_low"       //
	BathsApart    FactKind = "baths_apart"     // coldest, warmest
	LeftEarly     FactKind = "left_early"      // the developer: in it, planned
	LeftFixEarly  FactKind = "left_fix_early"  // in it, planned
	LayLongInFix  FactKind = "lay_long_in_fix" // in it, planned
	NoAidStands   FactKind = "no_aid_stands"   // and none was used
	AidSpent      FactKind = "aid_spent"       //
	WashCutShort  FactKind = "wash_cut_short"  //
	WashFailed    FactKind = "wash_failed"     // the hypo drop left a stain
	WashPassed    FactKind = "wash_passed"     // it left none
	SilverFailed  FactKind = "silver_failed"   // the silver drop on a print left a stain
	WaterReadWarm FactKind = "water_read_warm" // of a wash: read
	LongInWash    FactKind = "long_in_wash"    // resin-coated paper: in it
)

// What a check said tonight, when whoever looked answered it.
const (
	CheckYes FactKind = "check_yes"
	CheckNo  FactKind = "check_no"
)

// A Fact is one thing that is known.
type Fact struct {
	Kind FactKind
	// Bath is the id of the bath that it is about, empty for none; Name is what people call it.
	Bath, Name string
	About      Where // OnPrint, OnFilm, or Anywhere for work of both kinds
	Figures    []reckoning.Figure
}

// Weight is how much a fact bears on a cause, in points; below 0 it speaks against it.
type Weight int

// The weights. From memory; see the rule in the package's comment.
const (
	Hints    Weight = 4
	Suggests Weight = 8
	Tells    Weight = 12
	Answered Weight = 30
)

// The points of places.
const (
	firstPlace = 10
	perPlace   = 2
)
