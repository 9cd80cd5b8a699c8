package fault

// filmRows is what is seen on films, ordered as in printRows.
func filmRows() []row {
	return []row{
		of(FilmBlank, OnFilm,
			Link{DeveloperDead, practice}, Link{WrongOrder, practice}, Link{FixerInDeveloper, practice}),
		of(FilmNoPictures, OnFilm, Link{NotLoaded, "PTP-430"}, Link{Underexposed, practice}),
		of(FilmThin, OnFilm,
			Link{DeveloperWeak, practice}, Link{DeveloperCold, practice}, Link{TooManyRolls, practice}, Link{Underexposed, practice},
			Link{PulledEarly, practice}, Link{DeveloperSpent, practice}, Link{DeveloperOld, practice}),
		of(FilmDense, OnFilm,
			Link{Overexposed, "Navy-14209-276"}, Link{DevelopedLong, practice}, Link{DeveloperHot, practice},
			Link{DeveloperStrong, practice}, Link{MuchAgitation, practice}),
		lightFirst(FilmFog, OnFilm,
			Link{LoadingLight, practice}, Link{CameraLeak, "Army-98-90"}, Link{OldFilm, "PTP-430"}, Link{DeveloperHot, practice},
			Link{DevelopedLong, practice}, Link{FixerInDeveloper, "MPTP-8"}, Link{FixShort, practice}),
		of(FilmMilky, OnFilm,
			Link{FixShort, "Navy-14209-249"}, Link{FixerSpent, "Navy-14209-249"}, Link{FixerWeak, practice}, Link{WashShort, practice}),
		of(FilmStreaks, OnFilm,
			Link{LittleAgitation, "Navy-14209-280"}, Link{MuchAgitation, practice}, Link{LittleSolution, practice}, Link{Splashes, "Navy-14209-280"}),
		of(FilmEdgeBand, OnFilm, Link{LittleSolution, "PTP-430"}, Link{LittleAgitation, practice}),
		of(FilmTouching, OnFilm, Link{LoadedTouching, "PP-234"}, Link{LittleSolution, "PP-234"}),
		of(FilmCrescents, OnFilm, Link{LoadingKinks, practice}),
		of(FilmScratches, OnFilm, Link{WipedFilm, practice}, Link{CameraGrit, "Navy-14209-276"}, Link{TooWarm, practice}),
		of(FilmRoundSpots, OnFilm, Link{AirBells, "Army-98-90"}, Link{NoWetting, practice}, Link{StopStrong, practice}),
		of(FilmDryMarks, OnFilm,
			Link{NoWetting, "Navy-14209-280"}, Link{HardWater, practice}, Link{Splashes, "Navy-14209-280"}, Link{DirtyWater, practice}),
		of(FilmCracked, OnFilm, Link{BathSteps, "Army-98-90"}, Link{TooWarm, "Army-98-90"}),
	}
}
