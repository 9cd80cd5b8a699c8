package draw

import (
	"math"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/bath"
	"wetside/words"
)

// TapeOf returns the tape of a bath's life; false where nothing is counted of it. Its size and scale are left to the page.
func TapeOf(v *words.Voice, o *ahead.Outlook) (Tape, bool) {
	if o.Left == nil && (o.Done == 0 || o.End.By != ahead.ByUnknown) {
		return Tape{}, false // a day ends it, or another way of working is wanted
	}
	done := wholeUnits(o.Done)
	t := Tape{Say: TapeWords{
		Safe: v.Label("tape_safe"), Likely: v.Label("tape_likely"), Label: v.Label("tape_label"), Test: v.Label("tape_test"),
		Unknown: v.Label("tape_unknown"),
	}}
	if counted := done - o.Guessed; counted > 0 {
		t.Work = append(t.Work, Stretch{Sheets: counted})
	}
	if o.Guessed > 0 {
		t.Work = append(t.Work, Stretch{Sheets: o.Guessed, Estimated: true})
	}
	if o.Left == nil {
		return t, true
	}
	t.Ends = &Ends{Safe: done + float64(o.Left.P10), Likely: done + float64(o.Left.P50)}
	if o.Left.P10 == 0 && o.Lead.Kind != ahead.AtSafeEnd {
		t.Say.Safe = v.Label("tape_spent") // where it was spent is behind the last sheet
		return t, true
	}
	if o.Label != nil && *o.Label != o.Left.P10 {
		t.Label = new(done + float64(max(0, *o.Label)))
	}
	if o.Lead.Kind == ahead.UseFor && len(o.Tests) > 0 && o.TestAfter > 0 && o.TestAfter <= o.Left.P10 {
		t.Test = new(done + float64(o.TestAfter))
	}
	return t, true
}

// wholeUnits rounds the last digits away: sheets by their area are whole but for those.
func wholeUnits(n float64) float64 { return math.Round(n*1e6) / 1e6 }

// CurveOf returns what is in a bath against the sheets that went through and shall go through; false where nothing of it is
// reckoned. The past is a straight line from a fresh fixer to what it holds now, which it is but for a few parts in a
// hundred; a stop bath's pH goes in no line, and its past is left out.
func CurveOf(v *words.Voice, o *ahead.Outlook) (Curve, bool) {
	c := o.Course
	if c == nil || len(c.Ahead.Sheets) == 0 || o.Left == nil {
		return Curve{}, false
	}
	from := wholeUnits(c.From)
	out := Curve{Now: new(from), Say: CurveWords{
		Picture: v.Label("curve_ph_picture"), Amount: v.Label("curve_ph"), Sheets: v.Label("curve_sheets"), Limit: v.Label("curve_limit"),
		Safe: v.Label("tape_safe"), Likely: v.Label("tape_likely"), Now: v.Label("curve_now"),
	}}
	for i, n := range c.Ahead.Sheets {
		at, s := from+float64(n), c.Ahead.At[i]
		out.Future = append(out.Future, Forecast{At: at, P10: s.P10, P50: s.P50, P90: s.P90})
		switch {
		case i < len(c.Ahead.Limit):
			out.Limit = append(out.Limit, Sample{At: at, Amount: c.Ahead.Limit[i].P50})
		case c.Limit > 0:
			out.Limit = append(out.Limit, Sample{At: at, Amount: c.Limit})
		}
	}
	if o.Left.P10 > 0 {
		out.Ends = &Ends{Safe: from + float64(o.Left.P10), Likely: from + float64(o.Left.P50)}
	}
	if c.Of != bath.Silver {
		return out, true
	}
	out.Say.Picture, out.Say.Amount = v.Label("curve_silver_picture"), v.Label("curve_silver")
	if from > 0 && o.Bath.Known != book.MadeUnknown {
		out.Done = []Sample{{}, {At: from, Amount: c.Ahead.At[0].P50}}
	}
	return out, true
}

// LearnedOf returns what tests taught a room of one material: what a sheet of 8×10 carries over, and the silver that it
// gives to the fixer.
func LearnedOf(v *words.Voice, l ahead.Learned) Narrowing {
	row := func(name, unit string, k float64, before, after bath.Span) NarrowingRow {
		times := func(s bath.Span) Interval { return Interval{P10: k * s.P10, P50: k * s.P50, P90: k * s.P90} }
		return NarrowingRow{Name: v.Label(name), Unit: v.Label(unit), Before: times(before), After: times(after)}
	}
	return Narrowing{
		Rows: []NarrowingRow{
			row("learned_carry", "learned_ml", ahead.Area8x10, l.CarryBefore, l.CarryNow),
			row("learned_silver", "learned_grams", 1, l.SilverBefore, l.SilverNow),
		},
		Say: NarrowingWords{Picture: v.Label("learned_picture"), Before: v.Label("learned_before"), After: v.Label("learned_after")},
	}
}
