package substance

import "wetside/trade/hazard/ghs"

// The short words of the tables.

func seen(source string) Basis   { return Basis{Status: Seen, Source: source} }
func second(source string) Basis { return Basis{Status: SeenSecond, Source: source} }

func classes(cs ...ghs.Class) []ghs.Class { return cs }

// irritant, from memory what suppliers of many salts give.
func irritant() []ghs.Class { return classes(ghs.SkinIrrit2, ghs.EyeIrrit2) }

// bands are the specific limits of a corrosive: from where it burns as 1A and as 1B, and from where it irritates; 0 for none. The
// eyes go with the skin: a corrosive damages them (CLP Annex I 3.3).
func bands(oneA, oneB, irritates float64) []Limit {
	var out []Limit
	burns := oneB
	if oneA > 0 {
		out = append(out, Limit{ghs.SkinCorr1A, oneA})
	}
	if oneB > 0 {
		out = append(out, Limit{ghs.SkinCorr1B, oneB})
	} else {
		burns = oneA
	}
	return append(out, Limit{ghs.SkinIrrit2, irritates}, Limit{ghs.EyeDam1, burns}, Limit{ghs.EyeIrrit2, irritates})
}

// gas is what a salt gives off in acid: EUH031 from a share on that the entry gives.
func gas(from float64) []Supplement { return []Supplement{{Code: "EUH031", From: from}} }

// gasOwn is the same where the entry gives no limit: our own judgement.
func gasOwn(from float64) []Supplement { return []Supplement{{Code: "EUH031", From: from, Own: true}} }

// cyanideOwn is the statement for very toxic gas, from 1 % on: our own judgement, as the entries give no limit.
func cyanideOwn() []Supplement { return []Supplement{{Code: "EUH032", From: 1, Own: true}} }
