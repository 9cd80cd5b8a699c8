package words_test

import (
	"testing"
	"time"

	"wetside/trade/quantity"
	"wetside/words"
)

// A heading begins with a capital where the day of the week has none.
func TestDateTimeTitle(t *testing.T) {
	at := time.Date(2026, time.December, 3, 18, 30, 0, 0, time.UTC)
	for lang, want := range map[string]string{
		"en": "Thursday 3\u00a0December, 18:30", "de": "Donnerstag, 3.\u00a0Dezember, 18:30",
		"fr": "Jeudi 3\u00a0décembre à 18:30", "es": "Jueves 3\u00a0de\u00a0diciembre, 18:30",
	} {
		v, err := words.New(lang, quantity.Metric, quantity.NoOunce, words.Zone(time.UTC))
		if err != nil {
			t.Fatal(err)
		}
		if got := v.DateTimeTitle(at); got != want {
			t.Errorf("%s: %+q, want %+q", lang, got, want)
		}
	}
}
