package words_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/darkroom"
	"wetside/plan"
	"wetside/words"
)

// room plans the evening of a darkroom file in testdata/rooms.
func room(t *testing.T, name string) (darkroom.File, plan.Plan) {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("testdata", "rooms", name))
	if err != nil {
		t.Fatal(err)
	}
	f, err := darkroom.Read(src)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(t.Context(), plan.Request{File: f, Now: time.Date(2026, 12, 3, 9, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	return f, p
}

func TestPlanIsToldAsAPrinterWould(t *testing.T) {
	for _, name := range []string{"class.yaml", "attic.yaml", "school.yaml"} {
		t.Run(name, func(t *testing.T) {
			f, p := room(t, name)
			v, err := words.New(f.Darkroom.Language, p.System, f.Darkroom.Ounce, words.Currency(f.Darkroom.Currency))
			if err != nil {
				t.Fatal(err)
			}
			golden(t, "plan "+strings.TrimSuffix(name, ".yaml"), whole(v, f, p))
		})
	}
}

// whole writes everything that is said of a plan.
func whole(v *words.Voice, f darkroom.File, p plan.Plan) string {
	var b strings.Builder
	say := func(p words.Phrase) {
		if len(p) > 0 {
			fmt.Fprintln(&b, marked(p))
		}
	}
	fmt.Fprintf(&b, "%s, %s\n", p.Name, v.DateTime(p.Starts))
	for _, l := range p.Loads {
		fmt.Fprintf(&b, "- %s; %s\n", v.Load(l), v.Wanted(l))
	}
	for _, m := range p.Missing {
		say(v.Missing(m))
	}
	for _, c := range p.Cautions {
		say(v.Caution(c))
	}
	for _, x := range p.Findings {
		say(v.Finding(x))
	}
	for _, s := range p.DayBefore {
		fmt.Fprintln(&b)
		for _, c := range s.Cautions {
			say(v.Caution(c))
		}
		sheet(&b, v.Stock(s, words.WaterOfStock(s, f.Bench)))
		for _, x := range s.Findings {
			say(v.Finding(x))
		}
	}
	say(v.Order(p))
	for _, i := range p.Order {
		wholeBath(&b, v, f, p.Baths[i], say)
	}
	for _, l := range p.Loads {
		fmt.Fprintf(&b, "\n%s\n", v.Load(l))
		for _, s := range l.Times {
			say(v.Timed(s))
		}
	}
	say(v.Cost(p.Cost))
	for _, part := range p.Cost.Parts {
		fmt.Fprintln(&b, v.CostPart(part, p.Cost.Currency))
	}
	return b.String()
}

func wholeBath(b *strings.Builder, v *words.Voice, f darkroom.File, x plan.Bath, say func(words.Phrase)) {
	fmt.Fprintf(b, "\n# %s\n", v.Bath(x))
	if x.Product != "" {
		fmt.Fprintf(b, "%s %s\n%s\n", x.Product, v.Dilution(x.Dilution), v.Depth(x))
	}
	say(v.DilutionNote(x.Words, x.Dilution))
	say(v.Rinse(x))
	say(v.Makings(x))
	for _, c := range x.Cautions {
		say(v.Caution(c))
	}
	for _, d := range x.Lots {
		say(v.Draw(d, f.Shelf.Lots))
	}
	if x.Temper != nil {
		say(v.TemperLine(*x.Temper, words.WaterOf(x)))
		sheet(b, v.Temper(*x.Temper, words.WaterOf(x)))
	}
	say(v.BathSummary(x))
	sheet(b, v.BathMix(x))
	for _, finding := range x.Findings {
		say(v.Finding(finding))
	}
}
