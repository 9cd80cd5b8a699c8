package words_test

import (
	"os"
	"path/filepath"
	"testing"

	"wetside/internal/packed"
)

// The packed message files are the ones beside them.
func TestPacked(t *testing.T) {
	names, err := filepath.Glob("active.*.toml")
	if err != nil || len(names) < 4 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		if name == "active.en.toml" {
			continue // spoken first, so not packed
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		packed.Hold(t, filepath.Join("packed", name+".gz"), text, *update)
	}
}
