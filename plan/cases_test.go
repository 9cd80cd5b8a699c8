package plan_test

import (
	"math"
	"slices"
	"testing"

	"wetside/plan"
	"wetside/trade/measure"
	"wetside/trade/temper"
)

// reading is a step that measures, as a case tells it.
type reading struct {
	do     measure.Do
	what   measure.What
	vessel string
	ml     float64
	times  int
}

func readings(b plan.Bath) (out []reading) {
	for _, s := range b.Mix.Choices[0].Steps {
		if s.Do == measure.Pour || s.Do == measure.Fill || s.Do == measure.Weigh {
			out = append(out, reading{s.Do, s.What, b.Vessels[s.Vessel].Name, math.Round(s.Volume.ML()*10) / 10, s.Times})
		}
	}
	return out
}

const (
	pour = measure.Pour
	fill = measure.Fill
	chem = measure.Chemical
	h2o  = measure.Water
)

// What a careful printer would measure: common practice of the trade.
func TestReadingsOfACarefulPrinter(t *testing.T) {
	small := "bench:\n  vessels:"
	cases := []struct {
		name, bench, id string
		want            []reading
	}{
		{
			"stop bath 1+31, an acid, with a jug alone: water into the tray, then the concentrate", small + jug + trays, "stop",
			[]reading{{pour, h2o, "litre jug", 916.8, 1}, {pour, chem, "litre jug", 29.6, 1}},
		},
		{
			"the same with a cylinder: water first, 30 in the cylinder, up to 1 L", small + jug + cylinder + trays, "stop",
			[]reading{{pour, chem, "small cylinder", 30, 1}, {fill, h2o, "litre jug", 1000, 1}},
		},
		{
			"developer 1+9 with a jug alone: 100 made up to 1000, not 3 fl oz to 30", small + jug + trays, "developer",
			[]reading{{pour, chem, "litre jug", 100, 1}, {fill, h2o, "litre jug", 1000, 1}},
		},
		{
			"fixer 1+4 with a jug alone: 200 made up to 1000", small + jug + trays, "fixer",
			[]reading{{pour, chem, "litre jug", 200, 1}, {fill, h2o, "litre jug", 1000, 1}},
		},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := bath(t, makePlan(t, head+c.bench+shelf+rc), c.id)
			if got := readings(b); !slices.Equal(got, c.want) {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}

// A large developer tray takes two litre jugs, a smaller one a single jug: common practice.
func TestJugfulsByTray(t *testing.T) {
	two := replace(t, trays, "colour: white, fill: 1 L", "colour: white, fill: 2 L")
	b := bath(t, makePlan(t, head+"bench:\n  vessels:"+jug+two+shelf+rc), "developer")
	want := []reading{{pour, chem, "litre jug", 200, 1}, {fill, h2o, "litre jug", 1000, 1}, {fill, h2o, "litre jug", 1000, 1}}
	if got := readings(b); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if got := math.Round(b.Mix.Choices[0].Uncertainty * 100); got != 7 {
		t.Errorf("U = %v %%, want 7 %%", got)
	}
}

const filmShelf = `
shelf:
  products:
    - {name: film developer, role: developer, for: [film], form: liquid, acid: no, dilutions: {film: 1+50}, times: {film: 11 min}, least_per_roll: LEAST}
    - {name: stop, role: stop bath, form: liquid, acid: yes, dilutions: {film: 1+31}}
    - {name: fixer, role: fixer, form: liquid, acid: no, dilutions: {film: 1+4}}
    - {name: wetting agent, role: wetting agent, form: liquid, acid: no, dilutions: {film: 1+200}}
  lots:
    - {product: film developer, holds: 500 mL, left: 400 mL, opened: 2026-11-01}
    - {product: stop, holds: 500 mL, left: 400 mL, opened: 2026-11-01}
    - {product: fixer, holds: 1 L, left: 900 mL, opened: 2026-11-01}
    - {product: wetting agent, holds: 250 mL, left: 200 mL, opened: 2026-11-01}
session:
  to_make: [{material: film, size: 135-36, rolls: ROLLS}]
`

func filmFile(t *testing.T, least, rolls, dilution string) string {
	t.Helper()
	s := replace(t, replace(t, filmShelf, "LEAST", least), "ROLLS", rolls)
	return head + "bench:\n  tanks: [{name: tank, covers: {135: [300 mL, 500 mL]}}]\n  vessels:" + jug + cylinder + syringe +
		replace(t, s, "1+50", dilution)
}

// 500 mL, two rolls, 1+50: 10 mL and water to 500; 5 mL a roll against the product's least; 500 mL covers two reels.
func TestTwoRollsInOneTank(t *testing.T) {
	b := bath(t, makePlan(t, filmFile(t, "5 mL", "2", "1+50")), "film-developer")
	want := []reading{{pour, chem, "syringe", 10, 1}, {fill, h2o, "litre jug", 500, 1}}
	if got := readings(b); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	f := finding(b.Findings, plan.LeastPerRollOK)
	if f == nil {
		t.Fatalf("nothing is said of the least per roll: %+v", b.Findings)
	}
	if got := figure(t, f, "chemical_per_roll"); got != 5 {
		t.Errorf("per roll %v mL, want 5", got)
	}
	c := finding(b.Findings, plan.CoversReels)
	if c == nil || figure(t, c, "covers") != 500 {
		t.Errorf("what covers two reels is not said as 500 mL: %+v", c)
	}
}

// 300 mL, one roll, 1+100: about 3 mL is under the least per roll, which is said before anything is poured.
func TestTooLittleDeveloperForARoll(t *testing.T) {
	b := bath(t, makePlan(t, filmFile(t, "5 mL", "1", "1+100")), "film-developer")
	f := finding(b.Findings, plan.LeastPerRollShort)
	if f == nil {
		t.Fatalf("no warning: %+v", b.Findings)
	}
	if got := figure(t, f, "total_needed"); math.Abs(got-505) > 15 {
		t.Errorf("%v mL of working solution would do, want about 505 (5 mL × 101)", got)
	}
}

// A school hour: 36 RC sheets in 2 L trays of 11×14: one or two in the developer, four to six shuffled in stop and fixer.
func TestSchoolHour(t *testing.T) {
	big := `
  trays:
    - {name: white, for: developer, inside: 38 x 30 cm, depth: 8 cm, fill: 2 L}
    - {name: red, for: stop bath, inside: 38 x 30 cm, depth: 8 cm, fill: 2 L}
    - {name: grey, for: fixer, inside: 38 x 30 cm, depth: 8 cm, fill: 2 L}`
	p := makePlan(t, head+"bench:\n  vessels:"+jug+cylinder+big+shelf+replace(t, rc, "sheets: 12", "sheets: 36"))
	for id, want := range map[string]plan.Together{"developer": {Usual: 1, Most: 2}, "stop": {Usual: 4, Most: 6}, "fixer": {Usual: 4, Most: 6}} {
		if got := bath(t, p, id).Together; got != want {
			t.Errorf("%s: %+v at once, want %+v", id, got, want)
		}
	}
	if len(p.Missing) > 0 {
		t.Errorf("missing %+v, want nothing: it can be done", p.Missing)
	}
}

const powderShelf = `
shelf:
  products:
    - name: paper powder
      role: developer
      form: powder
      makes: 1 US gal
      mix_at: 52 °C
      dilutions: {RC paper: 1+2}
    - {name: print stop, role: stop bath, form: liquid, acid: yes, dilutions: {RC paper: 1+31}}
    - {name: rapid fixer, role: fixer, form: liquid, acid: no, dilutions: {RC paper: 1+4}}
  lots:
    - {product: paper powder, holds: 1 packet}
    - {product: print stop, holds: 1 L, left: 700 mL, opened: 2026-03-01}
    - {product: rapid fixer, holds: 5 L, left: 4.2 L, opened: 2026-11-02}
`

// A powder "makes 1 gal", used 1+2, 2 L wanted, no stock made: the whole packet the day before, in a vessel that holds it,
// hot, with a mask; then about 667 mL of stock.
func TestPowderIsMadeUpTheDayBefore(t *testing.T) {
	two := replace(t, trays, "colour: white, fill: 1 L", "colour: white, fill: 2 L")
	room := replace(t, head, "hot: 50 °C", "hot: 55 °C")
	p := makePlan(t, room+"bench:\n  vessels:"+jug+cylinder+bucket+two+powderShelf+rc)
	if len(p.DayBefore) != 1 {
		t.Fatalf("%d stocks for the day before, want 1; missing %+v", len(p.DayBefore), p.Missing)
	}
	s := p.DayBefore[0]
	if s.Packets != 1 || s.Vessel != "bucket" || math.Abs(s.Start.ML()-0.75*3785.41) > 1 || s.MixAt != 52 {
		t.Errorf("stock %+v, want one packet in the bucket, begun with three quarters of 3785 mL at 52 °C", s)
	}
	if got := cautions(s.Cautions); !slices.Contains(got, plan.PowderDust) || !slices.Contains(got, plan.HotWater) {
		t.Errorf("cautions %v, want dust and hot water", got)
	}
	b := bath(t, p, "developer")
	if got := b.Mix.Choices[0].Chemical[0].ML(); math.Abs(got-667) > 25 {
		t.Errorf("%v mL of stock, want about 667", got)
	}
	if len(b.Lots) != 1 || b.Lots[0].Stock != 0 || b.Lots[0].Lot != -1 {
		t.Errorf("drawn from %+v, want the stock of the day before", b.Lots)
	}
}

// Without a vessel that holds the packet, the answer is that none does.
func TestNothingHoldsThePacket(t *testing.T) {
	p := makePlan(t, head+"bench:\n  vessels:"+jug+cylinder+trays+powderShelf+rc)
	if !slices.ContainsFunc(p.Missing, func(m plan.Missing) bool { return m.Kind == plan.NoHolder && m.Product == "paper powder" }) {
		t.Errorf("missing %+v, want a vessel that holds the packet", p.Missing)
	}
}

// A hot tap that does not reach 52 °C needs the kettle, with the scald caution.
func TestPowderNeedsTheKettle(t *testing.T) {
	cold := replace(t, head, "hot: 50 °C", "hot: 45 °C, kettle: yes")
	p := makePlan(t, cold+"bench:\n  vessels:"+jug+cylinder+bucket+trays+powderShelf+rc)
	s := p.DayBefore[0]
	if s.Temper == nil || s.Temper.Status != temper.WithKettle || s.Temper.Kettle <= 0 || !s.Temper.Scald {
		t.Errorf("water %+v, want some from the kettle, and scalding", s.Temper)
	}
}

// A tap at 26 °C with 20 wanted: ice by weight, or print warmer with a shorter time; never a refusal.
func TestWarmTap(t *testing.T) {
	warm := replace(t, head, "cold: 12 °C", "cold: 26 °C")
	bench := "bench:\n  vessels:" + jug + cylinder + trays
	b := bath(t, makePlan(t, warm+bench+shelf+rc), "developer")
	if b.Temper == nil || b.Temper.Status != temper.OutOfReach || finding(b.Findings, plan.WarmRoom) == nil {
		t.Errorf("without ice: %+v, findings %+v; want the nearest temperature and a word on it", b.Temper, b.Findings)
	}
	b = bath(t, makePlan(t, replace(t, warm, "hot: 50 °C", "hot: 50 °C, ice: yes")+bench+shelf+rc), "developer")
	if b.Temper == nil || b.Temper.Status != temper.WithIce || b.Temper.Ice <= 0 {
		t.Errorf("with ice: %+v, want some ice by weight", b.Temper)
	}
}

// Four 16×20 FB in 20×24 trays: some 5 L a tray, half a litre of developer concentrate; a 16×20 tray with 3 L is offered.
func TestLargeTraysOfferSmallerOnes(t *testing.T) {
	big := `
  trays:
    - {name: big white, for: developer, inside: 24 x 20 in, depth: 10 cm}
    - {name: big red, for: stop bath, inside: 24 x 20 in, depth: 10 cm}
    - {name: big grey, for: fixer, inside: 24 x 20 in, depth: 10 cm}
    - {name: big black, for: fixer, inside: 24 x 20 in, depth: 10 cm}`
	session := "\nsession:\n  to_make: [{material: FB paper, size: 16x20 in, sheets: 4, standard: exhibition, fixing: two baths}]\n"
	p := makePlan(t, head+"bench:\n  vessels:"+jug+cylinder+bucket+big+shelf+session)
	b := bath(t, p, "developer")
	if got := b.Window.Min.ML(); math.Abs(got-4645) > 10 {
		t.Errorf("15 mm in the tray is %v mL, want 4645 (24 × 20 in × 15 mm)", got)
	}
	f := finding(b.Findings, plan.SmallerTray)
	if f == nil {
		t.Fatalf("no smaller tray is offered: %+v", b.Findings)
	}
	if got := figure(t, f, "smaller_volume"); math.Abs(got-3450) > 300 {
		t.Errorf("the smaller tray takes %v mL, want a good 3 L", got)
	}
	if !slices.ContainsFunc(p.Missing, func(m plan.Missing) bool { return m.Kind == plan.TooLittle && m.Product == "paper developer" }) {
		t.Errorf("missing %+v, want developer: half a litre is wanted, 310 mL are there", p.Missing)
	}
}
