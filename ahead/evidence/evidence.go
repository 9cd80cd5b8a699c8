package evidence

import (
	"slices"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/fault"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// How long what was found out holds, and what is fresh. From memory.
const (
	tonight     = 12 * time.Hour
	testHolds   = 24 * time.Hour
	freshDev    = 6 * time.Hour
	freshFixer  = 48 * time.Hour
	freshSheets = 10.0 // of 8×10, at most, that went through what is fresh
	nearlyPart  = 0.15 // of its safe count that is left of what is nearly out
)

// Of returns what a book says, with the report of what stands there at the same moment.
func Of(s *book.State, r *ahead.Report) []fault.Fact {
	f, _ := s.File(nil)
	g := gatherer{state: s, report: r, file: &f, at: r.At, baths: map[string]book.Bath{}}
	for _, b := range s.Baths() {
		g.baths[b.ID] = b
	}
	for i := range r.Baths {
		g.bath(&r.Baths[i])
	}
	g.stands()
	g.apart()
	g.prints()
	g.washes()
	return g.facts
}

type gatherer struct {
	state  *book.State
	report *ahead.Report
	file   *darkroom.File
	at     time.Time
	baths  map[string]book.Bath
	facts  []fault.Fact
}

func (g *gatherer) say(k fault.FactKind, about fault.Where, figures ...reckoning.Figure) {
	g.facts = append(g.facts, fault.Fact{Kind: k, About: about, Figures: figures})
}

// of says something of one bath.
func (g *gatherer) of(o *ahead.Outlook, k fault.FactKind, figures ...reckoning.Figure) {
	name := o.Bath.Name
	if name == "" {
		name = o.Bath.ID
	}
	g.facts = append(g.facts, fault.Fact{Kind: k, Bath: o.Bath.ID, Name: name, About: about(&o.Bath), Figures: figures})
}

// about says for what work a bath stands there: what was said of it, else a tray is for prints and a tank for film.
func about(b *ahead.Bath) fault.Where {
	switch {
	case b.Film && b.Paper:
		return fault.Anywhere
	case b.Film:
		return fault.OnFilm
	case b.Paper || b.Tray != "":
		return fault.OnPrint
	}
	return fault.Anywhere
}

// since reports whether a moment lies within a time before now.
func (g *gatherer) since(at time.Time, within time.Duration) bool {
	return !at.After(g.at) && g.at.Sub(at) <= within
}

// bath gathers what is known of one bath.
func (g *gatherer) bath(o *ahead.Outlook) {
	b, known := g.baths[o.Bath.ID]
	if !known || o.Bath.Gone {
		return
	}
	switch o.Bath.Role {
	case process.Developer:
		g.developer(o, &b)
	case process.StopBath:
		g.stop(o)
	case process.Fixer:
		g.fixer(o, &b)
	case process.WashingAid:
		if o.OutOfUse() {
			g.of(o, fault.AidSpent)
		}
		return
	default:
		return
	}
	if o.Guessed > 0 {
		g.of(o, fault.Unlogged, sheets("guessed", o.Guessed), sheets("done", o.Done))
	}
	g.mixed(o, &b)
	if slices.ContainsFunc(o.More, func(f ahead.Finding) bool { return f.Kind == ahead.LevelDown }) {
		g.of(o, fault.LevelLow)
	}
}

func (g *gatherer) developer(o *ahead.Outlook, b *book.Bath) {
	switch {
	case o.Lead.Kind == ahead.PourOut:
		g.of(o, fault.DeveloperAgeUnknown)
	case o.Lead.Kind == ahead.PastDate:
		g.of(o, fault.DeveloperPast)
	case o.Lead.Kind == ahead.Spent:
		g.overCount(o)
	case o.Bath.Known == book.MadeThen && g.since(o.Bath.Made, freshDev) && o.Done <= freshSheets:
		g.of(o, fault.DeveloperFresh)
	}
	if o.Label != nil && *o.Label <= 0 && o.Lead.Kind != ahead.Spent {
		g.overCount(o)
	}
	g.strip(o, b)
	g.temperature(o, b)
	g.perRoll(o, b)
}

func (g *gatherer) overCount(o *ahead.Outlook) {
	if o.LabelAll != nil && o.Done > 0 {
		g.of(o, fault.DeveloperOverCount, sheets("done", o.Done), sheets("count", float64(*o.LabelAll)))
		return
	}
	g.of(o, fault.DeveloperPast)
}

// strip takes the last strip from room light that was developed in it.
func (g *gatherer) strip(o *ahead.Outlook, b *book.Bath) {
	if t, ok := g.last(b, book.LightTest, testHolds); ok {
		switch t.Verdict {
		case book.Failed:
			g.of(o, fault.DeveloperStripPale)
		case book.Passed:
			g.of(o, fault.DeveloperStripDark)
		case book.NoVerdict:
		}
	}
}

// last returns the newest result of a test of a bath, where it still holds.
func (g *gatherer) last(b *book.Bath, test book.Test, within time.Duration) (r book.TestResult, ok bool) {
	for _, e := range slices.Backward(b.Events) {
		t, isTest := e.Did.(book.TestMade)
		if isTest && t.Bath == b.ID && t.Result.Test == test && g.since(e.At, within) {
			return t.Result, true
		}
	}
	return r, false
}

func (g *gatherer) stop(o *ahead.Outlook) {
	switch {
	case o.OutOfUse():
		g.of(o, fault.StopSpentNow)
	case o.Lead.Kind == ahead.UnknownAge:
		g.of(o, fault.StopAgeUnknown)
	case o.Lead.Kind == ahead.AtSafeEnd || nearly(o):
		g.of(o, fault.StopNearly)
	}
}

// nearly reports whether little is left of a bath's safe count.
func nearly(o *ahead.Outlook) bool {
	return o.Left != nil && o.End.At > 0 && o.Done > 0 && float64(o.Left.P10) <= nearlyPart*float64(o.End.At)
}

func (g *gatherer) fixer(o *ahead.Outlook, b *book.Bath) {
	switch {
	case o.Lead.Kind == ahead.FailedTest:
		g.of(o, fault.FixerFailed)
	case o.Lead.Kind == ahead.Spent:
		g.of(o, fault.FixerSpentNow)
	case o.Lead.Kind == ahead.PastDate:
		g.of(o, fault.FixerPast)
	case o.Lead.Kind == ahead.TestFirst:
		g.of(o, fault.FixerAgeUnknown)
	case o.Lead.Kind == ahead.AtSafeEnd || nearly(o):
		g.of(o, fault.FixerNearly)
	case o.Bath.Known == book.MadeThen && g.since(o.Bath.Made, freshFixer) && o.Done <= freshSheets:
		g.of(o, fault.FixerFresh)
	}
	if !o.OutOfUse() && g.passed(b) {
		g.of(o, fault.FixerPassed)
	}
	if slices.ContainsFunc(o.More, func(f ahead.Finding) bool { return f.Kind == ahead.BothNew }) {
		g.of(o, fault.FixerChangedOften, reckoning.Figure{Name: "changes", Value: float64(o.Bath.Changes)})
	}
	if forBoth(b) {
		g.of(o, fault.FixerForBoth)
	}
	if r, ok := g.last(b, book.Thermometer, tonight); ok && (r.From+r.To)/2 > fixerMost {
		g.of(o, fault.FixerReadWarm, celsius("read", (r.From+r.To)/2, reckoning.Measured))
	}
}

// fixerMost is how warm a fixer may be mixed and kept, °C: Anchell3, pp. 107 and 108, 80 and 85 °F; the lower.
const fixerMost = 27

// passed reports whether the last test of a fixer that has a verdict passed, within a day.
func (g *gatherer) passed(b *book.Bath) bool {
	for _, e := range slices.Backward(b.Events) {
		t, ok := e.Did.(book.TestMade)
		if !ok || t.Bath != b.ID || t.Result.Verdict == book.NoVerdict || !g.since(e.At, testHolds) {
			continue
		}
		switch t.Result.Test {
		case book.DropTest, book.SilverDrop, book.ClearingTime:
			return t.Result.Verdict == book.Passed
		default:
		}
	}
	return false
}

func forBoth(b *book.Bath) bool {
	film, paper := false, false
	for _, t := range b.Totals {
		film, paper = film || !t.Material.Paper(), paper || t.Material.Paper()
	}
	return film && paper
}

func sheets(name string, n float64) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: float64(int(n + 0.5)), Origin: reckoning.Measured}
}

func celsius(name string, c float64, from reckoning.Origin) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: c, Unit: reckoning.C, Origin: from}
}

func lasted(name string, d time.Duration) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: d.Round(time.Second).Seconds(), Unit: reckoning.S, Origin: reckoning.Measured}
}
