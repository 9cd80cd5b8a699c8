package darkroom_test

import (
	"os"
	"strings"
	"testing"

	"wetside/darkroom"
)

// TestDocs holds that the page about the file names every field and every word to choose from.
func TestDocs(t *testing.T) {
	page, err := os.ReadFile("../docs/darkroom-file.md")
	if err != nil {
		t.Fatal(err)
	}
	named := func(fields []darkroom.FormField) int {
		for _, f := range fields {
			for _, word := range append(strings.Split(f.Key, "["), f.Words...) {
				word = strings.TrimSuffix(word, "]")
				if word != "" && !strings.Contains(string(page), "`"+word+"`") && !strings.Contains(string(page), " "+word+" ") &&
					!strings.Contains(string(page), "{"+word+":") {
					t.Errorf("the page does not name %q of %s", word, f.Name)
				}
			}
		}
		return len(fields)
	}
	total := named(darkroom.FormFields[darkroom.Room](nil)) + named(darkroom.FormFields[darkroom.Bench](nil)) +
		named(darkroom.FormFields[darkroom.Shelf](nil)) + named(darkroom.FormFields[darkroom.Session](nil)) +
		named(darkroom.FormFields[darkroom.Person](nil))
	if total < 120 {
		t.Errorf("%d fields looked up, want all", total)
	}
}
