package web_test

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"wetside/access"
	"wetside/book"
	"wetside/web"
)

// asksAll asks for every page and paper as a device and returns the answers by path; streams are left out.
func (d *device) asksAll(bath string) map[string]answer {
	d.t.Helper()
	all := map[string]answer{}
	for _, pattern := range web.Surface() {
		method, path := filled(pattern, bath)
		if method == http.MethodGet && pattern != "GET /live" {
			r := d.request(method, path, nil)
			r.Header.Set("Origin", "https://elsewhere.test")
			all[path] = d.asks(r)
		}
	}
	return all
}

// Every answer says what it is and in which letters, is kept by nobody but what is public, and is let read by no page of another site
// (ASVS 5.0, 3.2.1, 3.4.2, 4.1.1 and 14.3.2).
func TestAnswersSayWhatTheyAre(t *testing.T) {
	h, ilka := shared(t)
	ilka.do(http.MethodPost, "/mix/developer/poured", nil)
	bath := first(t, hrefs(ilka.do(http.MethodGet, "/baths", nil).Text), "/baths/")
	pages := 0
	for name, d := range map[string]*device{"the keyholder": ilka, "a stranger": {house: h}} {
		for path, a := range d.asksAll(bath) {
			kind, keep := a.Header.Get("Content-Type"), a.Header.Get("Cache-Control")
			pages++
			if a.Text != "" && (kind == "" || strings.HasPrefix(kind, "text/") && !strings.Contains(kind, "charset=utf-8")) {
				t.Errorf("%s, %s: Content-Type %q", name, path, kind)
			}
			public := path == "/worker.js" || strings.HasPrefix(path, "/assets/") || a.StatusCode == http.StatusSeeOther
			if a.StatusCode < 400 && !public && keep != "no-store" {
				t.Errorf("%s, %s: Cache-Control %q", name, path, keep)
			}
			if as := a.Header.Get("Content-Disposition"); as != "" && !regexp.MustCompile(`^(inline|attachment); filename="[a-z0-9-]+\.[a-z]+"$`).MatchString(as) {
				t.Errorf("%s, %s: Content-Disposition %q", name, path, as)
			} else if as == "" && a.StatusCode == http.StatusOK && (strings.Contains(kind, "pdf") || strings.Contains(kind, "yaml") || strings.Contains(kind, "csv") || strings.Contains(kind, "calendar")) {
				t.Errorf("%s, %s: %s without a name", name, path, kind)
			}
			for _, header := range []string{"Access-Control-Allow-Origin", "Access-Control-Allow-Credentials", "Server", "X-Powered-By"} {
				if a.Header.Get(header) != "" {
					t.Errorf("%s, %s: %s %q", name, path, header, a.Header.Get(header))
				}
			}
			if a.Header.Get("X-Content-Type-Options") != "nosniff" || !strings.Contains(a.Header.Get("Content-Security-Policy"), "frame-ancestors 'none'") {
				t.Errorf("%s, %s: without nosniff or a policy", name, path)
			}
		}
	}
	if pages < 90 {
		t.Errorf("only %d were asked for", pages)
	}
}

// Asking for something changes nothing, whatever stands behind the question mark: no entry, no key, no keyholder (ASVS 5.0, 3.5.3).
func TestAskingWritesNothing(t *testing.T) {
	h, ilka := shared(t)
	ilka.do(http.MethodPost, "/mix/developer/poured", nil)
	bath := first(t, hrefs(ilka.do(http.MethodGet, "/baths", nil).Text), "/baths/")
	ilka.key(access.Sink, "by the sink")
	before := h.position()
	keys, _ := h.book.Doors().Keys(t.Context())
	for _, pattern := range web.Surface() {
		method, path := filled(pattern, bath)
		for _, m := range []string{http.MethodGet, http.MethodHead} {
			if path == "/live" {
				continue
			}
			if method == http.MethodGet {
				path += "?sure=yes&do=fresh&role=wall&name=Eve&passphrase=" + url.QueryEscape(drip) + "&done=air&load=2+8x10+in+RC+paper"
			}
			ilka.do(m, path, nil) // a form's address as well: it is asked for, not sent
		}
	}
	after, _ := h.book.Doors().Keys(t.Context())
	if h.position() != before || len(after) != len(keys) {
		t.Errorf("%d entries were written, %d keys were %d", h.position()-before, len(keys), len(after))
	}
}

// What is not on the list is not there: no folder, no source, no figures for watchers, no way up, no echo (ASVS 5.0, 5.3.2 and 13.4).
func TestNothingElseIsServed(t *testing.T) {
	h, ilka := shared(t)
	for _, path := range []string{
		"/.git/config", "/.git/", "/.svn/entries", "/.env", "/assets/", "/assets", "/templates/layout.html", "/assets/wetside.css", "/book.db", "/wetside.db",
		"/debug/pprof/", "/debug/vars", "/metrics", "/livez", "/readyz", "/server-status", "/robots.txt",
		"/assets/..%2f..%2fgo.mod", "/assets/%2e%2e%2f%2e%2e%2fbook.db", "/assets/....//book.db", "/lists/..%2f..%2fetc%2fpasswd", "/baths/..%2f..%2fetc%2fpasswd",
	} {
		a := ilka.do(http.MethodGet, path, nil)
		if a.StatusCode != http.StatusNotFound && a.StatusCode != http.StatusTemporaryRedirect || strings.Contains(a.Text, "root:") || strings.Contains(a.Text, "module wetside") {
			t.Errorf("GET %s: %d", path, a.StatusCode)
		}
	}
	for _, method := range []string{http.MethodTrace, http.MethodOptions, http.MethodConnect, "DEBUG"} {
		r := h.request(method, "/shelf", nil)
		r.Header.Set("X-Told", "in confidence")
		if a := ilka.asks(r); a.StatusCode < 400 || strings.Contains(a.Text, "in confidence") {
			t.Errorf("%s: %d %q", method, a.StatusCode, a.Text)
		}
	}
}

// A key in an address opens nothing, and no page leads to one that has it (ASVS 5.0, 14.2.1).
func TestKeysInAddressesOpenNothing(t *testing.T) {
	h, ilka := shared(t)
	_, script := ilka.key(access.Keyholder, "the nightly script")
	for _, token := range []string{script, ilka.cookie("key")} {
		for _, name := range []string{"key", "token", "access_token", "__Host-key", "joined", "authorization"} {
			if a := h.get("/keys?" + name + "=" + token); a.StatusCode == http.StatusOK {
				t.Errorf("?%s= opens the keys", name)
			}
		}
	}
	made := ilka.do(http.MethodPost, "/keys", url.Values{"role": {"sink"}, "name": {"by the sink"}})
	token := regexp.MustCompile(`[A-Za-z0-9_-]{43}`).FindString(regexp.MustCompile(`(?s)<main.*`).FindString(made.Text))
	if token == "" {
		t.Fatal("no key is shown")
	}
	for _, at := range append(hrefs(made.Text), actions(made.Text)...) {
		if strings.Contains(at, token) {
			t.Errorf("the page leads to %s", at)
		}
	}
	if loc := ilka.signIn("Ilka", grey).Header.Get("Location"); strings.Contains(loc, ilka.cookie("key")) {
		t.Errorf("signing in leads to %s", loc)
	}
}

// When the book can't be asked who somebody is, nobody is let in, and what went wrong is told by a number alone (ASVS 5.0, 16.5).
func TestBookAwayOpensNothing(t *testing.T) {
	h, ilka := shared(t)
	state, err := h.book.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	f, _ := state.File(nil)
	if err := h.book.Store.Close(); err != nil {
		t.Fatal(err)
	}
	for name, d := range map[string]*device{"a stranger": {house: h}, "the keyholder": ilka} {
		for path, a := range d.asksAll("/baths/x") {
			if path == "/worker.js" || strings.HasPrefix(path, "/assets/") {
				continue
			}
			if a.StatusCode < 500 || strings.Contains(a.Text, f.Darkroom.Name) {
				t.Errorf("%s, %s: %d", name, path, a.StatusCode)
			}
			for _, inside := range []string{"sql", "goroutine", ".go:", "database", h.book.Store.Place()} {
				if strings.Contains(strings.ToLower(a.Text), inside) {
					t.Errorf("%s, %s tells of %q", name, path, inside)
				}
			}
		}
	}
	if a := (&device{house: h}).signIn("Ilka", grey); a.StatusCode < 500 || len(a.Cookies()) > 0 {
		t.Errorf("signing in: %d", a.StatusCode)
	}
}

// What somebody typed is text wherever it is shown: on pages, in drawings, in what a script reads (ASVS 5.0, 1.2 and 3.2.2).
func TestMarkupIsText(t *testing.T) {
	h, ilka := shared(t)
	bad := `"><script>alert(1)</script><svg onload='alert(2)'>&lt;{{.}}javascript:alert(3)`
	name := []byte(`"\"><script>alert(1)</script><svg onload='alert(2)'>&lt;{{.}}javascript:alert(3)"`)
	h.decide(&book.Set{Part: book.ProductPart, ID: "bad", As: []byte(`{"name":` + string(name) + `,"role":"fixer","form":"liquid","dilutions":{"RC paper":"1+4"}}`)})
	at := ilka.share()
	h.joined(at, `<img src=x onerror=alert(4)>`)
	shown := 0
	ilka.do(http.MethodPost, "/mix/developer/poured", nil)
	for path, a := range ilka.asksAll(first(t, hrefs(ilka.do(http.MethodGet, "/baths", nil).Text), "/baths/")) {
		if strings.Contains(a.Text, "alert(1)") || strings.Contains(a.Text, "alert(4)") {
			shown++
		}
		if !strings.HasPrefix(a.Header.Get("Content-Type"), "text/html") {
			continue
		}
		for _, live := range []string{"<script>alert", "<svg onload", "<img src=x", `href="javascript:`, `action="javascript:`} {
			if strings.Contains(a.Text, live) {
				t.Errorf("%s has %s", path, live)
			}
		}
	}
	if shown < 3 {
		t.Errorf("%q is shown on %d pages alone", bad, shown)
	}
}

// A keyholder is signed in on as many devices as there are: each is seen on their own page, and ended by itself. Each of their pages leads
// to where they sign out (ASVS 5.0, 7.1.2, 7.4.4 and 7.5.2).
func TestSeveralSignIns(t *testing.T) {
	h, ilka := shared(t)
	phone, tablet := &device{house: h}, &device{house: h}
	phone.signIn("Ilka", grey)
	tablet.signIn("Ilka", grey)
	in := func(d *device) bool { return d.do(http.MethodGet, "/shelf", nil).StatusCode == http.StatusOK }
	if !in(ilka) || !in(phone) || !in(tablet) {
		t.Fatal("not all are in")
	}
	away := regexp.MustCompile(`action="(/keys/[^"]*/away)"`).FindAllStringSubmatch(ilka.do(http.MethodGet, "/keys", nil).Text, -1)
	if len(away) != 3 {
		t.Fatalf("%d sign-ins are shown, want 3", len(away))
	}
	for _, path := range []string{"/", "/shelf", "/plan", "/mix", "/baths", "/handover", "/keys", "/sink"} {
		if page := ilka.do(http.MethodGet, path, nil).Text; !strings.Contains(page, `href="/keys"`) && !strings.Contains(page, `action="/sign-out"`) {
			t.Errorf("%s leads to no sign-out", path)
		}
	}
	ended := func() (n int) {
		for _, d := range []*device{ilka, phone, tablet} {
			if !in(d) {
				n++
			}
		}
		return n
	}
	// The passphrase is asked for once more (ASVS 5.0, 7.5.2): by itself, after a wrong one, and for all at once.
	for _, c := range []struct {
		path   string
		form   url.Values
		status int
		ended  int
	}{
		{away[1][1], nil, http.StatusOK, 0},
		{away[1][1], url.Values{"passphrase": {drip}}, http.StatusUnprocessableEntity, 0},
		{away[1][1], url.Values{"passphrase": {grey}}, http.StatusSeeOther, 1},
		{"/sign-out/all", nil, http.StatusOK, 1},
		{"/sign-out/all", url.Values{"passphrase": {""}}, http.StatusUnprocessableEntity, 1},
		{"/sign-out/all", url.Values{"passphrase": {grey}}, http.StatusSeeOther, 3},
	} {
		a := ilka.do(http.MethodPost, c.path, c.form)
		if n := ended(); a.StatusCode != c.status || n != c.ended || c.status != http.StatusSeeOther && inputOf(t, a.Text, "passphrase") == "" {
			t.Errorf("POST %s %v: %d, %d ended; want %d and %d", c.path, c.form, a.StatusCode, n, c.status, c.ended)
		}
	}
}
