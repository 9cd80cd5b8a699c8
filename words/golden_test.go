package words_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/words"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares what was said with what was read and found right.
func golden(t *testing.T, name, got string) {
	t.Helper()
	tidy(t, got)
	path := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}

// sheet writes lines as they stand on paper; a heavy part stands between stars.
func sheet(b *strings.Builder, lines []words.Line) {
	for _, l := range lines {
		fmt.Fprintf(b, "%6s %-6s │ %s\n", l.Number, l.Unit, marked(l.Say))
		if len(l.Next) > 0 {
			fmt.Fprintf(b, "%13s │   … %s\n", "", marked(l.Next))
		}
	}
}

func marked(p words.Phrase) string {
	var b strings.Builder
	for _, s := range p {
		if s.Weight == words.Heavy {
			b.WriteString("*" + s.Text + "*")
			continue
		}
		b.WriteString(s.Text)
	}
	return b.String()
}

func TestMixIsToldAsAPrinterWould(t *testing.T) {
	type bench = []measure.Vessel
	j, c, s := jug(t), cylinder(t), syringe(t)
	// The numbers are those of the ordinary cases; the rest shows what they do not reach.
	for _, tc := range []struct {
		name          string
		label, volume string
		vessels       bench
		system        quantity.System
		ounce         quantity.Ounce
		role          process.Role
		tolerance     float64
		density       quantity.Density
		batch         words.Batch
	}{
		{
			name: "06 stop bath, jug alone, acid", label: "1+31", volume: "900 mL to 1 L", vessels: bench{j},
			role: process.StopBath, tolerance: 0.3, batch: words.Batch{Chemical: "print stop", Into: "red", WaterFirst: true},
		},
		{
			name: "06b stop bath, jug alone, no acid", label: "1+31", volume: "900 mL to 1 L", vessels: bench{j},
			role: process.StopBath, tolerance: 0.3, batch: words.Batch{Chemical: "print stop", Into: "red"},
		},
		{
			name: "07 stop bath with cylinder, acid", label: "1+31", volume: "900 mL to 1 L", vessels: bench{j, c},
			role: process.StopBath, tolerance: 0.3, batch: words.Batch{Chemical: "print stop", Into: "red", WaterFirst: true},
		},
		{
			name: "08 developer, 8x10 tray", label: "1+9", volume: "770 mL to 1 L", vessels: bench{j},
			role: process.Developer, tolerance: 0.15, batch: words.Batch{Chemical: "paper developer", Into: "white"},
		},
		{
			name: "09 developer, two litres", label: "1:9", volume: "1.9 to 2 L", vessels: bench{j, c},
			role: process.Developer, tolerance: 0.15, batch: words.Batch{Chemical: "paper developer", Into: "white"},
		},
		{
			name: "10 film developer, tank", label: "1+50", volume: "500 mL to 550 mL", vessels: bench{j, c, s},
			role: process.Developer, tolerance: 0.1,
			batch: words.Batch{Chemical: "film developer", Into: "small tank", Tank: true},
		},
		{
			name: "fixer without a tray", label: "1+4", volume: "1 L", vessels: bench{j},
			role: process.Fixer, tolerance: 0.15, batch: words.Batch{Chemical: "rapid fixer"},
		},
		{
			name: "many jugfuls", label: "1+9", volume: "4.9 to 5 L", vessels: bench{j},
			role: process.Developer, tolerance: 0.15, batch: words.Batch{Into: "Tray 4"},
		},
		{
			name: "US reader", label: "1+15", volume: "60 to 64 US fl oz", vessels: bench{j}, system: quantity.US,
			ounce: quantity.OunceUS, role: process.Developer, tolerance: 0.15,
			batch: words.Batch{Chemical: "paper developer", Into: "developer tray"},
		},
		{
			name: "imperial reader", label: "1+9", volume: "38 to 40 imp fl oz", vessels: bench{imperialJug(t)},
			system: quantity.Imperial, ounce: quantity.OunceImperial, role: process.Developer, tolerance: 0.15,
			batch: words.Batch{Chemical: "paper developer", Into: "developer tray"},
		},
		{
			name: "both ounces in the room", label: "1+9", volume: "38 to 40 imp fl oz", vessels: bench{imperialJug(t), j},
			system: quantity.Imperial, ounce: quantity.OunceImperial, role: process.Developer, tolerance: 0.15,
			batch: words.Batch{Chemical: "paper developer", Into: "developer tray"},
		},
		{
			name: "weighed", label: "1+50", volume: "950 mL to 1 L", vessels: bench{j, balance(t)}, density: 1.3,
			role: process.Developer, tolerance: 0.1, batch: words.Batch{Chemical: "film developer", Into: "white"},
		},
		{
			name: "thinned first", label: "1+400", volume: "1.9 L to 2 L", vessels: bench{j, c, {
				Name: "two-litre jug", Kind: measure.Jug,
				Scales: []measure.Scale{scale(t, quantity.UnitML, "200", "2000", "100", "200")},
			}},
			role: process.Developer, tolerance: 0.15, batch: words.Batch{Chemical: "film developer", Into: "white"},
		},
		{
			name: "parts A and B", label: "1+1+10", volume: "1.2 L", vessels: bench{c, {
				Name: "two-litre jug", Kind: measure.Jug,
				Scales: []measure.Scale{scale(t, quantity.UnitML, "200", "2000", "100", "200")},
			}},
			role: process.Developer, tolerance: 0.15, batch: words.Batch{Chemical: "pyro developer", Into: "white"},
		},
		{
			name: "undiluted stock", label: "stock", volume: "900 mL to 1 L", vessels: bench{j},
			role: process.Developer, tolerance: 0.15, batch: words.Batch{Chemical: "film developer, powder", Into: "white"},
		},
		{
			name: "half marks", label: "1+2", volume: "1100 mL to 1150 mL", vessels: bench{{
				Name: "enamel jug", Kind: measure.Jug, HalfMarks: true,
				Scales: []measure.Scale{scale(t, quantity.UnitML, "250", "1500", "250", "500")},
			}},
			role: process.Developer, tolerance: 0.15, batch: words.Batch{Chemical: "paper developer", Into: "white"},
		},
		{
			name: "nothing can be made", label: "1+7", volume: "1 L", vessels: bench{{
				Name: "enamel jug", Kind: measure.Jug,
				Scales: []measure.Scale{scale(t, quantity.UnitML, "250", "1000", "250", "500")},
			}},
			role: process.Developer, tolerance: 0.15, batch: words.Batch{Chemical: "paper developer", Into: "white"},
		},
	} {
		t.Run(tc.name, func(t *testing.T) {
			d, w := read(t, tc.label, tc.volume, tc.ounce)
			res, err := measure.Solve(t.Context(), measure.Problem{
				Dilution: d, Window: w, Tolerance: tc.tolerance, Vessels: tc.vessels, WaterFirst: tc.batch.WaterFirst,
				Density: tc.density, System: tc.system,
			}, measure.Options{Alternatives: min(4, 4*(2-len(d.Chemicals)))})
			if err != nil {
				t.Fatal(err)
			}
			v, b := voice(t, tc.system), tc.batch
			b.Vessels, b.Dilution = tc.vessels, d
			golden(t, "mix "+tc.name, told(v, res, b, tc.label, w, tc.role, tc.tolerance))
		})
	}
}

// told writes everything that is said of a result.
func told(v *words.Voice, res measure.Result, b words.Batch, label string, w quantity.Window, role process.Role, tolerance float64) string {
	var out strings.Builder
	if note := v.DilutionNote(label, b.Dilution); len(note) > 0 {
		fmt.Fprintln(&out, marked(note))
	}
	if res.Status != measure.Optimal {
		fmt.Fprintln(&out, marked(v.Lack(res, b, w)))
	}
	for i, c := range res.Choices {
		if i > 0 {
			fmt.Fprintf(&out, "\nOr: %s\n", marked(v.Differs(c)))
		}
		fmt.Fprintf(&out, "%s\n", marked(v.Summary(c, b, role, tolerance)))
		sheet(&out, v.Mix(c, b))
		if i == 0 {
			fmt.Fprintf(&out, "\nStep by step:\n")
			sheet(&out, v.Walk(c, b))
			fmt.Fprintf(&out, "\nHow exact: %s\n", marked(v.Exact(c, role, tolerance)))
		}
	}
	if a := v.Advice(res.Advice); len(a) > 0 {
		fmt.Fprintln(&out, marked(a))
	}
	return out.String()
}
