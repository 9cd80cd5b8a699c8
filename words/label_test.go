package words_test

import (
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/hazard/ghs"
	"wetside/trade/quantity"
	"wetside/words"
)

func TestInitials(t *testing.T) {
	for name, want := range map[string]string{
		"Maren Ols": "MO", "maren": "M", "": "", "Jean-Luc de la Tour": "JDLT", "  Łukasz  żak ": "ŁŻ", "3rd Ana": "RA", "影": "影",
	} {
		if got := words.Initials(name); got != want {
			t.Errorf("Initials(%q) = %q, want %q", name, got, want)
		}
	}
}

// Every pictogram that a class has is named; a label's dates have their year, and none is told of what nobody knows.
func TestLabelWords(t *testing.T) {
	v, err := words.New("en", quantity.Metric, quantity.NoOunce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, c := range ghs.All() {
		if p := c.Pictogram(); p != "" {
			if seen[p] = true; v.Pictogram(p) == p {
				t.Errorf("%s has no name", p)
			}
		}
	}
	if len(seen) < 7 {
		t.Errorf("only %d pictograms", len(seen))
	}
	at := time.Date(2027, 2, 18, 15, 4, 0, 0, time.UTC)
	for known, want := range map[book.Made]string{
		book.MadeThen: "18\u00a0February 2027, 15:04", book.MadeEstimated: "about 18\u00a0February 2027", book.MadeUnknown: "",
	} {
		if got := v.MadeOn(ahead.Bath{Made: at, Known: known}); got != want {
			t.Errorf("made %q: %q, want %q", known, got, want)
		}
	}
	if got := v.KeepsUntil(ahead.Outlook{End: ahead.End{Date: at}}); got != "18\u00a0February 2027" {
		t.Errorf("keeps until %q", got)
	}
	if got := v.KeepsUntil(ahead.Outlook{}); got != "" {
		t.Errorf("of nothing known it keeps until %q", got)
	}
}
