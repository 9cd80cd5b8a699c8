package darkroom_test

import (
	"bytes"
	"os"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/darkroom"
	"wetside/trade/quantity"
)

// exact compares everything, unexported fields too.
func exact() cmp.Option { return cmp.Exporter(func(reflect.Type) bool { return true }) }

// roundTrip holds that what is written reads the same, and that writing it again gives the same bytes.
func roundTrip(t interface {
	Helper()
	Fatalf(string, ...any)
}, f darkroom.File,
) {
	t.Helper()
	out := darkroom.Write(f)
	again, err := darkroom.Read(out)
	if err != nil {
		t.Fatalf("Read(Write(f)): %v\n%s", err, out)
	}
	if d := cmp.Diff(f, again, exact()); d != "" {
		t.Fatalf("Read(Write(f)) (-f +read):\n%s\n%s", d, out)
	}
	if second := darkroom.Write(again); !bytes.Equal(out, second) {
		t.Fatalf("Write is no fixed point:\n%s\n%s", out, second)
	}
}

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := (&gen{t: t}).file()
		f, err := darkroom.Read([]byte(src))
		if err != nil {
			t.Fatalf("%v\n%s", err, src)
		}
		roundTrip(t, f)
		if err := darkroom.Check(f); err != nil {
			t.Fatalf("Check: %v", err)
		}
	})
}

// TestPartsRoundTrip holds that every part of a file comes back from its form and from its JSON.
func TestPartsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, err := darkroom.Read([]byte((&gen{t: t}).file()))
		if err != nil {
			t.Fatal(err)
		}
		part(t, f, 0, f.Darkroom)
		part(t, f, 0, f.Bench)
		part(t, f, 0, f.Shelf)
		part(t, f, 0, f.Session)
		parts(t, f, f.Bench.Vessels)
		parts(t, f, f.Bench.Trays)
		parts(t, f, f.Bench.Tanks)
		parts(t, f, f.Bench.Cans)
		parts(t, f, f.Shelf.Products)
		parts(t, f, f.Shelf.Lots)
		parts(t, f, f.People)
		parts(t, f, f.Session.ToMake)
	})
}

func parts[T darkroom.Part](t *rapid.T, f darkroom.File, all []T) {
	if len(all) > 0 {
		i := rapid.IntRange(0, len(all)-1).Draw(t, "item")
		part(t, f, i, all[i])
	}
}

func part[T darkroom.Part](t *rapid.T, f darkroom.File, i int, v T) {
	form := darkroom.FormOf(v)
	got, err := darkroom.ReadForm[T](f, i, form)
	if err != nil {
		t.Fatalf("ReadForm(%q): %v", form, err)
	}
	if d := cmp.Diff(v, got, exact()); d != "" {
		t.Fatalf("ReadForm(FormOf(v)) (-v +read):\n%s", d)
	}
	body := darkroom.JSON(v)
	got, err = darkroom.ReadJSON[T](body, f.Darkroom.Ounce)
	if err != nil {
		t.Fatalf("ReadJSON(%s): %v", body, err)
	}
	if d := cmp.Diff(v, got, exact()); d != "" {
		t.Fatalf("ReadJSON(JSON(v)) (-v +read):\n%s", d)
	}
	if d := cmp.Diff(f, darkroom.With(f, i, v), exact()); d != "" {
		t.Fatalf("With(f, i, the same) changes the file:\n%s", d)
	}
}

func TestPublicLeavesOutNotes(t *testing.T) {
	f := contract(t)
	out := darkroom.Write(darkroom.Public(f))
	if bytes.Contains(out, []byte("metol")) || !bytes.Contains(out, []byte("Ines")) {
		t.Errorf("Public keeps notes or loses people:\n%s", out)
	}
	if len(f.People[0].Notes) != 1 {
		t.Error("Public changed the file it was given")
	}
}

// contract reads the sample of the contract.
func contract(t *testing.T) darkroom.File {
	t.Helper()
	src, err := os.ReadFile("testdata/contract.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f, err := darkroom.Read(src)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestWordsAreKept holds the words that a decoder would have changed.
func TestWordsAreKept(t *testing.T) {
	f := contract(t)
	p, _ := f.Shelf.Product("paper developer")
	tests := []struct{ name, got, want string }{
		{"price", p.Packs[0].Price.Text, "11.20"},
		{"density", p.Density.Text, "1.10 g/mL"},
		{"step", f.Bench.Vessels[3].Scales[0].Step.Text, "0.1"},
		{"no", f.Darkroom.Water.Ice.Text, "no"},
		{"part", f.Darkroom.Strip.Text, "1/4"},
		{"date", f.Shelf.Lots[0].Received.Text, "2026-09-02"},
		{"size", f.Session.ToMake[2].Size.Text, "135-36"},
		{"clock", f.Session.Starts.Text, "2026-12-03 18:30"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.name, tt.got, tt.want)
		}
	}
}

// TestOunceCountsForTheWholeFile holds that darkroom.ounce may stand after the ounces that it rules.
func TestOunceCountsForTheWholeFile(t *testing.T) {
	src := "bench: {trays: [{name: white, fill: 32 fl oz}]}\ndarkroom: {name: Cellar, ounce: imperial}\n"
	f, err := darkroom.Read([]byte(src))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := f.Bench.Trays[0].Fill.Value, 32*quantity.ImperialOunce; got != want {
		t.Errorf("fill %v mL, want %v mL", got.ML(), want.ML())
	}
}
