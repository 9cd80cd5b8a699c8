package web_test

import (
	"net/http"
	"testing"

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
	ilka.do(http.MethodPost, "/sign-out/all", nil)
	p.Go("/sink")
	kept(false)
}
