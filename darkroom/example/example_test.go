package example_test

import (
	"bytes"
	"flag"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

var update = flag.Bool("update", false, "rewrite docs/example.yaml")

// TestEveryDay reads the example of every day of four years, a leap year among them.
func TestEveryDay(t *testing.T) {
	zone := time.FixedZone("far east", 13*60*60)
	first := time.Date(2026, 1, 1, 23, 0, 0, 0, zone)
	for n := range 4*365 + 1 {
		today := first.AddDate(0, 0, n)
		f, err := example.File(today)
		if err != nil {
			t.Fatalf("%s: %v", today, err)
		}
		if got, want := f.Session.Starts.Text, today.Format(time.DateOnly)+" 18:30"; got != want {
			t.Fatalf("starts %s, want %s", got, want)
		}
		inDate(t, today, f)
	}
}

// inDate holds that every lot is in date by its own label on the evening.
func inDate(t *testing.T, today time.Time, f darkroom.File) {
	t.Helper()
	evening := f.Session.Starts.Value
	for _, l := range f.Shelf.Lots {
		for _, day := range []darkroom.As[time.Time]{l.Received, l.Opened, l.Made} {
			if day.Value.After(evening) {
				t.Errorf("%s: %s has a day to come, %s", today, l.Product, day.Text)
			}
		}
		p, _ := f.Shelf.Product(l.Product)
		state, since := darkroom.Unopened, l.Received
		switch {
		case l.Stock:
			state, since = darkroom.PartBottle, l.Made
		case l.Opened.Given():
			state, since = darkroom.Opened, l.Opened
		}
		if keeps := p.Keeps[state]; !since.Given() || !keeps.Given() || keeps.Value.From(since.Value).Before(evening) {
			t.Errorf("%s: %s is not in date as %s since %s", today, l.Product, state, since.Text)
		}
	}
}

// TestNothingMissing holds that the evening has what its own chains need: a product with a dilution and a time for
// every role, with something left, and a tray or tank for each.
func TestNothingMissing(t *testing.T) {
	f, err := example.File(time.Date(2027, 2, 18, 9, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	needs := map[material.Material][]process.Role{
		material.RC:   {process.Developer, process.StopBath, process.Fixer},
		material.FB:   {process.Developer, process.StopBath, process.Fixer, process.WashingAid},
		material.Film: {process.Developer, process.StopBath, process.Fixer, process.WashingAid, process.WettingAgent},
	}
	seen := map[material.Material]bool{}
	for _, load := range f.Session.ToMake {
		seen[load.Material] = true
		for _, role := range needs[load.Material] {
			has(t, f, load.Material, role)
		}
	}
	if len(seen) != len(needs) {
		t.Errorf("the evening makes %v, want all three materials", seen)
	}
	if len(f.Bench.TraysFor(process.Fixer)) != 2 || len(f.Bench.HoldingTrays()) != 1 || len(f.Bench.WashTrays()) != 1 {
		t.Error("want two fixers, a holding tray and a wash")
	}
}

func has(t *testing.T, f darkroom.File, m material.Material, role process.Role) {
	t.Helper()
	products := f.Shelf.ProductsFor(role, m)
	if len(products) != 1 {
		t.Errorf("%s, %s: %d products, want one", m, role, len(products))
		return
	}
	p := products[0]
	if !p.Dilutions[m].Given() || !p.Times[m].Given() || len(f.Shelf.LotsOf(p.Name)) == 0 {
		t.Errorf("%s, %s: no dilution, no time or nothing left of %s", m, role, p.Name)
	}
	if m.Paper() && len(f.Bench.TraysFor(role)) == 0 {
		t.Errorf("%s, %s: no tray", m, role)
	}
}

// TestMeasurable holds that every bath of the evening comes out within its tolerance: the commonest tolerances
// (15 %, film developer 10 %, stop bath 30 %), the trays' 2 L and the tank's 600 mL.
func TestMeasurable(t *testing.T) {
	f, err := example.File(time.Date(2027, 2, 18, 9, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range f.Shelf.Products {
		for m, d := range p.Dilutions {
			solve(t, f, p, m, d)
		}
	}
}

// TestComments holds that the file teaches: every section has a note, and no line is too long to read.
func TestComments(t *testing.T) {
	src := string(example.YAML(time.Date(2027, 2, 18, 9, 0, 0, 0, time.UTC)))
	if strings.Contains(src, "<<") || strings.Count(src, "#") < 30 {
		t.Error("marks left in, or hardly a comment")
	}
	for line := range strings.SplitSeq(src, "\n") {
		if len([]rune(line)) > 130 {
			t.Errorf("%d characters: %s", len(line), line)
		}
	}
	// Names of the contract's sample must not come back here.
	for _, name := range []string{"Ropewalk", "Ines", "print stop"} {
		if strings.Contains(src, name) {
			t.Errorf("%q is of another file", name)
		}
	}
}

// TestDocs holds docs/example.yaml current: the example of a fixed day.
func TestDocs(t *testing.T) {
	const path = "../../docs/example.yaml"
	got := example.YAML(time.Date(2027, 2, 18, 9, 0, 0, 0, time.UTC))
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(want, got) {
		t.Errorf("%s is not current: go generate ./darkroom/...", path)
	}
	if !slices.Contains(strings.Split(string(got), "\n"), "session:") {
		t.Error("no session in it")
	}
}

// solve measures one bath: at most four readings, and grade A or B.
func solve(t *testing.T, f darkroom.File, p darkroom.Product, m material.Material, d darkroom.As[dilution.Dilution]) {
	t.Helper()
	want := 2 * quantity.Litre
	window := quantity.Window{Min: 1800 * quantity.Millilitre, Max: 2200 * quantity.Millilitre, Want: want}
	if m == material.Film {
		want = 600 * quantity.Millilitre
		window = quantity.Window{Min: want, Max: 660 * quantity.Millilitre, Want: want}
	}
	problem := measure.Problem{
		Dilution: d.Value, Window: window, Tolerance: tolerance(p.Role, m),
		WaterFirst: p.Acid.Or(false) || p.Foams.Or(false), Density: p.Density.Or(0),
	}
	for _, v := range f.Bench.Vessels {
		problem.Vessels = append(problem.Vessels, v.ForMeasure(p, f.Bench))
	}
	r, err := measure.Solve(t.Context(), problem, measure.Options{NoAdvice: true})
	if err != nil {
		t.Fatalf("%s for %s: %v", p.Name, m, err)
	}
	if len(r.Choices) == 0 {
		t.Errorf("%s for %s: cannot be made", p.Name, m)
		return
	}
	best := r.Choices[0]
	if best.Grade == measure.GradeC || best.Readings > 4 {
		t.Errorf("%s for %s: grade %d with %d readings", p.Name, m, best.Grade, best.Readings)
	}
	t.Logf("%s for %s: grade %d, %d readings, bias %.3f, U %.3f, vessels %v", p.Name, m, best.Grade, best.Readings, best.Bias,
		best.Uncertainty, best.Vessels)
}

// tolerance is the common practice where a label names none.
func tolerance(role process.Role, m material.Material) float64 {
	switch {
	case role == process.StopBath:
		return 0.30
	case role == process.Developer && m == material.Film:
		return 0.10
	}
	return 0.15
}
