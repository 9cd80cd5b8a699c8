package process

// Role is what a chemical does.
type Role uint8

// The roles. The zero value is none.
const (
	NoRole Role = iota
	Developer
	StopBath
	Fixer
	WashingAid
	WettingAgent
	Toner
	Hardener
)

// Fixing says in how many baths a print is fixed.
type Fixing uint8

// The ways of fixing. The zero value is not said.
const (
	FixingUnsaid Fixing = iota
	OneBath
	TwoBaths
)

// Standard is how long a print shall last.
type Standard uint8

// The standards. The zero value is not said.
const (
	StandardUnsaid Standard = iota
	WorkPrint
	Exhibition
	Archival
)

// Step is one step of a chain.
type Step uint8

// The steps.
const (
	NoStep Step = iota
	PreWash
	Develop
	Stop
	StopRinse // water in place of a stop bath
	Fix
	SecondFix
	Hold
	Rinse
	Tone
	WashAid
	Wash
	Wet // wetting agent in distilled water
	Dry
)
