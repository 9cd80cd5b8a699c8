package web_test

import (
	"net/http"
	"net/url"
	"os"
	"regexp"
	"strings"
	"testing"

	"wetside/access"
	"wetside/book"
	"wetside/web"
)

// strangers are the patterns that are open to whoever comes with nothing, each with why.
func strangers() map[string]string {
	return map[string]string{
		"GET /sign-in": "the door", "POST /sign-in": "the door", "POST /sign-in/key": "the door of a device that was given a key",
		"GET /join/{code}": "by the evening's code", "POST /join/{code}": "by the evening's code",
		"GET /assets/{name}": "style and scripts", "GET /worker.js": "a script",
		"GET /red": "how a screen is made safe", "POST /red": "the form for the dark", "GET /red/white": "and back", "POST /red/screen": "kept on the device",
	}
}

// A stranger's day: every page, form and stream of the server is asked by somebody who shows nothing. They are led to the door or
// refused, and no word of the book is told.
func TestStrangersDay(t *testing.T) {
	h, ilka := shared(t)
	for _, path := range []string{"/mix/developer/poured", "/mix/stop/poured", "/mix/fixer/poured"} {
		ilka.do(http.MethodPost, path, nil)
	}
	h.joined(ilka.share(), "Perpetua")
	bath := first(t, hrefs(ilka.do(http.MethodGet, "/baths", nil).Text), "/baths/")
	state, err := h.book.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	secrets := []string{"Perpetua", "Ilka"}
	people, _ := h.book.People(t.Context())
	f, _ := state.File(people)
	secrets = append(secrets, f.Darkroom.Name)
	for _, p := range f.Shelf.Products {
		secrets = append(secrets, p.Name)
	}
	at, asked := h.position(), 0
	for _, pattern := range web.Surface() {
		method, path := filled(pattern, bath)
		a := h.ask(h.sending(method, path))
		if _, open := strangers()[pattern]; !open {
			asked++
			refused := a.StatusCode == http.StatusUnauthorized || a.StatusCode == http.StatusForbidden ||
				a.StatusCode == http.StatusSeeOther && strings.HasPrefix(a.Header.Get("Location"), "/sign-in")
			if !refused {
				t.Errorf("%s: %d to %q, want the door or a refusal", pattern, a.StatusCode, a.Header.Get("Location"))
			}
		}
		for _, secret := range secrets {
			if strings.Contains(a.Text, secret) {
				t.Errorf("%s tells a stranger %q", pattern, secret)
			}
		}
	}
	if now := h.position(); now != at || asked < 70 {
		t.Errorf("%d were asked, %d entries written", asked, now-at)
	}
	for _, odd := range []string{"//wall", "/./wall", "/x/../wall", "/%77all", "/wall/", "/WALL", "/assets/../wall", "/assets/%2e%2e/wall", "/join/../wall", "/assets//../../shelf"} {
		r := h.request(http.MethodGet, "/", nil)
		r.URL.Opaque = strings.Replace(h.URL, "http:", "", 1) + odd
		if a := h.ask(r); a.StatusCode == http.StatusOK || strings.Contains(a.Text, f.Darkroom.Name) {
			t.Errorf("%s: %d", odd, a.StatusCode)
		}
	}
	for _, method := range []string{http.MethodHead, http.MethodPut, http.MethodDelete, http.MethodOptions, http.MethodTrace, "LOOK"} {
		if a := h.ask(h.request(method, "/shelf", nil)); a.StatusCode < 300 {
			t.Errorf("%s of the shelf: %d", method, a.StatusCode)
		}
	}
}

// sending is a request as a page of this server sends it.
func (h *house) sending(method, path string) *http.Request {
	h.t.Helper()
	r := h.request(method, path, strings.NewReader(""))
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Sec-Fetch-Site", "same-origin")
	}
	return r
}

// What a stranger may is said above with its reason: a new door is seen here.
func TestStrangersDoorsAreTold(t *testing.T) {
	for _, pattern := range web.Surface() {
		if _, told := strangers()[pattern]; told != web.OpenTo(pattern, access.Stranger) {
			t.Errorf("%s: open %v, told %v", pattern, web.OpenTo(pattern, access.Stranger), told)
		}
	}
}

// Each role is let through exactly the doors of the table in docs/roles.md, for every page and form of the server.
func TestRolesReadWhatIsTold(t *testing.T) {
	text, err := os.ReadFile("../docs/roles.md")
	if err != nil {
		t.Fatal(err)
	}
	told := map[string][]string{}
	for _, m := range regexp.MustCompile("(?m)^\\| `((?:GET|POST) [^`]+)` \\|((?: (?:yes|no) \\|){6})$").FindAllStringSubmatch(string(text), -1) {
		told[m[1]] = strings.Fields(strings.ReplaceAll(m[2], "|", " "))
	}
	n := 0
	for _, pattern := range web.Surface() {
		if pattern == "/" || pattern == "GET /parts" {
			continue
		}
		n++
		if len(told[pattern]) != 6 {
			t.Errorf("%s is not told", pattern)
			continue
		}
		for i, r := range access.Roles() {
			if got := web.OpenTo(pattern, r); got != (told[pattern][i] == "yes") {
				t.Errorf("%s is told as %q for a %v, and is %v", pattern, told[pattern][i], r, got)
			}
		}
	}
	if n != len(told) {
		t.Errorf("%d are told, %d are there", len(told), n)
	}
}

// The table of docs/roles.md says of every role and every kind of entry what the code says.
func TestRolesWriteWhatIsTold(t *testing.T) {
	text, err := os.ReadFile("../docs/roles.md")
	if err != nil {
		t.Fatal(err)
	}
	told := map[string][]string{}
	for _, m := range regexp.MustCompile("(?m)^\\| `([a-z_.]+)` \\|((?: (?:yes|no|their own) \\|){6})$").FindAllStringSubmatch(string(text), -1) {
		told[m[1]] = strings.Split(strings.Trim(m[2], " |"), " | ")
	}
	source, err := os.ReadFile("../book/kind.go")
	if err != nil {
		t.Fatal(err)
	}
	kinds := regexp.MustCompile(`(?m)^\t[A-Za-z]+ +Kind = "([a-z_.]+)"`).FindAllStringSubmatch(string(source), -1)
	if len(kinds) < 38 || len(kinds) != len(told) {
		t.Errorf("%d kinds, %d of them told", len(kinds), len(told))
	}
	words := map[access.May]string{access.Never: "no", access.OwnOnly: "their own", access.Always: "yes"}
	for _, m := range kinds {
		if len(told[m[1]]) != 6 {
			t.Errorf("%s is not told", m[1])
			continue
		}
		for i, r := range access.Roles() {
			if want := words[access.Write(r, book.Kind(m[1]))]; told[m[1]][i] != want {
				t.Errorf("%s is told as %q for a %v, want %q", m[1], told[m[1]][i], r, want)
			}
		}
	}
}

// After signing in one is where one wanted to be, if that is a place of this house.
func TestAfterGoesNowhereElse(t *testing.T) {
	h, _ := shared(t)
	d := &device{house: h}
	a := d.do(http.MethodGet, "/shelf?x=1&y=2", nil)
	u, err := url.Parse(a.Header.Get("Location"))
	if err != nil || u.Path != "/sign-in" || u.Query().Get("after") != "/shelf?x=1&y=2" {
		t.Fatalf("led to %q", a.Header.Get("Location"))
	}
	for after, want := range map[string]string{
		"/shelf?x=1&y=2": "/shelf?x=1&y=2", "": "/", "https://evil.test/": "/", "//evil.test": "/", `/\evil.test`: "/", "/\t/evil.test": "/",
		"/\n/evil.test": "/", "javascript:alert(1)": "/", "shelf": "/", "/\x00/evil.test": "/", "\x01//evil.test": "/", "\x20//evil.test": "/",
	} {
		d := &device{house: h}
		a := d.do(http.MethodPost, "/sign-in", url.Values{"name": {"Ilka"}, "passphrase": {grey}, "after": {after}})
		if a.StatusCode != http.StatusSeeOther || a.Header.Get("Location") != want {
			t.Errorf("after %q: %d to %q, want %q", after, a.StatusCode, a.Header.Get("Location"), want)
		}
	}
}
