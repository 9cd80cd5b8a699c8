package access_test

import (
	"crypto/tls"
	"net/http"
	"net/http/httptest"
	"testing"

	"wetside/access"
)

// A page elsewhere can make its own name lead to 127.0.0.1 (DNS rebinding), and a proxy on this machine brings others in: a home
// answers neither.
func TestAtHome(t *testing.T) {
	for name, c := range map[string]struct {
		from, host, header string
		want               bool
	}{
		"itself":                {"127.0.0.1:5000", "127.0.0.1:8460", "", true},
		"itself by name":        {"127.0.0.1:5000", "localhost:8460", "", true},
		"itself by a full name": {"127.0.0.1:5000", "LOCALHOST.", "", true},
		"itself, IPv6":          {"[::1]:5000", "[::1]:8460", "", true},
		"IPv4 in IPv6":          {"[::ffff:127.0.0.1]:5000", "127.0.0.1", "", true},
		"a name that is told":   {"127.0.0.1:5000", "darkroom.test:8460", "", true},
		"a name of another":     {"127.0.0.1:5000", "rebound.test:8460", "", false},
		"a name that begins so": {"127.0.0.1:5000", "localhost.rebound.test", "", false},
		"a name that ends so":   {"127.0.0.1:5000", "rebound-localhost", "", false},
		"no name":               {"127.0.0.1:5000", "", "", false},
		"another machine":       {"192.0.2.7:5000", "127.0.0.1:8460", "", false},
		"through a proxy":       {"127.0.0.1:5000", "127.0.0.1", "X-Forwarded-For", false},
		"through another":       {"127.0.0.1:5000", "127.0.0.1", "Forwarded", false},
		"through a third":       {"127.0.0.1:5000", "127.0.0.1", "Via", false},
		"no address":            {"@", "127.0.0.1", "", false},
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.RemoteAddr, r.Host = c.from, c.host
		if c.header != "" {
			r.Header.Set(c.header, "203.0.113.9")
		}
		if got := access.AtHome(r, []string{"darkroom.test"}); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// Tries are counted by where they come from: by the house for IPv6 (RFC 6177, 2: an end site has a /64 at least), by what a proxy
// on this machine says last, which whoever asks can't choose.
func TestAddress(t *testing.T) {
	for _, c := range []struct{ from, forwarded, want string }{
		{"192.0.2.7:5000", "", "192.0.2.7"},
		{"192.0.2.7:5000", "203.0.113.9", "192.0.2.7"},
		{"127.0.0.1:5000", "1.1.1.1, 203.0.113.9", "203.0.113.9"},
		{"127.0.0.1:5000", "", "127.0.0.1"},
		{"[2001:db8:1:2:3::9]:5000", "", "2001:db8:1:2::/64"},
		{"[2001:db8:1:2:ffff::1]:5000", "", "2001:db8:1:2::/64"},
		{"[::ffff:192.0.2.7]:5000", "", "192.0.2.7"},
		{"nonsense", "", "unknown"},
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.RemoteAddr = c.from
		if c.forwarded != "" {
			r.Header.Set("X-Forwarded-For", c.forwarded)
		}
		if got := access.Address(r); got != c.want {
			t.Errorf("%s by %q: %q, want %q", c.from, c.forwarded, got, c.want)
		}
	}
}

// Over https a key is found under the name that only https can set; a cookie that a page without it set is none.
func TestShow(t *testing.T) {
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.AddCookie(&http.Cookie{Name: "key", Value: "planted"})
	r.AddCookie(&http.Cookie{Name: "__Host-key", Value: "own"})
	if got := access.Show(r); got.Token != "planted" {
		t.Errorf("over http: %+v", got)
	}
	r.TLS = &tls.ConnectionState{}
	if got := access.Show(r); got.Token != "own" || got.Bearer {
		t.Errorf("over https: %+v", got)
	}
	r.Header.Set("Authorization", "bearer abc")
	if got := access.Show(r); got.Token != "abc" || !got.Bearer {
		t.Errorf("by a header: %+v", got)
	}
	for _, bad := range []string{"Basic abc", "Bearer", "Bearer ", "x"} {
		r.Header.Set("Authorization", bad)
		if got := access.Show(r); got.Token != "" || !got.Bearer {
			t.Errorf("%q: %+v: whoever sends a header means no cookie", bad, got)
		}
	}
}
