package hazard_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
)

// things judges each mixture and names it.
func things(t *testing.T, shelf map[string]string) []hazard.Thing {
	t.Helper()
	var out []hazard.Thing
	for name, mix := range shelf {
		out = append(out, classify(t, mixture(t, mix)).Thing(name))
	}
	slices.SortFunc(out, func(a, b hazard.Thing) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// Effects as the reference works say: Chlorine Institute chart; ICSC 1132, 1047; Anchell 3rd ed. p. 171; C&EN 8 January 1996; US Army
// SS0513; Oregon Metro on acid into water. That a ferricyanide reducer with hypo is normal practice, and a peroxide bath is never
// stoppered: common practice.
func TestNeverTogether(t *testing.T) {
	for _, tt := range []struct {
		name string
		a, b string
		want hazard.Effect
	}{
		{"chlorine bleach and an acid", "sodium hypochlorite 5", "citric acid 10", hazard.ChlorineGas},
		{"chlorine bleach and acetic acid", "sodium hypochlorite 5", "acetic acid 5", hazard.ChlorineGas},
		{"chlorine bleach and an ammonium fixer", "sodium hypochlorite 5", "ammonium thiosulfate 50", hazard.Chloramines},
		{"chlorine bleach and plain hypo", "sodium hypochlorite 5", "sodium thiosulfate 30", hazard.Boils},
		{"chlorine bleach and a washing aid", "sodium hypochlorite 5", "sodium sulfite 10", hazard.Boils},
		{"metabisulfite and acid", "sodium metabisulfite 20", "acetic acid 28", hazard.SulfurDioxide},
		{"hypo and acid", "sodium thiosulfate 30", "acetic acid 28", hazard.SulfurComesDown},
		{"sulfide toner and acid", "sodium sulfide 10", "acetic acid 5", hazard.HydrogenSulfide},
		{"liver of sulfur and sulfamic acid", "liver of sulfur 10", "sulfamic acid 5", hazard.HydrogenSulfide},
		{"ammonium fixer and lye", "ammonium thiosulfate 50", "sodium hydroxide 10", hazard.AmmoniaGas},
		{"ferricyanide and strong acid", "potassium ferricyanide 10", "sulfuric acid 20", hazard.HydrogenCyanide},
		{"silver and ammonia", "silver nitrate 5", "ammonia 5", hazard.FulminatingSilver},
		{"permanganate and glacial acid", "potassium permanganate 5", "acetic acid 99", hazard.Fire},
		{"dichromate and hydrochloric acid", "potassium dichromate 5", "hydrochloric acid 10", hazard.ChlorineGas},
		{"a ferricyanide reducer and hypo", "potassium ferricyanide 10", "sodium thiosulfate 30", ""},
		{"a ferricyanide reducer and rapid fixer", "potassium ferricyanide 10", "ammonium thiosulfate 50", ""},
		{"ferricyanide and a stop bath", "potassium ferricyanide 10", "acetic acid 1.4", ""},
		{"developer and fixer", "hydroquinone 2, sodium sulfite 10, sodium carbonate 10", "ammonium thiosulfate 50", ""},
		{"selenium toner and fixer", "selenium compounds 3, ammonium thiosulfate 20", "sodium thiosulfate 30", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := hazard.NeverTogether(things(t, map[string]string{"a": tt.a, "b": tt.b}), false)
			i := slices.IndexFunc(got, func(p hazard.Pair) bool { return p.A == "a" && p.B == "b" || p.A == "b" && p.B == "a" })
			switch {
			case i < 0 && tt.want != "":
				t.Errorf("they may meet, want %s", tt.want)
			case i >= 0 && got[i].Effect != tt.want:
				t.Errorf("%+v, want %q", got[i], tt.want)
			}
		})
	}
}

func TestNeverTogetherAlone(t *testing.T) {
	got := hazard.NeverTogether(things(t, map[string]string{"glacial acid": "acetic acid 99", "hardener bleach": "hydrogen peroxide 3"}), true)
	want := []string{
		"glacial acid, chlorine_bleach: chlorine_gas", "glacial acid, hardener bleach: fire",
		"water, glacial acid: spatters", "hardener bleach, stopper: bursts",
	}
	var said []string
	for _, p := range got {
		said = append(said, p.A+", "+p.B+": "+string(p.Effect))
	}
	if d := cmp.Diff(want, said); d != "" {
		t.Error(d)
	}
	if got := hazard.NeverTogether(things(t, map[string]string{"stop bath": "acetic acid 1.4"}), false); len(got) != 0 {
		t.Errorf("a stop bath alone: %+v", got)
	}
	one := things(t, map[string]string{"a": "sodium hypochlorite 5", "b": "acetic acid 5"})
	for _, p := range hazard.NeverTogether(one, true) {
		if p.A == hazard.HouseBleach || p.B == hazard.HouseBleach {
			t.Errorf("a second chlorine bleach beside that of the shelf: %+v", p)
		}
	}
}

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
		{"likes tea", "metol 5", hazard.Working, ""},
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
