package facts_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/bath"
	"wetside/trade/chem"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/wash"
	"wetside/words/facts"
)

// twoFixers is a fixer, the first of two, that still does 48 sheets, and a developer that only its day ends.
func twoFixers() ahead.Report {
	day := time.Date(2026, 12, 10, 23, 59, 59, 0, time.UTC)
	label := 160
	chain := ahead.Chain{Material: material.FB, Standard: process.Exhibition, Fixing: process.TwoBaths}
	return ahead.Report{
		At: time.Date(2026, 12, 3, 18, 30, 0, 0, time.UTC),
		Baths: []ahead.Outlook{
			{
				Bath:  ahead.Bath{ID: "f1", Name: "fixer 1", Role: process.Fixer, Product: &darkroom.Product{Name: "rapid fixer"}, Litres: 1.9},
				Chain: chain, Left: &bath.Counts{P10: 48, P50: 64, P90: 85}, After: &bath.Counts{P10: 36, P50: 52, P90: 73},
				End: ahead.End{By: ahead.BySilver, At: 48, Date: day}, Silver: bath.Span{P10: 0.1, P50: 0.2, P90: 0.3},
				Label: &label, Lead: ahead.Finding{Kind: ahead.UseFor}, Tests: []book.Test{book.SilverStrip, book.DropTest}, TestAfter: 14,
			},
			{Bath: ahead.Bath{Name: "hardener", Role: process.Hardener}, End: ahead.End{By: ahead.ByUnknown}},
		},
	}
}

// A script reads these names and these values; null is what is not known.
func TestOutlookForScripts(t *testing.T) {
	got := fields(t, facts.OfReport(twoFixers(), func(o ahead.Outlook) string { return "of " + o.Bath.Name }))
	silver := map[string]any{"p10": 0.1, "p50": 0.2, "p90": 0.3}
	want := map[string]any{
		"at": "2026-12-03T18:30:00Z",
		"baths": []any{
			map[string]any{
				"bath": "fixer 1", "bath_id": "f1", "role": "fixer", "product": "rapid fixer", "volume_ml": 1900.0, "standard": "exhibition",
				"fixing": "two baths", "material": "FB paper",
				"sheets_8x10_left": map[string]any{"p10": 48.0, "p50": 64.0, "p90": 85.0},
				"after_session":    map[string]any{"p10": 36.0, "p50": 52.0, "p90": 73.0},
				"ends":             map[string]any{"by": "silver", "at_count": 48.0, "date": "2026-12-10T23:59:59Z"},
				"silver_g_per_l":   silver, "ph": nil, "label_left": 160.0, "sentence": "of fixer 1", "reckoning": []any{},
				"tests": []any{
					map[string]any{"test": "silver strip", "after_sheets": 14.0},
					map[string]any{"test": "drop test", "after_sheets": nil},
				},
			},
			map[string]any{
				"bath": "hardener", "bath_id": nil, "role": "hardener", "product": "", "volume_ml": 0.0, "standard": nil, "fixing": nil,
				"material": nil, "sheets_8x10_left": nil, "after_session": nil,
				"ends":           map[string]any{"by": "unknown", "at_count": nil, "date": nil},
				"silver_g_per_l": nil, "ph": nil, "label_left": nil, "sentence": "of hardener", "reckoning": []any{}, "tests": []any{},
			},
		},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("want -, got +:\n%s", diff)
	}
}

// Every fixer and stop bath of a whole evening has three whole numbers that rise, and a reckoning that opens.
func TestCountsOfAnEvening(t *testing.T) {
	f, err := darkroom.Read([]byte(evening))
	if err != nil {
		t.Fatal(err)
	}
	s, err := plan.Ahead(t.Context(), plan.Request{File: f, Now: time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)}, material.None)
	if err != nil {
		t.Fatal(err)
	}
	r, err := ahead.Look(s)
	if err != nil {
		t.Fatal(err)
	}
	counted := 0
	for _, b := range facts.OfReport(r, func(ahead.Outlook) string { return "" }).Baths {
		if b.Role != "fixer" && b.Role != "stop bath" {
			continue
		}
		counted++
		if c := b.Left; c == nil || c.P10 <= 0 || c.P10 > c.P50 || c.P50 > c.P90 {
			t.Errorf("%s: %+v left", b.Bath, c)
		} else if *b.Ends.AtCount != c.P10 {
			t.Errorf("%s: ends at %d, want %d", b.Bath, *b.Ends.AtCount, c.P10)
		}
		if len(b.Reckoning) == 0 || b.Ends.Date == nil {
			t.Errorf("%s: %d reckonings, ends %+v", b.Bath, len(b.Reckoning), b.Ends)
		}
		if (b.Role == "fixer") != (b.Silver != nil) || (b.Role == "stop bath") != (b.PH != nil) {
			t.Errorf("%s: silver %v, pH %v", b.Bath, b.Silver, b.PH)
		}
	}
	if counted != 2 {
		t.Errorf("%d fixers and stop baths, want 2", counted)
	}
}

const evening = `
darkroom: {name: Probe, ounce: us, standards: {RC paper: {standard: exhibition, fixing: one bath}}}
bench:
  vessels: [{name: jug, kind: jug, scales: [{unit: mL, from: 50, to: 1000, step: 50}]}]
  trays:
    - {name: white, for: developer, inside: 38 x 30 cm, fill: 1 L}
    - {name: red, for: stop bath, inside: 38 x 30 cm, fill: 1 L}
    - {name: grey, for: fixer, inside: 38 x 30 cm, fill: 1 L}
shelf:
  products:
    - {name: paper developer, role: developer, form: liquid, dilutions: {RC paper: 1+9}}
    - {name: print stop, role: stop bath, form: liquid, acid: yes, dilutions: {RC paper: 1+19}}
    - {name: rapid fixer, role: fixer, form: liquid, dilutions: {RC paper: 1+4}}
session: {starts: 2026-12-03 18:30, to_make: [{material: RC paper, size: 8x10 in, sheets: 10}]}
`

func TestNamesOfPH(t *testing.T) {
	a, err := chem.ParseAmount("sodium thiosulfate 1 mol/kg")
	if err != nil {
		t.Fatal(err)
	}
	m, err := chem.Mix(20, a)
	if err != nil {
		t.Fatal(err)
	}
	got := fields(t, facts.OfPH(m.Explain()))
	if got["indicative"] != true {
		t.Errorf("indicative is %v for a fixer, want true", got["indicative"])
	}
	if _, ok := got["ph"].(float64); !ok {
		t.Errorf("ph is %v", got["ph"])
	}
	if s, ok := got["ionic_strength"].(float64); !ok || s < 2.9 || s > 3.1 { // (2·1² + 1·2²) ÷ 2 mol/kg
		t.Errorf("ionic_strength is %v, want 3", got["ionic_strength"])
	}
	for _, list := range []string{"notes", "reckoning"} {
		if l, ok := got[list].([]any); !ok || len(l) == 0 {
			t.Errorf("%s is %v, want a list", list, got[list])
		}
	}
}

func TestNamesOfWash(t *testing.T) {
	r := wash.Request{
		Load:    wash.Load{Material: material.FB, Area: 0.5, Water: 20},
		Setting: wash.Setting{Vessel: 4 * quantity.Litre, Flow: quantity.Litre},
		Limit:   wash.Limit{Standard: process.Exhibition},
	}
	a, err := wash.Solve(r)
	if err != nil {
		t.Fatal(err)
	}
	a.Ways[0].Status = wash.OutOfReach
	got := facts.OfWash(a, "from memory")
	if got.Limit != 0.03 || got.Source != "from memory" || got.Cheapest == nil || *got.Cheapest != a.Ways[a.Cheapest].Way.String() {
		t.Errorf("limit %g, %s; least water %v", got.Limit, got.Source, got.Cheapest)
	}
	if w := got.Ways[0]; w.Way != "still_changes" || w.Minutes != nil || w.Changes != nil || w.Litres != nil {
		t.Errorf("a way out of reach is %+v, want no figures", w)
	}
	for _, w := range got.Ways[1:] {
		if w.Minutes == nil || w.Litres == nil || *w.Litres <= 0 || w.Left > 0.03 || *w.Safe < *w.Minutes || len(w.Reckoning) == 0 {
			t.Errorf("%s: %+v", w.Way, w)
		}
	}
	a.Cheapest, a.Fastest = -1, -1
	if got := fields(t, facts.OfWash(a, "")); got["least_water"] != nil || got["least_time"] != nil {
		t.Errorf("least %v, %v; want null", got["least_water"], got["least_time"])
	}
}

func TestNamesOfRecorded(t *testing.T) {
	r := twoFixers()
	got := fields(t, facts.OfRecorded("e1", []string{"b1"}, nil, r.Baths[:1], func(ahead.Outlook) string { return "good" }))
	if got["entry"] != "e1" || !cmp.Equal(got["bath_ids"], any([]any{"b1"})) || !cmp.Equal(got["warnings"], any([]any{})) {
		t.Errorf("got %v", got)
	}
	if now, ok := got["now"].([]any); !ok || len(now) != 1 {
		t.Errorf("now is %v, want one bath", got["now"])
	}
}
