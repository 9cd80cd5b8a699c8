package access

import "net/http"

// hostOnly begins the names of cookies that no page without https, and no other host, can set (RFC 6265bis, 4.1.3.2).
const hostOnly = "__Host-"

// CookieName is what a cookie is called on the way by which a request came: over https by a name that holds there alone.
func CookieName(r *http.Request, name string) string {
	if Secure(r) {
		return hostOnly + name
	}
	return name
}
