package main

import (
	"context"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"wetside/cli"
	"wetside/internal/browsertest"
)

// A room over https in a real browser, at a name that is not this machine's own: the first keyholder by the word, an evening that
// others join, a phone at the sink; and the sink's page comes up again without the network, which browsers do over https alone.
func TestRoomInABrowserOverHTTPS(t *testing.T) {
	cert, key, _ := pair(t)
	text, err := os.ReadFile(cert)
	if err != nil {
		t.Fatal(err)
	}
	browser := &browsertest.Browser{Trusts: text}
	t.Cleanup(func() {
		if err := browser.Close(); err != nil {
			t.Error(err)
		}
	})
	at, word, stop := roomToJoin(t, cert, key)
	home := strings.Replace(at, "127.0.0.1", browsertest.MappedHost, 1)

	ilka := browsertest.Open(t, browser, home, browsertest.Phone())
	ilka.Go("/")
	ilka.Reach("/keyholders/new")
	ilka.Fill("The one-time word", word)
	ilka.Fill("Name", "Ilka")
	ilka.Fill("Passphrase", "seven grey gloves on a line")
	ilka.Click("button", "Make the keyholder")
	ilka.See("You are the keyholder")
	holds(t, ilka, "isSecureContext && location.protocol === 'https:' && document.cookie === ''")
	ilka.Go("/")
	ilka.Click("button", "Let others join")
	ilka.Reach("/handover")
	ilka.Go("/wall")
	wall, err := ilka.HTML()
	if err != nil {
		t.Fatal(err)
	}
	code := regexp.MustCompile(`/join/[0-9A-Z]{10}`).FindString(wall)
	if code == "" {
		t.Fatal("no code hangs on the wall")
	}

	mo := browsertest.Open(t, browser, home, browsertest.Phone())
	mo.Go(code)
	mo.Fill("Your first name", "Mo")
	mo.Click("button", "Join")
	mo.See("You are here as")
	mo.Go("/sink")
	if _, err := browsertest.Eval[int](mo.Tab, `window.kept = false, setInterval(() => caches.open("wetside-pages").then((c) => c.match("/sink"))
		.then((k) => { window.kept = !!k && !!navigator.serviceWorker.controller }), 50)`); err != nil {
		t.Fatal(err)
	}
	mo.Until("the page is kept", func() bool {
		kept, err := browsertest.Eval[bool](mo.Tab, "window.kept")
		return err == nil && kept
	})
	mo.ExpectCuts()
	ilka.ExpectCuts()
	stop()
	mo.Go("/sink")
	mo.See("Developer")
}

func holds(t *testing.T, p *browsertest.Page, what string) {
	t.Helper()
	if ok, err := browsertest.Eval[bool](p.Tab, what); err != nil || !ok {
		t.Errorf("%s: %v, %v", what, ok, err)
	}
}

// roomToJoin starts a room over https that nobody keeps yet, and returns its address, its word and what ends it.
func roomToJoin(t *testing.T, cert, key string) (at, word string, stop func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	r, w := io.Pipe()
	done := make(chan error, 1)
	go func() {
		done <- house{now: time.Now}.serve(ctx, cli.ServeConfig{
			Version: "test", Out: w, Addr: "0.0.0.0:0", Where: cli.Where{Dir: t.TempDir(), Darkroom: "darkroom"}, Example: true, Cert: cert, Key: key,
		})
		_ = w.Close()
	}()
	ended := false
	stop = func() {
		if ended {
			return
		}
		ended = true
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	t.Cleanup(stop)
	b := make([]byte, 4096)
	n, err := r.Read(b)
	if err != nil {
		t.Fatal(err)
	}
	go func() { _, _ = io.Copy(io.Discard, r) }()
	said := string(b[:n])
	port := regexp.MustCompile(`https://\S+:(\d+)/`).FindStringSubmatch(said)
	words := regexp.MustCompile(`(?m)^    ([A-Z2-7]{4}-[A-Z2-7]{4}-[A-Z2-7]{4})$`).FindStringSubmatch(said)
	if port == nil || words == nil {
		t.Fatalf("it says %q", said)
	}
	return "https://127.0.0.1:" + port[1], words[1], stop
}
