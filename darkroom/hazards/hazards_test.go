package hazards_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/darkroom/hazards"
	"wetside/trade/hazard"
	"wetside/trade/hazard/meet"
)

func of(t *testing.T, yaml string) hazards.Report {
	t.Helper()
	f, err := darkroom.Read([]byte(yaml))
	if err != nil {
		t.Fatal(err)
	}
	r, err := hazards.Of(f)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func told(r hazards.Report) []string {
	var out []string
	for _, i := range r.Items {
		said := strings.Join(i.Result.Codes, " ")
		for _, n := range i.Result.NotJudged {
			said += " not " + n.Name
		}
		name := strings.TrimSpace(i.Product + ", " + string(i.Result.State) + " " + i.Dilution)
		out = append(out, strings.TrimSpace(name+": "+strings.TrimSpace(said)))
	}
	return out
}

const shelf = `
darkroom: {name: Test, law: LAW}
shelf:
  products:
    - name: print stop
      role: stop bath
      form: liquid
      density: 1.04 g/mL
      dilutions: {RC paper: 1+31, FB paper: 2+62, film: 1+19}
      contains: [{substance: acetic acid, share: 25 to 28 %}]
      hazards: [H314]
    - name: rapid fixer
      role: fixer
      form: liquid
      density: 1.3 g/mL
      dilutions: {RC paper: 1+4}
      contains: [{substance: ammonium thiosulfate, share: 50 to 60 %}, {substance: sodium metabisulfite, share: 3 to 5 %}, {substance: Borax, share: 1 %}]
    - name: old powder
      role: developer
      form: powder
      makes: 1 L
      dilutions: {film: 1+1 from stock}
      contains: [{substance: metol, share: 5 %}, {substance: grandmother's salt, share: "< 3 %"}, {substance: hydroquinone}]
    - {name: unknown aid, role: washing aid, form: liquid, dilutions: {film: 1+9}}
    - {name: labelled, role: developer, form: liquid, hazards: [EUH031, H319, H302, H317]}
`

// Worked by hand. 1+31 of 28 % at 1.04: 28 × 1.04/32.04 = 0.91 %; 1+19: 28 × 1.04/20.04 = 1.5 %. 1+4 of 5 % at 1.3: 1.2 %, of
// 1 % borax 0.245 %: under the EU's 0.3 and above the US's 0.1 (TRGS 201, 29 CFR 1910.1200).
func TestShelf(t *testing.T) {
	r := of(t, strings.Replace(shelf, "LAW", "EU", 1))
	want := []string{
		"print stop, concentrate: H314", "print stop, working 1+31:", "print stop, working 1+19:",
		"rapid fixer, concentrate: H318 H360FD EUH031", "rapid fixer, working 1+4: H319", "rapid fixer, used 1+4: H319 not silver thiosulfate",
		"old powder, powder: H317 H411 not grandmother's salt not hydroquinone", "old powder, stock: not metol not grandmother's salt not hydroquinone",
		"old powder, working 1+1 from stock: not metol not grandmother's salt not hydroquinone",
		"unknown aid, concentrate: not undeclared", "unknown aid, working 1+9: not undeclared",
		"labelled, concentrate: H302 H317 H319 EUH031 not undeclared",
	}
	if d := cmp.Diff(want, told(r)); d != "" {
		t.Error(d)
	}
	us := told(of(t, strings.Replace(shelf, "LAW", "US", 1)))
	if us[3] != "rapid fixer, concentrate: H318 H360" || us[4] != "rapid fixer, working 1+4: H319 H360" {
		t.Errorf("in the US: %q", us[3:5])
	}
}

// The pairs among these: acid and metabisulfite, acid and fixer; chlorine bleach with each; water onto a strong acid.
func TestPairs(t *testing.T) {
	r := of(t, strings.Replace(shelf, "LAW", "EU", 1))
	for _, want := range []meet.Pair{
		{A: "print stop", B: "rapid fixer", Effect: meet.SulfurDioxide},
		{A: "print stop", B: meet.HouseBleach, Effect: meet.ChlorineGas},
		{A: "rapid fixer", B: meet.HouseBleach, Effect: meet.Chloramines},
		{A: meet.Water, B: "print stop", Effect: meet.Spatters},
	} {
		if !slices.ContainsFunc(r.Never, func(p meet.Pair) bool { return p.A == want.A && p.B == want.B && p.Effect == want.Effect }) {
			t.Errorf("%+v is not among %+v", want, r.Never)
		}
	}
	if len(r.Never) != 4 || r.Reducer {
		t.Errorf("%d pairs, reducer %v: %+v", len(r.Never), r.Reducer, r.Never)
	}
	// By role and marks alone.
	r = of(t, `
darkroom: {name: Test}
shelf: {products: [
  {name: some fixer, role: fixer, form: liquid}, {name: some stop, role: stop bath, form: liquid},
  {name: reducer, role: toner, form: powder, contains: [{substance: potassium ferricyanide, share: 100 %}]}]}`)
	var said []string
	for _, p := range r.Never {
		said = append(said, p.A+", "+p.B+": "+string(p.Effect))
	}
	want := []string{
		"some stop, chlorine_bleach: chlorine_gas", "some fixer, chlorine_bleach: boils", "some fixer, some stop: sulfur_comes_down",
	}
	if d := cmp.Diff(want, said); d != "" || !r.Reducer {
		t.Errorf("by role\n%s", d)
	}
}

func TestLabelBesideReckoning(t *testing.T) {
	f, err := example.File(time.Date(2027, 2, 18, 0, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	r, err := hazards.Of(f)
	if err != nil {
		t.Fatal(err)
	}
	dev := r.Items[0].Result
	if !slices.Contains(dev.Findings, hazard.Finding{Kind: hazard.BeyondLabel, Code: "H400"}) {
		t.Errorf("3 %% of hydroquinone is H400 with M = 10, which is not on the label: %+v", dev.Findings)
	}
	for _, f := range dev.Findings {
		if f.Kind == hazard.OnlyOnLabel {
			t.Errorf("%+v", f)
		}
	}
	for _, i := range r.Items {
		p, _ := f.Shelf.Product(i.Product)
		if len(p.Contains) == 0 && len(i.Result.NotJudged) == 0 {
			t.Errorf("nothing is declared of %s %s, and it is judged", i.Product, i.Dilution)
		}
	}
	r = of(t, `
darkroom: {name: Test}
shelf: {products: [{name: a, role: developer, form: liquid, hazards: [H317, H302, H410], contains: [{substance: hydroquinone, share: 3 %}]}]}`)
	found := r.Items[0].Result.Findings
	for _, code := range []string{"H302", "H410"} {
		if !slices.Contains(found, hazard.Finding{Kind: hazard.OnlyOnLabel, Code: code}) {
			t.Errorf("%s stands on the label alone: %+v", code, found)
		}
	}
	if slices.Contains(found, hazard.Finding{Kind: hazard.BeyondLabel, Code: "H400"}) {
		t.Error("H400 is under the label's H410")
	}
}

func TestImpossibleShares(t *testing.T) {
	f, err := darkroom.Read([]byte(`
darkroom: {name: Test}
shelf: {products: [{name: a, role: developer, form: liquid, contains: [{substance: metol, share: 60 %}, {substance: borax, share: 60 %}]}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := hazards.Of(f); !errors.Is(err, hazard.ErrMixture) || !strings.HasPrefix(err.Error(), "a: ") {
		t.Errorf("120 %%: %v", err)
	}
}

// A packet of 100 g with 5 % of metol and 30 % of hydroquinone makes 1 L: 0.5 and 3 g in 100 mL, by hand; half of that at 1+1 from stock. At
// 3 % hydroquinone damages eyes (CLP Annex I Table 3.3.3) and is H400 with M = 10; at 1.5 % it irritates them.
func TestPowderThatIsWeighed(t *testing.T) {
	r := of(t, `
darkroom: {name: Test}
shelf: {products: [{name: a, role: developer, form: powder, makes: 1 L, weighs: 100 g, dilutions: {film: 1+1 from stock},
  contains: [{substance: metol, share: 5 %}, {substance: hydroquinone, share: 30 %}]}]}`)
	want := []string{
		"a, powder: H302 H317 H318 H341 H351 H400 H411", "a, stock: H317 H318 H341 H351 H400 H412",
		"a, working 1+1 from stock: H317 H319 H341 H351 H412",
	}
	if d := cmp.Diff(want, told(r)); d != "" {
		t.Error(d)
	}
}

// Unknown densities are told.
func TestDensity(t *testing.T) {
	const yaml = `
darkroom: {name: Test}
shelf: {products: [{name: a, role: developer, form: liquid, DENSITY dilutions: {film: 1+9}, contains: [{substance: hydroquinone, share: 8 %}]}]}`
	without, with := of(t, strings.Replace(yaml, "DENSITY", "", 1)), of(t, strings.Replace(yaml, "DENSITY", "density: 1.1 g/mL,", 1))
	open := hazard.Finding{Kind: hazard.DensityUnknown}
	if !slices.Contains(without.Items[1].Result.Findings, open) || slices.Contains(with.Items[1].Result.Findings, open) {
		t.Errorf("without %+v, with %+v", without.Items[1].Result.Findings, with.Items[1].Result.Findings)
	}
	// 8 × 1.3/10.3 = 1.0 % at the worse end is H317; 8 × 1.1/10.1 = 0.87 % is not.
	if !slices.Contains(without.Items[1].Result.Codes, "H317") || slices.Contains(with.Items[1].Result.Codes, "H317") {
		t.Errorf("without %v, with %v", without.Items[1].Result.Codes, with.Items[1].Result.Codes)
	}
}
