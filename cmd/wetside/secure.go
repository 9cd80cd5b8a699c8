package main

import (
	"log/slog"
	"net/http"

	"wetside/access"
)

// strict tells a browser that came by https to come by nothing else for a year (RFC 6797, 6.1; ASVS 5.0, 3.4.1). Other names below the
// host's are not meant: they may belong to others.
const strict = "max-age=31536000"

// secured says strict in each answer over https; over plain http it must not be said (RFC 6797, 7.2).
func secured(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if access.Secure(r) {
			w.Header().Set("Strict-Transport-Security", strict)
		}
		next.ServeHTTP(w, r)
	})
}

// server answers with a handler. What goes wrong below it (a TLS handshake, a panic) goes into the same log as all else.
func server(h http.Handler, log *slog.Logger) *http.Server {
	return &http.Server{
		Handler: h, ReadHeaderTimeout: readHeaders, ReadTimeout: readAll, WriteTimeout: writeAll, MaxHeaderBytes: mostHeader,
		ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
}

// mostHeader is how many bytes the head of a request has at most: a cookie and an address of ours are far below.
const mostHeader = 64 << 10
