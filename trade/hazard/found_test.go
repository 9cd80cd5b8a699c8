package hazard_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
)

// Thin nitrile for working solutions, butyl or neoprene for glacial acid: common practice.
func TestGloves(t *testing.T) {
	for mix, want := range map[string]hazard.Glove{
		"acetic acid 99": hazard.ThickGlove, "acetic acid 1.4": hazard.ThinGlove, "hydroquinone 1": hazard.ThinGlove,
	} {
		if got, _ := classify(t, mixture(t, mix)).Gloves(); got != want {
			t.Errorf("%s: %q, want %q", mix, got, want)
		}
	}
}

func TestPersons(t *testing.T) {
	for _, tt := range []struct {
		note, mixture string
		state         hazard.State
		want          string
	}{
		{"sensitised to metol", "metol 0.05", hazard.Working, "keep_away metol"},
		{"Sensitized to p-methylaminophenol sulfate", "metol 0.05", hazard.Working, "keep_away metol"},
		{"allergic to hydroquinone", "metol 0.05", hazard.Working, ""},
		{"allergic to grandfather's powder", "grandfather's powder 5", hazard.Working, "keep_away grandfather's powder, ask_first"},
		{"asthma", "sodium sulfite 2", hazard.Working, "sulfite_gas sodium sulfite"},
		{"sulphite-sensitive", "sodium metabisulfite 2", hazard.Working, "sulfite_gas sodium metabisulfite"},
		{"asthma", "citric acid 1", hazard.Working, "irritates_breath citric acid"},
		{"under 18", "acetic acid 1.4", hazard.Working, "tongs_only"},
		{"under 18", "acetic acid 28", hazard.Concentrate, "not_for_pupils"},
		{"under 18", "acetic acid 28", hazard.Working, "not_for_pupils"},
		{"under 18", "citric acid 1", hazard.Concentrate, "not_for_pupils"},
		{"under 18", "hydroquinone 1", hazard.Working, "not_for_pupils"},
		{"pregnant", "borax 0.1", hazard.Working, "unborn_child borax"},
		{"pregnant", "thiourea 0.1", hazard.Working, "unborn_child thiourea"},
		{"pregnant", "acetic acid 1.4", hazard.Working, ""},
		{"pregnant", "stuff 1", hazard.Working, "ask_first"},
		{"likes tea", "metol 5, sodium sulfite 5, borax 1", hazard.Working, ""},
	} {
		t.Run(tt.note+" "+tt.mixture, func(t *testing.T) {
			m := mixture(t, tt.mixture)
			m.State = tt.state
			var got []string
			for _, c := range classify(t, m).For(hazard.ReadPerson([]string{tt.note})) {
				got = append(got, strings.TrimSpace(string(c.Kind)+" "+c.Substance))
			}
			if strings.Join(got, ", ") != tt.want {
				t.Errorf("got %q, want %q", strings.Join(got, ", "), tt.want)
			}
		})
	}
}

// What is found beside the classes.
func TestFindings(t *testing.T) {
	for _, tt := range []struct {
		mixture string
		want    hazard.Finding
	}{
		{"hydroquinone 20, stuff 50", hazard.Finding{Kind: hazard.UnknownAcute, Percent: 50}},
		{"stuff 3", hazard.Finding{Kind: hazard.SomeNotJudged, Substance: "stuff"}},
		{"silver nitrate 2", hazard.Finding{Kind: hazard.NonAdditive, Substance: "silver nitrate", Percent: 2}},
		{"sodium metabisulfite 20", hazard.Finding{Kind: hazard.OwnLimit, Substance: "sodium metabisulfite", Code: "EUH031", Percent: 5}},
		{"metol 1", hazard.Finding{Kind: hazard.RowFromMemory, Substance: "metol"}},
		{"hydroquinone 3", hazard.Finding{Kind: hazard.SheetsDisagree, Substance: "hydroquinone", Key: "hydroquinone_m"}},
	} {
		if r := classify(t, mixture(t, tt.mixture)); !slices.Contains(r.Findings, tt.want) {
			t.Errorf("%s: %+v lacks %+v", tt.mixture, r.Findings, tt.want)
		}
	}
	for _, mix := range []string{"silver nitrate 5", "silver nitrate 0.9", "acetic acid 12"} {
		for _, f := range classify(t, mixture(t, mix)).Findings {
			if f.Kind == hazard.NonAdditive {
				t.Errorf("%s: %+v", mix, f)
			}
		}
	}
	r := classify(t, mixture(t, "hydroquinone 0.5, metol 0.2"))
	if d := cmp.Diff([]string{"hydroquinone", "metol"}, r.Elicits); d != "" || r.Signal != ghs.NoSignal {
		t.Errorf("EUH208 names\n%s", d)
	}
}

func FuzzReadPerson(f *testing.F) {
	f.Add("sensitised to metol")
	f.Add("Asthma or sulphite-sensitive")
	f.Add("under\t18")
	f.Fuzz(func(t *testing.T, note string) {
		p := hazard.ReadPerson([]string{note})
		r, err := hazard.Classify(hazard.Mixture{})
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range r.For(p) {
			if c.Kind == "" {
				t.Errorf("%q: %+v", note, c)
			}
		}
	})
}
