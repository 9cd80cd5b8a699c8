package draw_test

import (
	"testing"

	"wetside/ahead"
	"wetside/draw"
	"wetside/trade/bath"
	"wetside/trade/quantity"
	"wetside/words"
)

// A bath at its safe end is not marked as spent: more is likely, and the likely end stands ahead of it.
func TestTapeAtSafeEnd(t *testing.T) {
	t.Parallel()
	v, err := words.New("en", quantity.Metric, quantity.OunceUS)
	if err != nil {
		t.Fatal(err)
	}
	for kind, want := range map[ahead.FindingKind]string{ahead.AtSafeEnd: v.Label("tape_safe"), ahead.Spent: v.Label("tape_spent")} {
		o := ahead.Outlook{Done: 36, Left: &bath.Counts{P50: 11, P90: 29}, Lead: ahead.Finding{Kind: kind}}
		tape, ok := draw.TapeOf(v, &o)
		if !ok || tape.Say.Safe != want || tape.Ends.Safe != 36 || tape.Ends.Likely != 47 {
			t.Errorf("%s: %q, %+v; want %q, 36 and 47", kind, tape.Say.Safe, tape.Ends, want)
		}
	}
}
