package process

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
	CheckClearing // film only: is it clear, and in what time
)

// Steps returns the steps, in the order in which a chain can have them.
func Steps() []Step {
	return []Step{
		PreWash, Develop, Stop, StopRinse, Fix, CheckClearing, Hold, SecondFix, Rinse, Tone, WashAid, Wash, Wet, Dry,
	}
}

// Before reports whether a step comes before another where a chain has both in the usual way: the clearing check after
// the first fixer, both fixers before holding. (A second fixing that is left until a batch is together comes later than it says.)
func (s Step) Before(other Step) bool { return s.place() < other.place() }

// place is ten times a step's number; the clearing check comes after the first fixer.
func (s Step) place() int {
	if s == CheckClearing {
		return int(Fix)*10 + 5
	}
	return int(s) * 10
}

// String returns a stable snake_case key; empty for NoStep.
func (s Step) String() string {
	return [...]string{
		"", "pre_wash", "develop", "stop", "stop_rinse", "fix", "second_fix", "hold", "rinse", "tone", "washing_aid",
		"wash", "wetting_agent", "dry", "check_clearing",
	}[s]
}

// Role returns the role of the chemical that the step takes, NoRole where it takes water or nothing.
func (s Step) Role() Role {
	switch s {
	case Develop:
		return Developer
	case Stop:
		return StopBath
	case Fix, SecondFix:
		return Fixer
	case Tone:
		return Toner
	case WashAid:
		return WashingAid
	case Wet:
		return WettingAgent
	case NoStep, PreWash, StopRinse, Hold, Rinse, Wash, Dry, CheckClearing:
	}
	return NoRole
}

// Liquid reports whether the material lies in a liquid in this step, so that it drains after it.
func (s Step) Liquid() bool { return s != NoStep && s != Dry && s != CheckClearing }

// Tongs reports whether a print is handled with tongs in this step: every bath that holds a chemical, and a
// rinse in place of the stop bath. One pair each, that goes into no other tray; common practice.
func (s Step) Tongs() bool { return s == StopRinse || s.Role() != NoRole && s != Wet }
