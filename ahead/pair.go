package ahead

import (
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// aidCount is how many fibre sheets of 8×10 per litre are printed for one bath with a washing aid and ordinary
// permanence; the aid itself shortens the wash alone.
const aidCount = 40

// besideFixer is what belongs to a fixer.
func (l *looker) besideFixer(o *Outlook) {
	c := &o.Chain
	l.strips(o)
	if _, own := l.scene.ownLimit(c, c.place(&o.Bath)); own {
		o.more(Finding{Kind: RoomLimit})
	}
	switch {
	case o.End.By == ByAdvice:
	case c.Fixing == process.TwoBaths:
		l.pair(o)
	case c.Material == material.FB && c.WashAid:
		o.more(Finding{Kind: AidShortensWash, Figures: []reckoning.Figure{
			{Name: "printed", Value: aidCount * o.Bath.Litres, Unit: reckoning.One, Origin: reckoning.CommonPractice},
		}})
	}
	if o.Done > float64(o.End.At) && o.End.At > 0 && o.Left != nil && o.Left.P90 == 0 {
		o.more(Finding{Kind: WorkedOn})
	}
}

// pair says of a first fixer what happens when it is spent, and of both when they must be new.
func (l *looker) pair(o *Outlook) {
	b := &o.Bath
	if b.Place == bath.Second {
		return
	}
	pair, perLitre := bath.DefaultPair(), b.PairSheets/b.Litres
	o.Reckoning = append(o.Reckoning, pair.Reckon(b.Changes, perLitre))
	if pair.BothNew(b.Changes, perLitre) != bath.NotYet {
		o.more(Finding{Kind: BothNew, Subject: b.name()})
		return
	}
	o.more(Finding{Kind: MovesForward, Subject: b.name(), Figures: []reckoning.Figure{
		count("changes_left", pair.MostChanges-float64(b.Changes)),
	}})
}
