package web

import (
	"crypto/sha256"
	"encoding/base64"
	"net/http"
)

// policy lets a page load only what this server serves; nothing inline but the ground of a red page, no frames, forms to
// itself.
const policy = "default-src 'none'; script-src 'self'; img-src 'self' data:; font-src 'self'; " +
	"connect-src 'self'; worker-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

// guard refuses forms of other sites and sets the headers that every answer has.
func (s *server) guard(next http.Handler) http.Handler {
	cross := http.NewCrossOriginProtection()
	cross.SetDenyHandler(s.handle(func(*http.Request, *visit) error { return errElsewhere }))
	sum := sha256.Sum256([]byte(firstBytes))
	full := policy + "; style-src 'self' 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	next = s.zipped(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", full)
		h.Set("Referrer-Policy", "same-origin")
		h.Set("X-Content-Type-Options", "nosniff")
		cross.Handler(next).ServeHTTP(w, r)
	})
}
