package hazard_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/dilution"
	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
	"wetside/trade/reckoning"
)

// of makes a substance of classes, for examples that name none.
func of(name string, classes ...ghs.Class) substance.Substance {
	return substance.Substance{Name: name, Classes: classes}
}

func names(classes []ghs.Class) string {
	var out []string
	for _, c := range classes {
		out = append(out, c.Code()+" "+c.String())
	}
	return strings.Join(out, ", ")
}

// Published worked examples, with their own answers.
func TestPublishedExamples(t *testing.T) {
	withM := func(s substance.Substance, acute, chronic float64) substance.Substance {
		s.MAcute, s.MChronic = acute, chronic
		return s
	}
	known := func(ate float64, k ghs.Kind) substance.Substance {
		return substance.Substance{Name: "ate", ATEs: []substance.ATE{{Kind: k, Value: ate}}}
	}
	hq, _ := substance.Lookup("hydroquinone")
	metol, _ := substance.Lookup("metol")
	for _, tt := range []struct {
		name    string
		parts   []hazard.Part
		unknown float64
		want    string
	}{
		{
			"UN-3.1d-2008-23e, oral: 873 mg/kg, category 4",
			[]hazard.Part{{known(2737, ghs.Oral), 26}, {known(4500, ghs.Oral), 23}, {known(400, ghs.Oral), 40}},
			0, "H302 Acute Tox. 4",
		},
		{
			"UN-3.1d-2008-23e, vapour with 11 % unknown: 6.6 mg/L, category 3",
			[]hazard.Part{{known(11, ghs.Vapour), 26}, {known(19, ghs.Vapour), 23}, {known(4, ghs.Vapour), 40}},
			11, "H331 Acute Tox. 3",
		},
		{
			// The example answers category 1, as additivity may not apply; by the sums it is 2. NonAdditive says so.
			"UN-3.2a-2008-23e, by the additive table alone: category 2",
			[]hazard.Part{{of("a", ghs.SkinCorr1), 4}, {of("b", ghs.SkinIrrit2), 5}},
			86, "H315 Skin Irrit. 2, H318 Eye Dam. 1",
		},
		{
			"UN-4.1a-2012-25e: chronic 4",
			[]hazard.Part{
				{withM(of("a", ghs.AquaticAcute1, ghs.AquaticChronic1), 10, 10), 0.01},
				{of("b", ghs.AquaticChronic2), 1},
				{of("c", ghs.AquaticChronic4), 25},
			},
			0, "H413 Aquatic Chronic 4",
		},
		{
			"NZ-19.5: 6 % is not of the first category, 65 % of the second",
			[]hazard.Part{
				{withM(of("a", ghs.AquaticChronic1), 1, 100), 0.05}, {of("b", ghs.AquaticChronic1), 1}, {of("c", ghs.AquaticChronic2), 5},
			},
			0, "H411 Aquatic Chronic 2",
		},
		{"ECHA-Ex: 0.8 % of an irritant is not counted", []hazard.Part{{of("a", ghs.SkinIrrit2), 0.8}}, 0, ""},
		{"CZ-CLP: 4 % of a corrosive does not burn", []hazard.Part{{of("a", ghs.SkinCorr1B), 4}}, 0, "H315 Skin Irrit. 2, H318 Eye Dam. 1"},
		{"CZ-CLP: read at 7 %, it does", []hazard.Part{{of("a", ghs.SkinCorr1B), 7}}, 0, "H314 Skin Corr. 1B"},
		{
			// A working developer with M = 10 for metol: chronic 3 is 200 ≥ 25.
			"metol with M = 10", []hazard.Part{{hq, 0.5}, {withM(metol, 10, 10), 0.2}}, 0, "H412 Aquatic Chronic 3",
		},
		{
			// Hydroquinone with M = 1, its own data: 3 % in water is far from 25 %.
			"hydroquinone with M = 1",
			[]hazard.Part{{withM(hq, 1, 1), 3}},
			0,
			"H318 Eye Dam. 1, H317 Skin Sens. 1, H341 Muta. 2, H351 Carc. 2",
		},
		// Subcategories, NZ-11.2.
		{"5 % of 1A", []hazard.Part{{of("a", ghs.SkinCorr1A), 5}}, 0, "H314 Skin Corr. 1A"},
		{"3 % of 1A and 2 % of 1B", []hazard.Part{{of("a", ghs.SkinCorr1A), 3}, {of("b", ghs.SkinCorr1B), 2}}, 0, "H314 Skin Corr. 1B"},
		{"3 % of 1B and 2 % of 1C", []hazard.Part{{of("a", ghs.SkinCorr1B), 3}, {of("b", ghs.SkinCorr1C), 2}}, 0, "H314 Skin Corr. 1C"},
		{"5 % of no known subcategory", []hazard.Part{{of("a", ghs.SkinCorr1), 5}}, 0, "H314 Skin Corr. 1"},
		// HPR-8.2.11: 10 × corrosive + irritant.
		{"0.9 % of a corrosive is not counted", []hazard.Part{{of("a", ghs.SkinCorr1B), 0.9}}, 0, ""},
		{"irritants of 4 and 6 %", []hazard.Part{{of("a", ghs.SkinIrrit2), 4}, {of("b", ghs.SkinIrrit2), 6}}, 0, "H315 Skin Irrit. 2"},
		{"irritants of 4 and 5.9 %", []hazard.Part{{of("a", ghs.SkinIrrit2), 4}, {of("b", ghs.SkinIrrit2), 5.9}}, 0, ""},
		// TRGS201-CMR, TRGS201-STOT, UBA-6.13, CLP-candle: each alone.
		{"Carc. 1B 0.1 %", []hazard.Part{{of("a", ghs.Carc1B), 0.1}}, 0, "H350 Carc. 1B"},
		{"Carc. 2 of 0.6 and 0.6 %", []hazard.Part{{of("a", ghs.Carc2), 0.6}, {of("b", ghs.Carc2), 0.6}}, 0, ""},
		{"Muta. 1B 0.1 %", []hazard.Part{{of("a", ghs.Muta1B), 0.1}}, 0, "H340 Muta. 1B"},
		{"Repr. 2 2.9 %", []hazard.Part{{of("a", ghs.Repr2), 2.9}}, 0, ""},
		{"Repr. 2 3 %", []hazard.Part{{of("a", ghs.Repr2), 3}}, 0, "H361 Repr. 2"},
		{"lactation 0.3 %", []hazard.Part{{of("a", ghs.Lact), 0.3}}, 0, "H362 Lact."},
		{"STOT SE 1 1 %", []hazard.Part{{of("a", ghs.STOTSE1), 1}}, 0, "H371 STOT SE 2"},
		{"STOT SE 1 10 %", []hazard.Part{{of("a", ghs.STOTSE1), 10}}, 0, "H370 STOT SE 1"},
		{"STOT RE 1 9.9 %", []hazard.Part{{of("a", ghs.STOTRE1), 9.9}}, 0, "H373 STOT RE 2"},
		{"STOT RE 1 10 %", []hazard.Part{{of("a", ghs.STOTRE1), 10}}, 0, "H372 STOT RE 1"},
		{"drowsy 20 %", []hazard.Part{{of("a", ghs.STOTSE3Drowsy), 20}}, 0, "H336 STOT SE 3"},
		{"Skin Sens. 1A 0.1 %", []hazard.Part{{of("a", ghs.SkinSens1A), 0.1}}, 0, "H317 Skin Sens. 1A"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := names(hazard.Judge(tt.parts, tt.unknown, hazard.EU).Classes); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

// The estimates themselves: 872.5 mg/kg and 6.6 mg/L (UN-3.1d-2008-23e), 2500, 2000 and 1000 mg/kg by hand.
func TestEstimates(t *testing.T) {
	for _, tt := range []struct {
		mixture, rule string
		want          float64
	}{
		{"hydroquinone 10, metol 10", "acute_oral", 2500},
		{"hydroquinone 12.5, metol 12.5", "acute_oral", 2000},
		{"hydroquinone 25, stuff 50", "acute_oral", 1000},
		{"hydroquinone 25, stuff 10", "acute_oral", 2000},
		{"sodium metabisulfite 20", "acute_oral", 2500},
		{"hydroquinone 3", "acute_oral", 100. / 3 * 500},
		{"selenium compounds 4", "acute_oral", 2500},
	} {
		r := classify(t, mixture(t, tt.mixture))
		i := slices.IndexFunc(r.Reckoning, func(x reckoning.Reckoning) bool { return x.Rule == tt.rule })
		if i < 0 || math.Abs(r.Reckoning[i].Result.Value-tt.want) > 1e-6*tt.want {
			t.Errorf("%s: %s is not %g: %+v", tt.mixture, tt.rule, tt.want, r.Reckoning)
		}
	}
}

// Every sum can be followed: shares times weights give the result.
func TestSumsCanBeFollowed(t *testing.T) {
	r := classify(t, mixture(t, "hydroquinone 0.5, metol 0.2, sodium hydroxide 1, sodium carbonate 6"))
	sums := 0
	for _, x := range r.Reckoning {
		if x.Result.Name != "weighed_share" {
			continue
		}
		sums++
		total := 0.0
		for i, f := range x.Puts {
			if f.Name == "ingredient_share" {
				total += f.Value * x.Puts[i+1].Value
			}
		}
		if math.Abs(total-x.Result.Value) > 1e-12 {
			t.Errorf("%s: %g, but shares times weights are %g", x.Rule, x.Result.Value, total)
		}
	}
	if sums < 5 {
		t.Errorf("%d sums", sums)
	}
	// The vector's own sum: 0.5 × 10 + 0.2 = 5.2 % in water at once.
	i := slices.IndexFunc(r.Reckoning, func(x reckoning.Reckoning) bool { return x.Rule == "aquatic_acute_sum" })
	if math.Abs(r.Reckoning[i].Result.Value-0.052) > 1e-12 {
		t.Errorf("in water: %+v", r.Reckoning[i])
	}
}

// Which classes: the subcategories of specific limits, and that corrosion takes in the eyes.
func TestClasses(t *testing.T) {
	for mix, want := range map[string]string{
		"acetic acid 28":          "H314 Skin Corr. 1B",
		"acetic acid 90":          "H226 Flam. Liq. 3, H314 Skin Corr. 1A",
		"sodium hydroxide 4.9":    "H314 Skin Corr. 1B",
		"sodium hydroxide 5":      "H314 Skin Corr. 1A",
		"sodium hypochlorite 5.0": "H314 Skin Corr. 1B, H400 Aquatic Acute 1, H411 Aquatic Chronic 2",
		"hydrogen peroxide 70":    "H271 Ox. Liq. 1, H302 Acute Tox. 4, H332 Acute Tox. 4, H314 Skin Corr. 1A, H335 STOT SE 3",
		// Two acids that do not burn alone burn together: 15/25 + 12.5/25 of the limit.
		"acetic acid 15, phosphoric acid 12.5": "H314 Skin Corr. 1B",
		"acetic acid 12, phosphoric acid 12":   "H315 Skin Irrit. 2, H319 Eye Irrit. 2",
	} {
		if got := names(classify(t, mixture(t, mix)).Classes); got != want {
			t.Errorf("%s: %q, want %q", mix, got, want)
		}
	}
}

// A range is told at its worse end, and the other end beside it.
func TestBothEnds(t *testing.T) {
	r := classify(t, mixture(t, "acetic acid 24-26"))
	if names(r.Classes) != "H314 Skin Corr. 1B" || names(r.Milder) != "H315 Skin Irrit. 2, H319 Eye Irrit. 2" {
		t.Errorf("worse %s; milder %s", names(r.Classes), names(r.Milder))
	}
}

func TestUnknownIsNeverHarmless(t *testing.T) {
	r := classify(t, mixture(t, "acetic acid 28, grandfather's powder 3-7"))
	want := []hazard.Ingredient{{Name: "grandfather's powder", Share: hazard.Share{Low: 3, High: 7}}}
	if d := cmp.Diff(want, r.NotJudged); d != "" {
		t.Errorf("not judged\n%s", d)
	}
	if d := cmp.Diff([]string{"H314"}, r.Codes); d != "" {
		t.Errorf("codes\n%s", d)
	}
	none := classify(t, hazard.Mixture{})
	if len(none.NotJudged) != 1 || none.NotJudged[0].Share != (hazard.Share{High: 100}) || none.Findings[0].Kind != hazard.NothingDeclared {
		t.Errorf("nothing declared: %+v", none)
	}
	open := classify(t, hazard.Mixture{Ingredients: []hazard.Ingredient{{Name: "hydroquinone", Open: true}}})
	if len(open.NotJudged) != 1 || len(open.Codes) != 0 {
		t.Errorf("no share: %+v", open)
	}
	if other := classify(t, mixture(t, "氢醌 3, "+strings.Repeat("x", 200)+" 4")); len(other.NotJudged) != 2 {
		t.Errorf("another script, a long name: %+v", other.NotJudged)
	}
}

func TestBadMixtures(t *testing.T) {
	for _, tt := range []struct {
		name string
		i    []hazard.Ingredient
		why  hazard.Why
	}{
		{"above", []hazard.Ingredient{{Name: "borax", Share: hazard.Exactly(100.1)}}, hazard.WhyAbove},
		{"above at the end", []hazard.Ingredient{{Name: "borax", Share: hazard.Share{Low: 5, High: 101}}}, hazard.WhyAbove},
		{"below", []hazard.Ingredient{{Name: "borax", Share: hazard.Exactly(-0.1)}}, hazard.WhyBelow},
		{"below at the end", []hazard.Ingredient{{Name: "borax", Share: hazard.Share{Low: -1, High: 5}}}, hazard.WhyBelow},
		{"no number", []hazard.Ingredient{{Name: "borax", Share: hazard.Share{High: math.NaN()}}}, hazard.WhyBelow},
		{"infinite", []hazard.Ingredient{{Name: "borax", Share: hazard.Share{High: math.Inf(1)}}}, hazard.WhyAbove},
		{"reversed", []hazard.Ingredient{{Name: "borax", Share: hazard.Share{Low: 5, High: 2}}}, hazard.WhyReversed},
		{"no name", []hazard.Ingredient{{Share: hazard.Exactly(5)}}, hazard.WhyNoName},
		{"long", []hazard.Ingredient{{Name: strings.Repeat("x", 1001), Share: hazard.Exactly(5)}}, hazard.WhyTooLong},
		{"in all", []hazard.Ingredient{{Name: "borax", Share: hazard.Exactly(60)}, {Name: "metol", Share: hazard.Exactly(60)}}, hazard.WhyTotal},
		{"many", make([]hazard.Ingredient, 201), hazard.WhyTooMany},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := hazard.Classify(hazard.Mixture{Ingredients: tt.i})
			e, ok := errors.AsType[*hazard.MixtureError](err)
			if !ok || e.Why != tt.why || !errors.Is(err, hazard.ErrMixture) {
				t.Errorf("got %v, want %s", err, tt.why)
			}
		})
	}
	if _, err := hazard.Classify(hazard.Mixture{PHKnown: true, PH: 99}); err == nil {
		t.Error("pH 99 was taken")
	}
}

// The pH rule, both ends inclusive (CLP Annex I 3.2.3). Worked: 0.2 % sodium hydroxide is 0.05 mol/L, pH 12.6; 10 % citric acid is
// 0.54 mol/L with pKa 3.13, pH 1.7. It stands apart: no class changes.
func TestPHRule(t *testing.T) {
	for _, tt := range []struct {
		ph   float64
		want ghs.Class
	}{{2.0, ghs.SkinCorr1}, {2.1, ghs.None}, {11.4, ghs.None}, {11.5, ghs.SkinCorr1}} {
		r := classify(t, hazard.Mixture{PH: tt.ph, PHKnown: true})
		if r.PHRule.WouldBe != tt.want || len(r.Classes) != 0 {
			t.Errorf("pH %g: %+v, classes %v", tt.ph, r.PHRule, r.Classes)
		}
	}
	for _, tt := range []struct {
		mixture string
		ph, off float64
		note    hazard.PHNote
		codes   string
	}{
		{"sodium hydroxide 0.2", 12.6, 0.15, hazard.SeeSheet, ""},
		{"citric acid 10", 1.7, 0.1, hazard.SeeSheet, "H319"},
		{"acetic acid 1.4", 2.7, 0.1, hazard.Declared, ""}, // 0.23 mol/L, pKa 4.76: half of 4.76 + 0.63
		{"acetic acid 1.4, propylene glycol 5", 2.7, 0.1, hazard.Declared, ""},
		{"acetic acid 1.4, stuff 5", math.NaN(), 0, hazard.NoPH, ""},
		{"sodium hydroxide 0.1-0.2", 12.6, 0.15, hazard.SeeSheet, ""},
	} {
		r := classify(t, mixture(t, tt.mixture))
		p := r.PHRule
		if p.Note != tt.note || p.Known && !(math.Abs(p.PH-tt.ph) <= tt.off) || p.Known == math.IsNaN(tt.ph) {
			t.Errorf("%s: %+v", tt.mixture, p)
		}
		if strings.Join(r.Codes, " ") != tt.codes {
			t.Errorf("%s: the pH rule got into %v", tt.mixture, r.Codes)
		}
	}
	dry := mixture(t, "citric acid 100")
	dry.State = hazard.Powder
	if p := classify(t, dry).PHRule; p.Note != hazard.DryMatter || p.Known {
		t.Errorf("a powder: %+v", p)
	}
}

// A statement of a label covers a milder one of its kind, and none of another.
func TestLabelCovers(t *testing.T) {
	beyond := func(label ...string) string {
		r := classify(t, mixture(t, "hydroquinone 25"))
		r.Compare(label)
		var out []string
		for _, f := range r.Findings {
			if f.Kind == hazard.BeyondLabel {
				out = append(out, f.Code)
			}
		}
		return strings.Join(out, " ")
	}
	for _, tt := range []struct{ label, want string }{
		{"H302 H317 H318 H341 H351 H400", ""},
		{"H301 H314 H317 H340 H350 H410", ""},
		{"H302", "H317 H318 H341 H351 H400"},
		{"H312 H317 H318 H341 H351 H400", "H302"},
		{"", ""},
	} {
		if got := beyond(strings.Fields(tt.label)...); got != tt.want {
			t.Errorf("label %s: beyond it %q, want %q", tt.label, got, tt.want)
		}
	}
}

// What another law says is named where it differs: 0.2 % of borax is nothing in the EU and H360 in the US (OSHA-2024corr).
func TestOtherLaw(t *testing.T) {
	r := classify(t, mixture(t, "borax 0.2"))
	if d := cmp.Diff(hazard.Otherwise{Law: hazard.US, Codes: []string{"H360"}}, r.Otherwise); d != "" {
		t.Errorf("in the EU\n%s", d)
	}
	us := mixture(t, "borax 0.2")
	us.Law = hazard.US
	if r := classify(t, us); r.Otherwise.Law != hazard.EU || len(r.Otherwise.Codes) != 0 {
		t.Errorf("in the US: %+v", r.Otherwise)
	}
	if r := classify(t, mixture(t, "acetic acid 28")); r.Otherwise.Law != "" {
		t.Errorf("where laws agree: %+v", r.Otherwise)
	}
	uk := mixture(t, "borax 0.3")
	uk.Law = hazard.UK
	if r := classify(t, uk); strings.Join(r.Codes, " ") != "H360FD" {
		t.Errorf("in the UK: %v", r.Codes)
	}
}

// 1+9 by volume: with the density 1.10 g/mL of a developer a tenth by volume is 1.10/10.0 … by hand 1.1/(1.1+9) = 10.9 % by mass.
func TestDilute(t *testing.T) {
	read := func(text string) dilution.Dilution {
		d, err := dilution.Read(text, dilution.Options{})
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	in := []hazard.Ingredient{{Name: "hydroquinone", Share: hazard.Share{Low: 1, High: 3}}}
	for _, tt := range []struct {
		words     string
		density   float64
		low, high float64
	}{
		{"1+9", 1.10, 1.1 / 10.1, 3 * 1.1 / 10.1},
		{"1+9", 1, 0.1, 0.3},
		{"1+9", 0, 0.1, 3 * 1.3 / 10.3},
		{"undiluted", 0, 1, 3},
		{"1+1+10", 1, 2. / 12, 6. / 12},
	} {
		got, err := hazard.Dilute(in, read(tt.words), tt.density)
		if err != nil || math.Abs(got[0].Share.Low-tt.low) > 1e-9 || math.Abs(got[0].Share.High-tt.high) > 1e-9 {
			t.Errorf("%s at %g: %+v, %v; want %g to %g", tt.words, tt.density, got, err, tt.low, tt.high)
		}
	}
}

// 100 g of a powder in 1 L: 5 % of it is 5 g in 1.0 to 1.3 kg, by hand.
func TestMakeUp(t *testing.T) {
	in := []hazard.Ingredient{{Name: "metol", Share: hazard.Exactly(5)}}
	got := hazard.MakeUp(in, 100, 1000)[0].Share
	if math.Abs(got.High-0.5) > 1e-12 || math.Abs(got.Low-0.5/1.3) > 1e-12 {
		t.Errorf("got %+v", got)
	}
	if got := hazard.MakeUp(in, 5000, 1000)[0].Share; got != hazard.Exactly(5) {
		t.Errorf("more powder than the whole: %+v", got)
	}
}
