package plan

import (
	"slices"

	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
)

// A Caution is a key of the message catalogue with what it is about.
type Caution struct {
	Kind    CautionKind
	Subject string
	Hazards []string // H statements as declared on the label
	// Other is the substance that is to blame, where it is one's.
	Other string
	// Names are the products that it is about, where they are several.
	Names []string
	// From is what is poured from, Harms what it does; Thinned what the working solution still does of it.
	From    hazard.State
	Harms   []ghs.Harm
	Thinned []ghs.Harm
}

// CautionKind is a key of the message catalogue.
type CautionKind string

// The cautions. Those at the head are said once; the others stand at the step they belong to.
const (
	GlovesGoggles CautionKind = "gloves_goggles" // head
	LabelFirst    CautionKind = "label_first"    // head: label and safety data sheet
	NotJudged     CautionKind = "not_judged"     // head: Names, of which not all or nothing is declared
	NoKitchenware CautionKind = "no_kitchenware" // head
	Air           CautionKind = "air"            // head
	PupilsTongs   CautionKind = "pupils_tongs"   // head, in a school
	InEye         CautionKind = "in_eye"         // head, first aid
	Spilt         CautionKind = "spilt"          // head, first aid
	Swallowed     CautionKind = "swallowed"      // head, first aid
	PoisonCentre  CautionKind = "poison_centre"  // head: the room's own line
	PoisonBlank   CautionKind = "poison_blank"   // head: a line to write it on, as the room has told none
	AcidIntoWater CautionKind = "acid_into_water"
	AcidUnknown   CautionKind = "acid_unknown" // a stop bath that nobody declared: an acid unless its label says otherwise
	StrongAlkali  CautionKind = "strong_alkali"
	PowderDust    CautionKind = "powder_dust"
	HotWater      CautionKind = "hot_water"
	Harmful       CautionKind = "harmful"      // Harms of From, and Thinned
	ThickGloves   CautionKind = "thick_gloves" // Other goes through thin ones
	Vapour        CautionKind = "vapour"       // Other comes off sharp
	OdourlessStop CautionKind = "odourless"    // the same of a stop bath, which there are others of
	TonerApart    CautionKind = "toner_apart"
	FixerNoDrain  CautionKind = "fixer_no_drain"
)

// A Moment is when, of mixing a bath step by step, a caution is wanted. What is read three screens early is forgotten.
type Moment uint8

// The moments.
const (
	AtFirst  Moment = iota // before anything is done
	AtWater                // where the hot tap is used
	AtBottle               // where the chemical is first handled
	AtEnd                  // when it stands in its tray
)

// At returns when a bath's caution is wanted.
func (k CautionKind) At() Moment {
	switch k {
	case HotWater:
		return AtWater
	case AcidIntoWater, StrongAlkali, Harmful, ThickGloves, Vapour, OdourlessStop:
		return AtBottle
	case FixerNoDrain:
		return AtEnd
	default:
		return AtFirst
	}
}

// Aid reports whether a caution says what to do once it has happened.
func (k CautionKind) Aid() bool {
	return slices.Contains([]CautionKind{InEye, Spilt, Swallowed, PoisonCentre, PoisonBlank}, k)
}
