package fault

// bathRows is what is seen in baths and bottles, ordered as in printRows.
func bathRows() []row {
	return []row{
		of(DeveloperBrown, InBath, Link{DeveloperOld, practice}, Link{DeveloperSpent, practice}),
		of(DeveloperMilky, InBath, Link{HardWater, practice}, Link{PowderUndissolved, practice}, Link{FixerInDeveloper, memory}),
		of(StopTurned, InBath, Link{StopExhausted, "Anchell3"}, Link{DrainedShort, practice}),
		of(FixerCloudy, InBath,
			Link{FixerDecomposed, "Anchell3"}, Link{TooWarm, "SL1918"}, Link{DrainedShort, practice}, Link{HardWater, practice}),
		of(FixerSlow, InBath, Link{FixerSpent, "Navy-14209-249"}, Link{FixerWeak, practice}, Link{FixerDecomposed, practice}),
		of(DropCloud, InBath, Link{FixerSpent, "Anchell3"}, Link{DropTooMuch, practice}),
		of(SharpFumes, InBath,
			Link{DrainedShort, "Army-SS0509-45"}, Link{FixerLosesAcid, practice}, Link{TooWarm, "SL1918"}, Link{StopStrong, practice}),
		of(ColouredPour, InBath, Link{FilmDye, practice}, Link{FixShort, practice}),
		of(BottleCrystals, InBath, Link{ColdCrystals, "PTP-430"}, Link{DeveloperOld, practice}),
		of(SlimyWash, InBath, Link{DirtyWater, practice}, Link{TooWarm, memory}),
	}
}
