package material

import "wetside/trade/quantity"

// Material is what goes through the baths.
type Material uint8

// The materials. The zero value is none.
const (
	None Material = iota
	RC            // resin-coated paper
	FB            // fibre-base paper
	Film
)

// Paper reports whether m is a paper.
func (m Material) Paper() bool { return m == RC || m == FB }

// A Size is a sheet's format or a roll's name.
type Size struct {
	Width, Height quantity.Length // of a sheet, as written; both 0 for a roll
	Roll          Roll            // NoRoll for a sheet
}

// Roll is a roll film's format.
type Roll uint8

// The rolls.
const (
	NoRoll Roll = iota
	Roll135x36
	Roll135x24
	Roll120
)
