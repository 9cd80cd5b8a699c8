package main

import (
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/internal/webbook"
)

// The evening of the pictures is played into a real book: every picture's page is there, and the sink and the wall show whose
// prints lie where.
func TestPlay(t *testing.T) {
	now := time.Date(2026, time.March, 12, 17, 0, 0, 0, time.UTC)
	b, pages, err := webbook.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), func() time.Time { return now }, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = b.Store.Close() }()
	if err := b.LoadExample(t.Context()); err != nil {
		t.Fatal(err)
	}
	get := func(path string) string {
		t.Helper()
		w := httptest.NewRecorder()
		r := httptest.NewRequestWithContext(t.Context(), http.MethodGet, path, nil)
		r.Host, r.RemoteAddr = "localhost", "127.0.0.1:50000"
		pages.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			t.Errorf("%s: %d", path, w.Code)
		}
		return w.Body.String()
	}
	for _, s := range shots() {
		get(s.path)
	}
	if err := play(t.Context(), b, now); err != nil {
		t.Fatal(err)
	}
	for _, s := range atWork() {
		page := get(s.path)
		for _, name := range []string{"Mo", "Lu", "Ada"} {
			if !strings.Contains(page, name) {
				t.Errorf("%s does not show %s", s.path, name)
			}
		}
	}
}
