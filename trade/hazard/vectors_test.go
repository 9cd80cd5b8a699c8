package hazard_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
)

// mixture reads "acetic acid 25-28, hydroquinone 1": shares in mass per cent.
func mixture(tb testing.TB, text string) hazard.Mixture {
	tb.Helper()
	var m hazard.Mixture
	for item := range strings.SplitSeq(text, ", ") {
		at := strings.LastIndexByte(item, ' ')
		low, high, ranged := strings.Cut(item[at+1:], "-")
		if !ranged {
			high = low
		}
		a, err1 := strconv.ParseFloat(low, 64)
		b, err2 := strconv.ParseFloat(high, 64)
		if err1 != nil || err2 != nil {
			tb.Fatalf("share in %q", item)
		}
		m.Ingredients = append(m.Ingredients, hazard.Ingredient{Name: item[:at], Share: hazard.Share{Low: a, High: b}})
	}
	return m
}

func classify(tb testing.TB, m hazard.Mixture) hazard.Result {
	tb.Helper()
	r, err := hazard.Classify(m)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

// The worked vectors, by hand from the rules and entries; "only" leaves of the codes those that the vector is about. The
// limits behind each: CLP Annex I by way of the sources named beside them in the package; the entries of Annex VI as
// the table of substances has them.
func TestWorkedVectors(t *testing.T) {
	skinEyes := []string{"H314", "H315", "H318", "H319"}
	for _, tt := range []struct {
		nr, mixture, only string
		law               hazard.Law
		codes             string
		pictograms        string
		signal            ghs.Signal
	}{
		{nr: "1", mixture: "acetic acid 28", codes: "H314", pictograms: "GHS05", signal: "Danger"},
		{nr: "1 at 25", mixture: "acetic acid 25", codes: "H314", pictograms: "GHS05", signal: "Danger"},
		{nr: "1 as a range", mixture: "acetic acid 25-28", codes: "H314", pictograms: "GHS05", signal: "Danger"},
		{nr: "glacial", mixture: "acetic acid 99.5", codes: "H226 H314", pictograms: "GHS02 GHS05", signal: "Danger"},
		{nr: "2", mixture: "acetic acid 24.9", codes: "H315 H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "2 at 12", mixture: "acetic acid 12", codes: "H315 H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "2 at 10", mixture: "acetic acid 10", codes: "H315 H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "3", mixture: "acetic acid 9.9"},
		{nr: "3 stop bath", mixture: "acetic acid 1.4"},
		{nr: "4", mixture: "sodium metabisulfite 20", codes: "H318 EUH031", pictograms: "GHS05", signal: "Danger"},
		{nr: "5", mixture: "sodium metabisulfite 25", codes: "H302 H318 EUH031", pictograms: "GHS05 GHS07", signal: "Danger"},
		{nr: "6 at 3.0", mixture: "sodium metabisulfite 3.0", codes: "H318", pictograms: "GHS05", signal: "Danger"},
		{nr: "6 at 2.9", mixture: "sodium metabisulfite 2.9", codes: "H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "6 at 1.0", mixture: "sodium metabisulfite 1.0", codes: "H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "6 at 0.9", mixture: "sodium metabisulfite 0.9"},
		{nr: "7", mixture: "hydroquinone 0.5, metol 0.2", codes: "EUH208"},
		{nr: "9 at 0.99", mixture: "hydroquinone 0.99", codes: "EUH208"},
		{nr: "9 at 1.0", mixture: "hydroquinone 1.0", codes: "H317 H319 H341 H351", pictograms: "GHS07 GHS08", signal: "Warning"},
		{nr: "10 at 2.4", mixture: "hydroquinone 2.4", codes: "H317 H319 H341 H351", pictograms: "GHS07 GHS08", signal: "Warning"},
		{nr: "10 at 2.5", mixture: "hydroquinone 2.5", codes: "H317 H319 H341 H351 H400", pictograms: "GHS07 GHS08 GHS09", signal: "Warning"},
		{nr: "11", mixture: "hydroquinone 3.0", codes: "H317 H318 H341 H351 H400", pictograms: "GHS05 GHS07 GHS08 GHS09", signal: "Danger"},
		{nr: "13 at 2500", mixture: "hydroquinone 10, metol 10", only: "H302"},
		{nr: "13 at 2000", mixture: "hydroquinone 12.5, metol 12.5", only: "H302", codes: "H302"},
		{nr: "14 half unknown", mixture: "hydroquinone 25, stuff 50", only: "H302", codes: "H302"},
		{nr: "14 a tenth unknown", mixture: "hydroquinone 25, stuff 10", only: "H302", codes: "H302"},
		{nr: "15 at 0.4", mixture: "sodium hydroxide 0.4"},
		{nr: "15 at 0.5", mixture: "sodium hydroxide 0.5", codes: "H315 H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "15 at 1.9", mixture: "sodium hydroxide 1.9", codes: "H315 H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "15 at 2.0", mixture: "sodium hydroxide 2.0", codes: "H314", pictograms: "GHS05", signal: "Danger"},
		{nr: "15 at 4.9", mixture: "sodium hydroxide 4.9", codes: "H314", pictograms: "GHS05", signal: "Danger"},
		{nr: "15 at 5.0", mixture: "sodium hydroxide 5.0", codes: "H314", pictograms: "GHS05", signal: "Danger"},
		{nr: "17 at 9.9", mixture: "citric acid 9.9"},
		{nr: "17 at 10", mixture: "citric acid 10", codes: "H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "17 at 19.9", mixture: "citric acid 19.9", codes: "H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "17 at 20", mixture: "citric acid 20", codes: "H319 H335", pictograms: "GHS07", signal: "Warning"},
		{nr: "19 at 0.5", mixture: "sodium carbonate 6, hydroquinone 0.5", only: "H318 H319"},
		{nr: "19 at 1.0", mixture: "sodium carbonate 6, hydroquinone 1.0", only: "H318 H319", codes: "H319"},
		{nr: "20", mixture: "sodium hypochlorite 5.0", codes: "H314 H400 H411", pictograms: "GHS05 GHS09", signal: "Danger"},
		{nr: "21", mixture: "sodium hypochlorite 4.9", codes: "H315 H318 H400 H411", pictograms: "GHS05 GHS09", signal: "Danger"},
		{nr: "22", mixture: "sodium hypochlorite 2.4", codes: "H315 H319 H412", pictograms: "GHS07", signal: "Warning"},
		{nr: "23 at 0.25", mixture: "sodium hypochlorite 0.25", codes: "H412"},
		{nr: "23 at 0.24", mixture: "sodium hypochlorite 0.24"},
		{nr: "24 EU", mixture: "borax 0.2"},
		{nr: "24 US", mixture: "borax 0.2", law: hazard.US, codes: "H360", pictograms: "GHS08", signal: "Danger"},
		{nr: "24 CA", mixture: "borax 0.2", law: hazard.CA, codes: "H360", pictograms: "GHS08", signal: "Danger"},
		{nr: "25", mixture: "borax 0.3", codes: "H360FD", pictograms: "GHS08", signal: "Danger"},
		{nr: "26 at 9.9", mixture: "metol 9.9", only: "H372 H373"},
		{nr: "26 at 10", mixture: "metol 10", only: "H372 H373", codes: "H373"},
		{nr: "27 at 2", mixture: "silver nitrate 2", only: strings.Join(skinEyes, " "), codes: "H315 H319"},
		{nr: "27 at 3", mixture: "silver nitrate 3", only: strings.Join(skinEyes, " "), codes: "H315 H318"},
		{nr: "27 at 5", mixture: "silver nitrate 5", only: strings.Join(skinEyes, " "), codes: "H314"},
		{nr: "metol elicits", mixture: "metol 0.1", codes: "EUH208"},
		{nr: "metol does not", mixture: "metol 0.09"},
		{nr: "one range, its worse end", mixture: "hydroquinone 0.5-1", codes: "H317 H319 H341 H351", pictograms: "GHS07 GHS08", signal: "Warning"},
		// The registry of harmonised intentions has peroxide's specific limits (CLH-H2O2).
		{nr: "peroxide 3", mixture: "hydrogen peroxide 3"},
		{nr: "peroxide 5", mixture: "hydrogen peroxide 5", codes: "H319", pictograms: "GHS07", signal: "Warning"},
		{nr: "peroxide 8", mixture: "hydrogen peroxide 8", codes: "H318", pictograms: "GHS05", signal: "Danger"},
		{
			nr: "peroxide 35", mixture: "hydrogen peroxide 35", only: "H315 H318 H335 H314", codes: "H315 H318 H335",
		},
		{nr: "peroxide 50", mixture: "hydrogen peroxide 50", only: "H271 H272 H314 H335", codes: "H272 H314 H335"},
		{nr: "peroxide 70", mixture: "hydrogen peroxide 70", only: "H271 H272 H314 H335", codes: "H271 H314 H335"},
		// 0.8 % of an irritant is not counted (ECHA-Ex).
		{nr: "sulfamic 0.8", mixture: "sulfamic acid 0.8"},
		// A sheet that states 3 to 7 % is read at 7 % (CZ-CLP); 4 % of a corrosive does not burn.
		{nr: "silver nitrate as 3 to 7", mixture: "silver nitrate 3-7", only: strings.Join(skinEyes, " "), codes: "H314"},
	} {
		t.Run(tt.nr, func(t *testing.T) {
			m := mixture(t, tt.mixture)
			m.Law = tt.law
			r := classify(t, m)
			got := r.Codes
			if tt.only != "" {
				got = slices.DeleteFunc(slices.Clone(got), func(c string) bool { return !strings.Contains(tt.only, c) })
			}
			if d := cmp.Diff(strings.Fields(tt.codes), append([]string{}, got...)); d != "" {
				t.Errorf("%s: codes\n%s", tt.mixture, d)
			}
			if tt.only != "" {
				return
			}
			if d := cmp.Diff(strings.Fields(tt.pictograms), append([]string{}, r.Pictograms...)); d != "" {
				t.Errorf("%s: pictograms\n%s", tt.mixture, d)
			}
			if r.Signal != tt.signal {
				t.Errorf("%s: signal %q, want %q", tt.mixture, r.Signal, tt.signal)
			}
		})
	}
}
