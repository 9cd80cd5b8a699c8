package web_test

import (
	"bytes"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"wetside/internal/webbook"
)

// The clock stands: what was reckoned is shown again as long as the book stands still, and never once it has moved on; many at once see the same.
func TestRecentlyReckoned(t *testing.T) {
	h := &house{t: t, log: &bytes.Buffer{}}
	b, pages, err := webbook.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), evening, slog.New(slog.NewTextHandler(h.log, nil)))
	if err != nil {
		t.Fatal(err)
	}
	h.book, h.Server = b, httptest.NewServer(pages)
	t.Cleanup(func() {
		h.Close()
		if err := b.Store.Close(); err != nil {
			t.Error(err)
		}
	})
	if err := b.LoadExample(t.Context()); err != nil {
		t.Fatal(err)
	}
	fixer := h.mixAll()["Fixer 1"]
	if fixer == "" {
		t.Fatal("no fixer was mixed")
	}
	before := h.get(fixer).Text
	for n, sheets := range []string{"20", "30"} {
		if got := h.post(fixer+"/worked", url.Values{"load": {sheets + " 8x10 in RC paper"}}); got.StatusCode != http.StatusSeeOther {
			t.Fatalf("got %d %s", got.StatusCode, got.Text)
		}
		after := h.get(fixer).Text
		if total := []string{"20 ", "50 "}[n]; after == before || !strings.Contains(after, total) {
			t.Errorf("the page does not tell the %s sheets that went through", total)
		}
		before = after
	}
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			for _, path := range []string{"/", "/baths", "/wall", "/shelf", "/sink"} {
				if got := h.get(path); got.StatusCode != http.StatusOK {
					t.Errorf("%s: %d", path, got.StatusCode)
				}
			}
		})
	}
	for range 3 {
		h.post(fixer+"/worked", url.Values{"load": {"1 8x10 in RC paper"}})
	}
	all.Wait()
	if got := h.get(fixer).Text; !strings.Contains(got, "53 ") {
		t.Error("the page does not tell all 53 sheets")
	}
}
