package words_test

import (
	"fmt"
	"strings"
	"testing"

	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/meet"
	"wetside/trade/hazard/substance"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Whatever a mixture of the table's substances leads to is said: statements, findings, rules and figures.
func TestEveryJudgementIsSaid(t *testing.T) {
	v := voice(t, quantity.Metric)
	rules := map[string]bool{}
	check := func(what, said string) {
		t.Helper()
		if said == "" || strings.Contains(said, "[") || strings.Contains(said, "<no value>") {
			t.Errorf("%s is said as %q", what, said)
		}
	}
	for _, s := range substance.All() {
		for _, share := range []float64{0.02, 0.5, 3, 12, 45, 100} {
			is := []hazard.Ingredient{{Name: s.Name, Share: hazard.Exactly(share)}}
			if share < 50 {
				is = append(is, hazard.Ingredient{Name: "stuff", Share: hazard.Share{Low: 1, High: 30}})
			}
			r, err := hazard.Classify(hazard.Mixture{Ingredients: is})
			if err != nil {
				t.Fatal(err)
			}
			for _, code := range append(append([]string{}, r.Codes...), r.P...) {
				if said := v.Statement(code, r.Elicits); said == code {
					t.Errorf("%s, %g %%: %s has no text", s.Name, share, code)
				}
				check(code, v.Statement(code, r.Elicits))
			}
			for _, f := range r.Findings {
				check(string(f.Kind)+" "+f.Key, v.HazardFinding(f).Text())
			}
			for _, i := range r.NotJudged {
				check("not judged", v.NotJudged(i).Text())
			}
			check("pH", v.PHRule(r.PHRule).Text())
			g, because := r.Gloves()
			check("gloves", v.Gloves(g, because).Text())
			for _, x := range r.Reckoning {
				rules[x.Rule] = true
				check(x.Rule, v.Rule(x.Rule))
				for _, f := range append(x.Puts, x.Result) {
					check(f.Name, v.FigureName(f))
				}
			}
		}
	}
	if len(rules) < 14 {
		t.Errorf("rules met: %v", rules)
	}
}

// Every code of the classes, every suffix and every precaution has the standard's text.
func TestEveryCodeHasItsText(t *testing.T) {
	v := voice(t, quantity.Metric)
	codes := ghs.Precautions()
	for _, c := range ghs.All() {
		codes = append(codes, c.Code())
	}
	for _, s := range substance.All() {
		for _, x := range s.Supplements {
			codes = append(codes, x.Code)
		}
	}
	for _, suffix := range []string{"F", "D", "FD", "Fd", "fD"} {
		if suffix == "fD" {
			suffix = "Df"
		}
		codes = append(codes, "H360"+suffix)
	}
	for _, suffix := range []string{"f", "d", "fd"} {
		codes = append(codes, "H361"+suffix)
	}
	for _, code := range codes {
		if v.Statement(code, nil) == code {
			t.Errorf("%s has no text", code)
		}
	}
}

func TestHazardsInWords(t *testing.T) {
	v := voice(t, quantity.Metric)
	var b strings.Builder
	say := func(what, said string) { fmt.Fprintf(&b, "%s\n    %s\n", what, said) }
	for _, kind := range []hazard.FindingKind{
		hazard.NothingDeclared, hazard.SomeNotJudged, hazard.UnknownAcute, hazard.NonAdditive, hazard.OwnLimit, hazard.RowFromMemory,
		hazard.DensityUnknown, hazard.BeyondLabel, hazard.OnlyOnLabel, hazard.FromLabel,
	} {
		say(string(kind), marked(v.HazardFinding(hazard.Finding{Kind: kind, Substance: "silver nitrate", Code: "H314", Percent: 12.5})))
	}
	for _, p := range []meet.Pair{
		{A: "print stop", B: meet.HouseBleach, Effect: meet.ChlorineGas, Origin: reckoning.Standard, Source: "ChlorineInst"},
		{A: meet.Water, B: "glacial acid", Effect: meet.Spatters, Origin: reckoning.Standard, Source: "OregonMetro"},
		{A: "peroxide", B: meet.Stopper, Effect: meet.Bursts, Origin: reckoning.FromMemory},
	} {
		say(string(p.Effect), marked(v.MustNotMeet(p)))
	}
	never := func(a, b string, e meet.Effect) meet.Pair { return meet.Pair{A: a, B: b, Effect: e} }
	say("never", marked(v.NeverTogether([]meet.Pair{
		never("print stop", meet.HouseBleach, meet.ChlorineGas), never("fixer", meet.HouseBleach, meet.Boils), never("aid", meet.HouseBleach, meet.Boils),
		never("aid", "print stop", meet.SulfurDioxide), never("print stop", "developer", meet.SulfurDioxide), never("silver", "ammonia", meet.FulminatingSilver),
		never(meet.Water, "print stop", meet.Spatters), never("hardener", meet.Stopper, meet.Bursts),
	})))
	say("never a bottle", marked(v.NeverTogether([]meet.Pair{never("hardener", meet.Stopper, meet.Bursts)})))
	say("nothing", marked(v.NeverTogether(nil)))
	for _, e := range []hazard.MixtureError{
		{Why: hazard.WhyNoName},
		{Why: hazard.WhyBelow, Substance: "borax", Got: -0.5},
		{Why: hazard.WhyAbove, Substance: "borax", Got: 100.5},
		{Why: hazard.WhyReversed, Substance: "borax", Got: 28},
		{Why: hazard.WhyTotal, Got: 120},
		{Why: hazard.WhyTooMany, Got: 201},
		{Why: hazard.WhyTooLong, Got: 1001},
		{Why: hazard.WhyOddPH, Got: 99},
	} {
		say(string(e.Why), marked(v.MixtureError(&e)))
	}
	for _, p := range []hazard.PersonCaution{
		{Kind: hazard.KeepAway, Substance: "metol"},
		{Kind: hazard.SulfiteGas, Substance: "sodium sulfite"},
		{Kind: hazard.TongsOnly},
		{Kind: hazard.NotForPupils},
		{Kind: hazard.UnbornChild, Substance: "borax"},
		{Kind: hazard.AskFirst},
		{Kind: hazard.IrritatesBreath, Substance: "citric acid"},
	} {
		say(string(p.Kind), marked(v.PersonCaution(p)))
	}
	say("share", v.HazardShare(hazard.Share{Low: 25, High: 28})+", "+v.HazardShare(hazard.Exactly(0.2)))
	say("see_sheet", marked(v.PHRule(hazard.PHRule{PH: 1.69, Known: true, Note: hazard.SeeSheet})))
	say("EUH208", v.Statement("EUH208", []string{"hydroquinone", "metol"}))
	say("no text", v.Statement("H999", nil))
	golden(t, "hazards", b.String())
}
