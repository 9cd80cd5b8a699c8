package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"wetside/internal/browsertest"
)

// The coin's result is kept on the device: the page says what it was, with paper, time and day.
func TestScreenTestIsKept(t *testing.T) {
	h := withExample(t)
	p := inRed(t, h.URL, browsertest.Phone())
	p.Go("/red")
	p.Fill("The paper that was used", "  warm   RC ")
	p.Click("button", "No coin to be seen")
	p.See("Whole minutes, 1 to 60")
	p.Fill("Minutes under the screen", "10")
	p.Click("button", "No coin to be seen")
	p.See("nothing to be seen on warm RC after 10\u00a0minutes")
	p.Go("/shelf")
	p.See("12 March 2026: nothing to be seen on warm RC")
	p.Go("/red")
	p.Click("button", "The coin can be seen")
	p.See("it fogs warm RC within 10\u00a0minutes")
	other := inRed(t, h.URL, browsertest.Phone())
	other.See("never tested")
}

// What no test can have said is told at its field; what a device claims to keep is not believed unread.
func TestScreenTestReads(t *testing.T) {
	h := withExample(t)
	for name, tt := range map[string]struct{ paper, minutes, want string }{
		"no paper":      {"", "10", "Name the paper"},
		"a long name":   {strings.Repeat("x", 41), "10", "Name the paper"},
		"no minutes":    {"RC", "", "Whole minutes"},
		"none at all":   {"RC", "0", "Whole minutes"},
		"too many":      {"RC", "61", "Whole minutes"},
		"half a minute": {"RC", "0.5", "Whole minutes"},
	} {
		a := h.post("/red/screen", url.Values{"paper": {tt.paper}, "minutes": {tt.minutes}, "seen": {"no"}})
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(a.Text, tt.want) || a.Header.Get("Set-Cookie") != "" {
			t.Errorf("%s: %d, cookie %q", name, a.StatusCode, a.Header.Get("Set-Cookie"))
		}
	}
	for name, kept := range map[string]string{
		"nothing": "", "a word": "untested", "no day": "minutes=10&paper=RC&seen=false", "no paper": "day=2026-03-12&minutes=10&seen=false",
		"an age": "day=2026-03-12&minutes=9999&paper=RC&seen=false", "no query": "%zz", "neither": "day=2026-03-12&minutes=10&paper=RC&seen=perhaps",
	} {
		r := h.request(http.MethodGet, "/red", nil)
		r.Header.Set("Cookie", "form=red; screen="+kept)
		if a := h.ask(r); a.StatusCode != http.StatusOK || !strings.Contains(a.Text, "never tested") {
			t.Errorf("%s: %d, a test is believed", name, a.StatusCode)
		}
	}
	r := h.request(http.MethodGet, "/red", nil)
	r.Header.Set("Cookie", "screen=day=2026-03-12&minutes=10&paper=%3Cb%3Ewarm&seen=false")
	if a := h.ask(r); !strings.Contains(a.Text, "&lt;b&gt;warm") || strings.Contains(a.Text, "<b>warm") {
		t.Error("a device's own words are taken for a page's")
	}
}

// Red light leads back to where it was turned on, and nowhere else.
func TestRedLeadsBack(t *testing.T) {
	h := withExample(t)
	for back, want := range map[string]string{"/mix": "/mix", "": "/", "//evil.test": "/", "https://evil.test": "/", `/\evil.test`: "/"} {
		if a := h.post("/red", url.Values{"form": {"red"}, "back": {back}}); a.Header.Get("Location") != "/red?back="+url.QueryEscape(want) {
			t.Errorf("back %q: to %s", back, a.Header.Get("Location"))
		}
		if a := h.post("/red", url.Values{"form": {"white"}, "back": {back}}); a.Header.Get("Location") != want {
			t.Errorf("white, back %q: to %s", back, a.Header.Get("Location"))
		}
		if a := h.get("/red/white?back=" + url.QueryEscape(back)); !strings.Contains(a.Text, `name="back" value="`+want+`"`) {
			t.Errorf("asked, back %q", back)
		}
	}
}
