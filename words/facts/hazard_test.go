package facts_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/hazard"
	"wetside/words/facts"
)

func TestReadMixture(t *testing.T) {
	for _, tt := range []struct {
		text string
		want facts.MixtureRead
	}{
		{
			`{"ingredients":[{"substance":"acetic acid","share_percent":[25,28]}]}`,
			facts.MixtureRead{Mixture: hazard.Mixture{Ingredients: []hazard.Ingredient{{Name: "acetic acid", Share: hazard.Share{Low: 25, High: 28}}}}},
		},
		{
			`{"product":"p","state":"used","ph":0,"ingredients":[{"substance":" a ","share_percent":2},{"substance":"b","share_percent":[3]},{"substance":"c"},
			{"substance":"d","share_percent":null}]}`,
			facts.MixtureRead{Product: "p", Mixture: hazard.Mixture{State: hazard.Used, PHKnown: true, Ingredients: []hazard.Ingredient{
				{Name: "a", Share: hazard.Exactly(2)}, {Name: "b", Share: hazard.Exactly(3)}, {Name: "c", Open: true}, {Name: "d", Open: true},
			}}},
		},
		{
			`{"dilution":"1:9","density_g_per_ml":1,"ingredients":[{"substance":"a","share_percent":[10,20]}]}`,
			facts.MixtureRead{Dilution: "1+9", Mixture: hazard.Mixture{State: hazard.Working, Ingredients: []hazard.Ingredient{
				{Name: "a", Share: hazard.Share{Low: 1, High: 2}},
			}}},
		},
		{`{}`, facts.MixtureRead{}},
	} {
		got, err := facts.ReadMixture(strings.NewReader(tt.text))
		if err != nil {
			t.Errorf("%s: %v", tt.text, err)
		}
		if d := cmp.Diff(tt.want, got); d != "" {
			t.Errorf("%s\n%s", tt.text, d)
		}
	}
}

func TestReadMixtureRefuses(t *testing.T) {
	for _, text := range []string{
		``, `null x`, `[]`, `"a"`, `{`, `{"ingredients":{}}`, `{"ingredients":[{"substance":"a","share_percent":"5 %"}]}`, `{"wine":1}`, `{} {}`, `{}]`,
		`{"ingredients":[{"substance":"a","share_percent":[]}]}`, `{"ingredients":[{"substance":"a","share_percent":[1,2,3]}]}`,
		`{"ingredients":[{"substance":"a","share_percent":[1,null]}]}`, `{"ingredients":[{"substance":"a","share_percent":1e999}]}`,
		`{"state":"gas"}`, `{"dilution":"1+9","density_g_per_ml":-1}`, `{"ingredients":[{"name":"a"}]}`, strings.Repeat(" ", 1<<20) + `{}`,
	} {
		if _, err := facts.ReadMixture(strings.NewReader(text)); !errors.Is(err, facts.ErrNotMixture) {
			t.Errorf("%.60q: %v", text, err)
		}
	}
	// A share that is out of bounds stays so when it is thinned.
	_, err := facts.ReadMixture(strings.NewReader(`{"dilution":"1+9","ingredients":[{"substance":"a","share_percent":150}]}`))
	if e, ok := errors.AsType[*hazard.MixtureError](err); !ok || e.Why != hazard.WhyAbove {
		t.Errorf("150 %% at 1+9: %v", err)
	}
	if _, err := facts.ReadMixture(strings.NewReader(`{"dilution":"strong"}`)); err == nil {
		t.Error("a dilution of no parts was read")
	}
}

func FuzzReadMixture(f *testing.F) {
	f.Add([]byte(`{"ingredients":[{"substance":"acetic acid","share_percent":[25,28]}]}`))
	f.Add([]byte(`{"product":"p","state":"used","ph":1e3,"dilution":"1+9","density_g_per_ml":1.1,"ingredients":[{"substance":"metol","share_percent":2}]}`))
	f.Add([]byte(`{"ingredients":[{"substance":"borax","share_percent":-0}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		m, err := facts.ReadMixture(bytes.NewReader(text))
		if err != nil {
			return
		}
		r, err := hazard.Classify(m.Mixture)
		if err != nil {
			if _, ok := errors.AsType[*hazard.MixtureError](err); !ok {
				t.Fatalf("%q: %v", text, err)
			}
			return
		}
		item := facts.OfHazard(r)
		if !item.Estimate || len(m.Mixture.Ingredients) == 0 && len(item.NotJudged) == 0 {
			t.Fatalf("%q: %+v", text, item)
		}
		if _, err := json.Marshal(item); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
	})
}
