package fault_test

import (
	"testing"

	"wetside/trade/fault"
)

// A printer's answer: what is seen, what is known, and what they would look at first; of a sign that may be light, which light,
// and what comes first behind it. From the pages named in the tables and common practice.
func TestCases(t *testing.T) {
	type facts = []fault.FactKind
	for _, tt := range []struct {
		sign  fault.Sign
		facts facts
		first fault.Cause
		light fault.Cause // to be ruled out before that; empty for none
		no    []fault.Cause
	}{
		// Flat prints: the developer, unless something speaks for it.
		{fault.FlatBlacks, nil, fault.DeveloperSpent, "", nil},
		{fault.FlatBlacks, facts{fault.DeveloperOverCount}, fault.DeveloperSpent, "", nil},
		{fault.FlatBlacks, facts{fault.DeveloperReadCold}, fault.DeveloperCold, "", nil},
		{fault.FlatBlacks, facts{fault.DeveloperReadCold, fault.DeveloperFresh}, fault.DeveloperCold, "", nil},
		{fault.FlatBlacks, facts{fault.DeveloperFresh, fault.NewHand}, fault.DeveloperWeak, "", nil},
		{fault.FlatBlacks, facts{fault.DeveloperFresh, fault.NewHand, fault.DeveloperReadRight}, fault.DeveloperWeak, "", nil},
		{fault.FlatBlacks, facts{fault.DeveloperThin}, fault.DeveloperWeak, "", nil},
		{fault.FlatBlacks, facts{fault.DeveloperStripDark}, fault.DeveloperCold, "", nil}, // the strip was given its full time
		{fault.FlatBlacks, facts{fault.DeveloperStripDark, fault.DeveloperReadRight}, fault.PulledEarly, "", nil},
		{fault.FlatBlacks, facts{fault.LeftEarly}, fault.PulledEarly, "", nil},
		{fault.FlatBlacks, facts{fault.DeveloperPast}, fault.DeveloperSpent, "", nil},
		{fault.FlatBlacks, facts{fault.Unlogged}, fault.DeveloperSpent, "", nil},
		{fault.FlatBlacks, facts{fault.DeveloperAgeUnknown}, fault.DeveloperSpent, "", nil},
		{fault.FlatBlacks, nil, fault.SoftPicture, "", []fault.Cause{
			fault.DeveloperSpent, fault.DeveloperCold, fault.DeveloperWeak, fault.PulledEarly,
		}},
		{fault.FlatBlacks, facts{fault.FixerSpentNow}, fault.DeveloperSpent, "", nil}, // a fixer says nothing of it
		// Too fast.
		{fault.RushesUp, nil, fault.Overexposed, "", nil},
		{fault.RushesUp, facts{fault.DeveloperReadWarm}, fault.DeveloperHot, "", nil},
		{fault.RushesUp, facts{fault.DeveloperStrongMix}, fault.DeveloperStrong, "", nil},
		{fault.RushesUp, facts{fault.DeveloperReadRight}, fault.Overexposed, "", nil},
		{fault.RushesUp, facts{fault.DeveloperFresh, fault.NewHand}, fault.DeveloperStrong, "", nil},
		// Nothing.
		{fault.NothingComes, nil, fault.WrongOrder, "", nil},
		{fault.NothingComes, facts{fault.NewHand, fault.DeveloperFresh}, fault.WrongOrder, "", nil},
		{fault.NothingComes, facts{fault.DeveloperStripPale}, fault.DeveloperDead, "", nil},
		{fault.NothingComes, facts{fault.DeveloperStripDark}, fault.FixerInDeveloper, "", nil},
		{fault.NothingComes, nil, fault.Underexposed, "", []fault.Cause{fault.WrongOrder, fault.DeveloperDead, fault.FixerInDeveloper}},
		{fault.NothingComes, facts{fault.DeveloperAgeUnknown}, fault.DeveloperDead, "", nil},
		// Veil and dull highlights: light first, always.
		{fault.GreyVeil, nil, fault.OldPaper, fault.UnsafeLight, nil},
		{fault.GreyVeil, facts{fault.DeveloperReadWarm}, fault.DeveloperHot, fault.UnsafeLight, nil},
		{fault.GreyVeil, facts{fault.DeveloperPast}, fault.DeveloperOld, fault.UnsafeLight, nil},
		{fault.GreyVeil, nil, fault.OldPaper, fault.StrayLight, []fault.Cause{fault.UnsafeLight}},
		{fault.GreyVeil, nil, fault.OldPaper, "", []fault.Cause{fault.UnsafeLight, fault.StrayLight, fault.WhiteLight}},
		{fault.GreyVeil, facts{fault.NewHand}, fault.OldPaper, fault.UnsafeLight, []fault.Cause{}},
		{fault.DullHighlights, nil, fault.OldPaper, fault.UnsafeLight, nil},
		{fault.DullHighlights, facts{fault.DeveloperReadWarm}, fault.DeveloperHot, fault.UnsafeLight, nil},
		{fault.AllBlack, nil, fault.DeveloperHot, fault.WhiteLight, nil},
		{fault.FilmFog, nil, fault.OldFilm, fault.LoadingLight, nil},
		{fault.FilmFog, facts{fault.DeveloperReadWarm}, fault.DeveloperHot, fault.LoadingLight, nil},
		// Stains.
		{fault.YellowStain, nil, fault.DeveloperOld, "", nil},
		{fault.YellowStain, facts{fault.StopSpentNow}, fault.StopExhausted, "", nil},
		{fault.YellowStain, facts{fault.StopSpentNow, fault.DeveloperFresh}, fault.StopExhausted, "", nil},
		{fault.YellowStain, facts{fault.NoStopStands}, fault.NoStop, "", nil},
		{fault.YellowStain, facts{fault.DeveloperPast, fault.StopNearly}, fault.DeveloperOld, "", nil},
		{fault.YellowStain, facts{fault.DeveloperReadWarm}, fault.DeveloperHot, "", nil},
		{fault.BrownPatches, nil, fault.NotUnder, "", nil},
		{fault.BrownPatches, facts{fault.StopSpentNow}, fault.StopExhausted, "", nil},
		{fault.BrownPatches, facts{fault.NoStopStands}, fault.NoStop, "", nil},
		{fault.BrownPatches, facts{fault.LoadsStacked}, fault.NotUnder, "", nil},
		{fault.BrownPatches, facts{fault.LevelLow}, fault.NotUnder, "", nil},
		{fault.FingerMarks, nil, fault.WetFingers, "", nil},
		{fault.StainFromBack, facts{fault.FixerNearly}, fault.FixerSpent, "", nil},
		{fault.StainFromBack, facts{fault.FixerFresh, fault.NoAidStands}, fault.NoAid, "", nil},
		{fault.TonerStain, facts{fault.FixerPassed, fault.WashFailed}, fault.WashShort, "", nil},
		// Spots.
		{fault.WhiteSpecks, facts{fault.FixerFresh}, fault.FixerUndissolved, "", nil},
		{fault.WhiteSpecks, facts{fault.FixerPast, fault.FixerReadWarm}, fault.FixerDecomposed, "", nil},
		{fault.DarkSpecks, nil, fault.NegativeHoles, "", nil},
		{fault.DarkSpecks, facts{fault.DeveloperFresh, fault.NewHand}, fault.PowderUndissolved, "", nil},
		{fault.RoundSpots, nil, fault.AirBells, "", nil},
		{fault.Pinholes, nil, fault.StopStrong, "", nil},
		{fault.Pinholes, facts{fault.WaterReadWarm}, fault.TooWarm, "", nil},
		{fault.Pinholes, facts{fault.NoStopStands}, fault.TooWarm, "", nil},
		// Fixing and washing.
		{fault.DarkensInLight, nil, fault.FixerSpent, "", nil},
		{fault.DarkensInLight, facts{fault.FixerFresh, fault.LoadsStacked}, fault.Stacked, "", nil},
		{fault.DarkensInLight, facts{fault.LeftFixEarly}, fault.FixShort, "", nil},
		{fault.DarkensInLight, facts{fault.FixerThin, fault.FixerFresh}, fault.FixerWeak, "", nil},
		{fault.DarkensInLight, facts{fault.FixerPassed, fault.LeftFixEarly}, fault.FixShort, "", nil},
		{fault.DarkensInLight, facts{fault.SilverFailed}, fault.FixerSpent, "", nil},
		{fault.Fades, nil, fault.WashShort, "", nil},
		{fault.Fades, facts{fault.WashPassed, fault.NoAidStands}, fault.NoAid, "", nil},
		{fault.Fades, facts{fault.LayLongInFix}, fault.FixedLong, "", nil},
		{fault.TestAlwaysFails, nil, fault.TestReadLate, "", nil},
		{fault.TestAlwaysFails, facts{fault.WashCutShort}, fault.WashShort, "", nil},
		{fault.PalesInFix, facts{fault.LayLongInFix}, fault.FixedLong, "", nil},
		{fault.EdgesLift, facts{fault.LongInWash}, fault.WashedLong, "", nil},
		{fault.EdgesLift, nil, fault.FixedLong, "", nil},
		{fault.EmulsionPeels, nil, fault.TooWarm, "", nil},
		{fault.EmulsionPeels, facts{fault.BathsApart}, fault.BathSteps, "", nil},
		{fault.ChalkFilm, nil, fault.HardWater, "", nil},
		{fault.ChalkFilm, facts{fault.FixerPast}, fault.FixerDecomposed, "", nil},
		// Film.
		{fault.FilmBlank, nil, fault.DeveloperDead, "", nil},
		{fault.FilmBlank, facts{fault.NewHand}, fault.WrongOrder, "", nil},
		{fault.FilmBlank, facts{fault.DeveloperStripDark}, fault.FixerInDeveloper, "", nil},
		{fault.FilmThin, nil, fault.DeveloperWeak, "", nil},
		{fault.FilmThin, facts{fault.LittlePerRoll}, fault.TooManyRolls, "", nil},
		{fault.FilmThin, facts{fault.DeveloperReadCold}, fault.DeveloperCold, "", nil},
		{fault.FilmThin, facts{fault.DeveloperThin, fault.LittlePerRoll}, fault.DeveloperWeak, "", nil},
		{fault.FilmMilky, nil, fault.FixShort, "", nil},
		{fault.FilmMilky, facts{fault.FixerFailed}, fault.FixerSpent, "", nil},
		{fault.FilmMilky, facts{fault.FixerFresh}, fault.FixShort, "", nil},
		{fault.FilmEdgeBand, nil, fault.LittleSolution, "", nil},
		{fault.FilmCracked, facts{fault.BathsApart}, fault.BathSteps, "", nil},
		{fault.FilmDense, facts{fault.DeveloperReadWarm}, fault.DeveloperHot, "", nil},
		{fault.FilmStreaks, nil, fault.LittleAgitation, "", nil},
		// Baths.
		{fault.FixerCloudy, nil, fault.FixerDecomposed, "", nil},
		{fault.FixerCloudy, facts{fault.FixerFresh}, fault.TooWarm, "", nil},
		{fault.FixerSlow, nil, fault.FixerSpent, "", nil},
		{fault.FixerSlow, facts{fault.FixerFresh, fault.NewHand}, fault.FixerWeak, "", nil},
		{fault.DropCloud, facts{fault.FixerSpentNow}, fault.FixerSpent, "", nil},
		{fault.DropCloud, facts{fault.FixerFresh}, fault.DropTooMuch, "", nil},
		{fault.StopTurned, nil, fault.StopExhausted, "", nil},
		{fault.SharpFumes, nil, fault.DrainedShort, "", nil},
		{fault.SharpFumes, facts{fault.FixerPast}, fault.FixerLosesAcid, "", nil},
		{fault.ColouredPour, nil, fault.FilmDye, "", nil},
		{fault.DeveloperBrown, nil, fault.DeveloperOld, "", nil},
		{fault.BottleCrystals, nil, fault.ColdCrystals, "", nil},
	} {
		q := fault.Question{Sign: tt.sign, No: tt.no}
		for _, k := range tt.facts {
			q.Facts = append(q.Facts, fault.Fact{Kind: k})
		}
		g, err := fault.Look(q)
		if err != nil {
			t.Fatal(err)
		}
		var light fault.Cause
		if g.LightFirst > 0 {
			light = g.Causes[0].Cause
		}
		if got := g.Causes[g.LightFirst]; got.Cause != tt.first || light != tt.light {
			t.Errorf("%s, known %v, not %v: first %s (%d points) after light %q, want %s after %q", tt.sign, tt.facts, tt.no, got.Cause, got.Points, light, tt.first, tt.light)
		}
	}
}
