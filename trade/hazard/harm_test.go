package hazard_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
)

// By the texts of the statements (CLP Annex III, as in reference works): what each says it does.
func TestHarms(t *testing.T) {
	for _, tt := range []struct {
		codes []string
		want  []hazard.Harm
	}{
		{nil, nil},
		{[]string{"H302", "H315", "H319", "H400", "H411", "EUH031", "EUH208"}, nil},
		{[]string{"H318", "H314"}, []hazard.Harm{hazard.BurnsSkin}},
		{[]string{"H351", "H317", "H318", "H341"}, []hazard.Harm{hazard.HarmsEyes, hazard.MakesAllergic, hazard.SuspectedBoth}},
		{[]string{"H351"}, []hazard.Harm{hazard.SuspectedCancer}},
		{[]string{"H360FD", "H301"}, []hazard.Harm{hazard.Poisons, hazard.HarmsChild}},
		{[]string{"H361d", "H373"}, []hazard.Harm{hazard.SuspectedChild, hazard.SuspectedOrgans}},
		{[]string{"", "H", "of"}, nil},
	} {
		if d := cmp.Diff(tt.want, hazard.HarmsOf(tt.codes), cmpEmpty()); d != "" {
			t.Errorf("%q\n%s", tt.codes, d)
		}
	}
}

func cmpEmpty() cmp.Option {
	return cmp.Transformer("empty", func(hs []hazard.Harm) []hazard.Harm { return append([]hazard.Harm{}, hs...) })
}

// Every class that calls for Danger at a person is a harm: nobody is left out by a slip of the pen.
func TestEveryDangerIsAHarm(t *testing.T) {
	n := 0
	for _, c := range ghs.All() {
		l := ghs.LabelOf([]ghs.Class{c})
		if l.Signal != ghs.Danger {
			continue
		}
		n++
		if code := c.Code(); code != "H251" && code != "H304" && len(hazard.HarmsOf([]string{code})) == 0 {
			t.Errorf("%s %s is no harm", c, code)
		}
	}
	if n < 15 {
		t.Errorf("%d classes of danger", n)
	}
}

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
	if !none.Judged() || none.Whole() || !slices.Equal(none.Harms(), []hazard.Harm{hazard.MakesAllergic}) {
		t.Errorf("label: %v %v %v", none.Judged(), none.Whole(), none.Harms())
	}
}
