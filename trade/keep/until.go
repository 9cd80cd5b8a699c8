package keep

import (
	"math"
	"slices"
	"time"

	"wetside/trade/process"
)

// Until returns until when it is good, by which rule, and what to do. The error is a *ProblemError.
func Until(k Kept) (Answer, error) {
	if err := k.check(); err != nil {
		return Answer{}, err
	}
	state := k.state(k.State)
	if state == NoState {
		return k.unknown(StateUnsaid), nil
	}
	var ends []End
	var a Answer
	tray, trayKnown := k.life(Tray)
	if state == Tray {
		since := k.TraySince
		if !since.Known() {
			since = k.Since
		}
		switch {
		case !trayKnown:
			return k.unknown(NoFigure), nil
		case !since.Known():
			return k.unknown(AgeUnknown), nil
		}
		ends = append(ends, k.trayEnd(tray, since))
		state = k.state(k.Between)
	}
	if state != NoState {
		l, ok := k.life(state)
		switch {
		case !ok && len(ends) == 0:
			return k.unknown(NoFigure), nil
		case !k.Since.Known():
			return k.unknown(AgeUnknown), nil
		case ok:
			ends = append(ends, k.end(l, k.Since))
			a.Disagrees = l.disagrees
		}
	}
	if trayKnown && k.Product.liquid() {
		a.TrayLeft = k.trayLeft(tray)
	}
	return k.answer(a, ends, trayKnown), nil
}

// answer takes the first of the ends.
func (k Kept) answer(a Answer, ends []End, trayKnown bool) Answer {
	slices.SortStableFunc(ends, func(x, y End) int { return x.last().Compare(y.last()) })
	a.Binds = ends[0]
	if len(ends) > 1 {
		a.Other = &ends[1]
	}
	today := civil(k.Now)
	a.Days = int(a.Binds.Day.Sub(today) / day)
	a.FromFuture = k.Since.Known() && k.day(k.Since).After(today)
	a.Status, a.Do = Good, Use
	if a.Days < 0 || !a.Binds.Until.IsZero() && k.Now.After(a.Binds.Until) {
		a.Status, a.Do = Over, Discard
	}
	if k.State != Tray && k.InTray > 0 && trayKnown && a.TrayLeft == 0 && a.Status == Good { // in its bottle, but it has stood open long enough
		tray, _ := k.life(Tray)
		a.Other = &ends[0]
		a.Binds = End{Rule: ByTray, Keeps: tray.figure, Day: today, Until: k.Now}
		a.Status, a.Do, a.Days = Over, Discard, 0
	}
	return a
}

// last is the end for comparing: the instant, or the end of the day.
func (e End) last() time.Time {
	if !e.Until.IsZero() {
		return e.Until
	}
	return e.Day.Add(day)
}

// liquid reports whether it is something that can stand in a tray.
func (p Product) liquid() bool { return p.Form == Stock || p.Form == Working }

// state returns a state as it counts for the form: what is as bought is unopened or opened, what was made up is
// never unopened, and a bottle that is not full has air in it.
func (k Kept) state(s State) State {
	switch {
	case s == NoState:
		return NoState
	case !k.Product.liquid():
		if s == Unopened {
			return Unopened
		}
		return Opened
	case s == Unopened || s == FullBottle:
		if k.Level > 0 && k.Level < FullFrom().Value {
			return PartBottle
		}
		return FullBottle
	case s == Opened:
		return PartBottle
	}
	return s
}

// end returns the end of a span that began at a moment.
func (k Kept) end(l span, since Moment) End {
	e := End{Rule: l.rule, Keeps: l.figure}
	from := k.day(since)
	if l.period.Hours == 0 {
		last := l.period.From(from)
		e.Day = from.AddDate(0, 0, int(math.Floor(last.Sub(from).Hours()/24*l.share)))
		return e
	}
	long := l.hours()
	if since.DayOnly {
		e.Day = from.AddDate(0, 0, int(long/day))
		return e
	}
	e.Until = since.Time.Add(long)
	e.Day = civil(e.Until.In(k.Now.Location()))
	return e
}

// hours returns a span as a duration, a month of 30 days.
func (l span) hours() time.Duration {
	whole := time.Duration(l.period.Hours)*time.Hour + time.Duration(l.period.Days+30*l.period.Months)*day
	return time.Duration(float64(whole) * l.share).Truncate(time.Second)
}

// trayEnd returns when the time in the tray is used up, where it stands in it since a moment.
func (k Kept) trayEnd(l span, since Moment) End {
	e := k.end(l, since)
	e.Rule = ByTray
	if k.InTray == 0 {
		return e
	}
	left := max(l.hours()-k.InTray, 0)
	if since.DayOnly {
		e.Day = k.day(since).AddDate(0, 0, int(left/day))
		return e
	}
	e.Until = since.Time.Add(left)
	e.Day = civil(e.Until.In(k.Now.Location()))
	return e
}

// trayLeft returns how much of the time in the tray is left.
func (k Kept) trayLeft(l span) time.Duration {
	stood := k.InTray
	if k.State == Tray {
		since := k.TraySince
		if !since.Known() {
			since = k.Since
		}
		if since.DayOnly {
			stood += civil(k.Now).Sub(k.day(since))
		} else if since.Known() {
			stood += max(k.Now.Sub(since.Time), 0)
		}
	}
	return max(l.hours()-stood, 0)
}

// unknown answers what is not known. Only a fixer is worth a test.
func (k Kept) unknown(why Why) Answer {
	a := Answer{Status: Unknown, Why: why, Do: Discard}
	switch {
	case k.Product.Role == process.Fixer && k.Product.liquid():
		a.Do, a.Tests = TestFirst, []Test{ClearingTime, SilverStrip, DropTest}
	case k.Product.Role == process.Fixer:
		a.Do, a.Tests = TestFirst, []Test{ClearingTime}
	case why == NoFigure || k.State == Unopened || why == StateUnsaid && k.Since.Known():
		a.Do = AskLabel
	}
	return a
}

// day returns the civil day of a moment: as it stands where only the date is known, else where Now is.
func (k Kept) day(m Moment) time.Time {
	if m.DayOnly {
		return civil(m.Time)
	}
	return civil(m.Time.In(k.Now.Location()))
}

// civil returns the day that t shows, at midnight UTC: days between such are 24 h, whatever the clocks did.
func civil(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}
