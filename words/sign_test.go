package words_test

import (
	"strings"
	"testing"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

// The signs of numbers are those of the Unicode CLDR, as golang.org/x/text has them.
func TestSignsOfNumbers(t *testing.T) {
	for _, lang := range []string{"en", "de", "fr", "es"} {
		text := message.NewPrinter(language.MustParse(lang)).Sprint(number.Decimal(1_000_000.5, number.Scale(1)))
		parts := strings.FieldsFunc(text, func(r rune) bool { return r >= '0' && r <= '9' })
		said := messages(t, "active."+lang+".toml")
		if point, group := said["sign.point"]["other"], said["sign.group"]["other"]; point != parts[len(parts)-1] || group != parts[0] {
			t.Errorf("%s: %q and %q, want those in %q", lang, point, group, text)
		}
	}
}
