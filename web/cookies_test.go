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
	if a := secure("/sign-in", nil, &http.Cookie{Name: "__Host-form", Value: "red"}); !strings.Contains(a.Text, `class="red"`) {
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
