package plan_test

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/plan"
	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

func smallRoom() string { return head + "bench:\n  vessels:" + jug + cylinder + trays + shelf }

// Nothing is missing that the example's own evening needs, whatever today is; and every bath comes out within what it
// may stray.
func TestExampleLacksNothing(t *testing.T) {
	for day := 0; day < 366; day += 13 {
		today := time.Date(2027, 1, 1+day, 12, 0, 0, 0, time.UTC)
		f, err := darkroom.Read(example.YAML(today))
		if err != nil {
			t.Fatal(err)
		}
		p, err := plan.Make(t.Context(), plan.Request{File: f, Now: today})
		if err != nil {
			t.Fatal(err)
		}
		if len(p.Missing) > 0 {
			t.Errorf("%s: missing %+v", today.Format(time.DateOnly), p.Missing)
		}
		for _, b := range p.Baths {
			if b.Product != "" && (b.Mix.Status != measure.Optimal || !b.Mix.Choices[0].Within) {
				t.Errorf("%s: %s is not within what it may stray", today.Format(time.DateOnly), b.ID)
			}
		}
	}
}

func TestSameRequestSamePlan(t *testing.T) {
	text := smallRoom() + rc
	if diff := cmp.Diff(makePlan(t, text), makePlan(t, text), cmpopts.EquateComparable(quantity.Ratio{})); diff != "" {
		t.Error(diff)
	}
}

// The order of mixing lets a trace travel the harmless way: developer, stop bath, fixer (US Army course Ss05098, Army-98-11);
// a vessel that another chemical was in is washed between.
func TestOrderAndRinsing(t *testing.T) {
	p := makePlan(t, smallRoom()+rc)
	var order []string
	for _, i := range p.Order {
		order = append(order, p.Baths[i].ID)
	}
	if want := []string{"developer", "stop", "fixer"}; !slices.Equal(order, want) {
		t.Errorf("order %v, want %v", order, want)
	}
	if got := bath(t, p, "developer").Rinse; len(got) > 0 {
		t.Errorf("the developer is first, yet %v is washed before it", got)
	}
	if got := bath(t, p, "stop").Rinse; !slices.Contains(got, "litre jug") {
		t.Errorf("washed before the stop bath: %v, want the litre jug among them", got)
	}
}

// Lots are used oldest opened first; what is past its label's date is left standing, and said.
func TestLotsOldestOpenedFirst(t *testing.T) {
	lots := `
    - {product: paper developer, holds: 500 mL, left: 60 mL, opened: 2026-09-20}
    - {product: paper developer, holds: 500 mL, received: 2026-11-01}
    - {product: paper developer, holds: 500 mL, left: 400 mL, opened: 2026-01-05}
`
	p := makePlan(t, smallRoom()[:len(smallRoom())-1]+lots+rc)
	b := bath(t, p, "developer")
	type draw struct {
		lot        int
		ml, leftML float64
	}
	var got []draw
	for _, d := range b.Lots {
		got = append(got, draw{d.Lot, d.Amount.ML(), d.Left.ML()})
	}
	// Lot 3 is the one opened in September, lot 0 the one opened in October; 2026-01-05 and 6 months are over.
	if want := []draw{{3, 60, 0}, {0, 40, 270}}; !slices.Equal(got, want) {
		t.Errorf("drawn %v, want %v", got, want)
	}
	if finding(b.Findings, plan.LotPastDate) == nil {
		t.Errorf("nothing is said of the bottle past its date: %+v", b.Findings)
	}
}

func TestUnknownContentIsUsedAndSaid(t *testing.T) {
	text := replace(t, smallRoom()+rc, "holds: 1 L, left: 700 mL", "holds: 1 L, left: unknown")
	p := makePlan(t, text)
	b := bath(t, p, "stop")
	if len(b.Lots) != 1 || !b.Lots[0].Unknown || finding(b.Findings, plan.LeftUnknown) == nil {
		t.Errorf("lots %+v, findings %+v; want the bottle used and a word to look first", b.Lots, b.Findings)
	}
	if len(p.Missing) > 0 {
		t.Errorf("missing %+v, want nothing", p.Missing)
	}
}

func TestMissing(t *testing.T) {
	cases := []struct {
		name, old, with string
		want            plan.MissingKind
		role            process.Role
	}{
		{"no fixer on the shelf", "role: fixer", "role: hardener", plan.NoProduct, process.Fixer},
		{"no dilution for the material", "dilutions: {RC paper: 1+31, FB paper: 1+31}", "dilutions: {film: 1+31}", plan.NoDilution, process.StopBath},
		{"too little developer", "left: 310 mL", "left: 60 mL", plan.TooLittle, process.Developer},
		{"no bottle of it", "- {product: print stop, holds: 1 L, left: 700 mL, opened: 2026-03-01}", "", plan.NoLot, process.StopBath},
		{"out of date", "opened: 2026-10-14", "opened: 2026-01-14", plan.OutOfDate, process.Developer},
		{"no tray that takes the sheet", "size: 8x10 in", "size: 16x20 in", plan.NoTray, process.Developer},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := makePlan(t, replace(t, smallRoom()+rc, c.old, c.with))
			if !slices.ContainsFunc(p.Missing, func(m plan.Missing) bool { return m.Kind == c.want && m.Role == c.role }) {
				t.Errorf("missing %+v, want %s of the %s", p.Missing, c.want, c.role)
			}
		})
	}
}

// Trays too small for a sheet are one thing that is missing, not one for each bath.
func TestMissingTraysAreToldOnce(t *testing.T) {
	p := makePlan(t, replace(t, smallRoom()+rc, "size: 8x10 in", "size: 16x20 in"))
	var got [][]process.Step
	for _, m := range p.Missing {
		if m.Kind == plan.NoTray {
			got = append(got, m.Steps)
		}
	}
	want := [][]process.Step{{process.Develop, process.Stop, process.Fix}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("steps that lack a tray, want first:\n%s", diff)
	}
}

// A second fixer moves forward when the first is spent: what the evening wants beyond one first bath are fresh second
// baths. By the label, 40 a litre, 100 FB in 1 L baths are two and a half; by the count to the safe end at exhibition standard,
// 24 in the first of two of 1 L (see package ahead's cases), more than four, so five of the second.
func TestMakingsOfTwoBaths(t *testing.T) {
	session := "\nsession:\n  to_make: [{material: FB paper, size: 8x10 in, sheets: 100, standard: exhibition, fixing: two baths}]\n"
	p := makePlan(t, smallRoom()+session)
	if got := bath(t, p, "fixer").Makings; got != 1 {
		t.Errorf("first fixer made %d times, want once", got)
	}
	if got := bath(t, p, "fixer-second").Makings; got != 5 {
		t.Errorf("second fixer made %d times, want 5", got)
	}
}

// Loads of different materials add as fractions of a bath's capacity: 20 RC of 80 and 20 FB of 40 a litre are three quarters.
func TestLifeAddsFractions(t *testing.T) {
	session := `
session:
  to_make:
    - {material: RC paper, size: 8x10 in, sheets: 20, standard: exhibition, fixing: one bath}
    - {material: FB paper, size: 8x10 in, sheets: 20, standard: exhibition, fixing: one bath}
`
	b := bath(t, makePlan(t, smallRoom()+session), "fixer")
	if b.Life == nil || b.Life.Load < 0.7499 || b.Life.Load > 0.7501 {
		t.Errorf("life %+v, want 0.75", b.Life)
	}
}

// Strips count as a quarter of a sheet (common practice) unless the room says otherwise.
func TestStrips(t *testing.T) {
	with := replace(t, smallRoom()+rc, "sheets: 12,", "sheets: 12, strips: 8,")
	if got := makePlan(t, with).Loads[0].Units; got < 13.999 || got > 14.001 {
		t.Errorf("12 sheets and 8 strips are %v units, want 14", got)
	}
	own := replace(t, with, "name: Probe,", "name: Probe, strip: 1/8,")
	if got := makePlan(t, own).Loads[0].Units; got < 12.999 || got > 13.001 {
		t.Errorf("with strips of an eighth %v units, want 13", got)
	}
}

// 100 mL of a 500 mL bottle at 11.20 are 2.24, about 30 mL of stop 0.24, 200 mL of fixer 2.50.
func TestCost(t *testing.T) {
	c := makePlan(t, smallRoom()+rc).Cost
	if c.Total != 224+24+250 {
		t.Errorf("total %d, parts %+v; want 498 hundredths", c.Total, c.Parts)
	}
	if c.PerHead != 125 || c.PerUnit != 42 {
		t.Errorf("a head %d, a sheet %d; want 125 and 42", c.PerHead, c.PerUnit)
	}
}

func TestCautionsAreSaidOnce(t *testing.T) {
	p := makePlan(t, replace(t, smallRoom()+rc, "hot: 50 °C", "hot: 55 °C"))
	head := cautions(p.Cautions)
	for _, want := range []plan.CautionKind{plan.GlovesGoggles, plan.LabelFirst, plan.NoKitchenware} {
		if !slices.Contains(head, want) {
			t.Errorf("%s is not at the head: %v", want, head)
		}
	}
	said := map[plan.CautionKind]int{}
	for _, b := range p.Baths {
		for _, k := range cautions(b.Cautions) {
			said[k]++
			if slices.Contains(head, k) {
				t.Errorf("%s stands at the head and at %s", k, b.ID)
			}
		}
	}
	if said[plan.AcidIntoWater] != 1 || said[plan.HotWater] != 1 || said[plan.FixerNoDrain] != 1 {
		t.Errorf("said %v, want acid, hot water and the fixer's end once each", said)
	}
}

// A vessel kept for one product serves no other, and that product uses no other vessel where its own exists.
func TestKeptVessels(t *testing.T) {
	own := `
    - {name: fixer jug, kind: jug, keep_for: fixer, scales: [{unit: mL, from: 100, to: 1000, step: 50, numbered: 100}]}`
	p := makePlan(t, head+"bench:\n  vessels:"+jug+cylinder+own+trays+shelf+rc)
	for _, b := range p.Baths {
		for _, r := range readings(b) {
			if (r.vessel == "fixer jug") != (b.Role == process.Fixer) {
				t.Errorf("%s is measured in the %s", b.ID, r.vessel)
			}
		}
	}
}

func TestEmptyRequest(t *testing.T) {
	if _, err := plan.Make(t.Context(), plan.Request{}); !errors.Is(err, plan.ErrNoName) {
		t.Errorf("got %v, want ErrNoName", err)
	}
	p := makePlan(t, head)
	if finding(p.Findings, plan.NothingToMake) == nil || len(p.Baths) > 0 {
		t.Errorf("a room without a session: %+v", p)
	}
}

// One jug with the usual bench: 1+9 and 1 L are 100 mL in the cylinder and water to 1000 in the jug.
func TestOne(t *testing.T) {
	d, err := dilution.Read("1+9", dilution.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := quantity.ReadWindow("1 L", quantity.NoOunce)
	if err != nil {
		t.Fatal(err)
	}
	one, err := plan.MakeOne(t.Context(), plan.OneRequest{Dilution: d, Window: w})
	if err != nil {
		t.Fatal(err)
	}
	if !one.Usual || one.Tolerance != 0.15 || one.Result.Choices[0].Chemical[0] != 100*quantity.Millilitre {
		t.Errorf("got %+v, want the usual bench, 15 %% and 100 mL", one)
	}
}

func BenchmarkPlan(b *testing.B) {
	f, err := darkroom.Read(example.YAML(now))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := plan.Make(b.Context(), plan.Request{File: f, Now: now}); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleMake() {
	f, err := darkroom.Read([]byte(smallRoom() + rc))
	if err != nil {
		panic(err)
	}
	p, err := plan.Make(exampleContext(), plan.Request{File: f, Now: now})
	if err != nil {
		panic(err)
	}
	for _, i := range p.Order {
		b := p.Baths[i]
		printf("%s: %s of %s in the %s tray\n", b.ID, b.Volume, b.Product, b.Tray)
	}
	// Output:
	// developer: 1 L of paper developer in the white tray
	// stop: 1 L of print stop in the red tray
	// fixer: 1 L of rapid fixer in the grey tray
}

// A developer in two parts is answered at once, its alternatives with it.
func TestTwoPartsAnswerAtOnce(t *testing.T) {
	d, err := dilution.Read("1+1+10", dilution.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := quantity.ReadWindow("1.5 to 2 L", quantity.NoOunce)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
	defer cancel()
	one, err := plan.MakeOne(ctx, plan.OneRequest{Dilution: d, Window: w, Alternatives: 2})
	if err != nil {
		t.Fatal(err)
	}
	if len(one.Result.Choices) != 3 || !one.Result.Choices[0].Within {
		t.Errorf("got %+v, want the best, within, and two alternatives", one.Result)
	}
}
