package access_test

import (
	"strings"
	"testing"

	"wetside/access"
)

// Lengths as OWASP ASVS 5.0 has them: 6.2.1 (8 at least, 15 recommended), 6.2.9 (64 at least are permitted); any character
// (6.2.5), no part cut off (6.2.8); the commonest refused (6.2.4).
func TestPassphraseLengthAndCharacters(t *testing.T) {
	for name, c := range map[string]struct{ typed, wrong string }{
		"nothing":                    {"", "passphrase_none"},
		"one character":              {"x", "passphrase_short"},
		"fourteen":                   {"fourteen chars", "passphrase_short"},
		"fifteen":                    {"fifteen chars :", ""},
		"fifteen of 4 bytes":         {"🟥🟧🟨🟩🟦🟪🟫⬛⬜🔴🟠🟡🟢🔵🟣", ""},
		"fourteen that look like 15": {"e\u0301twelve chars!", "passphrase_short"},
		"a thousand":                 {strings.Repeat("ab", 500), ""},
		"a thousand and one":         {strings.Repeat("ab", 500) + "c", "passphrase_long"},
		"a thousand composed":        {strings.Repeat("e\u0301", 999) + "x", ""},
		"ten kilobytes":              {strings.Repeat("tray", 2500), "passphrase_long"},
		"a megabyte":                 {strings.Repeat("a", 1<<20), "passphrase_long"},
		"no text":                    {"not a text at all \xff", "passphrase_signs"},
		"spaces at the ends":         {"  twelve signs  ", ""},
		"digits alone":               {"739164028517362", ""},
		"a NUL within":               {"a NUL \x00 is a sign too", ""},
		"a familiar one":             {"Password-Password1", "passphrase_common"},
		"a familiar one, spaced":     {"correct horse battery staple", "passphrase_common"},
		"one sign again and again":   {"----------------", "passphrase_common"},
		"one letter":                 {"aaaaaaaaaaaaaaaaaaa", "passphrase_common"},
		"a row of keys":              {"1234567890123456", "passphrase_common"},
		"their own name":             {"Ilka Brandt Ilka Brandt", "passphrase_common"},
		"with a name in it":          {"Ilka Brandt has grey gloves", ""},
	} {
		if _, wrong := access.Passphrase(c.typed, "Ilka Brandt", ""); wrong != c.wrong {
			t.Errorf("%s: %q, want %q", name, wrong, c.wrong)
		}
	}
}

// Two keyboards write an accent in two ways (Unicode Standard Annex 15); both are one passphrase.
func TestPassphraseIsNFC(t *testing.T) {
	one, _ := access.Passphrase("caf\u00e9 at the long sink")
	two, _ := access.Passphrase("cafe\u0301 at the long sink")
	if one == "" || one != two || access.Typed("cafe\u0301 at the long sink") != one {
		t.Errorf("%q, %q", one, two)
	}
}

func TestSignsIsEven(t *testing.T) {
	for _, name := range []string{"Ilka Brandt", "  ilka   BRANDT ", "ILKA brandt"} {
		if got := access.Signs(name); got != "ilka brandt" {
			t.Errorf("%q: %q", name, got)
		}
	}
	if access.Signs("Zoe\u0308") != access.Signs("ZOË") {
		t.Error("an accent typed in two ways is two names")
	}
}
