package fault

// printRows is what is seen on prints. The order within a row is that of the named pages and of common practice; where a page
// names a cause that it does not rank, what costs least to look at stands first.
func printRows() []row {
	return append(toneRows(), append(markRows(), laterRows()...)...)
}

// toneRows: the whole picture is wrong.
func toneRows() []row {
	return []row{
		of(FlatBlacks, OnPrint,
			Link{DeveloperSpent, "Army-SS0509-106"}, Link{DeveloperCold, "SL1922b"}, Link{DeveloperWeak, "SL1922b"},
			Link{PulledEarly, "Navy-14209-291"}, Link{SoftPicture, practice}, Link{DeveloperOld, practice}),
		of(RushesUp, OnPrint,
			Link{Overexposed, "Army-SS0509-45"}, Link{DeveloperHot, "SL1922b"}, Link{DeveloperStrong, "SL1922b"}),
		of(NothingComes, OnPrint,
			Link{WrongOrder, "Army-98-11"}, Link{DeveloperDead, practice}, Link{FixerInDeveloper, "Army-98-11"},
			Link{Underexposed, practice}),
		lightFirst(AllBlack, OnPrint,
			Link{WhiteLight, practice}, Link{Overexposed, practice}, Link{DeveloperHot, memory}),
		lightFirst(GreyVeil, OnPrint,
			Link{UnsafeLight, "BoP-fog"}, Link{StrayLight, "BoP-fog"}, Link{WhiteLight, practice}, Link{OldPaper, "BoP-fog"},
			Link{DeveloperHot, practice}, Link{FixerInDeveloper, "BoP-fog"}, Link{DevelopedLong, "BoP-fog"}, Link{DeveloperOld, practice}),
		lightFirst(DullHighlights, OnPrint,
			Link{UnsafeLight, practice}, Link{StrayLight, practice}, Link{OldPaper, practice}, Link{DeveloperHot, memory}),
		of(UnevenGrey, OnPrint,
			Link{PulledEarly, "PP-588"}, Link{SlowSlide, practice}, Link{LittleAgitation, "Navy-14209-280"},
			Link{LittleSolution, "PTP-430"}, Link{DeveloperSpent, practice}),
		of(GreenBlacks, OnPrint,
			Link{DeveloperSpent, practice}, Link{Underexposed, "BoP-fog"}, Link{Overexposed, "PP-588"}, Link{DeveloperOld, practice},
			Link{FixedLong, memory}),
	}
}

// markRows: there is something on it.
func markRows() []row {
	return []row{
		of(YellowStain, OnPrint,
			Link{DeveloperOld, "Navy-14209-291"}, Link{DevelopedLong, "Navy-14209-291"}, Link{DeveloperHot, "Navy-14209-291"},
			Link{StopExhausted, "Anchell3"}, Link{NoStop, practice}, Link{FixerDecomposed, practice}),
		of(BrownPatches, OnPrint,
			Link{NotUnder, "AmW5"}, Link{StopExhausted, "PP-gaslight"}, Link{NoStop, "PP-gaslight"}, Link{Stacked, practice},
			Link{LittleSolution, practice}),
		of(FingerMarks, OnPrint, Link{WetFingers, "BoP-stains"}, Link{Splashes, practice}),
		of(WhiteSpecks, OnPrint,
			Link{FixerUndissolved, "PP-spots"}, Link{DirtyWater, "PP-spots"}, Link{FixerDecomposed, practice}, Link{HardWater, practice}),
		of(WhiteHairs, OnPrint, Link{NegativeDust, practice}),
		of(DarkSpecks, OnPrint,
			Link{NegativeHoles, practice}, Link{PowderUndissolved, "PTP-430"}, Link{Splashes, practice}, Link{DirtyWater, practice}),
		of(RoundSpots, OnPrint, Link{AirBells, "Navy-14209-291"}, Link{Splashes, practice}),
		of(Pinholes, OnPrint, Link{StopStrong, "Anchell3"}, Link{TooWarm, practice}, Link{BathSteps, practice}),
		of(TongMarks, OnPrint, Link{TongPressure, practice}, Link{WrongTongs, practice}),
		of(ChalkFilm, OnPrint,
			Link{HardWater, practice}, Link{FixerDecomposed, "SL1913"}, Link{WashShort, practice}),
		of(PalesInFix, OnPrint, Link{FixedLong, practice}, Link{PulledEarly, practice}),
		of(EdgesLift, OnPrint, Link{FixedLong, practice}, Link{WashedLong, practice}, Link{TooWarm, memory}),
		of(EmulsionPeels, OnPrint,
			Link{TooWarm, "Army-98-90"}, Link{BathSteps, "Army-98-90"}, Link{WashedLong, "Army-98-90"}, Link{StopStrong, memory},
			Link{FixerDecomposed, "Army-98-90"}),
	}
}

// laterRows: it shows after days or years, or in a test.
func laterRows() []row {
	return []row{
		of(DarkensInLight, OnPrint,
			Link{FixerSpent, "PP-gaslight"}, Link{Stacked, "PP-gaslight"}, Link{FixShort, "PP-gaslight"}, Link{FixerWeak, practice}),
		of(StainFromBack, OnPrint,
			Link{FixerSpent, practice}, Link{FixShort, practice}, Link{WashShort, practice}, Link{NoAid, practice}),
		of(Fades, OnPrint,
			Link{WashShort, practice}, Link{NoAid, practice}, Link{FixedLong, practice}, Link{FixerSpent, practice}),
		of(TonerStain, OnPrint,
			Link{FixerSpent, practice}, Link{WashShort, practice}, Link{FixShort, practice}, Link{WetFingers, practice}),
		of(TestAlwaysFails, OnPrint, Link{TestReadLate, practice}, Link{WashShort, practice}, Link{NoAid, practice}, Link{FixedLong, practice}),
	}
}
