package sheet_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/darkroom/example"
	"wetside/plan"
	"wetside/sheet"
	"wetside/words"
)

// render draws the example's mix sheet.
func render(t *testing.T, paper string) []byte {
	t.Helper()
	day := time.Date(2027, 2, 18, 15, 0, 0, 0, time.UTC)
	f, err := example.File(day)
	if err != nil {
		t.Fatal(err)
	}
	f.Darkroom.PrintOn = paper
	p, err := plan.Make(t.Context(), plan.Request{File: f, Now: day})
	if err != nil {
		t.Fatal(err)
	}
	v, err := words.New("en", f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := sheet.Mix(&b, v, p, f); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestSameInputSameBytes(t *testing.T) {
	if !bytes.Equal(render(t, "A4"), render(t, "A4")) {
		t.Error("two renders differ")
	}
}

// The sheet is read back by poppler: its size, and the sentences of the readings.
func TestReadBack(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal(err)
		}
		t.Skip("no pdftotext on this machine")
	}
	for paper, size := range map[string]string{"A4": "595.28 x 841.89", "Letter": "612 x 792"} {
		name := filepath.Join(t.TempDir(), "mix.pdf")
		if err := os.WriteFile(name, render(t, paper), 0o600); err != nil {
			t.Fatal(err)
		}
		info, err := exec.CommandContext(t.Context(), "pdfinfo", name).Output()
		if err != nil || !strings.Contains(string(info), size) {
			t.Errorf("%s: %v, %s; want %s", paper, err, info, size)
		}
		text, err := exec.CommandContext(t.Context(), "pdftotext", "-layout", name, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		flat := strings.Join(strings.Fields(strings.ReplaceAll(string(text), "\u00a0", " ")), " ")
		for _, want := range []string{"Lock House Darkroom", "Gloves and goggles on", "Developer → white tray", "stop here", "acid into water"} {
			if !strings.Contains(flat, want) {
				t.Errorf("%s: %q is not on the sheet", paper, want)
			}
		}
	}
}
