package bath

import (
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// The spreads of a guess, standard deviations of the logarithm, from memory.
const (
	coatingSpread     = 0.20
	undevelopedSpread = 0.15
	carrySpread       = 0.25
)

// DefaultPrior returns what is believed of papers and film where a room has not tested, from memory but for the film's
// water (Torz2004: 4 mL on a roll and 6 mL left in the drained tank). Silver lies within what Ag-coat tells of papers,
// 0.5 to 1.6 g/m².
func DefaultPrior() Prior {
	undeveloped := Guess{0.7, undevelopedSpread}
	carry := Guess{1, carrySpread}
	return Prior{
		material.RC:   {Guess{1.0, coatingSpread}, undeveloped, carry, CarryOver{25, 99, 5}, 10},
		material.FB:   {Guess{1.5, coatingSpread}, undeveloped, carry, CarryOver{135, 283, 5}, 10},
		material.Film: {Guess{3.2, coatingSpread}, undeveloped, carry, CarryOver{178, 178, 5}, 10},
	}
}

// Place is which fixing bath a limit is for.
type Place uint8

// The places.
const (
	Alone  Place = iota // the only one
	First               // the first of two
	Second              // the second of two
)

// limit is one figure of the table of silver limits with its origin.
type limit struct {
	grams  float64
	origin reckoning.Origin
	source string
}

func remembered(grams float64) limit { return limit{grams, reckoning.FromMemory, ""} }

func printed(grams float64, source string) limit { return limit{grams, reckoning.Standard, source} }

// SilverLimit returns the most silver for a wanted permanence, g/L in a fixer at film strength. ok is false where no
// number of sheets would do: archival fibre prints in one bath want two.
func SilverLimit(m material.Material, s process.Standard, p Place) (figure reckoning.Figure, ok bool) {
	l := silverLimit(m, s, p)
	return reckoning.Figure{
		Name: "silver_limit", Value: l.grams, Unit: reckoning.GPerL, Origin: l.origin, Source: l.source,
	}, l.grams > 0
}

func silverLimit(m material.Material, s process.Standard, p Place) limit {
	switch {
	case m == material.Film:
		return filmLimit(s)
	case p == First:
		return firstLimit(s)
	case p == Second:
		return secondLimit(s)
	case m == material.RC:
		return rcLimit(s)
	}
	return fbLimit(s)
}

func filmLimit(s process.Standard) limit {
	switch s {
	case process.Archival:
		return printed(0.2, "Haist-q")
	case process.WorkPrint, process.Exhibition, process.StandardUnsaid:
	}
	return printed(1.5, "Haist-q")
}

func rcLimit(s process.Standard) limit {
	if s == process.WorkPrint {
		return remembered(3.0)
	}
	// From the count rule of 50 sheets of 8×10 per litre; archival is no other, since the base ages and not the fixing.
	return limit{1.8, reckoning.CommonPractice, ""}
}

func fbLimit(s process.Standard) limit {
	switch s {
	case process.WorkPrint:
		return remembered(2.0)
	case process.Archival:
		return limit{}
	case process.Exhibition, process.StandardUnsaid:
	}
	return printed(0.5, "Darkside")
}

func firstLimit(s process.Standard) limit {
	switch s {
	case process.WorkPrint:
		return remembered(3.0)
	case process.Archival:
		return remembered(0.8)
	case process.Exhibition, process.StandardUnsaid:
	}
	return printed(2.0, "Darkside")
}

func secondLimit(s process.Standard) limit {
	switch s {
	case process.WorkPrint:
		return remembered(0.5)
	case process.Archival:
		return remembered(0.05)
	case process.Exhibition, process.StandardUnsaid:
	}
	return remembered(0.3)
}

// FilmStrength returns the thiosulfate of a rapid fixer at film strength, 1+4: 60 % ammonium thiosulfate of density
// 1.32, 200 mL in the litre, 158 g/L. Density and share are from memory.
func FilmStrength() reckoning.Figure {
	return reckoning.Figure{Name: "film_strength", Value: 158, Unit: reckoning.GPerL, Origin: reckoning.FromMemory}
}

// FilmDilution is the strength at which a usual rapid fixer is at film strength: one part in five.
const FilmDilution = 1.0 / 5

// LeastThiosulfate returns the share of its made-up thiosulfate below which a fixer no longer fixes in the stated time.
func LeastThiosulfate() reckoning.Figure {
	return reckoning.Figure{Name: "least_thiosulfate", Value: 0.5, Unit: reckoning.Share, Origin: reckoning.FromMemory}
}

// UsualStrip returns the steps of a silver strip where a room has not said its own, g/L, from memory. The first is the
// least that one can tell.
func UsualStrip() []float64 { return []float64{0.5, 1, 1.5, 2, 3, 5} }

// StopAcid returns the acetic acid of a stop bath whose label declares nothing, mol/kg: 48 mL of 28 % acid in the
// litre (handbook).
func StopAcid() reckoning.Figure {
	return reckoning.Figure{Name: "stop_acid", Value: 0.232, Unit: reckoning.MolPerKg, Origin: reckoning.FromMemory}
}

// CarriedDeveloper returns the alkali of the working developer that a sheet carries into the stop bath where nothing is
// declared, mol/kg: carbonate and sulfite of a usual paper developer, an assumption.
func CarriedDeveloper() (carbonate, sulfite reckoning.Figure) {
	carbonate = reckoning.Figure{Name: "developer_carbonate", Value: 0.2123, Unit: reckoning.MolPerKg, Origin: reckoning.FromMemory}
	sulfite = reckoning.Figure{Name: "developer_sulfite", Value: 0.1190, Unit: reckoning.MolPerKg, Origin: reckoning.FromMemory}
	return carbonate, sulfite
}

// MostChanges returns after how many changes of a two-bath pair both are made new, MostPerLitre after how many sheets of
// 8×10 per litre.
func MostChanges() reckoning.Figure {
	return reckoning.Figure{Name: "most_changes", Value: 3, Unit: reckoning.One, Origin: reckoning.Standard, Source: "Anchell3"}
}

// MostPerLitre returns after how many sheets of 8×10 per litre both fixers of a pair are made new.
func MostPerLitre() reckoning.Figure {
	return reckoning.Figure{Name: "most_per_litre", Value: 250, Unit: reckoning.One, Origin: reckoning.Standard, Source: "APorg-fix"}
}
