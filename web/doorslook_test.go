package web_test

import (
	"net/http"
	"os"
	"path/filepath"
	"testing"

	"wetside/access"
	"wetside/internal/browsertest"
)

// pictured keeps a picture of a page where WETSIDE_PICTURES says where, to be looked at.
func pictured(t *testing.T, p *browsertest.Page, name string) {
	t.Helper()
	dir := os.Getenv("WETSIDE_PICTURES")
	if dir == "" {
		return
	}
	shot, err := p.Screenshot(0)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), shot, 0o600); err != nil {
		t.Fatal(err)
	}
}

// On a phone and at a desk, in light, in dark and in red: the first keyholder from the room's own page, a wrong passphrase, in, the keys,
// and the device as the wall. Each page holds to what is said of pages, and in red to its colour.
func TestDoorsInABrowser(t *testing.T) {
	t.Parallel()
	for name, l := range map[string]browsertest.Look{"phone": browsertest.Phone(), "desk": browsertest.Desk(), "dark": {Width: 390, Height: 844, Dark: true}} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			h := withExample(t)
			p := browsertest.Open(t, &chromium, h.URL, l)
			for _, status := range []int64{http.StatusUnprocessableEntity, http.StatusConflict, http.StatusForbidden} {
				p.Expect(status)
			}
			seen := func(what string) {
				t.Helper()
				p.Audit()
				pictured(t, p, name+"-"+what)
			}
			p.Go("/shelf")
			p.Click("link", "Who may do what")
			p.See("This is a home")
			seen("1-home")
			p.Click("link", "Make a keyholder")
			p.Fill("Name", "Ilka")
			p.Fill("Passphrase", "too short")
			p.Click("button", "Make the keyholder")
			p.See("at least 15 characters. Add")
			seen("2-short")
			p.Fill("Passphrase", grey)
			p.Click("button", "Show what is typed")
			p.See("Hide what is typed")
			seen("3-shown")
			p.Click("button", "Make the keyholder")
			p.See("You are the keyholder")
			seen("4-made")
			p.Click("button", "Sign out")
			p.Reach("/sign-in")
			p.Fill("Your name", "ilka")
			p.Fill("Your passphrase", drip)
			p.Click("button", "Sign in")
			p.See("do not fit together")
			seen("5-wrong")
			p.Fill("Your passphrase", grey)
			p.Click("button", "Sign in")
			p.Reach("/")
			p.Go("/keys")
			run(t, p, "document.querySelectorAll('details').forEach(d => d.open = true)")
			p.Fill("Name of the device, or of the member", "Wanda")
			seen("6-key")
			p.Click("button", "Make a key")
			p.See("It is shown this once")
			seen("7-token")
			p.Go("/keys")
			seen("8-keys")
			p.Go("/passphrase")
			seen("9-passphrase")
			p.Go("/keys")
			p.Fill("What it is called (may stay empty)", "by the door")
			p.Click("button", "Make it the wall")
			p.Reach("/wall")
			seen("10-wall")
			p.Go("/shelf")
			p.See("This device is the wall")
			seen("11-refused")
		})
	}
}

// The doors in the dark: no light but red, no field of the browser's own look.
func TestDoorsInRed(t *testing.T) {
	t.Parallel()
	h, ilka := shared(t)
	_, _ = ilka.key(access.Member, "Wanda")
	_, _ = ilka.key(access.Sink, "by the sink")
	for path, d := range map[string]*device{"/sign-in": {house: h}, "/keys": ilka, "/passphrase": ilka, "/keyholders/new": ilka} {
		p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
		p.Go("/sign-in")
		p.Click("button", "Red light")
		p.Reach("/red")
		if d == ilka {
			p.Go("/sign-in")
			p.Fill("Your name", "Ilka")
			p.Fill("Your passphrase", grey)
			p.Click("button", "Sign in")
			p.Reach("/")
		}
		p.Go(path)
		run(t, p, "document.querySelectorAll('details').forEach(d => d.open = true)")
		run(t, p, `document.querySelectorAll('input:not([type=hidden])').forEach(x => x.value ||= '12')`)
		p.Audit()
		look(t, p, path)
		pictured(t, p, "red-"+path[1:min(len(path), 6)])
	}
}

// A wall whose key is withdrawn does not go on showing what it showed: it is at the door within seconds.
func TestWithdrawnWallIsAtTheDoor(t *testing.T) {
	t.Parallel()
	h, ilka := shared(t)
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Desk())
	p.Expect(http.StatusUnauthorized)
	p.Go("/sign-in")
	p.Fill("Your name", "Ilka")
	p.Fill("Your passphrase", grey)
	p.Click("button", "Sign in")
	p.Reach("/")
	p.Go("/keys")
	p.Fill("What it is called (may stay empty)", "by the door")
	p.Click("button", "Make it the wall")
	p.Reach("/wall")
	p.See("Lock House Darkroom")
	for _, k := range h.keysCalled("by the door") {
		ilka.do(http.MethodPost, "/keys/"+k.ID+"/away", nil)
	}
	p.Reach("/sign-in")
}
