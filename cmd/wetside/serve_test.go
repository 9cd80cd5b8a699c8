package main

import (
	"context"
	"crypto/sha1" //nolint:gosec // as lists of stolen passwords are
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"wetside/cli"
)

// started serves a directory at an address and returns where, and what it printed at the start.
func started(t *testing.T, dir, addr string, hosts ...string) (at, said string) {
	t.Helper()
	return startedAs(t, cli.ServeConfig{Addr: addr, Where: cli.Where{Dir: dir, Darkroom: "darkroom"}, Example: true, Hosts: hosts})
}

// startedAs serves as it is told.
func startedAs(t *testing.T, c cli.ServeConfig) (at, said string) {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	r, w := io.Pipe()
	done := make(chan error, 1)
	go func() {
		c.Version, c.Out = "test", w
		done <- house{now: time.Now}.serve(ctx, c)
		_ = w.Close()
	}()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	b := make([]byte, 4096)
	n, err := r.Read(b)
	if err != nil {
		t.Fatal(err)
	}
	said = string(b[:n])
	port := regexp.MustCompile(`(https?)://\S+:(\d+)/`).FindStringSubmatch(said)
	if port == nil {
		t.Fatalf("it says %q", said)
	}
	return port[1] + "://127.0.0.1:" + port[2], said
}

// visitor is a browser that follows no redirect.
func visitor(t *testing.T) *http.Client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &http.Client{Jar: jar, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
}

func asked(t *testing.T, c *http.Client, method, at string, form url.Values, header ...string) (status int, text, to string) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, at, strings.NewReader(form.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
		if header[i] == "Host" {
			r.Host = header[i+1]
		}
	}
	resp, err := c.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = resp.Body.Close() }()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return resp.StatusCode, string(body), resp.Header.Get("Location")
}

// The first start at an address that other machines reach: nothing but the page on which to make a keyholder; the word, once; from
// then on names are asked, and after a new start there is no word.
func TestFirstStartOnAnotherAddress(t *testing.T) {
	dir := t.TempDir()
	t.Run("first", func(t *testing.T) {
		at, said := started(t, dir, "0.0.0.0:0")
		word := regexp.MustCompile(`(?m)^    ([A-Z2-7]{4}-[A-Z2-7]{4}-[A-Z2-7]{4})$`).FindStringSubmatch(said)
		if word == nil || !strings.Contains(said, "in the clear") {
			t.Fatalf("it says %q", said)
		}
		c := visitor(t)
		for _, path := range []string{"/", "/shelf", "/wall", "/keys", "/sign-in", "/join/AAAAAAAAAA", "/darkroom.yaml", "/nowhere"} {
			if status, text, to := asked(t, c, http.MethodGet, at+path, nil); status != http.StatusSeeOther || to != "/keyholders/new" || strings.Contains(text, "Lock House") {
				t.Errorf("GET %s: %d to %q", path, status, to)
			}
		}
		for _, path := range []string{"/evening", "/taps", "/sign-in", "/keys", "/begin"} {
			if status, _, _ := asked(t, c, http.MethodPost, at+path, nil); status != http.StatusForbidden {
				t.Errorf("POST %s: %d", path, status)
			}
		}
		if status, text, _ := asked(t, c, http.MethodGet, at+"/api/v1/baths", nil); status != http.StatusForbidden {
			t.Errorf("the API: %d %s", status, text)
		}
		form := url.Values{"name": {"Ilka"}, "passphrase": {"seven grey gloves on a line"}}
		for _, wrong := range []string{"", "AAAA-AAAA-AAAA", word[1][:13]} {
			form.Set("word", wrong)
			if status, text, _ := asked(t, c, http.MethodPost, at+"/keyholders", form); status != http.StatusUnprocessableEntity || !strings.Contains(text, "not the one-time word") {
				t.Errorf("by the word %q: %d", wrong, status)
			}
		}
		form.Set("word", word[1])
		if status, _, to := asked(t, c, http.MethodPost, at+"/keyholders", form); status != http.StatusSeeOther || to != "/keys?did=first" {
			t.Fatalf("by the word: %d to %q", status, to)
		}
		if status, _, _ := asked(t, c, http.MethodGet, at+"/shelf", nil); status != http.StatusOK {
			t.Errorf("the keyholder at the shelf: %d", status)
		}
		other := visitor(t)
		form.Set("name", "Mo")
		if status, _, _ := asked(t, other, http.MethodPost, at+"/keyholders", form); status != http.StatusUnauthorized {
			t.Errorf("the word once more: %d", status)
		}
		if status, _, to := asked(t, other, http.MethodGet, at+"/shelf", nil); status != http.StatusSeeOther || !strings.HasPrefix(to, "/sign-in") {
			t.Errorf("a stranger at the shelf: %d to %q", status, to)
		}
	})
	t.Run("again", func(t *testing.T) {
		if _, said := started(t, dir, "0.0.0.0:0"); strings.Contains(said, "word") {
			t.Errorf("with a keyholder it says %q", said)
		}
	})
}

// The word is guessed no oftener than a passphrase.
func TestOneTimeWordIsLimited(t *testing.T) {
	at, _ := started(t, t.TempDir(), "0.0.0.0:0")
	c := visitor(t)
	limited := 0
	for range 8 {
		status, _, _ := asked(t, c, http.MethodPost, at+"/keyholders", url.Values{"name": {"Mo"}, "passphrase": {"a tap drips on the third tray"}, "word": {"guess"}})
		if status == http.StatusTooManyRequests {
			limited++
		}
	}
	if limited != 3 {
		t.Errorf("of 8 guesses %d were refused, want 3", limited)
	}
}

// A home answers its own machine by its own names, straight. What a page elsewhere had its name lead here for, and what came through a
// proxy, gets the page that says to make a keyholder.
func TestHomeIsServedToItselfAlone(t *testing.T) {
	at, said := started(t, t.TempDir(), "127.0.0.1:0", "darkroom.home.test")
	if strings.Contains(said, "word") {
		t.Errorf("it says %q", said)
	}
	c := visitor(t)
	for name, h := range map[string]struct {
		header []string
		want   int
	}{
		"itself": {nil, http.StatusOK}, "by name": {[]string{"Host", "localhost:1"}, http.StatusOK}, "by a name that is told": {[]string{"Host", "darkroom.home.test"}, http.StatusOK},
		"by another": {[]string{"Host", "rebound.test"}, http.StatusForbidden}, "through a proxy": {[]string{"X-Forwarded-For", "203.0.113.9"}, http.StatusForbidden},
		"through another": {[]string{"Forwarded", "for=203.0.113.9"}, http.StatusForbidden},
	} {
		status, text, _ := asked(t, c, http.MethodGet, at+"/shelf", nil, h.header...)
		if status != h.want || status == http.StatusForbidden && (!strings.Contains(text, "wetside keyholder make") || strings.Contains(text, "Lock House")) {
			t.Errorf("%s: %d, want %d", name, status, h.want)
		}
		if status, _, _ := asked(t, c, http.MethodGet, at+"/api/v1/baths", nil, h.header...); h.want != http.StatusOK && status != h.want {
			t.Errorf("the API, %s: %d, want %d", name, status, h.want)
		}
	}
}

// With a list of stolen passwords none of them is a new passphrase, for the first keyholder, another, or a change; it is told at its field, and
// what else was typed stays. Without a list at the path that is named nothing is served (ASVS 5.0, 6.2.12).
func TestStolenPassphrasesAreRefused(t *testing.T) {
	const grey, drip = "seven grey gloves on a line", "a tap drips on the third tray"
	sum := sha1.Sum([]byte(drip)) //nolint:gosec // as such lists are
	list := filepath.Join(t.TempDir(), "stolen.txt")
	if err := os.WriteFile(list, fmt.Appendf(nil, "%040X:9\r\n%X:4\r\n%s:1\r\n", 1, sum, strings.Repeat("F", 40)), 0o600); err != nil {
		t.Fatal(err)
	}
	at, _ := startedAs(t, cli.ServeConfig{Addr: "127.0.0.1:0", Where: cli.Where{Dir: t.TempDir(), Darkroom: "darkroom", Stolen: list}, Example: true})
	c := visitor(t)
	sends := func(path string, form url.Values, want int) {
		t.Helper()
		status, text, _ := asked(t, c, http.MethodPost, at+path, form)
		if status != want || want == http.StatusUnprocessableEntity && (!strings.Contains(text, "was stolen somewhere else") || !strings.Contains(text, `aria-invalid="true"`)) {
			t.Errorf("%s %v: %d, want %d", path, form, status, want)
		}
	}
	sends("/keyholders", url.Values{"name": {"Ilka"}, "passphrase": {drip}}, http.StatusUnprocessableEntity)
	sends("/keyholders", url.Values{"name": {"Ilka"}, "passphrase": {grey}}, http.StatusSeeOther)
	sends("/keyholders", url.Values{"name": {"Olga"}, "passphrase": {drip}}, http.StatusUnprocessableEntity)
	sends("/passphrase", url.Values{"old": {grey}, "fresh": {drip}}, http.StatusUnprocessableEntity)
	sends("/passphrase", url.Values{"old": {grey}, "fresh": {"two buckets under one drain"}}, http.StatusSeeOther)
	err := house{now: time.Now}.serve(t.Context(), cli.ServeConfig{Addr: "127.0.0.1:0", Where: cli.Where{Dir: t.TempDir(), Darkroom: "darkroom", Stolen: list + "x"}, Out: io.Discard})
	if err == nil || !strings.Contains(err.Error(), "--stolen") {
		t.Errorf("without the list: %v", err)
	}
}
