package store_test

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"sync"
	"testing"
	"time"

	"wetside/book"
	"wetside/internal/outside"
	"wetside/store"
)

// shared opens several stores on one fresh database, as processes do, with one darkroom, "room". They are opened at once, so
// that each wants to prepare the database.
func shared(t *testing.T, n int) ([]*store.Store, store.Config) {
	t.Helper()
	c := postgresEngine().fresh(t)
	all, errs := make([]*store.Store, n), make([]error, n)
	var wait sync.WaitGroup
	for i := range all {
		wait.Go(func() { all[i], errs[i] = store.Open(t.Context(), c) })
	}
	wait.Wait()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
	for _, s := range all {
		t.Cleanup(func() { _ = s.Close() })
		if err := s.Create(t.Context(), "room"); err != nil {
			t.Fatal(err)
		}
	}
	return all, c
}

// within waits for a channel, and returns how long it took.
func within(t *testing.T, d time.Duration, moved <-chan struct{}) time.Duration {
	t.Helper()
	began := time.Now()
	select {
	case <-moved:
	case <-time.After(d):
		t.Errorf("not woken within %v", d)
	}
	return time.Since(began)
}

// TestTwoProcesses lets two other processes, each with eight writers, append to one book. Here, in a third, every entry is
// seen soon after it was acknowledged there; none is lost, none stands twice, the chain is whole.
func TestTwoProcesses(t *testing.T) {
	stores, c := shared(t, 1)
	s := stores[0]
	var mu sync.Mutex
	acked, at, failed := map[string]int64{}, map[string]time.Time{}, map[string]int{}
	var wait sync.WaitGroup
	for i := range 2 {
		p := start(t, "few", c.Database, fmt.Sprint(i), 0)
		if line := p.next(); line != "open" {
			t.Fatalf("the child says %q, want open", line)
		}
		wait.Go(func() {
			for line := p.next(); line != ""; line = p.next() {
				mu.Lock()
				var id string
				_, _ = fmt.Sscanf(line, "ack %s", &id)
				heed(t, line, acked, failed)
				at[id] = time.Now()
				mu.Unlock()
			}
		})
	}
	done := make(chan struct{})
	go func() { wait.Wait(); close(done) }()
	seen := map[string]time.Time{}
	for position, last := int64(0), false; ; {
		moved := s.Moved("room")
		more, err := s.Since(t.Context(), "room", position, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range more {
			if position++; e.Position != position {
				t.Fatalf("at %d comes %d", position, e.Position)
			}
			seen[e.ID] = time.Now()
		}
		if last {
			break
		}
		select {
		case <-moved:
		case <-done:
			last = true
		}
	}
	var late time.Duration
	for id, when := range at {
		late = max(late, seen[id].Sub(when))
	}
	if len(failed) > 0 || len(acked) != 2*8*20*2-16 || late > 3*time.Second {
		t.Errorf("%d acknowledged, failures %v, seen at most %v later", len(acked), failed, late)
	}
	t.Logf("%d entries of two processes, each seen here at most %v after it was acknowledged there", len(acked), late)
	holds(t, s.Since, acked)
	all, err := s.Since(t.Context(), "room", 0, 0)
	if err := errors.Join(err, s.Verify(t.Context(), "room")); err != nil {
		t.Fatal(err)
	}
	wholeBatches(t, all)
}

// TestOthersAreHeard waits in one store for what another writes: told of at once, and a second later where what was announced
// is lost.
func TestOthersAreHeard(t *testing.T) {
	stores, _ := shared(t, 2)
	time.Sleep(200 * time.Millisecond) // it listens by now
	for i := range 3 {
		moved := stores[1].Moved("room")
		appendTo(t, stores[0], worked(fmt.Sprint("a", i)))
		t.Logf("woken after %v", within(t, 3*time.Second, moved))
	}
	stores[0].Mute()
	for i := range 2 {
		moved := stores[1].Moved("room")
		appendTo(t, stores[0], worked(fmt.Sprint("lost", i)))
		t.Logf("woken after %v without being told", within(t, 3*time.Second, moved))
	}
	moved := stores[1].Moved("room")
	select { // a look at the books wakes nobody where nothing is new
	case <-moved:
		t.Error("woken for nothing")
	case <-time.After(1500 * time.Millisecond):
	}
}

// TestManyBooksTogether lets two stores write to several books at once, facts and decisions, in groups that overlap: nobody
// waits for each other for ever.
func TestManyBooksTogether(t *testing.T) {
	stores, _ := shared(t, 2)
	rooms := []string{"a", "b", "c"}
	for _, r := range rooms {
		if err := stores[0].Create(t.Context(), r); err != nil {
			t.Fatal(err)
		}
	}
	const writers, each = 12, 20
	var wait sync.WaitGroup
	for i, s := range stores {
		for w := range writers {
			wait.Go(func() {
				for n := range each {
					room := rooms[(w+n)%len(rooms)]
					if _, err := s.Append(t.Context(), room, []book.Entry{worked(fmt.Sprintf("%d-%d-%d", i, w, n))}, nil); err != nil {
						t.Errorf("%s: %v", room, err)
					}
				}
			})
		}
	}
	wait.Wait()
	total := int64(0)
	for _, r := range rooms {
		h, err := stores[1].Head(t.Context(), r)
		if err := errors.Join(err, stores[1].Verify(t.Context(), r)); err != nil {
			t.Fatal(err)
		}
		total += h.Position
	}
	if total != 2*writers*each {
		t.Errorf("%d entries, want %d", total, 2*writers*each)
	}
}

// TestOneOfTwoDecides lets two stores decide on the same position: one of them is told what the other wrote.
func TestOneOfTwoDecides(t *testing.T) {
	stores, _ := shared(t, 2)
	for round := range int64(10) {
		errs := make([]error, 2)
		var wait sync.WaitGroup
		for i, s := range stores {
			wait.Go(func() {
				name := fmt.Sprintf("n%d-%d", round, i)
				_, errs[i] = s.Append(t.Context(), "room", []book.Entry{named(name, name)}, &round)
			})
		}
		wait.Wait()
		won, lost := errs[0], errs[1]
		if won != nil {
			won, lost = lost, won
		}
		stale, ok := errors.AsType[*book.StaleError](lost)
		if won != nil || !ok || len(stale.Between) != 1 {
			t.Fatalf("round %d: %v and %v, want one written and one stale", round, errs[0], errs[1])
		}
	}
}

// TestFrozenProcess holds a book in a process that goes no further: after a while the server takes it away, others write, and
// what the frozen one had begun never comes about.
func TestFrozenProcess(t *testing.T) {
	stores, c := shared(t, 1)
	c.Database += "&idle_in_transaction_session_timeout=300"
	frozen := open(t, c)
	err := frozen.Write(t.Context(), func(tx *store.Tx) error {
		if _, err := tx.Append(t.Context(), "room", []book.Entry{worked("frozen")}, nil); err != nil {
			return err
		}
		appendTo(t, stores[0], worked("other")) // waits for the book
		return nil
	})
	wantKind(t, err, book.Away, "store_away")
	if h, err := stores[0].Head(t.Context(), "room"); err != nil || h.Position != 1 {
		t.Errorf("head is %+v, %v; want the other's entry alone", h, err)
	}
	appendTo(t, frozen, worked("frozen")) // it goes on, on a new connection
}

// TestServerCrashes ends PostgreSQL as a crash does while another process with eight writers appends, and starts it again, more
// than once. The process goes on by itself; whatever it was told is there, once; sent again, it is not counted again.
func TestServerCrashes(t *testing.T) {
	server := outside.OwnPostgres(t)
	at := server.URL("postgres", "")
	p := start(t, "write", at, "0", 0)
	if line := p.next(); line != "open" {
		t.Fatalf("the child says %q, want open", line)
	}
	acked, failed := map[string]int64{}, map[string]int{}
	crashes := 2
	if os.Getenv(torture) != "" {
		crashes = 20
	}
	for range crashes {
		for enough := len(acked) + 60; len(acked) < enough; {
			heed(t, p.next(), acked, failed)
		}
		if err := errors.Join(server.Crash(), server.Start()); err != nil {
			t.Fatal(err)
		}
	}
	for enough := len(acked) + 60; len(acked) < enough; {
		heed(t, p.next(), acked, failed)
	}
	_ = p.Process.Kill()
	for line := p.next(); line != ""; line = p.next() {
		heed(t, line, acked, failed)
	}
	if len(failed) > 0 {
		t.Errorf("failures %v: a server that is started again is waited for", failed)
	}
	s := open(t, store.Config{Database: at, Now: clock(evening)})
	holds(t, s.Since, acked)
	all, err := s.Since(t.Context(), "room", 0, 0)
	if err := errors.Join(err, s.Verify(t.Context(), "room")); err != nil {
		t.Fatal(err)
	}
	wholeBatches(t, all)
	var again []book.Entry
	for _, e := range all {
		again = append(again, book.Entry{ID: e.ID, Kind: e.Kind, Version: e.Version, HappenedAt: e.HappenedAt, By: e.By, Device: e.Device, Body: e.Body})
	}
	stored, err := s.Append(t.Context(), "room", again, nil)
	if err != nil || len(stored) != len(all) || stored[len(all)-1].Position != int64(len(all)) {
		t.Errorf("sent again: %d entries, %v", len(stored), err)
	}
	if h, err := s.Head(t.Context(), "room"); err != nil || h.Position != int64(len(all)) {
		t.Errorf("head is %+v, %v after sending again, want %d", h, err, len(all))
	}
	t.Logf("%d crashes, %d entries acknowledged, none lost, none twice", crashes, len(acked))
	comesLate(t, server, s)
}

// TestFailover ends PostgreSQL for good in the middle of the work of eight writers, and has its standby take over, which confirmed
// every commit. The process finds it by itself; whatever it was told is there, once.
func TestFailover(t *testing.T) {
	first, err := outside.StartPostgres(outside.PostgresBin(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = first.Stop() })
	second, err := first.Standby(t)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = second.Stop() })
	at := "postgres://postgres@/postgres?host=" + url.QueryEscape(first.Dir()+","+second.Dir())
	p := start(t, "write", at, "0", 0)
	if line := p.next(); line != "open" {
		t.Fatalf("the child says %q, want open", line)
	}
	acked, failed := map[string]int64{}, map[string]int{}
	for len(acked) < 100 {
		heed(t, p.next(), acked, failed)
	}
	if err := first.Crash(); err != nil {
		t.Fatal(err)
	}
	second.Promote(t)
	before := len(acked)
	for len(acked) < before+200 { // some were on their way
		heed(t, p.next(), acked, failed)
	}
	_ = p.Process.Kill()
	for line := p.next(); line != ""; line = p.next() {
		heed(t, line, acked, failed)
	}
	if len(failed) > 0 {
		t.Errorf("failures %v: a server that takes over is waited for", failed)
	}
	s := open(t, store.Config{Database: second.URL("postgres", ""), Now: clock(evening)})
	holds(t, s.Since, acked)
	all, err := s.Since(t.Context(), "room", 0, 0)
	if err := errors.Join(err, s.Verify(t.Context(), "room")); err != nil {
		t.Fatal(err)
	}
	wholeBatches(t, all)
	t.Logf("%d entries acknowledged before, %d after, none lost, none twice", before, len(acked)-before)
}

// comesLate has a server that is away and comes: an open store waits for it, one that is opened says at once that nobody
// answers. What listens to others listens anew.
func comesLate(t *testing.T, server *outside.Postgres, s *store.Store) {
	t.Helper()
	c := store.Config{Database: server.URL("postgres", ""), Now: clock(evening)}
	if err := server.Crash(); err != nil {
		t.Fatal(err)
	}
	began := time.Now()
	ctx, cancel := context.WithTimeout(t.Context(), time.Second/2)
	defer cancel()
	wantKind(t, s.Ready(ctx, "room"), book.Away, "store_away")
	if took := time.Since(began); took > 4*time.Second {
		t.Errorf("whoever waits no longer is answered after %s", took)
	}
	began = time.Now()
	_, err := store.Open(t.Context(), c)
	wantKind(t, err, book.Away, "database_away")
	if took := time.Since(began); took > 5*time.Second {
		t.Errorf("it took %v to say that nobody answers", took)
	}
	back := make(chan error)
	go func() { time.Sleep(300 * time.Millisecond); back <- server.Start() }()
	appendTo(t, s, worked("late"), named("late-name", "Ropewalk"))
	if err := <-back; err != nil {
		t.Fatal(err)
	}
	moved := s.Moved("room")
	appendTo(t, open(t, c), worked("later"))
	within(t, 5*time.Second, moved)
}
