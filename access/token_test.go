package access_test

import (
	"encoding/base64"
	"math/bits"
	"testing"

	"wetside/access"
)

// Tokens have 256 bits, none comes twice, and each bit is as often set as not: of 4,000 tokens the rarest and the commonest of 256 bits lie within
// six standard deviations (31.6) of 2,000 (ASVS 5.0, 7.2.3).
func TestTokensAreRandom(t *testing.T) {
	const n = 4000
	seen := map[string]bool{}
	var set [256]int
	for range n {
		token := access.Token()
		b, err := base64.RawURLEncoding.DecodeString(token)
		if err != nil || len(b) != 32 || seen[token] {
			t.Fatalf("%q: %d bytes, %v, seen before: %v", token, len(b), err, seen[token])
		}
		seen[token] = true
		for i, x := range b {
			for bit := range 8 {
				set[8*i+bit] += bits.OnesCount8(x & (1 << bit))
			}
		}
	}
	for i, k := range set {
		if k < n/2-190 || k > n/2+190 {
			t.Errorf("bit %d is set in %d of %d", i, k, n)
		}
	}
}
