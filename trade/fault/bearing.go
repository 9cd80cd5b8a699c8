package fault

// A bears says how much a fact bears on a cause.
type bears struct {
	cause Cause
	by    Weight
}

// Bears returns how much a kind of fact bears on a cause; 0 where it says nothing of it.
func (k FactKind) Bears(c Cause) Weight {
	for _, table := range []map[FactKind][]bears{onDeveloper(), onStopAndFixer(), onWork()} {
		for _, b := range table[k] {
			if b.cause == c {
				return b.by
			}
		}
	}
	return 0
}

// onDeveloper is what facts about developers bear on.
func onDeveloper() map[FactKind][]bears {
	return map[FactKind][]bears{
		DeveloperReadCold:   {{DeveloperCold, Tells}, {DeveloperHot, -Tells}},
		DeveloperReadWarm:   {{DeveloperHot, Tells}, {DeveloperCold, -Tells}, {TooWarm, Suggests}},
		DeveloperReadRight:  {{DeveloperCold, -Suggests}, {DeveloperHot, -Suggests}},
		DeveloperPast:       {{DeveloperOld, Tells}, {DeveloperSpent, Tells}, {DeveloperDead, Hints}},
		DeveloperAgeUnknown: {{DeveloperSpent, Suggests}, {DeveloperOld, Suggests}, {DeveloperDead, Hints}},
		DeveloperFresh: {
			{DeveloperSpent, -Suggests},
			{DeveloperOld, -Suggests},
			{DeveloperDead, -Hints},
			{DeveloperWeak, Hints},
			{DeveloperStrong, Hints},
			{WrongOrder, Hints},
			{PowderUndissolved, Hints},
		},
		DeveloperOverCount: {{DeveloperSpent, Tells}},
		DeveloperStripPale: {
			{DeveloperSpent, Suggests},
			{DeveloperDead, Suggests},
			{DeveloperWeak, Suggests},
			{DeveloperOld, Hints},
			{SoftPicture, -Suggests},
			{PulledEarly, -Hints},
			{Underexposed, -Hints},
		},
		DeveloperStripDark: {
			{DeveloperSpent, -Tells}, {DeveloperDead, -Tells}, {DeveloperWeak, -Suggests}, {DeveloperOld, -Hints}, {WrongOrder, -Suggests},
		},
		DeveloperThin:      {{DeveloperWeak, Tells}, {DeveloperStrong, -Tells}},
		DeveloperStrongMix: {{DeveloperStrong, Tells}, {DeveloperWeak, -Tells}},
		LittlePerRoll:      {{TooManyRolls, Tells}},
	}
}

// onStopAndFixer is what facts about stop baths and fixers bear on.
func onStopAndFixer() map[FactKind][]bears {
	return map[FactKind][]bears{
		StopSpentNow:      {{StopExhausted, Tells}, {FixerLosesAcid, Hints}},
		StopNearly:        {{StopExhausted, Suggests}},
		StopAgeUnknown:    {{StopExhausted, Hints}},
		StopStrongMix:     {{StopStrong, Tells}, {StopExhausted, -Hints}},
		NoStopStands:      {{NoStop, Tells}, {StopExhausted, -Tells}, {StopStrong, -Tells}, {FixerDecomposed, -Hints}},
		FixerSpentNow:     {{FixerSpent, Tells}},
		FixerNearly:       {{FixerSpent, Suggests}},
		FixerFailed:       {{FixerSpent, Tells}},
		FixerPassed:       {{FixerSpent, -Suggests}},
		FixerPast:         {{FixerDecomposed, Suggests}, {FixerSpent, Suggests}, {FixerLosesAcid, Suggests}},
		FixerAgeUnknown:   {{FixerSpent, Suggests}, {FixerDecomposed, Hints}, {FixerLosesAcid, Hints}},
		FixerFresh:        {{FixerSpent, -Suggests}, {FixerDecomposed, -Hints}, {FixerUndissolved, Hints}, {FixerWeak, Hints}},
		FixerReadWarm:     {{FixerDecomposed, Suggests}, {TooWarm, Suggests}},
		FixerThin:         {{FixerWeak, Tells}},
		FixerChangedOften: {{FixerSpent, Suggests}},
		FixerForBoth:      {{FixerSpent, Hints}},
	}
}

// onWork is what facts about the work bear on.
func onWork() map[FactKind][]bears {
	return map[FactKind][]bears{
		Unlogged: {{FixerSpent, Hints}, {DeveloperSpent, Hints}, {StopExhausted, Hints}},
		NewHand: {
			{DeveloperWeak, Hints},
			{DeveloperStrong, Hints},
			{FixerInDeveloper, Hints},
			{FixerWeak, Hints},
			{WrongOrder, Hints},
			{StopStrong, Hints},
			{PowderUndissolved, Hints},
			{FixerUndissolved, Hints},
		},
		LoadsStacked:  {{Stacked, Suggests}, {LittleAgitation, Hints}, {FixShort, Hints}, {NotUnder, Hints}},
		LevelLow:      {{LittleSolution, Tells}, {NotUnder, Suggests}},
		BathsApart:    {{BathSteps, Tells}},
		LeftEarly:     {{PulledEarly, Tells}, {DevelopedLong, -Suggests}},
		LeftFixEarly:  {{FixShort, Tells}, {FixedLong, -Suggests}},
		LayLongInFix:  {{FixedLong, Tells}, {FixShort, -Suggests}},
		NoAidStands:   {{NoAid, Suggests}},
		AidSpent:      {{NoAid, Suggests}},
		WashCutShort:  {{WashShort, Tells}, {WashedLong, -Suggests}},
		WashFailed:    {{WashShort, Tells}, {WashedLong, -Hints}},
		WashPassed:    {{WashShort, -Suggests}},
		SilverFailed:  {{FixerSpent, Suggests}, {FixShort, Suggests}, {Stacked, Hints}},
		WaterReadWarm: {{TooWarm, Tells}},
		LongInWash:    {{WashedLong, Tells}},
	}
}
