package words_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

func TestReadErrorSaysWhereAndWhatToDo(t *testing.T) {
	volume := func(s string) error { _, err := quantity.ReadVolume(s, quantity.NoOunce); return err }
	window := func(s string) error { _, err := quantity.ReadWindow(s, quantity.OunceUS); return err }
	temperature := func(s string) error { _, err := quantity.ReadCelsius(s); return err }
	share := func(s string) error { _, err := quantity.ReadShare(s); return err }
	period := func(s string) error { _, err := quantity.ReadPeriod(s); return err }
	label := func(s string) error { _, err := dilution.Read(s, dilution.Options{}); return err }
	paper := func(s string) error { _, err := material.Read(s); return err }
	role := func(s string) error { _, err := process.ReadRole(s); return err }
	v := voice(t, quantity.Metric)
	var b strings.Builder
	for _, tc := range []struct {
		read func(string) error
		text []string
	}{
		{volume, []string{"", "1", "mL", "12 oz", "1/2 gal", "2 litters", "-1 L", "100 g", "1 L of water", "1,000 mL", "1/0 L", "900000 L", "\xff", strings.Repeat("1", 300)}},
		{window, []string{"1 L to 900 mL", "1 to 2"}},
		{temperature, []string{"20", "300 K", "-400 °C"}},
		{share, []string{"0.1", "10 %%"}},
		{period, []string{"1.5 months", "soon"}},
		{label, []string{"", "9", "1+0", "0+9", "1+", "+9", "5 in 3", "120 %", "1+1+1+10", "1+9 and a bit", "12 oz per quart", "9+1 developer"}},
		{paper, []string{"glass", "RC papr"}},
		{role, []string{"developper"}},
	} {
		for _, text := range tc.text {
			err := tc.read(text)
			if err == nil {
				t.Errorf("%q was read", text)
				continue
			}
			said := v.ReadError(fmt.Errorf("wrapped: %w", err)).Text()
			fmt.Fprintf(&b, "%.20q │ %s\n", text, said)
		}
	}
	golden(t, "read errors", b.String())
}

func TestReadErrorOfAnotherKindIsNeutral(t *testing.T) {
	v := voice(t, quantity.Metric)
	if got, want := v.ReadError(errors.New("disk on fire")).Text(), "Something went wrong that nobody foresaw."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Every file that the reader of the darkroom file refuses in its own tests is refused here in whole sentences.
func TestProblemsOfBadFilesAreSaid(t *testing.T) {
	files, err := filepath.Glob("../darkroom/testdata/bad/*.yaml")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d bad files, %v", len(files), err)
	}
	v := voice(t, quantity.Metric)
	kinds := map[darkroom.ProblemKind]bool{}
	for _, name := range files {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		_, err = darkroom.Read(src)
		problems := darkroom.Problems{}
		if !errors.As(err, &problems) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, p := range problems {
			kinds[p.Kind] = true
			said := v.Problem(p).Text()
			if first := []rune(said)[0]; strings.ToUpper(string(first)) != string(first) || !strings.HasSuffix(said, ".") && !strings.HasSuffix(said, "?") {
				t.Errorf("%s: %q is no sentence", name, said)
			}
			for _, wrong := range []string{"<no value>", "  ", "‘’", "[problem."} {
				if strings.Contains(said, wrong) {
					t.Errorf("%s: %q in %q", name, wrong, said)
				}
			}
		}
	}
	if len(kinds) < 15 {
		t.Errorf("only %d kinds of problems in the bad files", len(kinds))
	}
}

func TestProblemAndItsPlace(t *testing.T) {
	v := voice(t, quantity.Metric)
	p := darkroom.Problem{
		Path: "session.to_make[1].sheets", Line: 41, Column: 15, Kind: darkroom.ProblemNotACount, Found: "-3",
		Expected: darkroom.Expected{What: "count", Low: "1"},
	}
	if got, want := v.Problem(p).Text(), "‘-3’ should be a whole number above 0."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := v.Place(p), "line 41, column 15"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
