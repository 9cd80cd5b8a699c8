package access

import (
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"

	"wetside/book"
)

// What a device keeps, under names that CookieName makes.
const (
	JoinedCookie = "joined"
	keyCookie    = "key"
	bearer       = "Bearer "
	mostToken    = 200 // bytes; what is longer is none of ours
	houseBits    = 64  // of an IPv6 address: what one house has
)

// Why nobody is served.
var (
	// ErrHomeOnly: a darkroom without a keyholder is served to its own machine alone, straight and by a name of that machine.
	ErrHomeOnly = &book.Error{Kind: book.Refused, Key: "home_only"}
	// ErrNoKeyholder: the server listens for other machines and there is no keyholder yet.
	ErrNoKeyholder = &book.Error{Kind: book.Refused, Key: "no_keyholder"}
)

// Keys finds who asks. The error is ErrHomeOnly, ErrNoKeyholder, or why the book can't be read; whoever shows nothing, or
// nothing that holds, is a Stranger without an error.
type Keys interface {
	Who(r *http.Request) (Who, error)
}

// Shown is what a request shows of who sends it.
type Shown struct {
	Token  string // of a key; empty: none
	Bearer bool   // the token came in the Authorization header: a script
	Joined string // the token of a device that joined an evening
}

// Show reads what a request shows. An Authorization header goes before a cookie: who sends one means it.
func Show(r *http.Request) Shown {
	var s Shown
	if c, err := r.Cookie(CookieName(r, JoinedCookie)); err == nil && len(c.Value) <= mostToken {
		s.Joined = c.Value
	}
	if h := r.Header.Get("Authorization"); h != "" {
		s.Bearer = true
		if len(h) > len(bearer) && len(h) <= mostToken && strings.EqualFold(h[:len(bearer)], bearer) {
			s.Token = strings.TrimSpace(h[len(bearer):])
		}
		return s
	}
	if c, err := r.Cookie(KeyCookie(r)); err == nil && len(c.Value) <= mostToken {
		s.Token = c.Value
	}
	return s
}

// KeyCookie is the name of the cookie that has a key, for the way by which a request came.
func KeyCookie(r *http.Request) string { return CookieName(r, keyCookie) }

// Secure reports whether a request came over https: to this server, or to a proxy that says so. Who lies about it gets a
// cookie that their own browser does not send back, and nothing else.
func Secure(r *http.Request) bool {
	return r.TLS != nil || strings.EqualFold(r.Header.Get("X-Forwarded-Proto"), "https")
}

// AtHome reports whether a request came from this machine to this machine: from a loopback address, to a loopback name or
// one of names (a page elsewhere can have its own name lead here), through no proxy.
func AtHome(r *http.Request, names []string) bool {
	for _, h := range []string{"Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Forwarded-Proto", "X-Real-Ip", "Via"} {
		if r.Header.Get(h) != "" {
			return false
		}
	}
	return Loopback(r.RemoteAddr) && (Loopback(r.Host) || slices.ContainsFunc(names, func(n string) bool {
		return strings.EqualFold(n, hostOf(r.Host)) || strings.EqualFold(n, r.Host)
	}))
}

// Loopback reports whether a host, with a port or without, is the machine itself: localhost, 127.0.0.0/8 or ::1 (RFC 6761,
// 6.3; RFC 5735, 3; RFC 4291, 2.5.3).
func Loopback(host string) bool {
	name := strings.TrimSuffix(hostOf(host), ".")
	if strings.EqualFold(name, "localhost") {
		return true
	}
	ip, err := netip.ParseAddr(name)
	return err == nil && ip.Unmap().IsLoopback()
}

func hostOf(host string) string {
	if name, _, err := net.SplitHostPort(host); err == nil {
		return name
	}
	return strings.TrimSuffix(strings.TrimPrefix(host, "["), "]")
}

// Address is where a request comes from, for counting: an address, of IPv6 the part that one house has. Behind a proxy on this
// machine it is what the proxy says last.
func Address(r *http.Request) string {
	at := hostOf(r.RemoteAddr)
	if via := r.Header.Values("X-Forwarded-For"); Loopback(at) && len(via) > 0 {
		all := strings.Split(via[len(via)-1], ",")
		if last := strings.TrimSpace(all[len(all)-1]); last != "" {
			at = hostOf(last)
		}
	}
	ip, err := netip.ParseAddr(at)
	if err != nil {
		return "unknown"
	}
	if ip = ip.Unmap(); ip.Is6() {
		p, _ := ip.WithZone("").Prefix(houseBits)
		return p.String()
	}
	return ip.String()
}
