package access_test

import (
	"encoding/base32"
	"net/url"
	"testing"
	"time"

	"wetside/access"
)

// RFC 6238, appendix B: the codes of eight figures by SHA-1, and RFC 4226, appendix D: those of six by count.
func TestCodesAreTheStandards(t *testing.T) {
	secret := []byte("12345678901234567890")
	for at, want := range map[int64]string{
		59: "94287082", 1111111109: "07081804", 1111111111: "14050471", 1234567890: "89005924", 2000000000: "69279037", 20000000000: "65353130",
	} {
		if got := access.CodeAt(secret, access.CodeStep(time.Unix(at, 0)), 8); got != want {
			t.Errorf("at %d: %s, want %s", at, got, want)
		}
	}
	for n, want := range []string{"755224", "287082", "359152", "969429", "338314", "254676", "287922", "162583", "399871", "520489"} {
		if got := access.CodeAt(secret, int64(n), 6); got != want {
			t.Errorf("count %d: %s, want %s", n, got, want)
		}
	}
}

// A code is good for its half minute and the one on each side, once; nothing else is (RFC 6238, 5.2).
func TestCodeIsGoodOnce(t *testing.T) {
	raw := []byte("12345678901234567890")
	secret := base32.StdEncoding.EncodeToString(raw)
	now := time.Unix(1111111111, 0)
	here := access.CodeStep(now)
	for off := int64(-3); off <= 3; off++ {
		code := access.CodeAt(raw, here+off, 6)
		step, ok := access.FindCode(secret, " "+code[:3]+" "+code[3:], now, 0)
		if want := off >= -1 && off <= 1; ok != want || ok && step != here+off {
			t.Errorf("%d steps off: %d, %v, want %v", off, step, ok, want)
		}
		if _, ok := access.FindCode(secret, code, now, here+1); ok {
			t.Errorf("%d steps off, taken before: taken again", off)
		}
	}
	for _, wrong := range []string{"", "05047", "0504711", "abcdef", "000000"} {
		if _, ok := access.FindCode(secret, wrong, now, 0); ok {
			t.Errorf("%q is taken", wrong)
		}
	}
}

// Secrets have 160 bits (RFC 4226, 4), recovery words 120, and none comes twice; an app reads the address.
func TestSecretsAndRecoveryWords(t *testing.T) {
	seen := map[string]bool{}
	for range 1000 {
		s, w := access.NewSecret(), access.NewRecovery()
		if !access.ValidSecret(s) || access.ValidSecret(s[1:]) || seen[s] || seen[w] || len(w) != 29 {
			t.Fatalf("%q, %q", s, w)
		}
		seen[s], seen[w] = true, true
	}
	if got := access.PlainRecovery(" abcd-efgh-2345-6780-wxyz-abc1 "); got != "ABCDEFGH234567BOWXYZABCI" {
		t.Errorf("a word as it is typed: %q", got)
	}
	if got := access.PlainRecovery("123456"); got != "" {
		t.Errorf("a code is a recovery word: %q", got)
	}
	at, err := url.Parse(access.SecretAddress("JBSWY3DPEHPK3PXP", "Lock House & Co", "Ilka: Brandt"))
	if err != nil || at.Scheme != "otpauth" || at.Host != "totp" || at.Query().Get("secret") != "JBSWY3DPEHPK3PXP" || at.Query().Get("issuer") != "Lock House & Co" {
		t.Errorf("%v, %v", at, err)
	}
}
