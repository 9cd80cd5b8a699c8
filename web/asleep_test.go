package web_test

import (
	"context"
	"fmt"
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

// The page of a bath that is long finished shows its loads, and a late one is taken, as if it were of yesterday; what everybody sees is
// not disturbed.
func TestPageOfABathAtRest(t *testing.T) {
	now := time.Date(2027, time.June, 1, 18, 0, 0, 0, time.UTC)
	b, pages, err := webbook.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), func() time.Time { return now }, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Store.Close() })
	if err := b.LoadExample(t.Context()); err != nil {
		t.Fatal(err)
	}
	old, n := now.AddDate(0, -6, 0), 0
	write := func(body book.Body) book.Entry {
		t.Helper()
		n++
		e, err := (&book.Author{By: "p1", Device: "d", Now: old.Add(time.Duration(n) * time.Second), NewID: func() string { return fmt.Sprint("old", n) }}).Write(body)
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	for i := range 40 {
		bath := fmt.Sprint("bath", i)
		all := []book.Entry{write(&book.Mixed{Bath: bath, Use: book.Rinse, Volume: "2 L"})}
		for range 150 {
			all = append(all, write(&book.Worked{Baths: []string{bath}, Prints: book.Prints{Material: "RC paper", Size: "24x30 cm", Sheets: 3}}))
		}
		at, err := b.Position(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, write(&book.Disposed{Bath: bath, Leaving: book.Leaving{To: "drain"}}))
		if err := b.Append(t.Context(), all, &at); err != nil {
			t.Fatal(err)
		}
	}
	at := func(path string) (int, string) {
		t.Helper()
		w := httptest.NewRecorder()
		pages.ServeHTTP(w, atHome(httptest.NewRequestWithContext(t.Context(), http.MethodGet, path, nil)))
		return w.Code, w.Body.String()
	}
	state, err := b.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	resting := state.Clone()
	if resting.Rest(now.Add(-book.RestsAfter)) == 0 {
		t.Fatal("nothing rests")
	}
	shown := func() string {
		code, page := at("/baths/bath3")
		if code != http.StatusOK || strings.Count(page, "24×30") < 100 {
			t.Errorf("%d: the old bath's page does not tell of its loads", code)
		}
		return page
	}
	awake := shown()
	c := b.Config(slog.New(slog.DiscardHandler))
	c.Book = restingBook{b, resting}
	if pages, err = web.New(c); err != nil {
		t.Fatal(err)
	}
	if asleep := shown(); asleep != awake {
		t.Errorf("the page of a bath at rest is another than before")
	}
}

// A restingBook says of what rests only what it is asked.
type restingBook struct {
	webbook.Book
	state *book.State
}

func (b restingBook) State(context.Context) (*book.State, error) { return b.state, nil }

func (b restingBook) Awake(ctx context.Context, needs func(*book.State) book.Waking) (*book.State, error) {
	s := b.state.Clone()
	for {
		w := needs(s)
		if w.None() {
			return s, nil
		}
		var all []book.Entry
		for _, at := range w.Positions() {
			one, err := b.Since(ctx, at-1, 1)
			if err != nil {
				return nil, err
			}
			all = append(all, one...)
		}
		if err := s.Wake(w, all); err != nil {
			return nil, err
		}
	}
}
