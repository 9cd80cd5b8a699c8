package words

import (
	"strings"

	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/temper"
)

// The kinds of the floors below as keys of the message files. Where a kind is text itself, it is its own key.

// snake makes a stable word a key: spaces become low lines.
func snake(word string) string { return strings.ReplaceAll(strings.ToLower(word), " ", "_") }

// unitKey returns the key of a scale's unit, with its system where named.
func unitKey(u quantity.VolumeUnit, named bool) string {
	key := ""
	switch u {
	case quantity.UnitML:
		return "ml"
	case quantity.UnitLitre:
		return "l"
	case quantity.UnitUSOunce, quantity.UnitImperialOunce:
		key = "fl_oz"
	case quantity.UnitUSPint, quantity.UnitImperialPint:
		key = "pt"
	case quantity.UnitUSQuart, quantity.UnitImperialQuart:
		key = "qt"
	case quantity.UnitUSGallon, quantity.UnitImperialGallon:
		key = "gal"
	}
	switch {
	case !named:
		return key
	case u.System() == quantity.US:
		return "us_" + key
	}
	return "imperial_" + key
}

func gradeKey(g measure.Grade) string {
	switch g {
	case measure.GradeA:
		return "grade.a"
	case measure.GradeB:
		return "grade.b"
	case measure.GradeC:
	}
	return "grade.c"
}

func mannerKey(m measure.Manner) string {
	switch m {
	case measure.InJug:
		return "manner.in_jug"
	case measure.Poured:
		return "manner.poured"
	case measure.FirstJug:
		return "manner.first_jug"
	case measure.Apart:
		return "manner.apart"
	case measure.Weighed:
		return "manner.weighed"
	case measure.Intermediate:
	}
	return "manner.intermediate"
}

func aspectKey(a measure.Aspect) string {
	switch a {
	case measure.Readings:
		return "differs.readings"
	case measure.Accuracy:
		return "differs.accuracy"
	case measure.VesselCount:
		return "differs.vessels"
	case measure.TotalVolume:
		return "differs.total"
	case measure.ChemicalVolume:
		return "differs.chemical"
	case measure.OwnScale:
		return "differs.own_scale"
	case measure.HalfMarkCount:
	}
	return "differs.half_marks"
}

func lackKey(l measure.Lack) string {
	switch l {
	case measure.LackNothing:
		return "lack.nothing"
	case measure.LackVessel:
		return "lack.vessel"
	case measure.LackChemical:
	}
	return "lack.chemical"
}

func kindKey(k measure.Kind) string {
	switch k {
	case measure.Jug:
		return "kind.jug"
	case measure.Beaker:
		return "kind.beaker"
	case measure.Cylinder:
		return "kind.cylinder"
	case measure.Syringe:
		return "kind.syringe"
	case measure.Pipette:
		return "kind.pipette"
	case measure.Balance:
	}
	return "kind.balance"
}

func classKey(c measure.Class) string {
	switch c {
	case measure.NoClass:
		return "class.none"
	case measure.ClassA:
		return "class.a"
	case measure.ClassB:
	}
	return "class.b"
}

func sourceKey(s temper.Source) string {
	switch s {
	case temper.HotTap:
		return "water.hot"
	case temper.ColdTap:
		return "water.cold"
	case temper.KettleWater:
		return "water.kettle"
	case temper.IceByWeight:
	}
	return "water.ice"
}

func temperKey(s temper.Status) string {
	switch s {
	case temper.Reached:
		return "temper.reached"
	case temper.WithKettle:
		return "temper.with_kettle"
	case temper.WithIce:
		return "temper.with_ice"
	case temper.OutOfReach:
	}
	return "temper.out_of_reach"
}

func originKey(o reckoning.Origin) string {
	switch o {
	case reckoning.Computed:
		return "origin.computed"
	case reckoning.Asked:
		return "origin.asked"
	case reckoning.Label:
		return "origin.label"
	case reckoning.Measured:
		return "origin.measured"
	case reckoning.Standard:
		return "origin.standard"
	case reckoning.CommonPractice:
		return "origin.common_practice"
	case reckoning.FromMemory:
	}
	return "origin.from_memory"
}
