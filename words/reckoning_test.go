package words_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"wetside/plan"
	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/temper"
	"wetside/words"
)

// opened writes rows as they stand on a page.
func opened(b *strings.Builder, rows []words.Row) {
	for _, r := range rows {
		indent := strings.Repeat("    ", r.Depth)
		switch r.Kind {
		case words.Rule:
			fmt.Fprintf(b, "│%s%s\n", indent, r.Name)
		case words.Put:
			fmt.Fprintf(b, "│%s· %s: %s (%s)\n", indent, r.Name, r.Value, r.From)
		case words.Result:
			fmt.Fprintf(b, "│%s= %s: %s (%s)\n", indent, r.Name, r.Value, r.From)
		}
	}
}

func solve(t *testing.T, label, volume string, waterFirst bool, density quantity.Density, vessels ...measure.Vessel) (measure.Choice, dilution.Dilution) {
	t.Helper()
	d, w := read(t, label, volume, quantity.OunceUS)
	res, err := measure.Solve(t.Context(), measure.Problem{
		Dilution: d, Window: w, Tolerance: 0.15, Vessels: vessels, WaterFirst: waterFirst, Density: density,
	}, measure.Options{NoAdvice: true})
	if err != nil || len(res.Choices) == 0 {
		t.Fatalf("%s in %s: %v, %v", label, volume, res.Status, err)
	}
	return res.Choices[0], d
}

func TestReckoningCanBeOpened(t *testing.T) {
	v := voice(t, quantity.Metric)
	c, _ := solve(t, "1+31", "900 mL to 1 L", true, 0, jug(t), cylinder(t))
	var b strings.Builder
	for _, r := range c.Reckoning {
		opened(&b, v.Reckoning(r))
	}
	golden(t, "reckoning mix", b.String())

	b.Reset()
	res, err := temper.Solve(t.Context(), temper.Problem{
		Cold: 8, Hot: 45, Want: 20, Total: 2 * quantity.Litre, Chemical: 200 * quantity.Millilitre, ChemicalAt: 18,
		Step: 100 * quantity.Millilitre,
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range res.Reckoning {
		opened(&b, v.Reckoning(r))
	}
	golden(t, "reckoning water", b.String())
}

// Whatever the floors below hand out has a rule and names that are said: every reckoning of whole plans, of mixes of
// every manner, of water in and out of reach.
func TestEveryReckoningOfPlansIsSaid(t *testing.T) {
	v := voice(t, quantity.Metric)
	seen := 0
	open := func(rows []words.Row) {
		seen += len(rows)
		var b strings.Builder
		opened(&b, rows)
		tidy(t, b.String())
	}
	all := func(rs []reckoning.Reckoning) {
		for _, r := range rs {
			open(v.Reckoning(r))
		}
	}
	figures := func(fs []reckoning.Figure) {
		for _, f := range fs {
			open(v.FigureRows(f))
		}
	}
	findings := func(fs []plan.Finding) {
		for _, f := range fs {
			figures(f.Figures)
		}
	}
	for _, name := range []string{"class.yaml", "attic.yaml", "school.yaml"} {
		_, p := room(t, name)
		findings(p.Findings)
		for _, l := range p.Loads {
			all([]reckoning.Reckoning{l.Reckoning})
			for _, s := range l.Times {
				figures([]reckoning.Figure{s.Figure})
			}
		}
		for _, b := range p.Baths {
			findings(b.Findings)
			figures([]reckoning.Figure{b.WindowFigure})
			if b.Life != nil {
				figures(b.Life.Figures)
			}
			for _, c := range b.Mix.Choices {
				all(c.Reckoning)
			}
			if b.Temper != nil {
				all(b.Temper.Reckoning)
			}
		}
		for _, s := range p.DayBefore {
			figures(s.Figures)
		}
		all([]reckoning.Reckoning{p.Cost.Reckoning})
		for _, part := range p.Cost.Parts {
			figures(part.Figures)
		}
	}
	for _, c := range manners(t) {
		all(c.Reckoning)
	}
	for _, r := range waters(t) {
		all(r.Reckoning)
	}
	if seen < 500 {
		t.Errorf("only %d rows were opened", seen)
	}
}

// manners returns a choice of each manner.
func manners(t *testing.T) []measure.Choice {
	t.Helper()
	two := measure.Vessel{
		Name: "two-litre jug", Kind: measure.Jug, InnerWidth: 130,
		Scales: []measure.Scale{scale(t, quantity.UnitML, "200", "2000", "100", "200")},
	}
	var out []measure.Choice
	seen := map[measure.Manner]bool{}
	for _, tc := range []struct {
		label, volume string
		waterFirst    bool
		density       quantity.Density
		vessels       []measure.Vessel
	}{
		{"1+9", "1 L", false, 0, []measure.Vessel{jug(t)}},
		{"1+50", "500 mL to 550 mL", true, 0, []measure.Vessel{jug(t), syringe(t)}},
		{"1+9", "2 L", false, 0, []measure.Vessel{jug(t)}},
		{"1+31", "900 mL to 1 L", true, 0, []measure.Vessel{jug(t)}},
		{"1+50", "1 L", false, 1.3, []measure.Vessel{jug(t), balance(t)}},
		{"1+400", "1.9 to 2 L", false, 0, []measure.Vessel{jug(t), two, cylinder(t)}},
	} {
		c, _ := solve(t, tc.label, tc.volume, tc.waterFirst, tc.density, tc.vessels...)
		seen[c.Manner] = true
		out = append(out, c)
	}
	if len(seen) != 6 {
		t.Errorf("manners seen: %v, want six", seen)
	}
	return out
}

// waters returns a result of each status.
func waters(t *testing.T) []temper.Result {
	t.Helper()
	var out []temper.Result
	seen := map[temper.Status]bool{}
	for _, p := range []temper.Problem{
		{Cold: 8, Hot: 45, Want: 20},
		{Cold: 8, Hot: 45, Want: 52, Kettle: true},
		{Cold: 26, Hot: 45, Want: 20, Ice: true},
		{Cold: 26, Hot: 45, Want: 20},
		{Cold: 8, Hot: 45, Want: 52},
	} {
		p.Total, p.Step = 2*quantity.Litre, 100*quantity.Millilitre
		r, err := temper.Solve(t.Context(), p)
		if err != nil {
			t.Fatal(err)
		}
		seen[r.Status] = true
		out = append(out, r)
	}
	if len(seen) != 4 {
		t.Errorf("statuses seen: %v, want four", seen)
	}
	return out
}

func TestWaterIsToldAsAPersonDoesIt(t *testing.T) {
	var b strings.Builder
	for _, sys := range []quantity.System{quantity.Metric, quantity.US} {
		v := voice(t, sys)
		for _, r := range waters(t) {
			fmt.Fprintf(&b, "%s\n", v.TemperStatus(r.Status))
			for _, w := range []words.Water{
				{Vessel: "two-litre jug", Chemical: "paper developer"}, {}, {Vessel: "bucket", ForMix: true, Times: 2},
			} {
				fmt.Fprintf(&b, "%s\n", marked(v.TemperLine(r, w)))
				sheet(&b, v.Temper(r, w))
			}
		}
	}
	golden(t, "water", b.String())
}

func TestOriginNamesItsSource(t *testing.T) {
	v := voice(t, quantity.Metric)
	for _, tc := range []struct {
		f    reckoning.Figure
		want string
	}{
		{reckoning.Figure{Origin: reckoning.Label}, "the label"},
		{reckoning.Figure{Origin: reckoning.FromMemory}, "from memory, no source"},
		{reckoning.Figure{Origin: reckoning.Standard, Source: "ASTM-E1272"}, "ASTM E1272-02(2012), Table 1"},
	} {
		if got := v.Origin(tc.f); got != tc.want {
			t.Errorf("Origin(%+v): got %q, want %q", tc.f, got, tc.want)
		}
	}
	if got, want := v.Figure(reckoning.Figure{Value: 90, Unit: reckoning.S}), v.Time(90*time.Second); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
