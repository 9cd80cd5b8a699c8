package certfile_test

import (
	"context"
	"crypto/tls"
	"net"
	"testing"
	"time"

	"wetside/internal/certfile"
)

// Who offers nothing but what is no longer recommended gets no connection; who offers what is current gets the newest (RFC 9325, 3.1.1 and
// 4.2; ASVS 5.0, 12.1.1 and 11.3).
func TestOldTLSIsRefused(t *testing.T) {
	cert, key := write(t, t.TempDir(), "a.example", time.Now())
	pair, err := certfile.Open(cert, key, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	dial := func(client *tls.Config) (uint16, error) {
		there, here := net.Pipe()
		client.InsecureSkipVerify = true //nolint:gosec // the certificate is made here; what is asked is the cipher
		ctx, cancel := context.WithTimeout(t.Context(), 5*time.Second)
		defer cancel()
		go func() { _ = tls.Server(there, pair.Config()).HandshakeContext(ctx); _ = there.Close() }()
		c := tls.Client(here, client)
		err := c.HandshakeContext(ctx)
		return c.ConnectionState().Version, err
	}
	for name, client := range map[string]*tls.Config{
		"TLS 1.0": {MaxVersion: tls.VersionTLS10, MinVersion: tls.VersionTLS10},
		"TLS 1.1": {MaxVersion: tls.VersionTLS11, MinVersion: tls.VersionTLS10},
		"CBC":     {MaxVersion: tls.VersionTLS12, CipherSuites: []uint16{tls.TLS_ECDHE_ECDSA_WITH_AES_128_CBC_SHA, tls.TLS_ECDHE_ECDSA_WITH_AES_256_CBC_SHA}},
		"RC4":     {MaxVersion: tls.VersionTLS12, CipherSuites: []uint16{tls.TLS_ECDHE_ECDSA_WITH_RC4_128_SHA}},
	} {
		if version, err := dial(client); err == nil {
			t.Errorf("%s: let in with %s", name, tls.VersionName(version))
		}
	}
	for name, c := range map[string]struct {
		client *tls.Config
		want   uint16
	}{"TLS 1.2": {&tls.Config{MaxVersion: tls.VersionTLS12}, tls.VersionTLS12}, "any": {&tls.Config{MinVersion: tls.VersionTLS12}, tls.VersionTLS13}} {
		if version, err := dial(c.client); err != nil || version != c.want {
			t.Errorf("%s: %s, %v", name, tls.VersionName(version), err)
		}
	}
}
