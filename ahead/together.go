package ahead

import (
	"slices"
	"time"

	"wetside/book"
	"wetside/trade/reckoning"
)

// lead says the one thing of all baths together, and what is due.
func (l *looker) lead() {
	r := &l.report
	for i := range r.Baths {
		l.due(i)
	}
	slices.SortStableFunc(r.Due, func(a, b Due) int { return a.Day.Compare(b.Day) })
	if len(r.Baths) == 0 {
		r.Lead = Finding{Kind: NothingHere}
		return
	}
	for i := range r.Baths {
		if o := &r.Baths[i]; o.bad() {
			r.Lead = Finding{Kind: DoNext, Subject: o.Bath.name(), By: o.End.By, Test: o.Lead.Test, Date: o.End.Date, Figures: o.Lead.Figures}
			return
		}
	}
	r.Lead = Finding{Kind: AllGood, Figures: []reckoning.Figure{count("baths", float64(len(r.Baths)))}}
	if i := l.nextTest(); i >= 0 {
		o := &r.Baths[i]
		r.Lead.Subject, r.Lead.Test = o.Bath.name(), o.Tests[0]
		r.Lead.Figures = append(r.Lead.Figures, count("test_after", float64(o.TestAfter)), count("test_at", o.Done+float64(o.TestAfter)))
	}
}

// OutOfUse reports whether a bath is not to be used any more.
func (o *Outlook) OutOfUse() bool {
	switch o.Lead.Kind {
	case Spent, PastDate, FailedTest, PourOut:
		return true
	default:
		return false
	}
}

// bad reports whether a bath is not to be used as it is.
func (o *Outlook) bad() bool {
	return o.OutOfUse() || o.Lead.Kind == TestFirst || o.Lead.Kind == AtSafeEnd || o.Lead.Kind == UseTwoBaths
}

// nextTest returns the bath whose test is due first, -1 where none is.
func (l *looker) nextTest() int {
	next := -1
	for i := range l.report.Baths {
		o := &l.report.Baths[i]
		if len(o.Tests) == 0 || o.Left == nil || o.Lead.Kind != UseFor {
			continue
		}
		if next < 0 || o.TestAfter < l.report.Baths[next].TestAfter {
			next = i
		}
	}
	return next
}

// week is how far ahead a day is said to be due.
const week = 7 * 24 * time.Hour

func (l *looker) due(i int) {
	o := &l.report.Baths[i]
	add := func(k DueKind, day time.Time, t book.Test) {
		l.report.Due = append(l.report.Due, Due{Kind: k, Bath: i, Day: day, Test: t})
	}
	now := l.scene.Now
	switch {
	case o.Lead.Kind == AtSafeEnd:
		add(DueTest, now, o.Lead.Test)
	case o.bad():
		add(DueChange, now, "")
	case !o.End.Date.IsZero() && o.End.Date.Sub(now) <= week:
		add(DueDate, o.End.Date, "")
	}
	if !o.bad() && len(o.Tests) > 0 && o.Left != nil && o.TestAfter == 0 && o.Lead.Kind == UseFor {
		add(DueTest, now, o.Tests[0])
	}
	if slices.ContainsFunc(o.More, func(f Finding) bool { return f.Kind == BothNew }) {
		add(DueBothNew, now, "")
	}
}

// learned says what the room's tests have taught, chain by chain.
func (l *looker) learned() {
	tests := 0
	for i := range l.scene.Events {
		if t := l.scene.Events[i].Test; t != nil {
			if _, tells := t.reading(&l.past.Baths[t.Bath]); tells {
				tests++
			}
		}
	}
	if tests == 0 {
		return
	}
	bare := l.past
	bare.Steps = nil
	before, err := bare.Draw(l.report.Draws, l.scene.Seed)
	if err != nil {
		return
	}
	for _, c := range l.scene.Chains {
		m := c.Material
		l.report.Learned = append(l.report.Learned, Learned{
			Chain: c, Tests: tests,
			CarryBefore: before.Carry(m), CarryNow: l.rooms.Carry(m),
			SilverBefore: before.Dissolved(m), SilverNow: l.rooms.Dissolved(m),
			CoatingBefore: before.Coating(m), CoatingAfter: l.rooms.Coating(m),
		})
	}
}
