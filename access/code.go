package access

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha1" //nolint:gosec // what RFC 6238 has, and every app speaks; nothing rests on its collisions
	"crypto/subtle"
	"encoding/base32"
	"encoding/binary"
	"fmt"
	"net/url"
	"strings"
	"time"
)

// The codes of a second step: RFC 6238 as every app has it by default. Codes of the step before and after are taken, for clocks that differ.
const (
	codeSigns  = 6
	codeStep   = 30 * time.Second
	codeAround = 1
	secretSize = 20 // bytes, RFC 4226, 4: 160 bits
)

func plainBase32() *base32.Encoding { return base32.StdEncoding.WithPadding(base32.NoPadding) }

// NewSecret returns what a keyholder's app and the program share, in base32: 160 random bits.
func NewSecret() string {
	b := make([]byte, secretSize)
	_, _ = rand.Read(b) // it never fails: see its documentation
	return plainBase32().EncodeToString(b)
}

// ValidSecret reports whether a text is one that NewSecret may have made.
func ValidSecret(secret string) bool {
	b, err := plainBase32().DecodeString(secret)
	return err == nil && len(b) == secretSize
}

// SecretAddress is a secret as an app takes it from a picture: an otpauth address with the room's name and the keyholder's.
func SecretAddress(secret, room, name string) string {
	even := strings.NewReplacer(":", " ", "/", " ")
	room = even.Replace(room)
	u := url.URL{Scheme: "otpauth", Host: "totp", Path: "/" + room + ":" + even.Replace(name)}
	u.RawQuery = strings.ReplaceAll(url.Values{"secret": {secret}, "issuer": {room}}.Encode(), "+", "%20")
	return u.String()
}

// CodeStep is the step of time that a moment lies in.
func CodeStep(at time.Time) int64 { return at.Unix() / int64(codeStep/time.Second) }

// CodeAt is the code of a secret's bytes at a step (RFC 4226, 5.3).
func CodeAt(secret []byte, step int64, signs int) string {
	mac := hmac.New(sha1.New, secret)
	_ = binary.Write(mac, binary.BigEndian, step)
	sum := mac.Sum(nil)
	from := sum[len(sum)-1] & 0xf
	n := binary.BigEndian.Uint32(sum[from:from+4]) & 0x7fffffff
	most := uint32(1)
	for range signs {
		most *= 10
	}
	return fmt.Sprintf("%0*d", signs, n%most)
}

// FindCode returns the step whose code was typed at a moment, later than the last that was taken; false where it is none.
func FindCode(secret, typed string, at time.Time, last int64) (step int64, ok bool) {
	b, err := plainBase32().DecodeString(secret)
	if err != nil {
		return 0, false
	}
	typed = strings.ReplaceAll(strings.TrimSpace(typed), " ", "")
	for s := CodeStep(at) - codeAround; s <= CodeStep(at)+codeAround; s++ {
		if subtle.ConstantTimeCompare([]byte(CodeAt(b, s, codeSigns)), []byte(typed)) == 1 && s > last {
			step, ok = s, true
		}
	}
	return step, ok
}

// The words by which somebody signs in once without their app.
const (
	RecoveryWords = 8
	recoverySigns = 24 // of 5 bits: 120, so that a plain hash of them is enough (ASVS 5.0, 6.5.2: 112)
)

// NewRecovery returns a word that is good once, in groups of four.
func NewRecovery() string {
	text := rand.Text()[:recoverySigns]
	var groups []string
	for ; text != ""; text = text[4:] {
		groups = append(groups, text[:4])
	}
	return strings.Join(groups, "-")
}

// PlainRecovery is such a word as it is typed off a paper: in any case, with its hyphens or without; empty for what is none.
func PlainRecovery(typed string) string {
	plain := strings.NewReplacer("-", "", " ", "", "0", "O", "1", "I", "8", "B").Replace(strings.ToUpper(typed))
	if len(plain) != recoverySigns {
		return ""
	}
	return plain
}
