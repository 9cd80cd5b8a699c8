package ghs

import "slices"

// MostP is how many precautionary statements a label has as a rule, CLP Article 28.
const MostP = 6

// disposal is the one that keeps its place: where it goes is asked for in a darkroom every evening.
const disposal = "P501"

// order is in which order they are kept: first what is worn, then what is done at once for mouth, skin, eyes and breath,
// then whom to call, then what to keep from. Our own rule; CLP Article 28 leaves the choice to the severity. Never written to.
var order = []string{
	"P280", "P301+P330+P331", "P303+P361+P353", "P305+P351+P338", "P301+P310", "P304+P340", "P310", "P342+P311", "P302+P352", "P308+P313",
	"P301+P312", "P201", "P210", "P220", "P260", "P261", "P271", "P273", "P314", "P333+P313", "P337+P313", "P332+P313", "P391", "P264", "P270",
	"P272", "P234", "P390", "P235", "P370+P378", "P405", disposal,
}

// precautions returns the six that are kept: those first in the order, and the disposal in the sixth place where a class
// asks for it.
func precautions(classes []Class) []string {
	asked := map[string]bool{}
	for _, c := range classes {
		for _, p := range precautionsOf(c) {
			asked[p] = true
		}
	}
	var kept []string
	for _, p := range order {
		if asked[p] {
			kept = append(kept, p)
		}
	}
	if len(kept) > MostP {
		last := kept[MostP-1]
		if asked[disposal] {
			last = disposal
		}
		kept = append(kept[:MostP-1:MostP-1], last)
	}
	slices.Sort(kept)
	return kept
}

// precautionsOf returns those that go with a class: the eyes' after CLP Annex I 3.3.4, all others from memory.
func precautionsOf(c Class) []string {
	switch c.Kind() {
	case Fire, Heating:
		return []string{"P210", "P280", "P370+P378", disposal}
	case Oxidiser:
		return []string{"P210", "P220", "P280", "P370+P378", disposal}
	case Metals:
		return []string{"P234", "P390"}
	case Oral, Dermal, Vapour, Dust, Gas:
		return acute(c)
	case Skin:
		if c == SkinIrrit2 {
			return []string{"P264", "P280", "P302+P352", "P332+P313"}
		}
		return []string{
			"P260", "P264", "P280", "P301+P330+P331", "P303+P361+P353", "P304+P340", "P305+P351+P338", "P310", "P405", disposal,
		}
	case Eyes:
		if c == EyeIrrit2 {
			return []string{"P264", "P280", "P305+P351+P338", "P337+P313"}
		}
		return []string{"P280", "P305+P351+P338", "P310"}
	case Breath:
		return []string{"P261", "P304+P340", "P342+P311", disposal}
	case Allergy:
		return []string{"P261", "P272", "P280", "P302+P352", "P333+P313", disposal}
	case Genes, Cancer, Birth, Milk:
		return []string{"P201", "P280", "P308+P313", "P405", disposal}
	case Once:
		return []string{"P260", "P264", "P270", "P308+P313", "P405", disposal}
	case Airways, Drowsy:
		return []string{"P261", "P271", "P304+P340", "P405", disposal}
	case Repeated:
		return []string{"P260", "P314", disposal}
	case Lungs:
		return []string{"P301+P310", "P405", disposal}
	case WaterNow, WaterLong:
		if c.Pictogram() == "" {
			return []string{"P273", disposal}
		}
		return []string{"P273", "P391", disposal}
	}
	return nil
}

func acute(c Class) []string {
	severe := c.Pictogram() == Skull
	switch {
	case c.Kind() == Oral && severe:
		return []string{"P264", "P270", "P301+P310", "P405", disposal}
	case c.Kind() == Oral:
		return []string{"P264", "P270", "P301+P312", disposal}
	case c.Kind() == Dermal && severe:
		return []string{"P280", "P302+P352", "P310", "P405", disposal}
	case c.Kind() == Dermal:
		return []string{"P280", "P302+P352", disposal}
	case severe:
		return []string{"P260", "P271", "P304+P340", "P310", "P405", disposal}
	}
	return []string{"P261", "P271", "P304+P340"}
}

// Precautions returns every precautionary statement that a label here may have, in the order of their keeping.
func Precautions() []string { return slices.Clone(order) }
