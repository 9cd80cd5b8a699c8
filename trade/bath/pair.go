package bath

import "wetside/trade/reckoning"

// Renewal says why both fixers of a pair are to be made new.
type Renewal uint8

// The reasons. NotYet lets the second become the first, with a fresh one behind it.
const (
	NotYet    Renewal = iota
	ByChanges         // the pair has been changed as often as it may
	ByCount           // so many sheets have gone through, per litre
)

// A Pair is when both fixers of two-bath fixing are made new, whatever they hold. A room may set its own.
type Pair struct {
	MostChanges  float64 // of the first for the second
	MostPerLitre float64 // sheets of 8×10 since both were new, per litre of one of them
}

// DefaultPair returns MostChanges and MostPerLitre.
func DefaultPair() Pair { return Pair{MostChanges().Value, MostPerLitre().Value} }

// BothNew tells whether, the first being spent, the pair is made new as a whole and not changed once more: after so many
// changes and so many sheets of 8×10 per litre since both were new. The changes are named first. A zero limit is none.
func (p Pair) BothNew(changes int, perLitre float64) Renewal {
	switch {
	case p.MostChanges > 0 && float64(changes) >= p.MostChanges:
		return ByChanges
	case p.MostPerLitre > 0 && perLitre >= p.MostPerLitre:
		return ByCount
	}
	return NotYet
}

// Reckon opens BothNew.
func (p Pair) Reckon(changes int, perLitre float64) reckoning.Reckoning {
	most, per := MostChanges(), MostPerLitre()
	for f, value := range map[*reckoning.Figure]float64{&most: p.MostChanges, &per: p.MostPerLitre} {
		if f.Value != value {
			f.Value, f.Origin, f.Source = value, reckoning.Measured, ""
		}
	}
	return reckoning.Reckoning{
		Rule: "pair_made_new",
		Puts: []reckoning.Figure{
			figure("changes", float64(changes), reckoning.One), most,
			figure("sheets_per_litre", perLitre, reckoning.One), per,
		},
		Result: figure("sheets_per_litre_left", max(0, p.MostPerLitre-perLitre), reckoning.One),
	}
}
