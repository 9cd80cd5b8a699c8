package main

import (
	"context"
	"log/slog"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/internal/webbook"
)

// Three sinks tap for a second at the real pages: each tap is acknowledged and shown by the next sink, and the figures say so.
func TestTapAll(t *testing.T) {
	t.Parallel()
	ctx, end := context.WithCancel(t.Context())
	b, pages, err := webbook.OpenUntil(ctx, filepath.Join(t.TempDir(), "book.db"), time.Now, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = b.Store.Close() }()
	server := httptest.NewServer(pages)
	defer server.Close()
	defer end() // the streams, which the server waits for
	l := load{urls: []string{server.URL}, sinks: 3, lasts: time.Second, book: 500, now: time.Now}
	if err := l.fillBook(t.Context()); err != nil {
		t.Fatal(err)
	}
	f := &figures{sent: map[string]time.Time{}}
	if err := l.tapAll(t.Context(), f); err != nil {
		t.Fatal(err)
	}
	if at, err := b.Position(t.Context()); err != nil || len(f.acked) < 3 || int(at) != 500+len(f.acked) {
		t.Errorf("%d acknowledged, the book stands at %d, %v", len(f.acked), at, err)
	}
	if f.failed != 0 || len(f.shown) != len(f.acked) {
		t.Errorf("%d failed, %d of %d shown", f.failed, len(f.shown), len(f.acked))
	}
	var out strings.Builder
	l.print(&out, []time.Duration{time.Microsecond}, f)
	for _, want := range []string{"3 sinks", "500 entries before", "one process, SQLite", "failed: 0; shown to nobody: 0"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("what is printed lacks %q:\n%s", want, out.String())
		}
	}
}

// A tap that is refused counts as failed.
func TestSendRefused(t *testing.T) {
	b, pages, err := webbook.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), time.Now, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = b.Store.Close() }()
	server := httptest.NewServer(pages)
	defer server.Close()
	now := time.Date(2026, time.March, 12, 17, 0, 0, 0, time.UTC)
	if err := send(t.Context(), server.Client(), server.URL, "d", tap("a", 1, now)); err != nil {
		t.Error(err)
	}
	if err := send(t.Context(), server.Client(), server.URL, "d", strings.Replace(tap("b", 1, now), "8x10 in", "8x10 ells", 1)); err == nil {
		t.Error("a tap that says nothing was taken")
	}
}

func TestAt(t *testing.T) {
	var all []time.Duration
	for i := range 101 {
		all = append(all, time.Duration(100-i))
	}
	for percent, want := range map[int]time.Duration{0: 0, 50: 50, 99: 99, 100: 100} {
		if got := at(all, percent); got != want {
			t.Errorf("p%d is %d, want %d", percent, got, want)
		}
	}
	if at(nil, 50) != 0 {
		t.Error("of nothing there is something")
	}
}
