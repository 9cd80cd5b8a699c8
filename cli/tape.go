package cli

import (
	"math"

	"wetside/ahead"
	"wetside/draw"
	"wetside/words"
)

// tapeOf returns the tape of a bath's life; false where nothing is counted of it.
func tapeOf(v *words.Voice, o *ahead.Outlook) (draw.Tape, bool) {
	if o.Left == nil && (o.Done == 0 || o.End.By != ahead.ByUnknown) {
		return draw.Tape{}, false // a day ends it, or another way of working is wanted
	}
	done := math.Round(o.Done*1e6) / 1e6 // sheets by their area are whole but for the last digits
	t := draw.Tape{Say: draw.TapeWords{
		Safe: v.Label("tape_safe"), Likely: v.Label("tape_likely"), Label: v.Label("tape_label"), Test: v.Label("tape_test"),
		Unknown: v.Label("tape_unknown"),
	}}
	if counted := done - o.Guessed; counted > 0 {
		t.Work = append(t.Work, draw.Stretch{Sheets: counted})
	}
	if o.Guessed > 0 {
		t.Work = append(t.Work, draw.Stretch{Sheets: o.Guessed, Estimated: true})
	}
	if o.Left == nil {
		return t, true
	}
	t.Ends = &draw.Ends{Safe: done + float64(o.Left.P10), Likely: done + float64(o.Left.P50)}
	if o.Left.P10 == 0 {
		t.Say.Safe = v.Label("tape_spent") // where it was spent is behind the last sheet
		return t, true
	}
	if o.Label != nil && *o.Label != o.Left.P10 {
		t.Label = new(done + float64(*o.Label))
	}
	if o.Lead.Kind == ahead.UseFor && len(o.Tests) > 0 && o.TestAfter > 0 && o.TestAfter <= o.Left.P10 {
		t.Test = new(done + float64(o.TestAfter))
	}
	return t, true
}
