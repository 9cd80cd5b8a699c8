package journal_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"wetside/internal/outside"
)

// TestTheDocumentsProgram runs the program that docs/export.md gives to others on every kept export, and on one that was changed.
func TestTheDocumentsProgram(t *testing.T) {
	python := outside.Python(t, "hashlib")
	doc, err := os.ReadFile("../../docs/export.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(doc), "```python\n")
	program, _, closed := strings.Cut(rest, "```")
	if !found || !closed {
		t.Fatal("docs/export.md has no program")
	}
	files, err := filepath.Glob("../../store/testdata/backups/*.jsonl")
	if err != nil || len(files) == 0 {
		t.Fatalf("no kept exports: %v", err)
	}
	for _, file := range files {
		if out, err := exec.CommandContext(t.Context(), python, "-c", program, file).CombinedOutput(); err != nil || !strings.Contains(string(out), "entries, whole") {
			t.Errorf("%s: %v\n%s", file, err, out)
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		changed := filepath.Join(t.TempDir(), "changed.jsonl")
		text = bytes.Replace(text, []byte("mL"), []byte("cL"), 1)
		if err := os.WriteFile(changed, text, 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.CommandContext(t.Context(), python, "-c", program, changed).CombinedOutput(); err == nil {
			t.Errorf("%s, changed, passes:\n%s", file, out)
		}
	}
}
