package plan_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/plan"
	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/meet"
)

// declared is a shelf of which something is declared: glacial acid that nobody marked as one, a developer with a density, a fixer, and
// an aid of which nothing is.
const declared = `
shelf:
  products:
    - name: paper developer
      role: developer
      form: liquid
      density: 1.10 g/mL
      dilutions: {RC paper: 1+9}
      contains: [{substance: hydroquinone, share: 3 to 12 %}]
    - name: glacial acid
      role: stop bath
      form: liquid
      density: 1.05 g/mL
      dilutions: {RC paper: 1+60}
      contains: [{substance: acetic acid, share: 99 %}]
    - name: rapid fixer
      role: fixer
      form: liquid
      dilutions: {RC paper: 1+4}
      contains: [{substance: ammonium thiosulfate, share: 50 to 60 %}, {substance: grandmother's salt, share: 2 %}]
    - {name: blue reducer, role: toner, form: liquid, dilutions: {RC paper: 1+9}, contains: [{substance: potassium ferricyanide, share: 10 %}]}
`

func declaredPlan(t *testing.T, change ...string) plan.Plan {
	t.Helper()
	text := head + "bench:\n  vessels:" + jug + cylinder + trays + declared + rc
	for i := 0; i+1 < len(change); i += 2 {
		text = replace(t, text, change[i], change[i+1])
	}
	return makePlan(t, text)
}

func bathOf(t *testing.T, p plan.Plan, product string) plan.Bath {
	t.Helper()
	for _, b := range p.Baths {
		if b.Product == product {
			return b
		}
	}
	t.Fatalf("no bath of %s", product)
	return plan.Bath{}
}

func caution(cs []plan.Caution, k plan.CautionKind) (plan.Caution, bool) {
	for _, c := range cs {
		if c.Kind == k {
			return c, true
		}
	}
	return plan.Caution{}, false
}

// 12 % of hydroquinone damages eyes, makes allergic and is suspected; at 1+9, 12 × 1.1/10.1 = 1.3 %, it still makes allergic and is
// suspected from 1 % on, and no longer damages eyes (3 %). By the rows of reference works.
func TestCautionsOfWhatIsDeclared(t *testing.T) {
	p := declaredPlan(t)
	got, ok := caution(bathOf(t, p, "paper developer").Cautions, plan.Harmful)
	if !ok {
		t.Fatalf("nothing of hydroquinone: %+v", bathOf(t, p, "paper developer").Cautions)
	}
	want := plan.Caution{
		Kind: plan.Harmful, Subject: "paper developer", From: hazard.Concentrate,
		Harms:   []ghs.Harm{ghs.HarmsEyes, ghs.MakesAllergic, ghs.SuspectedBoth},
		Thinned: []ghs.Harm{ghs.MakesAllergic, ghs.SuspectedBoth},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	stop := bathOf(t, p, "glacial acid")
	if kinds := cautions(stop.Cautions); !slices.Equal(kinds, []plan.CautionKind{plan.AcidIntoWater, plan.Harmful, plan.ThickGloves, plan.OdourlessStop}) {
		t.Errorf("glacial acid: %v", kinds)
	}
	if g, _ := caution(stop.Cautions, plan.ThickGloves); g.Other != "acetic acid" {
		t.Errorf("gloves because of %q", g.Other)
	}
	if !stop.WaterFirst {
		t.Error("glacial acid without a mark goes in before the water")
	}
	if kinds := cautions(bathOf(t, p, "rapid fixer").Cautions); !slices.Equal(kinds, []plan.CautionKind{plan.FixerNoDrain}) {
		t.Errorf("fixer: %v", kinds)
	}
}

// A whole head, in its order: what is not judged by name, first aid last, and a line to write the number on.
func TestHeadCautions(t *testing.T) {
	p := declaredPlan(t)
	want := []plan.CautionKind{
		plan.GlovesGoggles, plan.LabelFirst, plan.NotJudged, plan.NoKitchenware, plan.Air, plan.InEye, plan.Spilt, plan.Swallowed, plan.PoisonBlank,
	}
	if d := cmp.Diff(want, cautions(p.Cautions)); d != "" {
		t.Error(d)
	}
	if c, _ := caution(p.Cautions, plan.NotJudged); !slices.Equal(c.Names, []string{"rapid fixer"}) {
		t.Errorf("not judged: %q, want the one with an unknown salt", c.Names)
	}
	// Nothing declared of any: all are named, none is passed over as harmless.
	bare := makePlan(t, smallRoom()+rc)
	if c, _ := caution(bare.Cautions, plan.NotJudged); len(c.Names) != 3 {
		t.Errorf("nothing is declared of three, and %q are not judged", c.Names)
	}
	school := declaredPlan(t, "{name: Probe,", "{name: Probe, place: school, poison_centre: the number on the door,")
	if _, ok := caution(school.Cautions, plan.PupilsTongs); !ok {
		t.Error("a school says nothing to its pupils")
	}
	if c, ok := caution(school.Cautions, plan.PoisonCentre); !ok || c.Subject != "the number on the door" {
		t.Errorf("the room's own line: %+v", c)
	}
}

// What is in use tonight, and the chlorine bleach under the sink; that a ferricyanide reducer stands on the shelf is no matter.
func TestNeverTogetherTonight(t *testing.T) {
	var said []string
	for _, x := range declaredPlan(t).Never {
		said = append(said, x.A+", "+x.B+": "+string(x.Effect))
	}
	want := []string{
		"glacial acid, chlorine_bleach: chlorine_gas", "rapid fixer, chlorine_bleach: chloramines", "glacial acid, rapid fixer: sulfur_comes_down",
	}
	if d := cmp.Diff(want, said); d != "" {
		t.Error(d)
	}
	for _, x := range declaredPlan(t).Never {
		if x.A == meet.Water || strings.Contains(x.A+x.B, "reducer") {
			t.Errorf("%+v is said", x)
		}
	}
}

// What a bottle does is said where it is poured from first, and not again at the second bath of it.
func TestHarmIsSaidOnceForEachBottle(t *testing.T) {
	p := declaredPlan(t, "RC paper: 1+60}", "RC paper: 1+60, film: 1+60}", "standard: exhibition, fixing: one bath}",
		"standard: exhibition, fixing: one bath}\n    - {material: film, size: 135-36, rolls: 1}",
		"bench:\n  vessels:", "bench:\n  tanks: [{name: tank, covers: {135: [300 mL]}}]\n  vessels:")
	stops := 0
	for _, b := range p.Baths {
		if b.Product == "glacial acid" {
			stops++
			if _, ok := caution(b.Cautions, plan.AcidIntoWater); !ok {
				t.Errorf("%s: acid into water is not said at each", b.ID)
			}
		}
	}
	if stops != 2 {
		t.Fatalf("%d baths of glacial acid, want paper's and film's", stops)
	}
	said := map[string]int{}
	for _, b := range p.Baths {
		if _, ok := caution(b.Cautions, plan.Harmful); ok {
			said[b.Product]++
		}
	}
	for product, n := range said {
		if n != 1 {
			t.Errorf("%s is said %d times", product, n)
		}
	}
	if len(said) != 2 {
		t.Errorf("said of %v, want developer and acid", said)
	}
}

// Nothing of a bath is said before the screen that it belongs to, and what must be known before the first is said there.
func TestWhenACautionIsWanted(t *testing.T) {
	for k, want := range map[plan.CautionKind]plan.Moment{
		plan.AcidUnknown: plan.AtFirst, plan.TonerApart: plan.AtFirst, plan.PowderDust: plan.AtFirst, plan.HotWater: plan.AtWater,
		plan.AcidIntoWater: plan.AtBottle, plan.StrongAlkali: plan.AtBottle, plan.Harmful: plan.AtBottle, plan.ThickGloves: plan.AtBottle,
		plan.FixerNoDrain: plan.AtEnd,
	} {
		if k.At() != want {
			t.Errorf("%s at %d, want %d", k, k.At(), want)
		}
	}
}
