package words_test

import (
	"regexp"
	"strings"
	"testing"
)

// tidy fails for what no sentence may have.
func tidy(t *testing.T, said string) {
	t.Helper()
	glued := regexp.MustCompile(`[0-9½¼¾](mL|L|fl|g|mm|cm|°C|°F|min|s|h|%)\b`)
	parted := regexp.MustCompile(`[0-9] (mL|L|fl oz|g|mm|cm|°C|°F|min|s|h|%)\b`)
	for line := range strings.Lines(said) {
		_, sentence, found := strings.Cut(line, "│")
		if found {
			line = sentence
		}
		line = strings.TrimSpace(line)
		for _, wrong := range []struct {
			what string
			is   bool
		}{
			{"a place without a value", strings.Contains(line, "<no value>") || strings.Contains(line, "{{")},
			{"a missing message", regexp.MustCompile(`\[[a-z_]+\.[a-z_.0-9]+\]`).MatchString(line)},
			{"two spaces", strings.Contains(line, "  ")},
			{"a unit glued to its number", glued.MatchString(line)},
			{"a number that can be parted from its unit", parted.MatchString(line) && !strings.Contains(line, "‘") && !strings.Contains(line, "10 s every minute")},
			{"an exclamation mark", strings.Contains(line, "!")},
			{"a space before a stop", strings.Contains(line, " .") || strings.Contains(line, " ,")},
			{"two stops", strings.Contains(line, "..")},
			{"a turn of weight", strings.Contains(line, "\uE000")},
		} {
			if wrong.is {
				t.Errorf("%s in %q", wrong.what, line)
			}
		}
	}
}
