package facts_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/plan"
	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/trade/temper"
	"wetside/words/facts"
)

// The names are an interface: what a script reads does not change by itself.
func TestNamesOfMix(t *testing.T) {
	d, err := dilution.Read("1+31", dilution.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := quantity.ReadWindow("900 mL to 1 L", quantity.NoOunce)
	if err != nil {
		t.Fatal(err)
	}
	one, err := plan.MakeOne(t.Context(), plan.OneRequest{Dilution: d, Window: w, Alternatives: 2})
	if err != nil {
		t.Fatal(err)
	}
	got := fields(t, facts.OfOne(one))
	for _, want := range []string{"dilution", "window_ml", "wanted_ml", "tolerance", "choices", "advice"} {
		if _, ok := got[want]; !ok {
			t.Errorf("no %s in %v", want, got)
		}
	}
	choices, ok := got["choices"].([]any)
	if !ok || len(choices) == 0 {
		t.Fatalf("no choices in %v", got)
	}
	first, ok := choices[0].(map[string]any)
	if !ok {
		t.Fatalf("a choice is %T", choices[0])
	}
	for _, want := range []string{
		"grade", "total_ml", "chemical_ml", "chemical_used_ml", "strength", "bias", "uncertainty", "within_tolerance", "readings",
		"vessels", "steps", "reckoning",
	} {
		if _, ok := first[want]; !ok {
			t.Errorf("no %s in a choice", want)
		}
	}
}

// fields reads an object back as a script would.
func fields(t *testing.T, v any) map[string]any {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// Nothing of a whole plan is null where a list is promised.
func TestListsOfPlan(t *testing.T) {
	day := time.Date(2027, 2, 18, 15, 0, 0, 0, time.UTC)
	f, err := example.File(day)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(t.Context(), plan.Request{File: f, Now: day})
	if err != nil {
		t.Fatal(err)
	}
	got := fields(t, facts.OfPlan(p))
	for _, list := range []string{"baths", "order", "day_before", "missing", "cautions"} {
		if _, ok := got[list].([]any); !ok {
			t.Errorf("%s is %v, want a list", list, got[list])
		}
	}
	baths, _ := got["baths"].([]any)
	if len(baths) != len(p.Baths) {
		t.Fatalf("%d baths, want %d", len(baths), len(p.Baths))
	}
	first, _ := baths[0].(map[string]any)
	for _, want := range []string{"step", "product", "dilution", "tray", "volume_ml", "makings", "depth_mm", "mix"} {
		if _, ok := first[want]; !ok {
			t.Errorf("no %s in a bath", want)
		}
	}
}

// Every word of an enumeration has a name: a new one without would stop the program.
func TestEveryWordHasAName(t *testing.T) {
	vessels := plan.UsualBench().Vessels
	vs := []measure.Vessel{vessels[0].ForMeasure(darkroom.Product{}, plan.UsualBench())}
	for d := measure.Pour; d <= measure.Stir; d++ {
		for x := measure.Chemical; x <= measure.Mix; x++ {
			c := facts.OfChoice(measure.Choice{Steps: []measure.Step{{Do: d, What: x, Mark: quantity.Int(100)}}}, vs)
			if c.Steps[0].Do == "" || c.Steps[0].What == "" {
				t.Errorf("step %d of %d has no name", d, x)
			}
		}
	}
	for a := measure.Readings; a <= measure.HalfMarkCount; a++ {
		if c := facts.OfChoice(measure.Choice{Differs: []measure.Difference{{Aspect: a}}}, vs); c.Differs[0].In == "" {
			t.Errorf("aspect %d has no name", a)
		}
	}
	for s := temper.Reached; s <= temper.OutOfReach; s++ {
		if got := facts.OfTemper(temper.Result{Status: s}).Status; got == "" || strings.Contains(got, " ") {
			t.Errorf("status %d is %q", s, got)
		}
	}
}
