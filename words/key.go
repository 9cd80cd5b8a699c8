package words

import (
	"strings"

	"wetside/trade/measure"
	"wetside/trade/reckoning"
)

// The kinds of the floors below as keys of the message files. Where a kind is text itself, it is its own key.

// snake makes a stable word a key: spaces become low lines.
func snake(word string) string { return strings.ReplaceAll(strings.ToLower(word), " ", "_") }

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
