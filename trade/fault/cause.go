package fault

import (
	"slices"

	"wetside/trade/reckoning"
)

// Kind is what sort of thing a cause is.
type Kind string

// The kinds.
const (
	Chemistry Kind = "chemistry"
	Light     Kind = "light"    // that reached the paper or film, or did not
	Handling  Kind = "handling" // what hands, tongs and clocks did
	Water     Kind = "water"    // of the mix, the wash and the last rinse
	Material  Kind = "material" // the paper, the film or the negative itself
)

// A Cause is what may be behind a sign: a stable key, which the message files have words for: its name, why it does that, a
// check of two minutes, and the remedy.
type Cause string

// The causes that are chemistry.
const (
	DeveloperSpent   Cause = "developer_spent"
	DeveloperOld     Cause = "developer_old" // gone brown by air
	DeveloperDead    Cause = "developer_dead"
	DeveloperCold    Cause = "developer_cold"
	DeveloperHot     Cause = "developer_hot"
	DeveloperWeak    Cause = "developer_weak"   // mixed too thin
	DeveloperStrong  Cause = "developer_strong" // mixed too strong
	FixerInDeveloper Cause = "fixer_in_developer"
	TooManyRolls     Cause = "too_many_rolls" // for the concentrate in the tank
	StopExhausted    Cause = "stop_exhausted"
	StopStrong       Cause = "stop_strong"
	FixerSpent       Cause = "fixer_spent" // by its silver
	FixerWeak        Cause = "fixer_weak"  // mixed too thin
	FixerDecomposed  Cause = "fixer_decomposed"
	FixerLosesAcid   Cause = "fixer_ageing" // gives off gas
	NoAid            Cause = "no_washing_aid"
	FilmDye          Cause = "film_dye" // harmless
	ColdCrystals     Cause = "cold_crystals"
)

// The causes that are light.
const (
	UnsafeLight  Cause = "unsafe_light" // the safelight: too bright, too near, an old filter
	StrayLight   Cause = "stray_light"  // a leak, a screen, a clock, the enlarger's lamp house
	WhiteLight   Cause = "white_light"  // the box or the room was lit
	Overexposed  Cause = "overexposed"
	Underexposed Cause = "underexposed"
	CameraLeak   Cause = "camera_leak"
	LoadingLight Cause = "loading_light" // where the tank was loaded
)

// The causes that are handling.
const (
	PulledEarly       Cause = "pulled_early"
	DevelopedLong     Cause = "developed_too_long"
	WrongOrder        Cause = "wrong_order" // fixer or stop first, or the wrong bottle
	NoStop            Cause = "no_stop"
	DrainedShort      Cause = "drained_short" // stop carried into the fixer
	FixShort          Cause = "fix_short"
	FixedLong         Cause = "fixed_too_long"
	Stacked           Cause = "prints_stacked"
	NotUnder          Cause = "not_under" // the print floated
	FixerUndissolved  Cause = "fixer_undissolved"
	PowderUndissolved Cause = "developer_undissolved"
	WetFingers        Cause = "wet_fingers"
	Splashes          Cause = "splashes"
	AirBells          Cause = "air_bells"
	SlowSlide         Cause = "slow_slide" // into the developer
	LittleSolution    Cause = "little_solution"
	LittleAgitation   Cause = "little_agitation"
	MuchAgitation     Cause = "much_agitation"
	TongPressure      Cause = "tong_pressure"
	WrongTongs        Cause = "wrong_tongs"
	NegativeDust      Cause = "negative_dust"
	NegativeHoles     Cause = "negative_holes"
	TestReadLate      Cause = "test_read_late"
	DropTooMuch       Cause = "drop_too_much" // of the test's own solution
	LoadedTouching    Cause = "loaded_touching"
	LoadingKinks      Cause = "loading_kinks"
	WipedFilm         Cause = "wiped_film" // squeegee, fingers
	CameraGrit        Cause = "camera_grit"
	NoWetting         Cause = "no_wetting_agent"
	NotLoaded         Cause = "not_exposed" // the film never went through the camera
)

// The causes that are water, and those that are the material.
const (
	WashShort   Cause = "wash_short"
	WashedLong  Cause = "washed_too_long"
	TooWarm     Cause = "too_warm"   // baths or wash
	BathSteps   Cause = "bath_steps" // from warm to cold
	HardWater   Cause = "hard_water"
	DirtyWater  Cause = "dirty_water" // grit, scale, rust
	OldPaper    Cause = "old_paper"
	OldFilm     Cause = "old_film"
	SoftPicture Cause = "soft_negative" // or too soft a grade
)

// causeKinds are the kinds of all causes.
func causeKinds() map[Kind][]Cause {
	return map[Kind][]Cause{
		Chemistry: {
			DeveloperSpent, DeveloperOld, DeveloperDead, DeveloperCold, DeveloperHot, DeveloperWeak, DeveloperStrong,
			FixerInDeveloper, TooManyRolls, StopExhausted, StopStrong, FixerSpent, FixerWeak, FixerDecomposed, FixerLosesAcid,
			NoAid, FilmDye, ColdCrystals,
		},
		Light: {UnsafeLight, StrayLight, WhiteLight, Overexposed, Underexposed, CameraLeak, LoadingLight},
		Handling: {
			PulledEarly, DevelopedLong, WrongOrder, NoStop, DrainedShort, FixShort, FixedLong, Stacked, NotUnder,
			FixerUndissolved, PowderUndissolved, WetFingers, Splashes, AirBells, SlowSlide, LittleSolution, LittleAgitation,
			MuchAgitation, TongPressure, WrongTongs, NegativeDust, NegativeHoles, TestReadLate, DropTooMuch, LoadedTouching,
			LoadingKinks, WipedFilm, CameraGrit, NoWetting, NotLoaded,
		},
		Water:    {WashShort, WashedLong, TooWarm, BathSteps, HardWater, DirtyWater},
		Material: {OldPaper, OldFilm, SoftPicture},
	}
}

// Kind returns what sort of thing a cause is; empty for one that is not known.
func (c Cause) Kind() Kind {
	for kind, all := range causeKinds() {
		if slices.Contains(all, c) {
			return kind
		}
	}
	return ""
}

// Known reports whether the tables have the cause.
func (c Cause) Known() bool { return c.Kind() != "" }

// A Link says that a cause is behind a sign, and where that is from.
type Link struct {
	Cause  Cause
	Source string // a key of docs/sources.md, practice, or memory
}

// What stands in place of a source.
const (
	practice = ""       // common practice
	memory   = "memory" // nobody's page
)

// Origin says where the link is from; source is the key of a named one, else empty.
func (l Link) Origin() (o reckoning.Origin, source string) {
	switch l.Source {
	case practice:
		return reckoning.CommonPractice, ""
	case memory:
		return reckoning.FromMemory, ""
	}
	return reckoning.Standard, l.Source
}

// A row is a sign with its causes, the likeliest first.
type row struct {
	sign       Sign
	where      Where
	lightFirst bool
	links      []Link
}

func of(sign Sign, where Where, links ...Link) row {
	return row{sign: sign, where: where, links: links}
}

// lightFirst is a row whose lights are to be ruled out first.
func lightFirst(sign Sign, where Where, links ...Link) row {
	return row{sign: sign, where: where, lightFirst: true, links: links}
}
