package ahead

import (
	"slices"

	"wetside/book"
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// testBefore is how long before the safe end a test is due, as a part of all the bath does; a guess.
const testBefore = 0.05

// tests says which tests tell something of a bath, and when the first is due.
func (l *looker) tests(o *Outlook, a *asked, place int) {
	if o.Bath.Role == process.StopBath {
		o.Tests = []book.Test{book.PHPaper}
		if p := o.Bath.Product; p != nil && p.Indicator.To != "" {
			o.Tests = append(o.Tests, book.IndicatorTest)
			o.more(Finding{Kind: NotByRedLight, Subject: o.Bath.name()})
		}
	} else {
		l.fixerTests(o, a, place)
	}
}

// fixerTests: film by its clearing time; a first bath by the strip where the strip can tell its limit; what the strip
// cannot tell by a drop on a print.
func (l *looker) fixerTests(o *Outlook, a *asked, place int) {
	if o.Chain.Material == material.Film {
		o.Tests = []book.Test{book.ClearingTime, book.SilverStrip}
		return
	}
	limit := a.ask.Limits[place].Silver
	lowest := bath.UsualStrip()[0]
	if strip := l.scene.Room.SilverStrip; len(strip) > 0 {
		lowest = strip[0]
	}
	if limit > lowest {
		o.Tests = []book.Test{book.SilverStrip, book.SilverDrop}
		return
	}
	o.Tests = []book.Test{book.SilverDrop}
	o.stripCannot(limit, lowest)
}

func (o *Outlook) stripCannot(limit, lowest float64) {
	o.more(Finding{Kind: StripCannot, Subject: o.Bath.name(), Figures: []reckoning.Figure{
		{Name: "limit", Value: limit, Unit: reckoning.GPerL}, {Name: "step", Value: lowest, Unit: reckoning.GPerL, Origin: reckoning.FromMemory},
	}})
}

// failed reports whether the last test of its kind says that a bath is out.
func (l *looker) failed(o *Outlook) bool {
	last := map[book.Test]*Test{}
	for i := range l.scene.Events {
		if t := l.scene.Events[i].Test; t != nil && t.Bath == o.Index {
			last[t.Result.Test] = t
		}
	}
	for _, t := range book.Tests() {
		if x := last[t]; x != nil && l.out(o, x) {
			return true
		}
	}
	return false
}

// out reports whether a test's result says that a bath is spent.
func (l *looker) out(o *Outlook, t *Test) bool {
	r := &t.Result
	switch r.Test {
	case book.PHPaper:
		return o.Bath.Role == process.StopBath && r.From >= bath.SpentPH
	case book.ClearingTime:
		return r.Fresh > 0 && r.From >= 2*r.Fresh.Seconds()
	case book.IndicatorTest, book.DropTest, book.SilverDrop, book.LightTest:
		return r.Verdict == book.Failed
	case book.SilverStrip:
		limit := l.limitNow(o)
		return limit > 0 && r.From >= limit
	case book.HypoDrop, book.Thermometer, book.LevelTest:
	}
	return false
}

// measured reports whether a test said what a fixer of unknown age holds, and could tell it from its limit.
func (l *looker) measured(o *Outlook, a *asked) bool {
	t, ok := l.scene.strip(o.Index)
	return ok && a != nil && (t.Result.To < l.limitNow(o) || t.Result.From >= l.limitNow(o))
}

// limitNow is the most silver that a fixer may hold as thin as it is.
func (l *looker) limitNow(o *Outlook) float64 {
	limit, _, _ := l.scene.limitOf(&o.Chain, &o.Bath, &l.past.Baths[o.Index])
	if limit.FilmStrength == 0 {
		return 0
	}
	return limit.Silver * o.Thiosulfate.P50 / limit.FilmStrength
}

// cannotTell says that the strip that was read does not settle it.
func (l *looker) cannotTell(o *Outlook, a *asked) {
	if t, ok := l.scene.strip(o.Index); ok && a != nil {
		o.stripCannot(l.limitNow(o), t.Result.To)
	}
}

// worthTest reports whether a bath at its safe end is to be tested rather than poured away: half of the rooms go on, and no
// strip was read since the last sheet.
func (l *looker) worthTest(o *Outlook, a *asked) bool {
	if a == nil || o.Left.P50 == 0 || len(o.Tests) == 0 {
		return false
	}
	for _, e := range slices.Backward(l.scene.Events) {
		switch {
		case e.Pass != nil && slices.Contains(e.Pass.Baths, o.Index):
			return true
		case e.Test != nil && e.Test.Bath == o.Index && e.Test.Result.Test == o.settling() && o.settling() != book.SilverDrop:
			return false
		}
	}
	return true
}

// settling returns the test that tells whether a bath at its safe end goes on: a strip where its own silver or acid ends it,
// a drop on a print where it is the second bath or the thinning.
func (o *Outlook) settling() book.Test {
	other := o.End.By == BySecondBath || o.End.By == ByThiosulfate
	if other && slices.Contains(o.Tests, book.SilverDrop) {
		return book.SilverDrop
	}
	return o.Tests[0]
}

// strip returns the last silver strip of a bath.
func (s *Scene) strip(index int) (*Test, bool) {
	for _, e := range slices.Backward(s.Events) {
		if t := e.Test; t != nil && t.Bath == index && t.Result.Test == book.SilverStrip {
			return t, true
		}
	}
	return nil, false
}
