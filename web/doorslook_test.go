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

// The doors in the dark: who has a device in red is asked whether the paper is covered before anything white comes; then the field hides what is
// typed and lets a password manager fill it in (ASVS 5.0, 6.2.6 and 6.2.7). The list of keys is red as all else.
func TestDoorsInRed(t *testing.T) {
	t.Parallel()
	h, ilka := shared(t)
	_, _ = ilka.key(access.Member, "Wanda")
	_, _ = ilka.key(access.Sink, "by the sink")
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	lit := func(path string) {
		t.Helper()
		p.Reach(path)
		p.Audit()
		shot, err := p.Screenshot(0)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := browsertest.RedAlone(shot, 255); err == nil {
			t.Errorf("%s is red", path)
		}
	}
	dark := func(what string) {
		t.Helper()
		run(t, p, "document.querySelectorAll('details').forEach(d => d.open = true)")
		run(t, p, `document.querySelectorAll('input:not([type=hidden])').forEach(x => x.value ||= '12')`)
		p.Audit()
		look(t, p, what)
		pictured(t, p, "red-"+what)
	}
	turnRed := func() {
		t.Helper()
		p.Go("/red")
		p.Click("button", "Red light")
		p.Until("the page is red", func() bool {
			red, err := browsertest.Eval[bool](p.Tab, `document.readyState == "complete" && document.documentElement.className == "red"`)
			return err == nil && red
		})
	}
	turnRed()
	for _, path := range []string{"/sign-in", "/keys"} { // a stranger is led to the door from anywhere
		p.Go(path)
		p.See("a passphrase is typed there")
		dark("asked")
	}
	p.Click("button", "The paper is away")
	lit("/sign-in")
	for name, want := range map[string]string{"name": "text username", "passphrase": "password current-password"} {
		got, err := browsertest.Eval[string](p.Tab, `(x => x.type + " " + x.autocomplete)(document.getElementById("`+name+`"))`)
		if err != nil || got != want {
			t.Errorf("the field %s is %q, %v; want %q", name, got, err, want)
		}
	}
	p.Fill("Your name", "Ilka")
	p.Fill("Your passphrase", grey)
	p.Click("button", "Sign in")
	p.Reach("/keys")
	turnRed()
	p.Go("/keys")
	dark("keys")
	for path, link := range map[string]string{"/passphrase": "Change my passphrase", "/keyholders/new": "Make another keyholder"} {
		p.Go("/keys")
		p.Click("link", link)
		p.See("a passphrase is typed there")
		p.Click("link", "Not yet")
		p.Reach("/keys")
		p.Click("link", link)
		p.Click("button", "The paper is away")
		lit(path)
		turnRed()
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
