package ghs

import "wetside/trade/quantity"

// A LabelSize is how large a label for a package has to be, mm.
type LabelSize struct {
	Wide, High float64 // of the label
	// Side is the least side of a pictogram's square, not its width from point to point.
	Side float64
	// Wished is the side that it should have where there is room for it; Side where the standard wishes for no more.
	Wished float64
	// Firm says that Wide and High are asked for, not only wished for.
	Firm bool
}

// SizeFor returns how large a label is for a package that holds so much: up to 3 L 52 × 74 mm if possible, with pictograms of at
// least 10 and if possible 16 mm; to 50 L 74 × 105 and 23; to 500 L 105 × 148 and 32; above 148 × 210 and 46. A pictogram
// covers at least a fifteenth of that label and 1 cm² (CLP, Regulation (EC) 1272/2008, Annex I, 1.2.1 and Table 1.3). The table
// is for what is sold; for a bath in a room of one's own it is good practice.
func SizeFor(v quantity.Volume) LabelSize {
	switch ml := v.ML(); {
	case ml <= 3_000:
		return LabelSize{Wide: 74, High: 52, Side: 10, Wished: 16}
	case ml <= 50_000:
		return LabelSize{Wide: 105, High: 74, Side: 23, Wished: 23, Firm: true}
	case ml <= 500_000:
		return LabelSize{Wide: 148, High: 105, Side: 32, Wished: 32, Firm: true}
	}
	return LabelSize{Wide: 210, High: 148, Side: 46, Wished: 46, Firm: true}
}
