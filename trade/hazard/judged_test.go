package hazard_test

import (
	"slices"
	"testing"

	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
)

// What nothing is declared of is never judged; a label's own statements are a judgement, and not a whole one.
func TestJudged(t *testing.T) {
	of := func(is ...hazard.Ingredient) hazard.Result {
		r, err := hazard.Classify(hazard.Mixture{Ingredients: is})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	none, open := of(), of(hazard.Ingredient{Name: "metol", Open: true})
	water, some := of(hazard.Ingredient{Name: "water", Share: hazard.Exactly(100)}), of(
		hazard.Ingredient{Name: "metol", Share: hazard.Exactly(1)}, hazard.Ingredient{Name: "grandmother's salt", Share: hazard.Exactly(1)},
	)
	if none.Judged() || open.Judged() || !water.Judged() || !water.Whole() || !some.Judged() || some.Whole() {
		t.Errorf("none %v, open %v, water %v %v, some %v %v", none.Judged(), open.Judged(), water.Judged(), water.Whole(), some.Judged(), some.Whole())
	}
	none.TakeLabel([]string{"H317"})
	if !none.Judged() || none.Whole() || !slices.Equal(none.Harms(), []ghs.Harm{ghs.MakesAllergic}) {
		t.Errorf("label: %v %v %v", none.Judged(), none.Whole(), none.Harms())
	}
}
