package plan_test

import (
	"strings"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/material"
	"wetside/trade/process"
)

func outlook(t *testing.T, text string, m material.Material) ahead.Report {
	t.Helper()
	f, err := darkroom.Read([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	s, err := plan.Ahead(t.Context(), plan.Request{File: f, Now: time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)}, m)
	if err != nil {
		t.Fatal(err)
	}
	s.Helps = true
	r, err := ahead.Look(s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// room is a bench of three or four trays of so many litres with usual products.
func room(fixer, standard, fixing, litres string) string {
	return `
darkroom:
  name: Case Room
  ounce: us
  standards:
    RC paper: {standard: ` + standard + `, fixing: ` + fixing + `}
    FB paper: {standard: ` + standard + `, fixing: ` + fixing + `}
bench:
  vessels:
    - name: litre jug
      kind: jug
      scales: [{unit: mL, from: 100, to: 1000, step: 50, numbered: 100}]
    - name: small cylinder
      kind: cylinder
      scales: [{unit: mL, from: 2, to: 100, step: 1}]
  trays:
    - {name: white, for: developer, inside: 38 x 30 cm, fill: ` + litres + `}
    - {name: red, for: stop bath, inside: 38 x 30 cm, fill: ` + litres + `}
    - {name: grey, for: fixer, inside: 38 x 30 cm, fill: ` + litres + `}
    - {name: grey two, for: fixer, inside: 38 x 30 cm, fill: ` + litres + `}
shelf:
  products:
    - {name: paper developer, role: developer, form: liquid, dilutions: {RC paper: 1+9, FB paper: 1+9}, keeps: {tray: 24 h}}
    - {name: print stop, role: stop bath, form: liquid, acid: yes, dilutions: {RC paper: 1+19, FB paper: 1+19}, indicator: {from: yellow, to: purple}}
    - {name: rapid fixer, role: fixer, form: liquid, dilutions: {RC paper: ` + fixer + `, FB paper: ` + fixer + `}, capacity: {RC paper: 80 8x10 in per L}, keeps: {tray: 7 days}}
session:
  starts: 2026-12-03 18:30
  lasts: 3 h
  to_make:
    - {material: RC paper, size: 8x10 in, sheets: 10}
`
}

// What a careful printer would say (common practice; worked with the defaults of package bath).
func TestOutlookCases(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name         string
		text         string
		m            material.Material
		bath         string
		safe, likely int
		slack        int
		by           ahead.By
	}{
		{"1 L of fixer 1+4, RC", room("1+4", "exhibition", "one bath", "1 L"), material.RC, "fixer", 35, 47, 0, ahead.BySilver},
		{"the same, FB, one bath", room("1+4", "exhibition", "one bath", "1 L"), material.FB, "fixer", 6, 8, 0, ahead.BySilver},
		{"two of 1 L, FB", room("1+4", "exhibition", "two baths", "1 L"), material.FB, "fixer 1", 24, 32, 0, ahead.BySilver},
		{"two of 2 L, FB", room("1+4", "exhibition", "two baths", "2 L"), material.FB, "fixer 1", 48, 64, 0, ahead.BySilver},
		{"fixer 1+9, about half", room("1+9", "exhibition", "one bath", "1 L"), material.RC, "fixer", 18, 24, 1, ahead.BySilver},
		{"stop bath, 2 L, FB", room("1+4", "exhibition", "two baths", "2 L"), material.FB, "stop bath", 55, 75, 1, ahead.ByPH},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r := outlook(t, c.text, c.m)
			for _, o := range r.Baths {
				if o.Bath.Name != c.bath {
					continue
				}
				if o.Left == nil {
					t.Fatalf("%s: nothing counted, %+v", c.bath, o.Lead)
				}
				if d := max(abs(o.Left.P10-c.safe), abs(o.Left.P50-c.likely)); d > c.slack || o.End.By != c.by {
					t.Errorf("%s: %d, likely %d, by %s; want %d, %d, %s", c.bath, o.Left.P10, o.Left.P50, o.End.By, c.safe, c.likely, c.by)
				}
				t.Logf("%+v after %+v label %v tests %v after %d ends %+v", *o.Left, o.After, o.Label, o.Tests, o.TestAfter, o.End)
				for _, f := range append(o.More, o.Lead) {
					t.Logf("   %+v", f)
				}
				for _, h := range o.Helps {
					t.Logf("   help %+v", h)
				}
				return
			}
			t.Fatalf("no %s in %d baths", c.bath, len(r.Baths))
		})
	}
}

func abs(n int) int { return max(n, -n) }

// Archival fibre prints in one bath: use two baths, and tone; never "0 more".
func TestArchivalInOneBath(t *testing.T) {
	t.Parallel()
	r := outlook(t, room("1+4", "archival", "one bath", "1 L"), material.FB)
	for _, o := range r.Baths {
		if o.Bath.Name == "fixer" {
			if o.Left != nil || o.End.By != ahead.ByAdvice || o.Lead.Kind != ahead.UseTwoBaths {
				t.Errorf("got %+v, %+v", o.Left, o.Lead)
			}
			return
		}
	}
	t.Fatal("no fixer")
}

// A bath that nothing stands in hinders no answer about the others.
func TestOutlookBesideABathWithoutATray(t *testing.T) {
	t.Parallel()
	text := strings.Replace(room("1+4", "exhibition", "two baths", "2 L"), "session:", "    - {name: washing aid, role: washing aid, form: liquid, dilutions: {FB paper: 1+19}}\nsession:", 1)
	text = strings.Replace(text, "fixing: two baths}\nbench", "fixing: two baths, washing_aid: yes}\nbench", 1)
	r := outlook(t, text, material.FB)
	for _, o := range r.Baths {
		if o.Bath.Name == "fixer 1" && o.Left != nil && o.Left.P10 == 48 {
			return
		}
	}
	t.Fatalf("no fixer 1 with 48 among %d baths", len(r.Baths))
}

// TestAbout: 70 RC prints in three hours through a fixer that safely does some 35 (the case above): half are through by the clock
// at half-time, in the room's own zone; without a length nobody can say.
func TestAbout(t *testing.T) {
	kathmandu := time.FixedZone("UTC+5:45", 5*3600+45*60)
	text := strings.Replace(room("1+4", "exhibition", "one bath", "1 L"), "sheets: 10}", "sheets: 70}", 1)
	for _, c := range []struct{ text, want string }{
		{text, "19:50"}, // 34 of 70 by the rooms that a plan draws: 87 minutes, to ten minutes
		{strings.Replace(text, "  lasts: 3 h\n", "", 1), ""},
		{strings.Replace(text, "  lasts: 3 h\n", "  lasts: 2 h 10 min\n", 1), "19:30"}, // 63 minutes
	} {
		f, err := darkroom.Read([]byte(c.text))
		if err != nil {
			t.Fatal(err)
		}
		p, err := plan.Make(t.Context(), plan.Request{File: f, Now: now.In(kathmandu)})
		if err != nil {
			t.Fatal(err)
		}
		got, seen := "", false
		for _, b := range p.Baths {
			for _, f := range b.Findings {
				if f.Kind == plan.SeveralByCount && b.Role == process.Fixer {
					seen = true
					if !f.At.IsZero() {
						got = f.At.Format("15:04")
					}
				}
			}
		}
		if !seen || got != c.want {
			t.Errorf("the fixer is changed about %q (said: %v), want %q", got, seen, c.want)
		}
	}
}
