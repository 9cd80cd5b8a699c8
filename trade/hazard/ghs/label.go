package ghs

import "slices"

// The pictograms.
const (
	ExplodingBomb = "GHS01"
	Flame         = "GHS02"
	FlameOver     = "GHS03"
	Cylinder      = "GHS04"
	Corrosion     = "GHS05"
	Skull         = "GHS06"
	Exclamation   = "GHS07"
	HealthHazard  = "GHS08"
	Environment   = "GHS09"
)

// A Label is what stands on a label beside names.
type Label struct {
	Codes      []string // hazard statements, without suffixes, in the order of their numbers
	Pictograms []string // in their own order
	Signal     Signal
	P          []string // at most MostP, joined ones as one
}

// LabelOf returns the label of some classes. One signal word only, the stronger. H318 is left out beside H314 and H400 beside H410
// (CLP Article 26 and 27 as told by theosweb).
func LabelOf(classes []Class) Label {
	var l Label
	for _, c := range classes {
		if c == None {
			continue
		}
		l.Codes = append(l.Codes, c.Code())
		if c.Signal() == Danger || l.Signal == NoSignal {
			l.Signal = c.Signal()
		}
	}
	slices.Sort(l.Codes)
	l.Codes = slices.Compact(l.Codes)
	l.Codes = slices.DeleteFunc(l.Codes, func(code string) bool {
		return code == "H318" && slices.Contains(l.Codes, "H314") || code == "H400" && slices.Contains(l.Codes, "H410")
	})
	l.Pictograms, l.P = pictograms(classes), precautions(classes)
	return l
}

// pictograms returns those of the classes that are left when each has given way that must, CLP Article 26: the skull
// takes away the exclamation mark; corrosion takes it away for skin and eye irritation, the health hazard of a
// sensitised breath for sensitised skin and for skin and eye irritation.
func pictograms(classes []Class) []string {
	var all []string
	for _, c := range classes {
		if p := c.Pictogram(); p != "" && !givesWay(c, classes) {
			all = append(all, p)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

func givesWay(c Class, classes []Class) bool {
	if c.Pictogram() != Exclamation {
		return false
	}
	irritates := c == SkinIrrit2 || c == EyeIrrit2
	allergy := c.Kind() == Allergy
	for _, other := range classes {
		switch {
		case other.Pictogram() == Skull,
			irritates && (other.Kind() == Skin || other.Kind() == Eyes) && other.Pictogram() == Corrosion,
			(irritates || allergy) && other == RespSens1:
			return true
		}
	}
	return false
}
