package dilution

import "wetside/trade/quantity"

// A Dilution is what a label's words come to.
type Dilution struct {
	// Chemicals holds the parts of each chemical: one as a rule, two for a developer in parts A and B.
	Chemicals []quantity.Ratio
	// Water holds the parts of water; 0 for a chemical used undiluted.
	Water quantity.Ratio
	// FromStock says that the chemical of the dilution is a made-up stock, not the bottle as bought.
	FromStock bool
	// Note says how words with two readings were read; NoNote where there was nothing to say.
	Note Note
	// Other is the water of the other reading, where Note is ColonRead: 1:9 as one in nine is 1+8.
	Other quantity.Ratio
}

// Note is what to tell the user about how the words were read.
type Note uint8

// The notes.
const (
	NoNote        Note = iota
	ColonRead          // "1:9", "1 to 9": read as 1+9; "1 in 9" would be stronger by Stronger()
	MadeUpTo           // "25 mL/L", "3 %": made up to the litre, not added to a litre
	AddedTo            // "16 mL to 1 litre of water": added to a litre, so a little more than a litre comes of it
	ChemicalFirst      // "9+1", "9:1": the first figure is the chemical, so there is more of it than of water
)

// Key returns the note's key for catalogues and JSON: "colon_read"; empty for NoNote.
func (n Note) Key() string {
	switch n {
	case NoNote:
		return ""
	case ColonRead:
		return "colon_read"
	case MadeUpTo:
		return "made_up_to"
	case AddedTo:
		return "added_to"
	case ChemicalFirst:
		return "chemical_first"
	}
	return ""
}

// Options rule what the words leave open.
type Options struct {
	Ounce quantity.Ounce // what an ounce, pint, quart and gallon are; NoOunce: an error where it matters
}

// Total returns the sum of all parts.
func (d Dilution) Total() (quantity.Ratio, error) {
	sum := d.Water
	var err error
	for _, c := range d.Chemicals {
		if sum, err = sum.Add(c); err != nil {
			return quantity.Ratio{}, err
		}
	}
	return sum, nil
}

// Strength returns chemical i's share of the whole, exactly.
func (d Dilution) Strength(i int) (quantity.Ratio, error) {
	t, err := d.Total()
	if err != nil {
		return quantity.Ratio{}, err
	}
	return d.Chemicals[i].Quo(t)
}
