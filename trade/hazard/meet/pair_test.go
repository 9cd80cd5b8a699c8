package meet_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/hazard"
	"wetside/trade/hazard/meet"
)

// thing judges a mixture, "acetic acid 28, metol 1", and names it.
func thing(t *testing.T, name, mix string) meet.Thing {
	t.Helper()
	var m hazard.Mixture
	for item := range strings.SplitSeq(mix, ", ") {
		at := strings.LastIndexByte(item, ' ')
		share, err := strconv.ParseFloat(item[at+1:], 64)
		if err != nil {
			t.Fatal(err)
		}
		m.Ingredients = append(m.Ingredients, hazard.Ingredient{Name: item[:at], Share: hazard.Exactly(share)})
	}
	r, err := hazard.Classify(m)
	if err != nil {
		t.Fatal(err)
	}
	return meet.Thing{Name: name, Groups: r.Groups, Burns: r.Burns()}
}

// things judges each mixture and names it.
func things(t *testing.T, shelf map[string]string) []meet.Thing {
	t.Helper()
	var out []meet.Thing
	for name, mix := range shelf {
		out = append(out, thing(t, name, mix))
	}
	slices.SortFunc(out, func(a, b meet.Thing) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// Effects as the reference works say: Chlorine Institute chart; ICSC 1132, 1047; Anchell 3rd ed. p. 171; C&EN 8 January 1996; US Army
// SS0513; Oregon Metro on acid into water. That a ferricyanide reducer with hypo is normal practice, and a peroxide bath is never
// stoppered: common practice.
func TestNeverTogether(t *testing.T) {
	for _, tt := range []struct {
		name string
		a, b string
		want meet.Effect
	}{
		{"chlorine bleach and an acid", "sodium hypochlorite 5", "citric acid 10", meet.ChlorineGas},
		{"chlorine bleach and acetic acid", "sodium hypochlorite 5", "acetic acid 5", meet.ChlorineGas},
		{"chlorine bleach and an ammonium fixer", "sodium hypochlorite 5", "ammonium thiosulfate 50", meet.Chloramines},
		{"chlorine bleach and plain hypo", "sodium hypochlorite 5", "sodium thiosulfate 30", meet.Boils},
		{"chlorine bleach and a washing aid", "sodium hypochlorite 5", "sodium sulfite 10", meet.Boils},
		{"metabisulfite and acid", "sodium metabisulfite 20", "acetic acid 28", meet.SulfurDioxide},
		{"hypo and acid", "sodium thiosulfate 30", "acetic acid 28", meet.SulfurComesDown},
		{"sulfide toner and acid", "sodium sulfide 10", "acetic acid 5", meet.HydrogenSulfide},
		{"liver of sulfur and sulfamic acid", "liver of sulfur 10", "sulfamic acid 5", meet.HydrogenSulfide},
		{"ammonium fixer and lye", "ammonium thiosulfate 50", "sodium hydroxide 10", meet.AmmoniaGas},
		{"ferricyanide and strong acid", "potassium ferricyanide 10", "sulfuric acid 20", meet.HydrogenCyanide},
		{"silver and ammonia", "silver nitrate 5", "ammonia 5", meet.FulminatingSilver},
		{"permanganate and glacial acid", "potassium permanganate 5", "acetic acid 99", meet.Fire},
		{"dichromate and hydrochloric acid", "potassium dichromate 5", "hydrochloric acid 10", meet.ChlorineGas},
		{"a ferricyanide reducer and hypo", "potassium ferricyanide 10", "sodium thiosulfate 30", ""},
		{"a ferricyanide reducer and rapid fixer", "potassium ferricyanide 10", "ammonium thiosulfate 50", ""},
		{"ferricyanide and a stop bath", "potassium ferricyanide 10", "acetic acid 1.4", ""},
		{"developer and fixer", "hydroquinone 2, sodium sulfite 10, sodium carbonate 10", "ammonium thiosulfate 50", ""},
		{"selenium toner and fixer", "selenium compounds 3, ammonium thiosulfate 20", "sodium thiosulfate 30", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := meet.NeverTogether(things(t, map[string]string{"a": tt.a, "b": tt.b}), false)
			i := slices.IndexFunc(got, func(p meet.Pair) bool { return p.A == "a" && p.B == "b" || p.A == "b" && p.B == "a" })
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
	got := meet.NeverTogether(things(t, map[string]string{"glacial acid": "acetic acid 99", "hardener bleach": "hydrogen peroxide 3"}), true)
	want := []string{
		"glacial acid, chlorine_bleach: chlorine_gas",
		"water, glacial acid: spatters", "hardener bleach, stopper: bursts",
	}
	var said []string
	for _, p := range got {
		said = append(said, p.A+", "+p.B+": "+string(p.Effect))
	}
	if d := cmp.Diff(want, said); d != "" {
		t.Error(d)
	}
	if got := meet.NeverTogether(things(t, map[string]string{"stop bath": "acetic acid 1.4"}), false); len(got) != 0 {
		t.Errorf("a stop bath alone: %+v", got)
	}
	one := things(t, map[string]string{"a": "sodium hypochlorite 5", "b": "acetic acid 5"})
	for _, p := range meet.NeverTogether(one, true) {
		if p.A == meet.HouseBleach || p.B == meet.HouseBleach {
			t.Errorf("a second chlorine bleach beside that of the shelf: %+v", p)
		}
	}
}

// Developer, stop bath and fixer stand side by side every evening; glacial acid beside sulfite is the danger (Anchell 3rd ed. p. 171).
func TestAsBought(t *testing.T) {
	for _, tt := range []struct {
		name, a, b string
		want       bool
	}{
		{"a citric stop bath and a developer", "citric acid 30", "hydroquinone 2, sodium sulfite 10", true},
		{"a citric stop bath and hypo", "citric acid 30", "sodium thiosulfate 30", true},
		{"a citric stop bath and a developer that burns", "citric acid 30", "sodium hydroxide 5, sodium sulfite 10", true},
		{"glacial acid and a developer", "acetic acid 99", "hydroquinone 2, sodium sulfite 10", false},
		{"glacial acid and hypo", "acetic acid 99", "sodium thiosulfate 30", false},
		{"a citric stop bath and chlorine bleach", "citric acid 30", "sodium hypochlorite 5", false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := meet.NeverTogether(things(t, map[string]string{"a": tt.a, "b": tt.b}), false)
			if len(got) == 0 || got[0].AsBought != tt.want {
				t.Errorf("%+v, want as bought %v", got, tt.want)
			}
		})
	}
}
