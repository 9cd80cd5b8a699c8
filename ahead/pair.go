package ahead

import (
	"wetside/trade/bath"
	"wetside/trade/reckoning"
)

// pair says of a first fixer what happens when it is spent, and of both when they must be new.
func (l *looker) pair(o *Outlook) {
	b := &o.Bath
	if b.Place == bath.Second {
		return
	}
	changes, sheets := bath.MostChanges(), bath.MostPerLitre()
	most := sheets.Value * b.Litres
	if float64(b.Changes) >= changes.Value || b.PairSheets >= most {
		o.more(Finding{Kind: BothNew, Subject: b.name(), Figures: []reckoning.Figure{
			count("changes", float64(b.Changes)), count("pair_sheets", b.PairSheets), count("most_pair_sheets", most),
		}})
		return
	}
	o.more(Finding{Kind: MovesForward, Subject: b.name(), Figures: []reckoning.Figure{
		count("changes", float64(b.Changes)), count("changes_left", changes.Value-float64(b.Changes)),
	}})
}
