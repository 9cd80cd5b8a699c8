package main

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"log/slog"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/cli"
)

// pair writes a certificate for 127.0.0.1 and its key.
func pair(t *testing.T) (cert, key string, roots *x509.CertPool) {
	t.Helper()
	k, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	form := &x509.Certificate{
		SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: "darkroom.test"}, IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)},
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour), IsCA: true, BasicConstraintsValid: true,
	}
	der, err := x509.CreateCertificate(rand.Reader, form, form, &k.PublicKey, k)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalPKCS8PrivateKey(k)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	cert, key = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	for path, block := range map[string]*pem.Block{cert: {Type: "CERTIFICATE", Bytes: der}, key: {Type: "PRIVATE KEY", Bytes: secret}} {
		if err := os.WriteFile(path, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	own, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	roots = x509.NewCertPool()
	roots.AddCert(own)
	return cert, key, roots
}

// Over https each answer, of pages, assets, the API and what is not there, says that the browser shall come by nothing else for a year, and
// plain http to that address gets nothing (RFC 6797; ASVS 5.0, 3.4.1 and 12.2.1). Over plain http it is not said.
func TestHTTPSStays(t *testing.T) {
	cert, key, roots := pair(t)
	at, _ := startedAs(t, cli.ServeConfig{Addr: "127.0.0.1:0", Where: cli.Where{Dir: t.TempDir(), Darkroom: "darkroom"}, Example: true, Cert: cert, Key: key})
	c := visitor(t)
	c.Transport = &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots, MinVersion: tls.VersionTLS12}}
	paths := []string{"/", "/nowhere", "/worker.js", "/darkroom.yaml", "/api/v1/baths", "/api/v1/openapi.json", "/api/nowhere"}
	for _, path := range paths {
		if got := headOf(t, c, at+path).Get("Strict-Transport-Security"); got != "max-age=31536000" {
			t.Errorf("GET %s: Strict-Transport-Security %q", path, got)
		}
	}
	plain, _, _ := asked(t, visitor(t), http.MethodGet, strings.Replace(at, "https", "http", 1)+"/", nil)
	if plain != http.StatusBadRequest {
		t.Errorf("plain http to the same address: %d", plain)
	}
	open, _ := started(t, t.TempDir(), "127.0.0.1:0")
	for _, path := range paths {
		if got := headOf(t, visitor(t), open+path).Get("Strict-Transport-Security"); got != "" {
			t.Errorf("plain http, GET %s: Strict-Transport-Security %q", path, got)
		}
	}
}

func headOf(t *testing.T, c *http.Client, at string) http.Header {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, at, nil)
	if err != nil {
		t.Fatal(err)
	}
	resp, err := c.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	_ = resp.Body.Close()
	return resp.Header
}

// What goes wrong below the pages stands in the same log, in the same form, with the moment and its distance from UTC: a panic, which
// ends that one answer and no other, and a TLS handshake that fails (ASVS 5.0, 16.2 and 16.3.4).
func TestTroubleBelowIsLogged(t *testing.T) {
	var log bytes.Buffer
	logger := slog.New(slog.NewTextHandler(&log, nil))
	cert, key, _ := pair(t)
	l, _, err := house{now: time.Now}.listen(t.Context(), cli.ServeConfig{Addr: "127.0.0.1:0", Cert: cert, Key: key})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	s := server(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/panic" {
			panic("a hole in the floor")
		}
	}), logger)
	go func() { done <- answer(ctx, s, l) }()
	c := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{InsecureSkipVerify: true, MinVersion: tls.VersionTLS12}}} //nolint:gosec // made here
	for path, fails := range map[string]bool{"/panic": true, "/": false} {
		r, _ := http.NewRequestWithContext(t.Context(), http.MethodGet, "https://"+l.Addr().String()+path, nil)
		resp, err := c.Do(r)
		if (err != nil) != fails {
			t.Errorf("GET %s: %v", path, err)
		}
		if err == nil {
			_ = resp.Body.Close()
		}
	}
	old := &tls.Dialer{Config: &tls.Config{InsecureSkipVerify: true, MinVersion: tls.VersionTLS10, MaxVersion: tls.VersionTLS11}} //nolint:gosec // what is refused
	if conn, err := old.DialContext(t.Context(), "tcp", l.Addr().String()); err == nil {
		_ = conn.Close()
		t.Error("TLS 1.1 is let in")
	}
	stop()
	if err := <-done; err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"a hole in the floor", "TLS handshake error"} {
		if !strings.Contains(log.String(), want) {
			t.Errorf("the log lacks %q", want)
		}
	}
	for line := range strings.Lines(strings.TrimSpace(log.String())) {
		at, _, _ := strings.Cut(strings.TrimPrefix(line, "time="), " ")
		if _, err := time.Parse(time.RFC3339Nano, at); err != nil || !strings.Contains(line, "level=WARN") {
			t.Errorf("a line of another form: %q", line)
		}
	}
}

// What is for building and watching it is not served beside the pages (ASVS 5.0, 13.4.2 and 13.4.5).
func TestNothingForBuildersIsServed(t *testing.T) {
	at, _ := started(t, t.TempDir(), "127.0.0.1:0")
	for _, path := range []string{"/parts", "/metrics", "/livez", "/readyz", "/debug/pprof/", "/.git/config"} {
		if status, _, _ := asked(t, visitor(t), http.MethodGet, at+path, nil); status != http.StatusNotFound {
			t.Errorf("GET %s: %d", path, status)
		}
	}
}
