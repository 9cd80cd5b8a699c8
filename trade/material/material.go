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

// All returns the materials in their order, for lists and for the nearest right word.
func All() []Material { return []Material{RC, FB, Film} }

// Paper reports whether m is a paper.
func (m Material) Paper() bool { return m == RC || m == FB }

// String returns the word as it stands in a darkroom file: RC paper, FB paper, film; empty for None.
func (m Material) String() string {
	switch m {
	case RC:
		return "RC paper"
	case FB:
		return "FB paper"
	case Film:
		return "film"
	case None:
	}
	return ""
}

// Read reads a material's word, in capitals or not: RC paper, FB paper, film, and what people say for
// them (RC, FB, resin-coated paper, fibre paper). The error is a *quantity.ReadError.
func Read(text string) (Material, error) {
	switch fold(text) {
	case "":
		return None, &quantity.ReadError{Want: "material", Why: quantity.WhyEmpty}
	case "rc paper", "rc", "resin coated paper", "resin coated":
		return RC, nil
	case "fb paper", "fb", "fibre base paper", "fiber base paper", "fibre paper", "fiber paper", "fibre", "fiber":
		return FB, nil
	case "film":
		return Film, nil
	}
	return None, UnknownWord(text, "material", wordsOf(All())...)
}
