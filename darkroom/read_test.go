package darkroom_test

import (
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"wetside/darkroom"
	"wetside/darkroom/outline"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// TestContract holds the values of the contract's own sample.
func TestContract(t *testing.T) {
	f := contract(t)
	roundTrip(t, f)
	jug, _ := f.Bench.Vessel("two-litre jug")
	film, _ := f.Shelf.Product("film developer, powder")
	paper, _ := f.Shelf.Product("paper developer")
	const sheet = 80 * 25.4 * 25.4 / 1e6 // m², 8×10 in
	tests := []struct {
		name      string
		got, want any
	}{
		{"name", f.Darkroom.Name, "Ropewalk Darkroom"},
		{"units", f.Darkroom.UnitsGiven, true},
		{"ounce", f.Darkroom.Ounce, quantity.OunceUS},
		{"hot", f.Darkroom.Water.Hot.Value, quantity.Celsius(52)},
		{"ice", f.Darkroom.Water.Ice.Value, false},
		{"limit", f.Darkroom.SilverLimits[material.FB][process.Exhibition][darkroom.BathOne].Value, 0.5},
		{"fixing", f.Darkroom.Standards[material.FB].Fixing, process.TwoBaths},
		{"vessels", len(f.Bench.Vessels), 4},
		{"ounce scale", f.Bench.Vessels[0].Scales[1].Unit.Value, quantity.UnitUSOunce},
		{"own error", jug.PermissibleError.Value, measure.Permissible{Rel: 0.02}},
		{"inner width", jug.InnerWidth.Value, quantity.Length(130)},
		{"holds", jug.Holds(), 2 * quantity.Litre},
		{"balance", f.Bench.Vessels[3].Scales[0].Grams, true},
		{"litre depth", f.Bench.Trays[0].LitreDepth.Value, quantity.Length(9)},
		{"holding", f.Bench.Trays[4].For, darkroom.For{Holding: true}},
		{"fixer trays", len(f.Bench.TraysFor(process.Fixer)), 2},
		{"second reel", f.Bench.Tanks[0].Covers["135"][1].Value, 500 * quantity.Millilitre},
		{"dry", f.Bench.Dry[material.RC], 24},
		{"capacity", paper.Capacity[material.RC].Value, darkroom.Capacity{Area: 100 * sheet, Per: quantity.Litre}},
		{"share", paper.Contains[0].Share.Value, darkroom.Range{From: 0.01, To: 0.02}},
		{"price", paper.Packs[1].Price.Value, int64(6200)},
		{"keeps", paper.Keeps[darkroom.InTray].Value, quantity.Period{Hours: 24}},
		{"makes", film.Makes.Value, quantity.USGallon},
		{"from stock", film.Dilutions[material.Film].Value.FromStock, true},
		{"left unknown", f.Shelf.Lots[1].LeftUnknown, true},
		{"quart", f.Shelf.Lots[1].Holds.Value, quantity.USQuart},
		{"packet", f.Shelf.Lots[3].Packets, 1},
		{"stock", f.Shelf.Lots[4].Stock, true},
		{"lots", len(f.Shelf.LotsOf("film developer, powder")), 2},
		{"starts", f.Session.Starts.Value, time.Date(2026, 12, 3, 18, 30, 0, 0, time.UTC)},
		{"strips", f.Session.ToMake[0].Strips, 24},
		{"roll", f.Session.ToMake[2].Size.Value.Roll, material.Roll135x36},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("%s: got %v, want %v", tt.name, tt.got, tt.want)
		}
	}
}

// endless is a stream that never ends and counts what was read of it.
type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'a'
	}
	e.read += len(p)
	return len(p), nil
}

// TestHugeFile holds that a file of 200 MB costs no more than the first of them.
func TestHugeFile(t *testing.T) {
	e := &endless{}
	start := time.Now()
	f, err := darkroom.ReadFrom(io.LimitReader(e, 200<<20))
	problems, ok := errors.AsType[darkroom.Problems](err)
	if !ok || len(problems) != 1 || problems[0].Kind != "file_too_large" {
		t.Fatalf("got %v, %v", f, err)
	}
	if e.read > 3<<20 || time.Since(start) > time.Second {
		t.Errorf("read %d bytes in %v", e.read, time.Since(start))
	}
}

// signs counts what outline.MaxSigns counts.
func signs(s string) int {
	return len(s) - len(strings.NewReplacer("[", "", "]", "", "{", "", "}", "", ",", "", ":", "", "-", "", "?", "").Replace(s))
}

// TestCostly holds that nothing takes long that is as long as a file may be, or has as many signs: the YAML parser
// alone would need minutes for some.
func TestCostly(t *testing.T) {
	const size = 1<<20 - 100
	tests := []struct{ name, before, again, after string }{
		{"brackets", "a: ", "[", ""},
		{"braces", "a: ", "{", ""},
		{"dashes", "", "- ", ""},
		{"questions", "", "? ", ""},
		{"question lines", "", "? a\n", ""},
		{"keys", "", "a: 1\n", ""},
		{"blank keys", "", "a:\n", ""},
		{"blank items", "a:\n", "-\n", ""},
		{"blank keys in items", "a:\n", "- b:\n", ""},
		{"flow blanks", "a: [", "{b}, ", "1]"},
		{"flow blank values", "a: [", "{b: , c: }, ", "1]"},
		{"flow pairs", "a: [", "b: , ", "c]"},
		{"flow keys", "a: {", "b, ", "c}"},
		{"commas", "a: [", ",", "]"},
		{"anchors", "a: [", "&a b, ", "c]"},
		{"aliases", "a: [", "*a, ", "c]"},
		{"comments", "", "# c\n", ""},
		{"quotes", "", "\"\n", ""},
		{"literals", "", "- a: |\n   b\n", ""},
		{"documents", "", "---\n", ""},
		{"tabs", "", "\t\n", ""},
		{"colons", "", ": ", ""},
		{"problems", "people:\n", "  - {called: x}\n", ""},
		{"lots", "shelf:\n  lots:\n", "  - {product: x, holds: 5}\n", ""},
		{"names", "bench:\n  trays:\n", "  - {name: x}\n", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			n := (size - len(tt.before) - len(tt.after)) / len(tt.again)
			few := min(n, (outline.MaxSigns-10)/max(1, signs(tt.again)))
			for _, n := range []int{n, few} {
				src := tt.before + strings.Repeat(tt.again, n) + tt.after
				start := time.Now()
				if _, err := darkroom.Read([]byte(src)); err == nil {
					t.Error("read without a problem")
				}
				// About 1 s at the most on two slow cores; loaded machines and -race are allowed for.
				if took := time.Since(start); took > 20*time.Second {
					t.Errorf("%d times: took %v", n, took)
				}
			}
		})
	}
}
