package words_test

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// tidy fails for what no sentence may have.
func tidy(t *testing.T, said string) {
	t.Helper()
	glued := regexp.MustCompile(`[0-9½¼¾](mL|L|fl|g|mm|cm|°C|°F|min|s|h|%)\b`)
	parted := regexp.MustCompile(`[0-9] (mL|L|fl|imp|US|g|mm|cm|°C|°F|min|s|h|%)\b`)
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

// Of the message files themselves, of every language, every message, said or not.
func TestMessagesAreTidy(t *testing.T) {
	files, err := filepath.Glob("active.*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("message files: %v, %v", files, err)
	}
	for _, name := range files {
		t.Run(name, func(t *testing.T) { messagesAreTidy(t, name) })
	}
}

func messagesAreTidy(t *testing.T, name string) {
	t.Helper()
	parted := regexp.MustCompile(`([0-9]|\.(Number|Amount|Mark)}}) (mL|L|fl|g|mm|cm|°C|°F|min|s|h|%|{{\.Unit}})(\b|$)`)
	label := regexp.MustCompile(`^label\.`) // some show what to type, or are typed into a file, where spaces are plain
	for key, forms := range messages(t, name) {
		for form, text := range forms {
			for _, wrong := range []struct {
				what string
				is   bool
			}{
				{"is empty", text == ""},
				{"has two spaces", strings.Contains(text, "  ")},
				{"has a space at an end", !strings.HasPrefix(key, "list.") && !strings.HasPrefix(key, "sign.") && strings.TrimSpace(text) != text},
				{"has an exclamation mark", strings.Contains(text, "!") && key != "problem.tag"}, // it names the sign
				{"parts a number from its unit", !label.MatchString(key) && parted.MatchString(text)},
				{"does not close what it sets heavy", strings.Count(text, "**")%2 != 0},
				{"does not close a place", strings.Count(text, "{{") != strings.Count(text, "}}")},
			} {
				if wrong.is {
					t.Errorf("%s (%s) %s: %q", key, form, wrong.what, text)
				}
			}
		}
	}
}
