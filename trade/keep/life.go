package keep

import (
	"math"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// A span is how long it keeps in a state.
type span struct {
	period    quantity.Period
	share     float64 // of the period, 1 or less
	figure    reckoning.Figure
	rule      Rule
	disagrees []reckoning.Figure
}

// life returns how long it keeps in a state: by the label, else by default; shortened by air and warmth.
func (k Kept) life(s State) (span, bool) {
	var l span
	p, f, ok := Default(k.Product.Role, k.Product.Form, s)
	if own, labelled := k.Product.Label[s]; labelled {
		l = span{period: own, rule: ByLabel, figure: reckoning.Figure{
			Name: "keeps", Value: inDays(own), Unit: reckoning.D, Origin: reckoning.Label,
		}}
	} else if ok {
		l = span{period: p, rule: ByDefault, figure: f, disagrees: disagrees(k.Product.Role, k.Product.Form, s)}
	} else {
		return span{}, false
	}
	l.share = 1
	puts := []reckoning.Figure{l.figure}
	if s == PartBottle && k.Level > 0 && k.Level < NearlyEmpty().Value {
		l.share /= 2
		puts = append(puts, share("level", k.Level), NearlyEmpty())
		puts[1].Origin = reckoning.Measured
	}
	if warm := WarmFrom(); k.Warmest != nil && float64(*k.Warmest) > warm.Value {
		q := WarmQ10()
		l.share *= math.Pow(q.Value, (warm.Value-float64(*k.Warmest))/10)
		puts = append(puts, reckoning.Figure{
			Name: "warmest", Value: float64(*k.Warmest), Unit: reckoning.C, Origin: reckoning.Measured,
		}, warm, q)
	}
	if l.share < 1 {
		l.figure = reckoning.Figure{Name: "keeps", Value: l.figure.Value * l.share, Unit: reckoning.D}
		l.figure.By = &reckoning.Reckoning{Rule: "keeps_less", Puts: puts, Result: l.figure}
	}
	return l, true
}
