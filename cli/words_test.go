package cli_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"wetside/trade/quantity"
	"wetside/words"
)

// What the commands say by a kind that a floor below makes: each kind has its sentence, so that none shows as its key.
func TestEveryKindIsSaid(t *testing.T) {
	v, err := words.New("en", quantity.Metric, quantity.OunceUS)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ dir, typeName, table string }{
		{"../trade/chem", "Why", "chem"},
		{"../trade/chem", "Note", "ph"},
		{"../trade/wash", "Why", "wash"},
		{"../trade/wash", "FindingKind", "wash"},
		{"../trade/hazard", "FindingKind", "hazard"},
		{"../trade/hazard", "PHNote", "ph_rule"},
		{"../trade/hazard/meet", "Effect", "meets"},
		{"../trade/hazard/meet", "Effect", "meets_short"},
		{"../trade/hazard", "Why", "mixture"},
		{"../trade/hazard", "CautionKind", "person"},
		{"../book", "FieldWhy", "field"},
		{"../book", "FindingKind", "odd"},
	} {
		for _, kind := range kinds(t, c.dir, c.typeName) {
			if got := v.Tell(c.table + "." + kind).Text(); strings.HasPrefix(got, "[") {
				t.Errorf("%s.%s %q has no sentence", c.dir, c.typeName, kind)
			}
		}
	}
	for _, way := range regexp.MustCompile(`"([a-z_]+)"`).FindAllStringSubmatch(between(t, "../trade/wash/wash.go", "func (w Way) String"), -1) {
		if got := v.Label("way_" + way[1]); strings.HasPrefix(got, "[") {
			t.Errorf("the way %q has no name", way[1])
		}
	}
}

// kinds returns the values of all constants of a text type, out of the source, so that no list is kept by hand.
func kinds(t *testing.T, dir, typeName string) []string {
	t.Helper()
	files, err := filepath.Glob(dir + "/*.go")
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	line := regexp.MustCompile(`(?m)^\s+\w+\s+` + typeName + `\s+= "(\w+)"`)
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range line.FindAllStringSubmatch(string(text), -1) {
			all = append(all, m[1])
		}
	}
	if len(all) < 3 {
		t.Fatalf("%s: constants of type %s found: %q", dir, typeName, all)
	}
	return all
}

// between returns the source of a function.
func between(t *testing.T, file, head string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	_, body, ok := strings.Cut(string(text), head)
	body, _, end := strings.Cut(body, "\n}")
	if !ok || !end {
		t.Fatalf("%s: no %s", file, head)
	}
	return body
}
