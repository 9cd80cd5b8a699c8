package ahead_test

import (
	"strconv"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/words"
)

// failing is what the helpers need of a test: rapid's has no more.
type failing interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// A bench is baths in the order of use, and the scene they make.
type bench struct {
	t     failing
	scene ahead.Scene
}

// newBench returns a bench at six in the evening, with so few draws that a test is quick where it wants that.
func newBench(t failing, draws int) *bench {
	return &bench{t, ahead.Scene{Now: firstDay, Draws: draws}}
}

func parts(t failing, text string) dilution.Dilution {
	t.Helper()
	d, err := dilution.Read(text, dilution.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// bath puts a bath on the bench, made now, and returns its index.
func (b *bench) bath(role process.Role, place bath.Place, dilution string, litres float64) int {
	b.t.Helper()
	b.scene.Baths = append(b.scene.Baths, ahead.Bath{
		ID: role.String() + string(rune('0'+len(b.scene.Baths))), Role: role, Place: place, Made: b.scene.Now,
		Dilution: parts(b.t, dilution), Words: dilution, Litres: litres, Container: darkroom.InTray, Since: b.scene.Now,
	})
	return len(b.scene.Baths) - 1
}

// usual puts developer, stop bath and one or two fixers on the bench.
func (b *bench) usual(fixer string, litres float64, fixing process.Fixing) []int {
	b.t.Helper()
	all := []int{b.bath(process.Developer, bath.Alone, "1+9", litres), b.bath(process.StopBath, bath.Alone, "1+19", litres)}
	if fixing != process.TwoBaths {
		return append(all, b.bath(process.Fixer, bath.Alone, fixer, litres))
	}
	return append(all, b.bath(process.Fixer, bath.First, fixer, litres), b.bath(process.Fixer, bath.Second, fixer, litres))
}

func (b *bench) ask(m material.Material, s process.Standard, f process.Fixing, baths ...int) {
	b.scene.Chains = append(b.scene.Chains, ahead.Chain{Material: m, Standard: s, Fixing: f, Baths: baths})
}

// work lets sheets of 8×10 through baths.
func (b *bench) work(m material.Material, sheets float64, baths ...int) {
	b.scene.Events = append(b.scene.Events, ahead.Event{
		At: b.scene.Now, Pass: &ahead.Pass{Material: m, Area: ahead.Area8x10, Sheets: sheets, Baths: baths},
	})
}

func (b *bench) look() ahead.Report {
	b.t.Helper()
	r, err := ahead.Look(b.scene)
	if err != nil {
		b.t.Fatal(err)
	}
	return r
}

// of finds the outlook of a bath of the scene.
func (b *bench) of(index int) ahead.Outlook {
	b.t.Helper()
	for _, o := range b.look().Baths {
		if o.Index == index {
			return o
		}
	}
	b.t.Fatalf("nothing is told of bath %d", index)
	return ahead.Outlook{}
}

// product reads one product as a darkroom file has it.
func product(t failing, as string) *darkroom.Product {
	t.Helper()
	f, err := darkroom.Read([]byte("darkroom: {name: Room, ounce: us}\nshelf:\n  products:\n    - " + as + "\n"))
	if err != nil {
		t.Fatal(err)
	}
	return &f.Shelf.Products[0]
}

func voice(t *testing.T) *words.Voice {
	t.Helper()
	f, err := darkroom.Read([]byte("darkroom: {name: Room, ounce: us}\n"))
	if err != nil {
		t.Fatal(err)
	}
	v, err := words.New(f.Darkroom.Language, f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func whole(n int) string { return strconv.Itoa(n) }
