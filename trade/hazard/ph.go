package hazard

import (
	"math"
	"slices"

	"wetside/trade/chem"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
	"wetside/trade/reckoning"
)

// The pH rule, both ends inclusive (CLP-3.2.3, MixClass-eye).
const (
	MostAcid   = 2.0
	MostAlkali = 11.5
)

// phAt is the temperature at which pH is reckoned, °C: that of the constants and of most sheets.
const phAt = 25

// A PHNote tells what the pH rule says, a key of the message catalogue.
type PHNote string

// The notes.
const (
	SeeSheet  PHNote = "see_sheet" // extreme: it would burn, unless the supplier has other data
	Within    PHNote = "within"    // between the ends
	Declared  PHNote = "declared"  // within, of what is declared alone: what is not may change it
	NoPH      PHNote = "unknown"   // can't be reckoned: something in it has no pH constants here, or is too strong
	DryMatter PHNote = "dry"       // a powder has none
)

// A PHRule is the pH beside the concentration rules; it changes no class.
type PHRule struct {
	PH      float64 // NaN where unknown
	Known   bool
	WouldBe ghs.Class // Skin Corr. 1 (and eye damage with it), or None
	Note    PHNote
	// Indicative says that the mixture is too salty for the reckoned pH to be more than a hint.
	Indicative bool
	Reckoning  []reckoning.Reckoning // none where the pH was given
}

// phRule judges the pH: the one given, else that of what is declared, in water, at whichever end of the shares is more extreme.
func phRule(m Mixture, state State, high, low []Part, unknown bool) PHRule {
	switch {
	case m.PHKnown:
		return ruleOf(m.PH, Within)
	case state == Powder:
		return PHRule{PH: math.NaN(), Note: DryMatter}
	case unknown || len(high) == 0:
		return PHRule{PH: math.NaN(), Note: NoPH}
	}
	ends := [][]Part{high, low}
	if slices.EqualFunc(high, low, func(a, b Part) bool { return a.Share == b.Share }) {
		ends = ends[:1]
	}
	var extreme *chem.Mixture
	farthest := -1.0
	for _, parts := range ends {
		if m, ok := dissolve(parts); ok {
			if far := math.Abs(m.Solve().PH - 7); far > farthest {
				extreme, farthest = m, far
			}
		}
	}
	if extreme == nil {
		return PHRule{PH: math.NaN(), Note: NoPH}
	}
	res := extreme.Explain()
	r := ruleOf(res.PH, Declared)
	r.Indicative, r.Reckoning = res.Indicative, res.Reckoning
	return r
}

// ruleOf applies the rule to a pH.
func ruleOf(ph float64, within PHNote) PHRule {
	if ph <= MostAcid || ph >= MostAlkali {
		return PHRule{PH: ph, Known: true, WouldBe: ghs.SkinCorr1, Note: SeeSheet}
	}
	return PHRule{PH: ph, Known: true, Note: within}
}

// dissolve mixes parts with the water beside them; ok is false where a part is unknown to trade/chem, or too strong.
func dissolve(parts []Part) (m *chem.Mixture, ok bool) {
	water := total
	var amounts []chem.Amount
	for _, p := range parts {
		if p.Substance.Name != "water" {
			water -= p.Share
		}
	}
	if water < 1 {
		return nil, false
	}
	for _, p := range parts {
		if p.Substance.Neutral {
			continue
		}
		s, known := chemical(p.Substance)
		if !known {
			return nil, false
		}
		amounts = append(amounts, chem.Amount{Substance: s, Molality: p.Share / s.MolarMass() / water * 1000})
	}
	if len(amounts) == 0 {
		return nil, false
	}
	m, err := chem.Mix(phAt, amounts...)
	return m, err == nil
}

// chemical finds a row's substance among those with constants.
func chemical(s substance.Substance) (chem.Substance, bool) {
	for _, name := range append([]string{s.Name}, s.Also...) {
		if c, err := chem.Lookup(name); err == nil {
			return c.Dry(), true
		}
	}
	return chem.Substance{}, false
}
