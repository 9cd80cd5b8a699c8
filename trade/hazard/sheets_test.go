package hazard_test

import (
	"strings"
	"testing"
)

// Published sheets of mixtures: the declared shares in, and what the sheet states. Where the two part, differs tells how, as in
// docs/hazards.md; the sheets are read by their worse end. Older sheets have risk phrases, which are told here as today's statements.
func TestPublishedSheets(t *testing.T) {
	for _, tt := range []struct {
		source, mixture string
		sheet           string // what it states
		lacks, beyond   string // what is not reckoned of it, and what is reckoned beyond it
	}{
		{source: "GisChem 6380, peroxide from 8 to 35 %", mixture: "hydrogen peroxide 8-24.9", sheet: "H272 H318", lacks: "H272"},
		{source: "GisChem 6380, from 25 %", mixture: "hydrogen peroxide 25-29.9", sheet: "H272 H302 H318", lacks: "H272"},
		{source: "GisChem 6380, from 30 %", mixture: "hydrogen peroxide 30-34.9", sheet: "H272 H302 H318 H332", lacks: "H272"},
		{source: "GisChem 750, from 60 %", mixture: "hydrogen peroxide 70", sheet: "H271 H290 H302 H314 H332 H335", lacks: "H290"},
		{source: "msdssafe.com 17720, peroxide under 8 %", mixture: "hydrogen peroxide 7.9", sheet: "H302 H318", lacks: "H302 H318", beyond: "H319"},
		{source: "a data sheet of white vinegar of 10 %", mixture: "acetic acid 10", sheet: "H315 H319"},
		{source: "a pharmacy's sheet of acetic acid of 5 %", mixture: "acetic acid 5", sheet: ""},
		{source: "yumpu 20969521, a film developer", mixture: "p-aminophenol 1-5, potassium hydroxide 1-5", sheet: "H314 H341 H411"},
		{
			source: "chemcas.com, an X-ray developer", mixture: "hydroquinone 4, sodium hydroxide 0.4", sheet: "H315 H317 H319 H341 H351",
			lacks: "H315 H319", beyond: "H318 H400",
		},
		{
			source: "fdocuments.in, a bleach-fix as it works", mixture: "ammonium thiosulfate 1-5, ammonium bisulfite 1-5", sheet: "",
			beyond: "EUH031",
		},
		{source: "docslib 11424527, sodium sulfide of 10 to 12 %", mixture: "sodium sulfide 10-12", sheet: "H301 H314", lacks: "H301", beyond: "H302 EUH031"},
		{
			source: "ihcworld.com, a fixer", mixture: "ammonium thiosulfate 30-60, boric acid 1-5", sheet: "H315 H319", lacks: "H315 H319",
			beyond: "H360FD",
		},
	} {
		t.Run(tt.source, func(t *testing.T) {
			got := classify(t, mixture(t, tt.mixture)).Codes
			sheet := strings.Fields(tt.sheet)
			if lacks := missing(sheet, got); lacks != tt.lacks {
				t.Errorf("not reckoned: %q, want %q (%v)", lacks, tt.lacks, got)
			}
			if beyond := missing(got, sheet); beyond != tt.beyond {
				t.Errorf("beyond the sheet: %q, want %q (%v)", beyond, tt.beyond, got)
			}
		})
	}
}

// missing returns what of a is not in b.
func missing(a, b []string) string {
	var out []string
	for _, x := range a {
		if !strings.Contains(strings.Join(b, " "), x) {
			out = append(out, x)
		}
	}
	return strings.Join(out, " ")
}
