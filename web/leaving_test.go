package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"wetside/access"
	"wetside/internal/browsertest"
)

// Whoever signs out leaves no page of the darkroom on the device, nor does a sign-in that ended elsewhere, once the device asks again
// (ASVS 5.0, 14.3.1). What was tapped and not yet sent stays, to be sent.
func TestSigningOutLeavesNoPage(t *testing.T) {
	t.Parallel()
	h, ilka := shared(t)
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	p.Expect(http.StatusUnauthorized)
	kept := func(want bool) {
		t.Helper()
		run(t, p, `window.kept = -1; setInterval(async () => { let n = 0; for (const path of ["/sink", "/sink/setup.json"]) if (await caches.match(path)) n++; window.kept = n }, 50)`)
		p.Until("what is kept is what it should be", func() bool {
			n, err := browsertest.Eval[int](p.Tab, "window.kept")
			return err == nil && n == map[bool]int{true: 2, false: 0}[want]
		})
	}
	enter := func() {
		t.Helper()
		p.Go("/sign-in")
		p.Fill("Your name", "Ilka")
		p.Fill("Your passphrase", grey)
		p.Click("button", "Sign in")
		p.Reach("/")
		p.Go("/sink")
		kept(true)
	}
	enter()
	p.Go("/keys")
	p.Click("button", "Sign out")
	p.Reach("/sign-in")
	kept(false)
	enter()
	ilka.do(http.MethodPost, "/sign-out/all", url.Values{"passphrase": {grey}})
	p.Go("/sink")
	kept(false)
}

// Each page of a guest and of a member leads to signing out by its foot (ASVS 5.0, 7.4.4). It is asked about first; then the device forgets what
// it showed, and what it showed opens nothing any more.
func TestGuestsAndMembersSignOut(t *testing.T) {
	h, ilka := shared(t)
	code := ilka.share()
	mo := &device{house: h}
	mo.do(http.MethodPost, code, url.Values{"name": {"Mo"}})
	wanda, _ := ilka.key(access.Member, "Wanda")
	for name, d := range map[string]*device{"Mo": mo, "Wanda": wanda} {
		for _, path := range []string{"/", "/shelf", "/plan", "/mix", "/baths", "/handover", "/sink", "/wash", "/safety", "/room"} {
			a := d.do(http.MethodGet, path, nil)
			_, foot, _ := strings.Cut(a.Text, "<footer")
			if a.StatusCode != http.StatusOK || !strings.Contains(foot, `href="/sign-out"`) || !strings.Contains(foot, name) {
				t.Errorf("%s at %s: %d, the foot is %s", name, path, a.StatusCode, foot)
			}
		}
		before := &device{house: h, cookies: d.cookies}
		if a := d.do(http.MethodGet, "/sign-out", nil); a.StatusCode != http.StatusOK || !strings.Contains(a.Text, "What you counted stays") || !strings.Contains(a.Text, `action="/sign-out"`) {
			t.Errorf("%s is asked: %d %s", name, a.StatusCode, a.Text)
		}
		if a := before.do(http.MethodGet, "/shelf", nil); a.StatusCode != http.StatusOK {
			t.Errorf("%s, asked and not yet out: %d", name, a.StatusCode)
		}
		if a := d.do(http.MethodPost, "/sign-out", nil); a.StatusCode != http.StatusSeeOther || d.cookie("key") != "" || d.cookie("joined") != "" {
			t.Errorf("%s signs out: %d, keeps %q and %q", name, a.StatusCode, d.cookie("key"), d.cookie("joined"))
		}
		for what, d := range map[string]*device{"the device": d, "what it showed": before} {
			if a := d.do(http.MethodGet, "/shelf", nil); a.StatusCode != http.StatusSeeOther {
				t.Errorf("%s of %s after it: %d", what, name, a.StatusCode)
			}
		}
	}
	if a := ilka.do(http.MethodGet, "/sign-out", nil); !strings.Contains(a.Text, "Sign out on this device?") || strings.Contains(a.Text, "What you counted") {
		t.Errorf("a keyholder is asked: %s", a.Text)
	}
}
