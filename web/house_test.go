package web_test

import (
	"bytes"
	"context"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"wetside/internal/browsertest"
	"wetside/internal/webbook"
)

// chromium is shared by the tests of this binary.
var chromium browsertest.Browser

func TestMain(m *testing.M) {
	code := m.Run()
	if err := chromium.Close(); err != nil && code == 0 {
		code = 1
	}
	os.Exit(code)
}

// A house is the whole program over a store of its own, on the example's evening.
type house struct {
	t    testing.TB
	book webbook.Book
	*httptest.Server
	log *bytes.Buffer
}

// atHome makes a request one from this machine to itself: a darkroom without a keyholder answers no other.
func atHome(r *http.Request) *http.Request {
	r.Host, r.RemoteAddr = "127.0.0.1:8460", "127.0.0.1:50000"
	return r
}

// evening is the example's: a Thursday.
func evening() time.Time { return time.Date(2026, time.March, 12, 17, 0, 0, 0, time.UTC) }

// ticking is a clock that goes on by a second each time it is read: what happens is ordered by when it happened.
func ticking() func() time.Time {
	var reads atomic.Int64
	return func() time.Time { return evening().Add(time.Duration(reads.Add(1)) * time.Second) }
}

// empty starts a house that nobody has used.
func empty(tb testing.TB) *house {
	tb.Helper()
	h := &house{t: tb, log: &bytes.Buffer{}}
	b, pages, err := webbook.Open(tb.Context(), filepath.Join(tb.TempDir(), "book.db"), ticking(), slog.New(slog.NewTextHandler(h.log, nil)))
	if err != nil {
		tb.Fatal(err)
	}
	h.book, h.Server = b, httptest.NewServer(pages)
	tb.Cleanup(func() {
		h.Close()
		if err := b.Store.Close(); err != nil {
			tb.Error(err)
		}
	})
	return h
}

// withExample starts a house with the example darkroom.
func withExample(tb testing.TB) *house {
	tb.Helper()
	h := empty(tb)
	if err := h.book.LoadExample(tb.Context()); err != nil {
		tb.Fatal(err)
	}
	return h
}

func (h *house) position() int64 {
	h.t.Helper()
	s, err := h.book.State(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	return s.Position()
}

// An answer is what came back, with its text.
type answer struct {
	*http.Response
	Text string
}

// ask sends a request and follows no redirect.
func (h *house) ask(r *http.Request) answer {
	h.t.Helper()
	c := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	resp, err := c.Do(r)
	if err != nil {
		h.t.Fatal(err)
	}
	defer func() { _ = resp.Body.Close() }()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		h.t.Fatal(err)
	}
	return answer{resp, string(body)}
}

func (h *house) request(method, path string, body io.Reader) *http.Request {
	h.t.Helper()
	ctx, cancel := context.WithTimeout(h.t.Context(), 90*time.Second)
	h.t.Cleanup(cancel)
	r, err := http.NewRequestWithContext(ctx, method, h.URL+path, body)
	if err != nil {
		h.t.Fatal(err)
	}
	return r
}

func (h *house) get(path string) answer {
	h.t.Helper()
	return h.ask(h.request(http.MethodGet, path, nil))
}

// post sends a form as this server's own pages do.
func (h *house) post(path string, form url.Values) answer {
	h.t.Helper()
	r := h.request(http.MethodPost, path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return h.ask(r)
}

// hrefs are the addresses of this house that a page leads to.
func hrefs(page string) []string {
	var out []string
	for _, m := range regexp.MustCompile(`href="(/[^"#]*)"`).FindAllStringSubmatch(page, -1) {
		out = append(out, strings.ReplaceAll(m[1], "&amp;", "&"))
	}
	return out
}

// actions are the addresses that a page's forms are sent to.
func actions(page string) []string {
	var out []string
	for _, m := range regexp.MustCompile(`action="(/[^"]*)"`).FindAllStringSubmatch(page, -1) {
		out = append(out, m[1])
	}
	return out
}

// walk opens every page that links lead to from these, each once, and returns their texts by address.
func (h *house) walk(from ...string) map[string]answer {
	h.t.Helper()
	seen := map[string]answer{}
	for len(from) > 0 {
		path := from[0]
		from = from[1:]
		if _, ok := seen[path]; ok {
			continue
		}
		a := h.get(path)
		seen[path] = a
		if to := a.Header.Get("Location"); to != "" {
			from = append(from, to)
		}
		from = append(from, hrefs(a.Text)...)
	}
	return seen
}

// first returns the first address on a page that starts so.
func first(tb testing.TB, all []string, prefix string) string {
	tb.Helper()
	for _, a := range all {
		if strings.HasPrefix(a, prefix) {
			return a
		}
	}
	tb.Fatalf("no address with %s in %v", prefix, all)
	return ""
}
