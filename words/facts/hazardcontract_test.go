package facts_test

import (
	"encoding/json"
	"maps"
	"slices"
	"testing"
	"time"

	"wetside/darkroom/example"
	"wetside/darkroom/hazards"
	"wetside/words/facts"
)

// What `wetside hazards --json` gives for the example has, at every item, all that its description in docs/hazards.md promises, each of
// its own type, and nothing that is null where a list is promised.
func TestHazardsAsPromised(t *testing.T) {
	f, err := example.File(time.Date(2026, time.March, 12, 17, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	r, err := hazards.Of(f)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(facts.OfHazards(r))
	if err != nil {
		t.Fatal(err)
	}
	var got map[string][]map[string]any
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	if keys := slices.Sorted(maps.Keys(got)); !slices.Equal(keys, []string{"items", "never_together"}) || len(got["items"]) < 10 {
		t.Fatalf("%v, %d items", keys, len(got["items"]))
	}
	for _, item := range got["items"] {
		for _, key := range []string{"product", "state", "dilution", "signal"} {
			if _, ok := item[key].(string); !ok {
				t.Errorf("%s of %v is %v, want a text", key, item["product"], item[key])
			}
		}
		for _, key := range []string{"classes", "h", "p", "pictograms", "not_judged", "reckoning"} {
			if _, ok := item[key].([]any); !ok {
				t.Errorf("%s of %v is %v, want a list", key, item["product"], item[key])
			}
		}
		ph, ok := item["ph_rule"].(map[string]any)
		if _, number := ph["ph"].(float64); !ok || ph["ph"] != nil && !number {
			t.Errorf("ph_rule of %v is %v", item["product"], item["ph_rule"])
		}
		for _, key := range []string{"would_be", "note"} {
			if _, ok := ph[key].(string); !ok {
				t.Errorf("%s of %v is %v, want a text", key, item["product"], ph[key])
			}
		}
		if item["estimate"] != true {
			t.Errorf("%v does not say that it is an estimate", item["product"])
		}
	}
	if len(got["never_together"]) < 3 {
		t.Errorf("%d pairs", len(got["never_together"]))
	}
	for _, pair := range got["never_together"] {
		for _, key := range []string{"a", "b", "effect", "source"} {
			if text, ok := pair[key].(string); !ok || text == "" && key != "source" {
				t.Errorf("%s of %v", key, pair)
			}
		}
	}
}
