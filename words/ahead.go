package words

import (
	"math"
	"strings"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// BathCalled names a bath that stands there: fixer, fixer 1, film fixer.
func (v *Voice) BathCalled(b ahead.Bath) string {
	a := args{"Role": v.Role(b.Role), "Number": "", "Apart": own(b.Apart), "Made": "", "Nth": ""}
	if b.ByDay {
		a["Made"] = v.Day(v.local(b.Made))
	}
	if b.Nth > 0 {
		a["Nth"] = v.whole(b.Nth)
	}
	switch b.Place {
	case bath.First:
		a["Number"] = v.whole(1)
	case bath.Second:
		a["Number"] = v.whole(2)
	case bath.Alone:
	}
	if b.Film {
		return plain(v.say("ahead.film_bath", a))
	}
	return plain(v.say("ahead.bath", a))
}

// OfUnits says what a count counts: 8×10 FB, rolls of film.
func (v *Voice) OfUnits(m material.Material) string {
	if m == material.None {
		return v.say("ahead.units", nil)
	}
	return v.say("ahead.units_"+snake(m.String()), nil)
}

// Outlook says of one bath what it still does, its safe end first, and what ends it: two to four sentences.
func (v *Voice) Outlook(o ahead.Outlook) Phrase {
	lead := v.outlookFinding(o, o.Lead)
	more := []string{lead}
	if end := v.ends(o); end != "" {
		more = append(more, end)
	}
	if o.Lead.Kind == ahead.UseFor && len(o.Tests) > 0 {
		more = append(more, v.testAfter(o))
	}
	return phrase(strings.Join(more, " "))
}

// Lead says the first sentence of an outlook alone.
func (v *Voice) Lead(o ahead.Outlook) Phrase { return phrase(v.outlookFinding(o, o.Lead)) }

// Big says in two words what stands large beside a bath's name, its count heavy: "17 more", "test first".
func (v *Voice) Big(o ahead.Outlook) Phrase {
	a := args{"N": "", "Day": ""}
	if o.Left != nil {
		a["N"] = v.whole(o.Left.P10)
	}
	if !o.End.Date.IsZero() {
		a["Day"] = v.Day(o.End.Date)
	}
	return phrase(v.say("big."+string(o.Lead.Kind), a))
}

// Until says until when a bath keeps: a day, with the hour where hours count; empty where that is not known or over.
func (v *Voice) Until(o ahead.Outlook) string {
	if o.End.Date.IsZero() || o.OutOfUse() {
		return ""
	}
	return plain(v.until(o.End))
}

// LeadEnd says what ends a bath, and on which day at the latest. It is empty where the lead says it.
func (v *Voice) LeadEnd(o ahead.Outlook) Phrase {
	end := v.ends(o)
	if o.Lead.Kind == ahead.UseFor && len(o.Tests) > 0 {
		end = strings.TrimSpace(end + " " + v.testAfter(o))
	}
	return phrase(end)
}

func (v *Voice) testAfter(o ahead.Outlook) string {
	if o.TestAfter == 0 {
		return v.say("ahead.test_now", args{"Test": v.TestName(o.Tests[0])})
	}
	return v.say("ahead.test_after", args{"N": v.whole(o.TestAfter), "Test": v.TestName(o.Tests[0])})
}

// ends says what ends a bath: by count, or by a day.
func (v *Voice) ends(o ahead.Outlook) string {
	switch o.Lead.Kind {
	case ahead.UseFor, ahead.UseForMany, ahead.UseForLabel:
	default:
		return ""
	}
	a := args{"Day": "", "Time": ""}
	if !o.End.Date.IsZero() {
		a["Day"] = v.until(o.End)
	}
	if o.End.By == ahead.ByTrayTime || o.End.By == ahead.ByKeeping {
		if a["Day"] == "" {
			return ""
		}
		return v.say("ends.time", a)
	}
	a["By"] = v.say("ends."+snake(string(o.End.By)), nil)
	if a["Day"] != "" {
		return v.say("ends.or_day", a)
	}
	return v.say("ends.alone", a)
}

// until says until when: a day, with the hour where hours count.
func (v *Voice) until(e ahead.End) string {
	at := e.Date
	if at.Minute() == 59 && at.Hour() == 23 {
		return v.Date(at)
	}
	return v.say("ahead.day_and_hour", args{"Day": v.Date(at), "Clock": v.Clock(at)})
}

// outlookFinding says one finding about a bath.
func (v *Voice) outlookFinding(o ahead.Outlook, f ahead.Finding) string {
	a := v.places(f.Figures)
	for _, x := range f.Figures {
		if x.Unit == reckoning.One {
			a[x.Name] = v.whole(int(math.Round(x.Value)))
		}
	}
	a["Units"] = v.OfUnits(o.Chain.Material)
	a["Material"] = ""
	if o.Chain.Material != material.None {
		a["Material"] = v.Material(o.Chain.Material)
	}
	a["Standard"] = ""
	if f.Standard != process.StandardUnsaid && o.Chain.Material.Paper() && o.Bath.Role == process.Fixer {
		a["Standard"] = v.Standard(f.Standard)
	}
	a["By"] = ""
	if f.By != "" {
		a["By"] = v.say("spent_by."+snake(string(f.By)), nil)
	}
	a["Day"], a["Clock"] = "", ""
	if !f.Date.IsZero() {
		a["Day"], a["Clock"] = v.Date(f.Date), v.Clock(f.Date)
	}
	if f.Kind == ahead.UseUntil {
		a["Day"] = v.until(o.End)
	}
	a["Test"] = ""
	if f.Test != "" {
		a["Test"] = v.TestName(f.Test)
	}
	a["Bath"] = v.BathCalled(o.Bath)
	return v.say("outlook."+string(f.Kind), a)
}

// Beside says what belongs to an outlook beside its sentence.
func (v *Voice) Beside(o ahead.Outlook) []Phrase {
	var all []Phrase
	for _, f := range o.More {
		all = append(all, phrase(v.outlookFinding(o, f)))
	}
	return all
}

// Help says what another way of working would do: "two baths: 24 more".
func (v *Voice) Help(o ahead.Outlook, h ahead.Help) Phrase {
	a := args{"Way": v.say("help_way."+string(h.Kind), nil), "Left": v.whole(h.Left.P10), "Now": ""}
	if o.Left != nil {
		a["Now"] = v.whole(o.Left.P10)
	}
	if h.More {
		return phrase(v.say("ahead.would_help", a))
	}
	return phrase(v.say("ahead.would_not_help", a))
}

// HelpWay names another way of working.
func (v *Voice) HelpWay(k ahead.HelpKind) string { return plain(v.say("help_way."+string(k), nil)) }

// Together says the one thing of all baths: that all is good and which test comes next, or what to do first.
func (v *Voice) Together(r ahead.Report) Phrase {
	f := r.Lead
	a := args{"Bath": "", "Test": "", "N": "", "At": "", "Count": "", "By": "", "Rolls": ""}
	for _, o := range r.Baths {
		if name := o.Bath.Name; name == f.Subject || name == "" && o.Bath.ID == f.Subject {
			a["Bath"] = v.BathCalled(o.Bath)
			if o.Chain.Material == material.Film {
				a["Rolls"] = a["Bath"]
			}
		}
	}
	if f.Test != "" {
		a["Test"] = v.TestName(f.Test)
	}
	if f.By != "" {
		a["By"] = v.say("spent_by."+snake(string(f.By)), nil)
	}
	for _, x := range f.Figures {
		n := int(math.Round(x.Value))
		switch x.Name {
		case "baths":
			a["Count"] = v.Word(n)
			a["One"] = ""
			if n == 1 {
				a["One"] = v.whole(n)
			}
		case "test_after":
			a["N"] = v.whole(n)
		case "test_at":
			a["At"] = v.whole(n)
		}
	}
	return phrase(sentence(v.say("together."+string(f.Kind), a)))
}

// Due says something that is due.
func (v *Voice) Due(r ahead.Report, d ahead.Due) Phrase {
	a := args{"Bath": "", "Test": "", "Day": v.Date(d.Day)}
	if d.Bath >= 0 && d.Bath < len(r.Baths) {
		a["Bath"] = v.BathCalled(r.Baths[d.Bath].Bath)
	}
	if d.Test != "" {
		a["Test"] = v.TestName(d.Test)
	}
	return phrase(sentence(v.say("due."+string(d.Kind), a)))
}

// TestName names a test: silver strip, pH paper.
func (v *Voice) TestName(t book.Test) string { return plain(v.say("test."+snake(string(t)), nil)) }

// A TestCard is a test written out, two minutes long.
type TestCard struct {
	Title    string
	Cautions []Phrase
	Steps    []Phrase
	Tells    Phrase // what it tells
	Cannot   Phrase // what it can't tell
}

// cardSteps bounds the steps and cautions of a card.
const cardSteps = 8

// TestCard writes out a test.
func (v *Voice) TestCard(t book.Test) TestCard {
	key := "card." + snake(string(t)) + "."
	c := TestCard{Title: plain(v.say(key+"title", nil)), Tells: phrase(v.say(key+"tells", nil)), Cannot: phrase(v.say(key+"cannot", nil))}
	numbered := func(what string) (all []Phrase) {
		for i := 1; i <= cardSteps; i++ {
			k := key + what + string(rune('0'+i))
			if !v.has(k) {
				break
			}
			all = append(all, phrase(v.say(k, nil)))
		}
		return all
	}
	c.Steps, c.Cautions = numbered("step"), numbered("caution")
	return c
}

// Since says how long a bath has stood: made today at 18:20 by Maren.
func (v *Voice) Since(b ahead.Bath, by string) Phrase {
	a := args{"When": v.DateTime(b.Made), "By": own(by)}
	switch b.Known {
	case book.MadeUnknown:
		return phrase(v.say("ahead.made_unknown", a))
	case book.MadeEstimated:
		return phrase(v.say("ahead.made_about", a))
	case book.MadeThen:
	}
	return phrase(v.say("ahead.made", a))
}

// At says the moment of a report.
func (v *Voice) At(t time.Time) string { return v.DateTime(t) }
