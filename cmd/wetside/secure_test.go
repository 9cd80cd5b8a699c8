package main

import (
	"bufio"
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"io"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"wetside/cli"
	"wetside/internal/certmade"
)

// pair writes a certificate for 127.0.0.1 and its key.
func pair(t *testing.T) (cert, key string, roots *x509.CertPool) {
	t.Helper()
	return certmade.Pair(t, t.TempDir(), "darkroom.test", time.Now().Add(-time.Hour), time.Now().Add(time.Hour))
}

// Over https each answer, of pages, assets, the API and what is not there, says that the browser shall come by nothing else for a year, and
// which over plain http is not said (RFC 6797; ASVS 5.0, 3.4.1).
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
	open, _ := started(t, t.TempDir(), "127.0.0.1:0")
	for _, path := range paths {
		if got := headOf(t, visitor(t), open+path).Get("Strict-Transport-Security"); got != "" {
			t.Errorf("plain http, GET %s: Strict-Transport-Security %q", path, got)
		}
	}
}

// Whoever comes to the address of https by plain http sees nothing of the darkroom: pages are led to https, programs and forms refused with a
// sentence, in whole and in pieces; what is neither gets nothing (ASVS 5.0, 12.2.1).
func TestPlainHTTPIsTurned(t *testing.T) {
	cert, key, roots := pair(t)
	at, _ := startedAs(t, cli.ServeConfig{Addr: "127.0.0.1:0", Where: cli.Where{Dir: t.TempDir(), Darkroom: "darkroom"}, Example: true, Cert: cert, Key: key})
	host := strings.TrimPrefix(at, "https://")
	for _, c := range []struct {
		send   string
		status int
		to     string
	}{
		{"GET /shelf?q=a%2Fb HTTP/1.1\r\nHost: " + host + "\r\n\r\n", http.StatusTemporaryRedirect, at + "/shelf?q=a%2Fb"},
		{"HEAD / HTTP/1.1\r\nHost: darkroom.lan:8460\r\n\r\n", http.StatusTemporaryRedirect, "https://darkroom.lan:8460/"},
		{"GET //elsewhere.test/ HTTP/1.1\r\nHost: " + host + "\r\n\r\n", http.StatusTemporaryRedirect, at + "//elsewhere.test/"},
		{"GET / HTTP/1.1\r\nHost: a.test/b?c\r\n\r\n", http.StatusBadRequest, ""},
		{"GET / HTTP/1.0\r\n\r\n", http.StatusBadRequest, ""},
		{"POST /sign-in HTTP/1.1\r\nHost: " + host + "\r\nContent-Length: 0\r\n\r\n", http.StatusBadRequest, ""},
		{"GET /api/v1/baths HTTP/1.1\r\nHost: " + host + "\r\n\r\n", http.StatusBadRequest, ""},
		{"GET / HTTP/1.1\r\nHost: " + host + "\r\nAuthorization: Bearer x\r\n\r\n", http.StatusBadRequest, ""},
		{"GARBLED\r\n\r\n", 0, ""},
		{"GET / HTTP/1.1\r\nX: " + strings.Repeat("x", 2*mostHeader) + "\r\n\r\n", 0, ""},
	} {
		for _, piece := range []int{len(c.send), 1} {
			if piece == 1 && len(c.send) > 300 {
				continue
			}
			status, to, text := spoken(t, host, c.send, piece)
			if status != c.status || to != c.to || c.status != 0 && !strings.Contains(text, "https://") || strings.Contains(text, "Lock House") {
				t.Errorf("%.60q in pieces of %d: %d to %q, %q; want %d to %q", c.send, piece, status, to, text, c.status, c.to)
			}
		}
	}
	over := visitor(t)
	over.Transport = &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots, MinVersion: tls.VersionTLS12}}
	if status, _, _ := asked(t, over, http.MethodGet, at+"/shelf", nil); status != http.StatusOK {
		t.Errorf("over https: %d", status)
	}
}

// spoken sends bytes and returns the answer; 0 for none.
func spoken(t *testing.T, host, send string, piece int) (status int, to, text string) {
	t.Helper()
	c, err := (&net.Dialer{}).DialContext(t.Context(), "tcp", host)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = c.Close() }()
	for left := send; left != ""; left = left[min(piece, len(left)):] {
		if _, err := c.Write([]byte(left[:min(piece, len(left))])); err != nil {
			break // it has answered
		}
	}
	method, _, _ := strings.Cut(send, " ")
	resp, err := http.ReadResponse(bufio.NewReader(c), &http.Request{Method: method})
	if err != nil {
		return 0, "", ""
	}
	defer func() { _ = resp.Body.Close() }()
	body, _ := io.ReadAll(resp.Body)
	if method == http.MethodHead {
		body = []byte("https://") // none has one
	}
	return resp.StatusCode, resp.Header.Get("Location"), string(body)
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
	l, _, err := house{now: time.Now}.listen(t.Context(), cli.ServeConfig{Addr: "127.0.0.1:0", Cert: cert, Key: key}, "")
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
