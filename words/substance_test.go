package words_test

import (
	"slices"
	"strings"
	"testing"

	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
	"wetside/trade/quantity"
	"wetside/words"
)

// The names of substances are those of rows of the table, which English keeps; whatever EUH208 can name has one.
func TestSubstancesAreOfTheTable(t *testing.T) {
	english := messages(t, "active.en.toml")
	rows := map[string]substance.Substance{}
	for _, s := range substance.All() {
		rows["substance."+strings.ReplaceAll(s.Name, " ", "_")] = s
	}
	found := 0
	for key, forms := range english {
		if !strings.HasPrefix(key, "substance.") {
			continue
		}
		found++
		if key == "substance.silver_thiosulfate" { // what a used fixer holds and no label declares
			continue
		}
		if s, ok := rows[key]; !ok || !strings.EqualFold(forms["other"], s.Name) {
			t.Errorf("%s = %q: the table has %q", key, forms["other"], s.Name)
		}
	}
	if found != len(rows)+1 {
		t.Errorf("%d substances are named, the table has %d", found, len(rows))
	}
	sensitise := []ghs.Class{ghs.RespSens1, ghs.SkinSens1A, ghs.SkinSens1, ghs.SkinSens1B}
	for key, s := range rows {
		if slices.ContainsFunc(s.Classes, func(c ghs.Class) bool { return slices.Contains(sensitise, c) }) && english[key] == nil {
			t.Errorf("%s may make allergic and has no message", s.Name)
		}
	}
}

// A substance is named in the reader's language; one that is not in the table as somebody wrote it.
func TestSubstanceInTheReadersLanguage(t *testing.T) {
	for lang, want := range map[string]string{
		"en": "EUH208 Contains hydroquinone. May produce an allergic reaction.",
		"de": "EUH208 Enthält Hydrochinon. Kann allergische Reaktionen hervorrufen.",
		"fr": "EUH208 Contient hydroquinone. Peut produire une réaction allergique.",
		"es": "EUH208 Contiene hidroquinona. Puede provocar una reacción alérgica.",
	} {
		v, err := words.New(lang, quantity.Metric, quantity.NoOunce)
		if err != nil {
			t.Fatal(err)
		}
		if got := v.Statement("EUH208", []string{"hydroquinone"}); got != want {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
		if got := v.Substance("Grandmother’s Salt"); got != "Grandmother’s Salt" {
			t.Errorf("%s: a name of one's own became %q", lang, got)
		}
	}
}
