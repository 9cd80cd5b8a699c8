package web_test

import (
	"context"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/book"
	"wetside/internal/webbook"
	"wetside/web"
)

// A slow book is the real one behind a slow disk.
type slowBook struct{ webbook.Book }

// State answers only when whoever asks has stopped waiting.
func (b slowBook) State(ctx context.Context) (*book.State, error) {
	<-ctx.Done()
	return nil, ctx.Err()
}

// A page that takes too long is given up, and says so.
func TestPatience(t *testing.T) {
	b, _, err := webbook.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), ticking(), slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Store.Close() })
	c := b.Config(slog.New(slog.DiscardHandler))
	c.Book, c.Patience = slowBook{b}, 10*time.Millisecond
	pages, err := web.New(c)
	if err != nil {
		t.Fatal(err)
	}
	w := httptest.NewRecorder()
	pages.ServeHTTP(w, atHome(httptest.NewRequestWithContext(t.Context(), http.MethodGet, "/jug?label=1%2B9&volume=1+L", nil)))
	if w.Code != http.StatusServiceUnavailable || !strings.Contains(w.Body.String(), "took too long") {
		t.Errorf("got %d, %s; want 503 and a word on it", w.Code, w.Body)
	}
}
