package webbook_test

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wetside/internal/outside"
	"wetside/internal/webbook"
	"wetside/store"
	"wetside/web"
)

// served opens the book at a database and serves it, as one process of several does.
func served(t *testing.T, database string) string {
	t.Helper()
	s, err := store.Open(t.Context(), store.Config{Database: database, Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	b := webbook.Book{Store: s, Room: "darkroom", Now: time.Now, NewID: uuid.NewString}
	if err := s.Create(t.Context(), b.Room); err != nil {
		t.Fatal(err)
	}
	c := b.Config(slog.New(slog.DiscardHandler))
	stop, end := context.WithCancel(t.Context())
	c.Stop = stop
	pages, err := web.New(c)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(pages)
	t.Cleanup(func() {
		end()
		server.Close()
		_ = s.Close()
	})
	return server.URL
}

// A shown is when entries were shown on a stream, by their ids.
type shown struct {
	mu sync.Mutex
	at map[string]time.Time
}

// watch reads a stream until the context ends.
func (s *shown) watch(ctx context.Context, url string, ready func()) error {
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, url+"/live", nil)
	if err != nil {
		return err
	}
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		return err
	}
	defer func() { _ = resp.Body.Close() }()
	lines := bufio.NewScanner(resp.Body)
	lines.Buffer(nil, 1<<20)
	for lines.Scan() {
		ready()
		for _, part := range strings.Split(lines.Text(), `"id":"`)[1:] {
			id, _, _ := strings.Cut(part, `"`)
			s.mu.Lock()
			s.at[id] = time.Now()
			s.mu.Unlock()
		}
	}
	return nil
}

// TestTwoServers serves one PostgreSQL by two servers. Devices tap at both at once; what is tapped at one is shown by the
// stream of the other, and a tap that was answered by one is known to the other.
func TestTwoServers(t *testing.T) {
	postgres, err := outside.StartPostgres(outside.PostgresBin(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = postgres.Stop() })
	at := postgres.URL("postgres", "")
	urls := []string{served(t, at), served(t, at)}
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	streams := []*shown{{at: map[string]time.Time{}}, {at: map[string]time.Time{}}}
	var ready, watching sync.WaitGroup
	for i, url := range urls {
		ready.Add(1)
		watching.Go(func() {
			if err := streams[i].watch(ctx, url, sync.OnceFunc(ready.Done)); err != nil {
				t.Error(err)
			}
		})
	}
	ready.Wait()
	const devices, taps = 6, 8
	answered := []*shown{{at: map[string]time.Time{}}, {at: map[string]time.Time{}}}
	var tapping sync.WaitGroup
	for i := range urls {
		for d := range devices {
			tapping.Go(func() {
				for n := range taps {
					id := fmt.Sprintf("%d-%d-%d", i, d, n)
					tapped(t, urls[i], id)
					answered[i].mu.Lock()
					answered[i].at[id] = time.Now()
					answered[i].mu.Unlock()
				}
			})
		}
	}
	tapping.Wait()
	for i, url := range urls { // sent again, to the other
		tapped(t, url, fmt.Sprintf("%d-0-0", 1-i))
	}
	time.Sleep(1200 * time.Millisecond)
	cancel()
	watching.Wait()
	var late time.Duration
	for i := range urls {
		for id, when := range answered[i].at {
			seen, there := streams[1-i].at[id]
			if !there {
				t.Errorf("%s, tapped at one server, is not shown by the other", id)
			}
			late = max(late, seen.Sub(when))
		}
		if got := len(streams[i].at); got != 2*devices*taps {
			t.Errorf("stream %d shows %d taps, want %d: each once", i, got, 2*devices*taps)
		}
	}
	if late > time.Second {
		t.Errorf("shown %v after it was answered, want at most a second", late)
	}
	t.Logf("%d taps at two servers on one PostgreSQL, each shown by the other at most %v after it was answered", 2*devices*taps, late)
}

// tapped sends one tap, which must be taken.
func tapped(t *testing.T, url, id string) {
	t.Helper()
	body := fmt.Sprintf(`{"device":"phone","taps":[{"id":%q,"kind":"bath.worked","at":"2026-03-12T17:50:00Z","body":{"baths":["dev1"],"material":"RC paper","size":"8x10 in","sheets":1}}]}`, id)
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, url+"/taps", strings.NewReader(body))
	if err != nil {
		t.Error(err)
		return
	}
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Error(err)
		return
	}
	defer func() { _ = resp.Body.Close() }()
	answer, _ := io.ReadAll(resp.Body)
	if resp.StatusCode != http.StatusOK || !strings.Contains(string(answer), `"refused":[]`) {
		t.Errorf("%s: %s %s", id, resp.Status, answer)
	}
}
