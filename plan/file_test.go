package plan_test

import (
	"testing"
	"time"

	"wetside/darkroom"
	"wetside/plan"
)

// now is the clock of these tests: the afternoon before the evening.
var now = time.Date(2026, 12, 3, 15, 0, 0, 0, time.UTC) //nolint:gochecknoglobals // a constant that Go has no word for

// Pieces of a darkroom file, put together by each case.
const (
	head = `
darkroom: {name: Probe, ounce: us, water: {cold: 12 °C, hot: 50 °C}, room: 20 °C}
`
	jug = `
    - name: litre jug
      kind: jug
      scales:
        - {unit: mL, from: 100, to: 1000, step: 50, numbered: 100}
        - {unit: fl oz, from: 1, to: 32, step: 1, numbered: 4}`
	cylinder = `
    - {name: small cylinder, kind: cylinder, class: B, scales: [{unit: mL, from: 2, to: 100, step: 1, numbered: 10}]}`
	syringe = `
    - {name: syringe, kind: syringe, scales: [{unit: mL, from: 0.2, to: 10, step: 0.2, numbered: 1}]}`
	bucket = `
    - {name: bucket, kind: jug, scales: [{unit: L, from: 1, to: 5, step: 0.5, numbered: 1}]}`
	trays = `
  trays:
    - {name: white, for: developer, inside: 30 x 25 cm, depth: 6 cm, colour: white, fill: 1 L}
    - {name: red, for: stop bath, inside: 30 x 25 cm, depth: 6 cm, colour: red, fill: 1 L}
    - {name: grey, for: fixer, inside: 30 x 25 cm, depth: 6 cm, colour: grey, fill: 1 L}
    - {name: black, for: fixer, inside: 30 x 25 cm, depth: 6 cm, colour: black, fill: 1 L}`
	shelf = `
shelf:
  products:
    - name: paper developer
      role: developer
      for: [RC paper, FB paper]
      form: liquid
      acid: no
      dilutions: {RC paper: 1+9, FB paper: 1+9}
      times: {RC paper: 60 s, FB paper: 2 min}
      temperature: 20 °C
      keeps: {opened: 6 months}
      packs: [{holds: 500 mL, price: 11.20}]
    - {name: print stop, role: stop bath, form: liquid, acid: yes, dilutions: {RC paper: 1+31, FB paper: 1+31}, packs: [{holds: 1 L, price: 8.00}]}
    - name: rapid fixer
      role: fixer
      form: liquid
      acid: no
      dilutions: {RC paper: 1+4, FB paper: 1+4, film: 1+4}
      capacity: {RC paper: 80 8x10 in per L, FB paper: 40 8x10 in per L, film: 20 rolls per L}
      packs: [{holds: 1 L, price: 12.50}]
  lots:
    - {product: paper developer, holds: 500 mL, left: 310 mL, opened: 2026-10-14}
    - {product: print stop, holds: 1 L, left: 700 mL, opened: 2026-03-01}
    - {product: rapid fixer, holds: 5 L, left: 4.2 L, opened: 2026-11-02}
`
	rc = `
session:
  starts: 2026-12-03 18:30
  people: 4
  to_make:
    - {material: RC paper, size: 8x10 in, sheets: 12, standard: exhibition, fixing: one bath}
`
)

// makePlan reads a file and plans it.
func makePlan(t *testing.T, text string) plan.Plan {
	t.Helper()
	f, err := darkroom.Read([]byte(text))
	if err != nil {
		t.Fatalf("the case's own file: %v", err)
	}
	p, err := plan.Make(t.Context(), plan.Request{File: f, Now: now})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// bath returns a bath of a plan by its id.
func bath(t *testing.T, p plan.Plan, id string) plan.Bath {
	t.Helper()
	for _, b := range p.Baths {
		if b.ID == id {
			return b
		}
	}
	t.Fatalf("no bath %s; there are %v", id, ids(p))
	return plan.Bath{}
}

func ids(p plan.Plan) (out []string) {
	for _, b := range p.Baths {
		out = append(out, b.ID)
	}
	return out
}

func finding(fs []plan.Finding, k plan.FindingKind) *plan.Finding {
	for i := range fs {
		if fs[i].Kind == k {
			return &fs[i]
		}
	}
	return nil
}

func figure(t *testing.T, f *plan.Finding, name string) float64 {
	t.Helper()
	for _, x := range f.Figures {
		if x.Name == name {
			return x.Value
		}
	}
	t.Fatalf("%s has no figure %s: %+v", f.Kind, name, f.Figures)
	return 0
}

func cautions(cs []plan.Caution) (out []plan.CautionKind) {
	for _, c := range cs {
		out = append(out, c.Kind)
	}
	return out
}
