//go:build unix

package store_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
	"time"

	"wetside/book"
	"wetside/store"
)

// TestKilledWriter kills a process with eight writers at random moments, again and again on the same file, and finds
// every entry that it had acknowledged.
func TestKilledWriter(t *testing.T) {
	rounds := 50
	if long := os.Getenv(torture); long != "" {
		rounds = 1000
		if n, err := strconv.Atoi(long); err == nil && n > 1 {
			rounds = n
		}
	}
	c := engines()[0].fresh(t)
	random := rand.New(rand.NewPCG(7, 7))
	acked, failed := map[string]int64{}, map[string]int{}
	cut := 0
	for round := range rounds {
		before := len(acked)
		p := start(t, "write", c.Path, strconv.Itoa(round), 0)
		if line := p.next(); line != "open" {
			t.Fatalf("round %d: the child says %q, want open", round, line)
		}
		enough := before + random.IntN(60) // acknowledged entries, then any moment
		for line := p.next(); line != ""; line = p.next() {
			heed(t, line, acked, failed)
			if len(acked) > enough {
				time.Sleep(time.Duration(random.IntN(3000)) * time.Microsecond)
				_ = p.Process.Kill()
			}
		}
		if err := p.Wait(); err == nil {
			t.Fatalf("round %d: the child ended by itself", round)
		}
		if len(acked) > before {
			cut++
		}
		if round%25 == 24 || round == rounds-1 {
			verifyAcked(t, c, acked)
		}
	}
	if cut < rounds || len(failed) > 0 {
		t.Errorf("%d of %d rounds acknowledged something, failures %v", cut, rounds, failed)
	}
	t.Logf("%d kills, %d entries acknowledged, none lost", rounds, len(acked))
}

func verifyAcked(t *testing.T, c store.Config, acked map[string]int64) {
	t.Helper()
	s := open(t, c)
	holds(t, s.Since, acked)
	if err := s.Verify(t.Context(), "room"); err != nil {
		t.Error(err)
	}
	all, err := s.Since(t.Context(), "room", 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	wholeBatches(t, all)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
}

// wholeBatches checks that a batch stands in full or not at all: number n of a writer has 1 + n mod 3 entries.
func wholeBatches(t *testing.T, all []book.Entry) {
	t.Helper()
	has := map[string]int{}
	for _, e := range all {
		var round, w, n, k int
		if _, err := fmt.Sscanf(e.ID, "r%d-w%d-%d-%d", &round, &w, &n, &k); err != nil {
			t.Fatalf("%s: %v", e.ID, err)
		}
		has[fmt.Sprintf("%d %d %d", round, w, n)]++
	}
	for batch, got := range has {
		var round, w, n int
		if _, err := fmt.Sscan(batch, &round, &w, &n); err != nil || got != 1+n%3 {
			t.Errorf("batch %s has %d entries, want %d", batch, got, 1+n%3)
		}
	}
}

func TestSecondProcessIsRefused(t *testing.T) {
	c := engines()[0].fresh(t)
	holder := start(t, "hold", c.Path, "0", 0)
	if line := holder.next(); line != "open" {
		t.Fatalf("the child says %q, want open", line)
	}
	_, err := store.Open(t.Context(), c)
	wantKind(t, err, book.InUse, "store_in_use")
	if second := start(t, "hold", c.Path, "0", 0); second.next() != "refused store_in_use" {
		t.Error("a second child was not refused")
	}
	if err := holder.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = holder.Wait()
	s := open(t, c) // the lock of a process that was killed holds nobody out
	_, err = store.Open(t.Context(), c)
	wantKind(t, err, book.InUse, "store_in_use") // nor can the same process have it twice
	link := c.Path + ".link"
	if err := os.Symlink(c.Path, link); err != nil {
		t.Fatal(err)
	}
	_, err = store.Open(t.Context(), store.Config{Path: link, Now: c.Now})
	wantKind(t, err, book.InUse, "store_in_use") // nor by another name
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
}
