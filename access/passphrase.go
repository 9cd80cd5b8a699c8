package access

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// How long a passphrase is, in characters (code points, after NFC). OWASP ASVS 5.0, 6.2.1: 8 at least, 15 recommended;
// 6.2.9: 64 at least are permitted.
const (
	LeastPassphrase = 15
	MostPassphrase  = 1000
)

// Passphrase makes a passphrase as typed into the one that is hashed: NFC, so that two keyboards agree, and nothing else; all
// characters are taken, and none is asked for. wrong is the key of what is wrong with a new one; whoever signs in is told
// nothing but that it does not fit. own are names that somebody would try first.
func Passphrase(typed string, own ...string) (phrase, wrong string) {
	if !utf8.ValidString(typed) {
		return "", "passphrase_signs"
	}
	if len(typed) > MostPassphrase*utf8.UTFMax*3 { // no text of so many bytes composes to so few characters
		return "", "passphrase_long"
	}
	phrase = norm.NFC.String(typed)
	n := utf8.RuneCountInString(phrase)
	switch {
	case n == 0:
		return "", "passphrase_none"
	case n < LeastPassphrase:
		return "", "passphrase_short"
	case n > MostPassphrase:
		return "", "passphrase_long"
	case common(phrase, own):
		return "", "passphrase_common"
	}
	return phrase, ""
}

// Typed makes a passphrase even as it was when it was made; whatever could not be one becomes none.
func Typed(phrase string) string {
	if len(phrase) > MostPassphrase*utf8.UTFMax*3 || !utf8.ValidString(phrase) {
		return ""
	}
	return norm.NFC.String(phrase)
}

// Signs makes a name even, as it is looked up at the door: in whatever case and form it was typed.
func Signs(name string) string {
	return norm.NFC.String(strings.ToLower(norm.NFKC.String(strings.Join(strings.Fields(name), " "))))
}

// common reports whether somebody would try a passphrase first: one that is in the lists of the commonest, one character again and
// again, a name that is known, a familiar one, once or repeated.
func common(phrase string, own []string) bool {
	bare := bared(phrase)
	if listed(bare) {
		return true
	}
	for _, o := range append(own, familiar()...) {
		if o = bared(o); o != "" && strings.Contains(bare, o) && strings.Trim(strings.ReplaceAll(bare, o, ""), "0123456789!?.") == "" {
			return true
		}
	}
	first, _ := utf8.DecodeRuneInString(bare)
	return strings.Trim(bare, string(first)) == ""
}

// bared leaves out what is put in to make a familiar word look like none.
func bared(s string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(" -_\t.", r) {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
}

// familiar are words that make up whole passphrases too often: from memory, in the languages of the pages.
func familiar() []string {
	return []string{
		"password", "passphrase", "passwort", "kennwort", "motdepasse", "contraseña", "contrasena", "letmein", "welcome", "willkommen",
		"bienvenue", "bienvenido", "qwerty", "qwertyuiop", "asdfghjkl", "zxcvbnm", "qwertzuiop", "azertyuiop", "1q2w3e4r5t6y", "1q2w3e4r",
		"1qaz2wsx3edc", "1234567890", "123456789", "0123456789", "9876543210", "abcdefghijklmnop", "abcdefghijklmno", "abcdefgh", "iloveyou", "ichliebedich",
		"admin", "administrator", "keyholder", "darkroom", "dunkelkammer", "chambrenoire", "cuartooscuro", "wetside", "developer", "fixer",
		"correcthorsebatterystaple", "thequickbrownfox", "thequickbrownfoxjumpsoverthelazydog", "tobeornottobe", "trustno1", "changeme", "secret", "geheim", "monkey", "dragon",
	}
}
