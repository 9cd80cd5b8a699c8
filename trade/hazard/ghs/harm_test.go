package ghs_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/hazard/ghs"
)

// By the texts of the statements (CLP Annex III, as in reference works): what each says it does.
func TestHarms(t *testing.T) {
	for _, tt := range []struct {
		codes []string
		want  []ghs.Harm
	}{
		{nil, nil},
		{[]string{"H302", "H315", "H319", "H400", "H411", "EUH031", "EUH208"}, nil},
		{[]string{"H318", "H314"}, []ghs.Harm{ghs.BurnsSkin}},
		{[]string{"H351", "H317", "H318", "H341"}, []ghs.Harm{ghs.HarmsEyes, ghs.MakesAllergic, ghs.SuspectedBoth}},
		{[]string{"H351"}, []ghs.Harm{ghs.SuspectedCancer}},
		{[]string{"H360FD", "H301"}, []ghs.Harm{ghs.Poisons, ghs.HarmsChild}},
		{[]string{"H361d", "H373"}, []ghs.Harm{ghs.SuspectedChild, ghs.SuspectedOrgans}},
		{[]string{"", "H", "of"}, nil},
	} {
		if d := cmp.Diff(tt.want, ghs.HarmsOf(tt.codes), cmpEmpty()); d != "" {
			t.Errorf("%q\n%s", tt.codes, d)
		}
	}
}

func cmpEmpty() cmp.Option {
	return cmp.Transformer("empty", func(hs []ghs.Harm) []ghs.Harm { return append([]ghs.Harm{}, hs...) })
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
		if code := c.Code(); code != "H251" && code != "H304" && len(ghs.HarmsOf([]string{code})) == 0 {
			t.Errorf("%s %s is no harm", c, code)
		}
	}
	if n < 15 {
		t.Errorf("%d classes of danger", n)
	}
}
