package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"wetside/access"
)

// Over https every cookie bears the name that only https can set, and is kept so; one of the plain name, which another page of the same
// host may have set, is nothing (RFC 6265bis, 4.1.3.2; ASVS 5.0, 3.3.1 to 3.3.4).
func TestEveryCookieIsForHTTPSAlone(t *testing.T) {
	h, ilka := shared(t)
	at := ilka.share()
	_, token := ilka.key(access.Member, "Wanda")
	secure := func(path string, form url.Values, cookies ...*http.Cookie) answer {
		method := http.MethodPost
		if form == nil {
			method = http.MethodGet
		}
		r := h.request(method, path, strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("X-Forwarded-Proto", "https")
		for _, c := range cookies {
			r.AddCookie(c)
		}
		return h.ask(r)
	}
	set := map[string]*http.Cookie{}
	for path, form := range map[string]url.Values{
		"/sign-in": {"name": {"Ilka"}, "passphrase": {grey}}, at: {"name": {"Mo"}}, "/red": {"form": {"red"}}, "/sign-in/key": {"key": {token}},
		"/red/screen": {"screen": {"phone"}},
	} {
		for _, c := range secure(path, form).Cookies() {
			set[c.Name] = c
			if !strings.HasPrefix(c.Name, "__Host-") || !c.Secure || !c.HttpOnly || c.SameSite != http.SameSiteLaxMode || c.Path != "/" || c.Domain != "" || len(c.String()) > 4096 {
				t.Errorf("%s sets %v", path, c)
			}
		}
	}
	for _, name := range []string{"__Host-key", "__Host-joined", "__Host-form"} {
		if set[name] == nil {
			t.Fatalf("%s is not among %v", name, set)
		}
	}
	joined := set["__Host-joined"].Value
	if a := secure("/shelf", nil, &http.Cookie{Name: "__Host-joined", Value: joined}); a.StatusCode != http.StatusOK {
		t.Errorf("who joined by https: %d", a.StatusCode)
	}
	if a := secure("/shelf", nil, &http.Cookie{Name: "joined", Value: joined}, &http.Cookie{Name: "key", Value: token}); a.StatusCode != http.StatusSeeOther {
		t.Errorf("by the plain names: %d", a.StatusCode)
	}
	if a := secure(at, nil, &http.Cookie{Name: "__Host-form", Value: "red"}); !strings.Contains(a.Text, `class="red"`) {
		t.Error("the red form is forgotten")
	}
}

// A passphrase holds for as long as nobody changes it (ASVS 5.0, 6.2.10).
func TestPassphraseNeedsNoRenewal(t *testing.T) {
	h, clock := stillHouse(t)
	clock.on(5 * 365 * 24 * time.Hour)
	d := &device{house: h}
	if a := d.signIn("Ilka", grey); a.StatusCode != http.StatusSeeOther || a.Header.Get("Location") != "/" {
		t.Errorf("after five years: %d to %q", a.StatusCode, a.Header.Get("Location"))
	}
}

// Codes are guessed no oftener than passphrases, and nobody fills an evening with guests: both are told with how long to wait, nothing is written,
// and time gives tries back. Who has the right code is not counted among those who guess.
func TestGuestsAreLimited(t *testing.T) {
	h, clock := stillHouse(t)
	if err := h.book.LoadExample(t.Context()); err != nil {
		t.Fatal(err)
	}
	ilka := &device{house: h}
	ilka.signIn("Ilka", grey)
	at := ilka.share()
	for range 30 {
		if a := h.get(at); a.StatusCode != http.StatusOK {
			t.Fatalf("the right code: %d", a.StatusCode)
		}
	}
	limited := 0
	for range 25 {
		a := (&device{house: h}).do(http.MethodGet, "/join/"+"AAAAAAAAAA", nil)
		if a.StatusCode == http.StatusTooManyRequests && a.Header.Get("Retry-After") == "60" && strings.Contains(a.Text, "1\u00a0minute") {
			limited++
		}
	}
	if a := h.get(at); limited != 5 || a.StatusCode != http.StatusTooManyRequests || strings.Contains(a.Text, "Lock House") {
		t.Errorf("of 25 codes %d were refused, the right one then: %d", limited, a.StatusCode)
	}
	clock.on(time.Minute)
	before, refused := h.position(), 0
	for range 65 {
		a := (&device{house: h}).do(http.MethodPost, at, url.Values{"name": {"Eve"}})
		if a.StatusCode == http.StatusTooManyRequests && strings.Contains(inputOf(t, a.Text, "name"), `value="Eve"`) && strings.Contains(inputOf(t, a.Text, "name"), `aria-invalid="true"`) {
			refused++
		}
	}
	if refused != 5 || h.position() != before+60 {
		t.Errorf("of 65 who joined %d were refused, %d entries written", refused, h.position()-before)
	}
	clock.on(10 * time.Second)
	h.joined(at, "Mo")
}
