package web_test

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"wetside/access"
)

// The passphrases of these tests: words of no song.
const (
	grey = "seven grey gloves on a line"
	drip = "a tap drips on the third tray"
)

// shared is a house with the example and a keyholder, Ilka, who is signed in on the device that is returned.
func shared(tb testing.TB) (*house, *device) {
	tb.Helper()
	h := withExample(tb)
	ilka := &device{house: h}
	a := ilka.do(http.MethodPost, "/keyholders", url.Values{"name": {"Ilka"}, "passphrase": {grey}})
	if a.StatusCode != http.StatusSeeOther || ilka.cookie("key") == "" {
		tb.Fatalf("the first keyholder: %d %s", a.StatusCode, problemsOf(a.Text))
	}
	return h, ilka
}

// cookie is what a device has kept under a name.
func (d *device) cookie(name string) string {
	value := ""
	for _, c := range d.cookies {
		if c.Name == name {
			value = c.Value
			if c.MaxAge < 0 {
				value = ""
			}
		}
	}
	return value
}

// ask sends a request with what the device keeps now.
func (d *device) asks(r *http.Request) answer {
	d.t.Helper()
	last := map[string]string{}
	for _, c := range d.cookies {
		last[c.Name] = d.cookie(c.Name)
	}
	for name, value := range last {
		if value != "" {
			r.AddCookie(&http.Cookie{Name: name, Value: value})
		}
	}
	a := d.ask(r)
	d.cookies = append(d.cookies, a.Cookies()...)
	return a
}

func (d *device) signIn(name, passphrase string) answer {
	d.t.Helper()
	return d.do(http.MethodPost, "/sign-in", url.Values{"name": {name}, "passphrase": {passphrase}})
}

// key makes a key of a role and returns a device that keeps it, and its token.
func (d *device) key(role access.Role, name string) (*device, string) {
	d.t.Helper()
	a := d.do(http.MethodPost, "/keys", url.Values{"role": {role.String()}, "name": {name}})
	m := regexp.MustCompile(`<b class="address">([A-Za-z0-9_-]{43})</b>`).FindStringSubmatch(a.Text)
	if a.StatusCode != http.StatusOK || m == nil {
		d.t.Fatalf("a key for a %v: %d %s", role, a.StatusCode, problemsOf(a.Text))
	}
	of := &device{house: d.house}
	if role != access.Keyholder {
		if a := of.do(http.MethodPost, "/sign-in/key", url.Values{"key": {m[1]}}); a.StatusCode != http.StatusSeeOther {
			d.t.Fatalf("using it: %d %s", a.StatusCode, problemsOf(a.Text))
		}
	}
	return of, m[1]
}

// filled puts something in the places of a pattern.
func filled(pattern, bath string) (method, path string) {
	method, path, named := strings.Cut(pattern, " ")
	if !named {
		method, path = http.MethodGet, pattern+"nowhere"
	}
	path = strings.NewReplacer("{$}", "", "/baths/{id}", bath, "{list}", "opening", "{bath}", "developer", "{n}", "1", "{i}", "0", "{kind}", "vessel").Replace(path)
	return method, regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(path, "x")
}

// share begins an evening that others join, and returns the path of its code.
func (d *device) share() string {
	d.t.Helper()
	if a := d.do(http.MethodPost, "/evening", url.Values{"shared": {"yes"}}); a.StatusCode != http.StatusSeeOther {
		d.t.Fatalf("beginning a shared evening: %d", a.StatusCode)
	}
	at := regexp.MustCompile(`/join/[0-9A-Z]{10}`).FindString(d.do(http.MethodGet, "/wall", nil).Text)
	if at == "" {
		d.t.Fatal("no code hangs on the wall")
	}
	return at
}
