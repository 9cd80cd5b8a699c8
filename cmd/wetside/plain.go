package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"strings"
)

// plainTurned hands on connections for TLS. To whoever speaks plain http on one it says to come by https: pages are led there; programs, and
// forms, which have sent in the clear what they sent, are refused with a sentence (ASVS 5.0, 12.2.1).
type plainTurned struct {
	net.Listener
	say string
}

// Accept returns the next connection.
func (l plainTurned) Accept() (net.Conn, error) {
	c, err := l.Listener.Accept()
	if err != nil {
		return nil, err
	}
	return &maybePlain{Conn: c, say: l.say}, nil
}

// A maybePlain is a connection of which nobody knows yet what is spoken on it. It is read by one goroutine, as TLS does.
type maybePlain struct {
	net.Conn
	say   string
	heard bool // its first bytes are those of TLS
}

// errPlain ends a handshake that was none; it stands in the log.
var errPlain = errors.New("plain http was spoken: told to come by https")

// handshake is the first byte of TLS (RFC 8446, 5.1); no method of HTTP begins with it.
const handshake = 0x16

// Read reads what TLS is to see: nothing of plain http, which is answered here.
func (c *maybePlain) Read(b []byte) (int, error) {
	n, err := c.Conn.Read(b)
	if c.heard || n == 0 || err != nil {
		return n, err
	}
	if c.heard = b[0] == handshake || b[0] < 'A' || b[0] > 'Z'; c.heard {
		return n, nil
	}
	c.turn(io.MultiReader(bytes.NewReader(b[:n]), c.Conn))
	return 0, errPlain
}

// turn answers a request of plain http. The server's deadline for a handshake holds for it.
func (c *maybePlain) turn(from io.Reader) {
	r, err := http.ReadRequest(bufio.NewReader(io.LimitReader(from, mostHeader)))
	if err != nil {
		return
	}
	status, to := http.StatusBadRequest, ""
	if place := byHTTPS(r); place != "" {
		status, to = http.StatusTemporaryRedirect, "Location: "+place+"\r\n"
	}
	_, _ = fmt.Fprintf(c.Conn, "HTTP/1.1 %d %s\r\n%sContent-Type: text/plain; charset=utf-8\r\nContent-Length: %d\r\nConnection: close\r\n\r\n%s\n",
		status, http.StatusText(status), to, len(c.say)+1, c.say)
}

// byHTTPS is where a page that was asked for by plain http is to be had; empty for what is no page.
func byHTTPS(r *http.Request) string {
	u := url.URL{Scheme: "https", Host: r.Host, Path: r.URL.Path, RawPath: r.URL.RawPath, RawQuery: r.URL.RawQuery}
	again, err := url.Parse(u.String()) // a host that is none does not come back as it was
	if err != nil || again.Host != r.Host || r.Host == "" || !strings.HasPrefix(r.URL.Path, "/") || strings.HasPrefix(r.URL.Path+"/", "/api/") ||
		r.Method != http.MethodGet && r.Method != http.MethodHead || r.Header.Get("Authorization") != "" {
		return ""
	}
	return u.String()
}
