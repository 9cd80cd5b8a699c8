package cli_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"wetside/cli"
	"wetside/darkroom/example"
)

// A terminal has 80 columns: no line is wider, no place in a sentence is left open, no sentence shows as its key.
func TestLinesFitATerminal(t *testing.T) {
	name := filepath.Join(t.TempDir(), "example.yaml")
	if err := os.WriteFile(name, example.YAML(clock()), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"baths", name},
		{"baths", name, "--material", "FB paper"},
		{"baths", name, "--material", "film"},
		{"wash", "--material", "FB paper", "--standard", "archival", "--prints", "30", "--vessels", "4", "--water", "6C"},
		{"wash", "--material", "RC paper", "--aid", "--contact", "5 s"},
		{"wash", "--material", "film", "--prints", "2", "--tray", "600 mL"},
		{"ph", "sodium carbonate monohydrate 0.25 mol/kg", "sodium sulfite 0.3 mol/kg", "borax 0.05 mol/kg", "citric acid 0.01 mol/kg"},
	} {
		t.Run(strings.Join(args[:1], " ")+" "+strings.Join(args[2:], " "), func(t *testing.T) {
			var out, errs bytes.Buffer
			streams := cli.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}
			if code := cli.Run(t.Context(), streams, args, cli.Parts{Now: clock}); code != cli.Done {
				t.Fatalf("status %d: %s", code, errs.String())
			}
			if out.Len() < 40 {
				t.Fatalf("said %q", out.String())
			}
			for line := range strings.Lines(out.String()) {
				line = strings.TrimRight(line, "\n")
				if n := utf8.RuneCountInString(line); n > 80 {
					t.Errorf("%d columns: %s", n, line)
				}
				if strings.Contains(line, "<no value>") || strings.Contains(line, "[tell.") || strings.Contains(line, "[label.") {
					t.Errorf("an open place: %s", line)
				}
			}
		})
	}
}
