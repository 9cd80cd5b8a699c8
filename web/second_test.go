package web_test

import (
	"encoding/base32"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"wetside/access"
	"wetside/internal/browsertest"
)

// codeNow is what an app shows that has a secret, so many half minutes from now.
func (h *house) codeNow(secret string, steps int64) string {
	h.t.Helper()
	b, err := base32.StdEncoding.DecodeString(secret)
	if err != nil {
		h.t.Fatal(err)
	}
	return access.CodeAt(b, access.CodeStep(h.book.Now())+steps, 6)
}

// secretIn is the secret that a page gives to an app, wordsIn the words that it shows.
func secretIn(t *testing.T, page string) string {
	t.Helper()
	m := regexp.MustCompile(`name="secret" value="([A-Z2-7]{32})"`).FindStringSubmatch(page)
	if m == nil {
		t.Fatalf("no secret in %s", page)
	}
	return m[1]
}

func wordsIn(page string) (all []string) {
	for _, m := range regexp.MustCompile(`<b class="address">((?:[A-Z2-7]{4}-){5}[A-Z2-7]{4})</b>`).FindAllStringSubmatch(page, -1) {
		all = append(all, m[1])
	}
	return all
}

// A keyholder turns the second step on by their passphrase and a code of their app; then no sign-in goes without a code or a word, each of which
// is good once, and others sign in as before (RFC 6238, 5.2; ASVS 5.0, 6.3.3, 6.5.1, 7.5.1). It is turned off by the passphrase.
func TestSecondStep(t *testing.T) {
	h, clock := stillHouse(t)
	ilka := &device{house: h}
	ilka.signIn("Ilka", grey)
	ilka.do(http.MethodPost, "/keyholders", url.Values{"name": {"Olga"}, "passphrase": {drip}})
	if page := h.get("/sign-in").Text; strings.Contains(page, `name="code"`) {
		t.Error("a code is asked for where nobody has one")
	}
	secret := secretIn(t, ilka.do(http.MethodPost, "/second", url.Values{"do": {"begin"}}).Text)
	makes := func(passphrase, code string) answer {
		return ilka.do(http.MethodPost, "/second", url.Values{"do": {"on"}, "secret": {secret}, "passphrase": {passphrase}, "code": {code}})
	}
	for what, a := range map[string]answer{
		"a wrong passphrase": makes(drip, h.codeNow(secret, 0)), "a wrong code": makes(grey, "000000"), "a code of long ago": makes(grey, h.codeNow(secret, -9)),
	} {
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(a.Text, `aria-invalid="true"`) || secretIn(t, a.Text) != secret {
			t.Errorf("%s: %d", what, a.StatusCode)
		}
	}
	on := makes(grey, h.codeNow(secret, 0))
	words := wordsIn(on.Text)
	if on.StatusCode != http.StatusOK || len(words) != 8 {
		t.Fatalf("turning it on: %d, %d words", on.StatusCode, len(words))
	}
	if page := ilka.do(http.MethodGet, "/second", nil).Text; strings.Contains(page, secret) || len(wordsIn(page)) > 0 || !strings.Contains(page, "once: 8.") {
		t.Error("what was shown once is shown again")
	}
	signs := func(name, passphrase, code string) int {
		clock.on(90 * time.Second) // so that none is tried too often
		return (&device{house: h}).do(http.MethodPost, "/sign-in", url.Values{"name": {name}, "passphrase": {passphrase}, "code": {code}}).StatusCode
	}
	next := h.codeNow(secret, 6) // of two tries on
	for _, c := range []struct {
		what, name, passphrase, code string
		want                         int
	}{
		{"without a code", "Ilka", grey, "", http.StatusUnprocessableEntity},
		{"by its code", "Ilka", grey, next, http.StatusSeeOther},
		{"by a word", "Ilka", grey, strings.ToLower(words[3]), http.StatusSeeOther},
		{"by it again", "Ilka", grey, words[3], http.StatusUnprocessableEntity},
		{"by another, without hyphens", "Ilka", grey, strings.ReplaceAll(words[0], "-", ""), http.StatusSeeOther},
		{"by a word alone", "Ilka", drip, words[1], http.StatusUnprocessableEntity},
		{"who has none", "Olga", drip, "", http.StatusSeeOther},
	} {
		if got := signs(c.name, c.passphrase, c.code); got != c.want {
			t.Errorf("%s: %d, want %d", c.what, got, c.want)
		}
	}
	for i, want := range []int{http.StatusSeeOther, http.StatusUnprocessableEntity} { // the same half minute
		a := (&device{house: h}).do(http.MethodPost, "/sign-in", url.Values{"name": {"Ilka"}, "passphrase": {grey}, "code": {h.codeNow(secret, 0)}})
		if a.StatusCode != want {
			t.Errorf("by one code, time %d: %d, want %d", i+1, a.StatusCode, want)
		}
	}
	if page := ilka.do(http.MethodGet, "/second", nil).Text; !strings.Contains(page, "once: 6.") {
		t.Error("words that were used are left")
	}
	if a := ilka.do(http.MethodPost, "/second", url.Values{"do": {"off"}, "passphrase": {drip}}); a.StatusCode != http.StatusUnprocessableEntity {
		t.Errorf("off by a wrong passphrase: %d", a.StatusCode)
	}
	if a := ilka.do(http.MethodPost, "/second", url.Values{"do": {"off"}, "passphrase": {grey}}); a.StatusCode != http.StatusSeeOther || signs("Ilka", grey, "") != http.StatusSeeOther {
		t.Errorf("off: %d", a.StatusCode)
	}
}

// In a browser, on a phone and at a desk: from the list of keys to a second step, the words, and in by a word.
func TestSecondStepInABrowser(t *testing.T) {
	t.Parallel()
	for name, l := range map[string]browsertest.Look{"phone": browsertest.Phone(), "desk": browsertest.Desk()} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			h, _ := shared(t)
			p := browsertest.Open(t, &chromium, h.URL, l)
			p.Expect(http.StatusUnprocessableEntity)
			seen := func(what string) {
				t.Helper()
				p.Audit()
				pictured(t, p, name+"-second-"+what)
			}
			p.Go("/sign-in")
			p.Fill("Your name", "Ilka")
			p.Fill("Your passphrase", grey)
			p.Click("button", "Sign in")
			p.Reach("/")
			p.Go("/keys")
			p.Click("link", "Second step at the sign-in")
			p.See("Besides the passphrase")
			seen("1-off")
			p.Click("button", "Turn it on")
			p.See("Point the app at this picture")
			seen("2-app")
			secret, err := browsertest.Eval[string](p.Tab, `document.querySelector('[name=secret]').value`)
			if err != nil {
				t.Fatal(err)
			}
			p.Fill("The code that the app shows now", h.codeNow(secret, 0))
			p.Fill("Your passphrase", grey)
			p.Click("button", "Turn it on")
			p.See("The second step is on")
			seen("3-words")
			words, err := browsertest.Eval[[]string](p.Tab, `[...document.querySelectorAll('.words .address')].map(x => x.textContent)`)
			if err != nil || len(words) != 8 {
				t.Fatal(words, err)
			}
			p.Click("link", "I have written them down")
			p.Click("button", "Sign out")
			p.Reach("/sign-in")
			p.Fill("Your name", "Ilka")
			p.Fill("Your passphrase", grey)
			p.Click("button", "Sign in")
			p.See("do not fit together")
			seen("4-wrong")
			p.Fill("Your passphrase", grey)
			p.Fill("Code, if you turned the second step on", words[2])
			p.Click("button", "Sign in")
			p.Reach("/")
			p.Go("/second")
			p.See("once: 7.")
			seen("5-on")
		})
	}
}
