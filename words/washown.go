package words

import (
	"math"
	"slices"
	"time"

	"wetside/trade/reckoning"
	"wetside/trade/wash"
)

// WashTestOf names the test that a room's own washing is known by: that of a day, or where at is zero the reader's own.
func (v *Voice) WashTestOf(at time.Time) string {
	if at.IsZero() {
		return v.Tell("wash.test_yours").Text()
	}
	return v.Tell("wash.test_of", "Date", v.DateYear(at)).Text()
}

// WashLeaveOut offers to reckon without the test of a day.
func (v *Voice) WashLeaveOut(at time.Time) string {
	return v.Tell("wash.leave_out", "Date", v.DateYear(at)).Text()
}

// WashFound says what a residual test found: a stain, a figure, a range of them.
func (v *Voice) WashFound(f wash.Found) string {
	if f.Stain != wash.StainUnsaid {
		return v.Label("wash_found_" + f.Stain.String())
	}
	least, most := v.perSquareMetre(f.Least), v.perSquareMetre(f.Most)
	switch {
	case f.Plain():
		return least
	case math.IsInf(f.Most, 1):
		return v.Tell("wash.found_over", "Least", least).Text()
	case f.Least == 0 && f.Most == 0:
		return v.Label("wash_found_none")
	case f.Least == 0:
		return v.Tell("wash.found_under", "Most", most).Text()
	}
	return v.Tell("wash.found_range", "Least", least, "Most", most).Text()
}

func (v *Voice) perSquareMetre(x float64) string {
	return v.Figure(reckoning.Figure{Name: "found", Value: x, Unit: reckoning.GPerM2})
}

// WashOwn says how much slower or faster than the table a room washes by a test, and what that found. test is WashTestOf.
func (v *Voice) WashOwn(own *wash.Calibration, test string) Phrase {
	args := []string{
		"Test", test, "Found", v.WashFound(own.Test.Found), "After", v.Time(own.Test.Time), "Way", v.WashWay(own.Test.Way),
	}
	const step = 10 // a tenth is as fine as a test tells
	slower, faster, up := math.Round(own.Factor*step)/step, math.Floor(step/own.Factor+1e-9)/step, ""
	if !own.Test.Found.Plain() {
		slower, up = math.Ceil(own.Factor*step-1e-9)/step, "yes"
	}
	switch {
	case own.Factor == 1 && slices.ContainsFunc(own.Findings, func(f wash.Finding) bool { return f.Kind == wash.TestFar }):
		return phrase(sentence(v.say("tell.wash.own_slip", pairsOf(args))))
	case slower > 1:
		return v.Tell("wash.own_slower", append(args, "Times", v.decimal(slower, 1), "UpTo", up)...)
	case faster > 1:
		return v.Tell("wash.own_faster", append(args, "Times", v.decimal(faster, 1))...)
	}
	times := ""
	if open := math.Ceil(own.Long*step-1e-9) / step; open > 1 {
		times = v.decimal(open, 1)
	}
	return v.Tell("wash.own_same", append(args, "Times", times)...)
}

// WashChanged says what a test has changed of the time of the fastest way; false where nothing that shows, or where there is
// no time by the table or none now.
func (v *Voice) WashChanged(table, now wash.Answer) (Phrase, bool) {
	if now.Fastest < 0 {
		return Phrase{}, false
	}
	fast := now.Ways[now.Fastest]
	for _, w := range table.Ways {
		if w.Way != fast.Way || w.Status != wash.Reached {
			continue
		}
		before, after := v.WashTime(w.SafeTime()), v.WashTime(fast.SafeTime())
		return phrase(sentence(v.say("tell.wash.own_changed", args{"Way": v.WashWay(w.Way), "Time": after, "Before": before}))), before != after
	}
	return Phrase{}, false
}

// WashNotes says what is to be said of a wash, but for what WashOwn says already.
func (v *Voice) WashNotes(fs []wash.Finding) []Phrase {
	var all []Phrase
	for _, f := range fs {
		if f.Kind != wash.TestAgrees {
			all = append(all, v.WashNote(f))
		}
	}
	return all
}
