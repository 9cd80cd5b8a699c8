package access_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"wetside/access"
)

// The words that docs/security.md lists make up no passphrase, nor do the darkroom's name and the keyholder's: once or repeated, with figures round
// them, in any case (ASVS 5.0, 6.1.2 and 6.2.11). Among others they may stand.
func TestWordsToldAreRefused(t *testing.T) {
	text, err := os.ReadFile("../docs/security.md")
	if err != nil {
		t.Fatal(err)
	}
	_, part, _ := strings.Cut(string(text), "A passphrase must not be made of")
	part, _, _ = strings.Cut(part, "\n\n")
	words := []string{"Lock House Darkroom", "Ilka Example"}
	for _, m := range regexp.MustCompile("`([a-z]+)`").FindAllStringSubmatch(part, -1) {
		words = append(words, m[1])
	}
	if len(words) < 8 {
		t.Fatalf("only %q are told", words)
	}
	for _, w := range words {
		for _, p := range []string{strings.Repeat(w, 4), strings.ToUpper(w) + " " + w + "-" + w + "_" + w + "2026!", "1234567890" + w + w} {
			if _, wrong := access.Passphrase(p, words[:2]...); wrong != "passphrase_common" {
				t.Errorf("%q is taken: %q", p, wrong)
			}
		}
		if _, wrong := access.Passphrase("seven grey gloves, a "+w, words[:2]...); wrong != "" {
			t.Errorf("among others %q is refused: %q", w, wrong)
		}
	}
}
