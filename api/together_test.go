package api_test

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wetside/access"
	"wetside/api"
	"wetside/internal/doors"
	"wetside/internal/outside"
	"wetside/internal/webbook"
	"wetside/words"
	"wetside/words/facts"
)

// together serves one PostgreSQL database by two servers, as two machines do.
func together(t *testing.T) (one, two *house) {
	t.Helper()
	server := outside.OwnPostgres(t)
	one, two = besides(t, server, true), besides(t, server, false)
	return one, two
}

func besides(t *testing.T, server *outside.Postgres, first bool) *house {
	t.Helper()
	h := &house{t: t, clock: &clock{}}
	h.clock.step.Store(int64(200 * time.Millisecond))
	var err error
	if h.book, err = webbook.OpenDatabase(t.Context(), server.URL("postgres", ""), h.clock.now); err != nil {
		t.Fatal(err)
	}
	if first {
		if err := h.book.LoadExample(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
	h.doors = doors.New(doors.Config{Store: h.book.Store, Room: h.book.Room, Now: h.clock.now, NewID: uuid.NewString})
	stop, end := context.WithCancel(context.WithoutCancel(t.Context()))
	handler, err := api.New(api.Config{
		Book: h.book, Keys: h.doors, Now: h.clock.now, NewID: uuid.NewString, Log: slog.New(slog.DiscardHandler),
		Words: words.Opening(), Stop: stop,
	})
	if err != nil {
		t.Fatal(err)
	}
	h.end, h.Server = end, httptest.NewServer(handler)
	t.Cleanup(func() {
		end()
		h.Close()
		if err := h.book.Store.Close(); err != nil {
			t.Error(err)
		}
	})
	return h
}

// Two servers on one PostgreSQL are one API: an entry that is sent to both at once, many times over, stands in the book once and has
// one position; a stream of the other shows it within the second that the catch-up takes; of two decisions made on one state the
// second is told what came between; a key that is made here is good there, and withdrawn there it is none here.
func TestTwoServersAreOneAPI(t *testing.T) {
	t.Parallel()
	one, two := together(t)
	servers := []*house{one, two}
	one.pour("d", "paper developer", "1+9", trayOf(one, 0))
	l := two.listen(t, fmt.Sprintf("/entries?after=%d", one.position()))

	const entries, senders = 40, 4
	ids := make([]string, entries)
	for i := range ids {
		ids[i] = uuid.NewString()
	}
	made := make([][]int64, senders)
	var all sync.WaitGroup
	sent := time.Now()
	for n := range senders {
		made[n] = make([]int64, entries)
		all.Go(func() {
			for i, id := range ids {
				h := servers[(n+i)%2]
				a := h.post("/entries", fmt.Sprintf(`{"id":%q,"kind":"worked","body":{"baths":["d"],"material":"RC paper","size":"8x10 in","sheets":%d}}`, id, 1+i%3))
				if a.Status != http.StatusCreated && a.Status != http.StatusOK {
					t.Errorf("entry %d by sender %d: %d %s", i, n, a.Status, a.Text)
					return
				}
				var e facts.Entry
				a.into(&e)
				made[n][i] = e.Position
			}
		})
	}
	all.Wait()
	for n := range made {
		if !slices.Equal(made[n], made[0]) {
			t.Errorf("sender %d was told other positions", n)
		}
	}
	took := time.Since(sent)
	seen := map[string]int{}
	for len(seen) < entries {
		for _, e := range l.must().data.Entries {
			seen[e.ID]++
		}
	}
	if late := time.Since(sent) - took; late > 2*time.Second {
		t.Errorf("the other server shows the last %v after it stood", late)
	}
	for id, n := range seen {
		if n != 1 || !slices.Contains(ids, id) {
			t.Errorf("entry %s is shown %d times", id, n)
		}
	}

	one.say(sessionOpened("s1"))
	at := one.position()
	closes := func(h *house) answer {
		return h.post("/entries", fmt.Sprintf(`{"id":%q,"kind":"session.closed","expect":%d,"body":{"session":"s1"}}`, uuid.NewString(), at))
	}
	if a := closes(one); a.Status != http.StatusCreated {
		t.Fatalf("the first decision: %d %s", a.Status, a.Text)
	}
	if a := closes(two); a.Status != http.StatusConflict || len(a.problem("stale").Between) != 1 {
		t.Errorf("the second decision on the same state: %d %s", a.Status, a.Text)
	}
	if a, b := one.get("/entries?after=0"), two.get("/entries?after=0"); a.Status != http.StatusOK || a.Text != b.Text {
		t.Errorf("the entries differ between the servers:\n%.300s\n%.300s", a.Text, b.Text)
	}

	one.keyholder()
	here := one.as(access.Sink, "")
	there := *two
	there.key = here.key
	if a := two.get("/baths"); a.Status != http.StatusUnauthorized {
		t.Errorf("the other server without a key: %d", a.Status)
	}
	if a := there.get("/baths"); a.Status != http.StatusOK {
		t.Errorf("a key of the first server at the second: %d %s", a.Status, a.Text)
	}
	keys, err := two.doors.Keys(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range keys {
		if k.Role == access.Sink {
			if err := two.doors.Withdraw(t.Context(), k.ID); err != nil {
				t.Fatal(err)
			}
		}
	}
	if a := here.get("/baths"); a.Status != http.StatusUnauthorized {
		t.Errorf("a key that the second server withdrew, at the first: %d", a.Status)
	}
}
