package certmade_test

import (
	"crypto/tls"
	"os/exec"
	"strconv"
	"testing"
	"time"

	"wetside/internal/certmade"
	"wetside/internal/outside"
)

// What is made is what OpenSSL takes for a certificate (openssl-verification-options): it vouches for itself, for its name and
// this machine, in its days alone, and the key is its own.
func TestPairByOpenSSL(t *testing.T) {
	openssl := outside.Program(t, "openssl", "openssl")
	from := time.Date(2026, time.March, 1, 12, 0, 0, 0, time.UTC)
	cert, key, _ := certmade.Pair(t, t.TempDir(), "darkroom.test", from, from.Add(24*time.Hour))
	for _, tt := range []struct {
		option, host string
		after        time.Duration
		good         bool
	}{
		{"-verify_hostname", "darkroom.test", time.Hour, true},
		{"-verify_ip", "127.0.0.1", time.Hour, true},
		{"-verify_hostname", "elsewhere.test", time.Hour, false},
		{"-verify_hostname", "darkroom.test", 48 * time.Hour, false},
	} {
		at := strconv.FormatInt(from.Add(tt.after).Unix(), 10)
		out, err := exec.CommandContext(t.Context(), openssl, "verify", "-CAfile", cert, "-attime", at, tt.option, tt.host, cert).CombinedOutput()
		if (err == nil) != tt.good {
			t.Errorf("%s after %v: %v, %s", tt.host, tt.after, err, out)
		}
	}
	if _, err := tls.LoadX509KeyPair(cert, key); err != nil {
		t.Errorf("the key is another's: %v", err)
	}
}
