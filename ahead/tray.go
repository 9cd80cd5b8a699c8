package ahead

import (
	"math"
	"slices"
	"time"

	"wetside/trade/bath"
	"wetside/trade/reckoning"
)

// topUpPart is how much of a developer may be missing before it is topped up, as a part of what was made; a guess.
const topUpPart = 0.05

// airApart is how much sooner the air must end a developer than its label's hours before it is worth saying.
const airApart = time.Hour

// airStep is how finely it is said: the reckoning is a rough one.
const airStep = 30 * time.Minute

// inTray says of a developer that is the first bath of its prints how far it has sunk, and what the air does to it as
// shallow as that. The label's hours stay what ends it: how the air takes a developer is from memory.
func (l *looker) inTray(o *Outlook) {
	b := &o.Bath
	if !b.open() || b.Litres <= 0 || o.Index != o.Chain.Baths[0] || o.Lead.Kind == PourOut || o.Lead.Kind == OneShot || o.OutOfUse() {
		return
	}
	l.level(o)
	l.air(o)
}

// level says how much is missing where it is to be topped up, else after how many sheets that is.
func (l *looker) level(o *Outlook) {
	made, now := o.Bath.Litres, l.rooms.Litres(o.Index).P50
	carry := l.rooms.CarryReckoning(l.sheetOf(o))
	each := carry.Result.Value
	lacks := math.Max(0, made-now) * 1000
	least := topUpPart * made * 1000
	after := math.Floor((least-lacks)/each + 1e-9)
	f := Finding{Kind: LevelDown, Subject: o.Bath.name(), Figures: []reckoning.Figure{
		{Name: "level_lacks", Value: 10 * math.Round(lacks/10), Unit: reckoning.ML, Origin: reckoning.FromMemory},
	}}
	if lacks < least {
		if !l.comes(o, after) {
			return
		}
		f.Kind = LevelSinks
		f.Figures = []reckoning.Figure{count("after", math.Max(1, after)), carry.Figure()}
	}
	o.more(f)
	o.Reckoning = append(o.Reckoning, reckoning.Reckoning{
		Rule: "level_of_developer",
		Puts: []reckoning.Figure{
			{Name: "bath_volume", Value: made, Unit: reckoning.L, Origin: reckoning.Measured},
			carry.Figure(),
			count("sheets_done", math.Round(o.Done)),
			{Name: "top_up_part", Value: topUpPart, Unit: reckoning.Share, Origin: reckoning.FromMemory},
		},
		Result: reckoning.Figure{Name: "level_lacks", Value: lacks, Unit: reckoning.ML, Origin: reckoning.Computed},
	})
}

// comes reports whether so many sheets are to be expected: tonight wants them, or where nothing is said of tonight, no label
// ends the bath before.
func (l *looker) comes(o *Outlook, sheets float64) bool {
	if l.after != nil {
		return sheets < l.tonight(o.Index)
	}
	return o.Left == nil || sheets < float64(o.Left.P10)
}

func (l *looker) sheetOf(o *Outlook) bath.Sheet {
	return bath.Sheet{Of: o.Chain.Material, Area: Area8x10, Drained: o.Chain.Drained.Seconds()}
}

// air follows what the open air took of a developer whose hours in a tray are known, and says when that ends it sooner.
func (l *looker) air(o *Outlook) {
	b, now := &o.Bath, l.scene.Now
	hours := o.End.DateOf.Value * 24
	if o.End.Date.IsZero() || hours <= 0 || now.Before(later(b.Made, b.Since)) {
		return
	}
	air, stood := bath.NewAir(b.Litres, hours), 0.0
	wait := func(t time.Time) {
		if long := b.stoodAt(t).Hours(); long > stood {
			air, stood = air.Wait(long-stood), long
		}
	}
	for i := range l.scene.Events {
		e := &l.scene.Events[i]
		switch {
		case e.TopUp != nil && e.TopUp.Bath == o.Index && !e.TopUp.Water:
			wait(e.At)
			air = air.TopUp(e.TopUp.Litres)
		case e.Pass != nil && slices.Contains(e.Pass.Baths, o.Index):
			wait(e.At)
			one := l.rooms.CarryReckoning(bath.Sheet{Of: e.Pass.Material, Area: e.Pass.Area, Drained: e.Pass.Drained.Seconds()})
			air = air.Lose(one.Result.Value / 1000 * e.Pass.Sheets)
		}
	}
	wait(now)
	o.Reckoning = append(o.Reckoning, air.Reckon())
	ends := now.Add(time.Duration(air.Left() * float64(time.Hour))).Truncate(airStep)
	if o.End.Date.Sub(ends) >= airApart {
		o.more(Finding{Kind: AirSooner, Subject: b.name(), Date: ends})
	}
}

// stoodAt returns how long a bath that stands in the open had stood so by a moment. When it stood there before is known by
// its sum alone, taken as the time right after it was made.
func (b *Bath) stoodAt(t time.Time) time.Duration {
	since := later(b.Made, b.Since)
	if t.Before(since) {
		return max(0, min(b.InTray, t.Sub(b.Made)))
	}
	return b.InTray + t.Sub(since)
}
