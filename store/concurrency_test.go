package store_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"sync"
	"testing"
	"time"

	"wetside/book"
)

// TestConcurrentWriters lets eight goroutines append while their contexts are cancelled at random, and others read.
// Positions stay gapless, the chain whole, and everything acknowledged is there.
func TestConcurrentWriters(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			const writers, rounds = 8, 60
			s, c := begun(t, e)
			var mu sync.Mutex
			acked, cancelled := map[string]int64{}, 0
			stop := make(chan struct{})
			var readers, wait sync.WaitGroup
			for range 2 {
				readers.Go(func() {
					for last := int64(0); ; {
						select {
						case <-stop:
							return
						default:
						}
						state, err := s.State(t.Context(), "room")
						if err != nil || state.Position() < last {
							t.Errorf("state at %d after %d, %v", state.Position(), last, err)
							return
						}
						last = state.Position()
						time.Sleep(time.Millisecond)
					}
				})
			}
			for w := range writers {
				wait.Go(func() {
					random := rand.New(rand.NewPCG(1, uint64(w)))
					for r := range rounds {
						ctx, cancel := context.WithTimeout(t.Context(), time.Duration(random.IntN(6000))*time.Microsecond)
						batch := []book.Entry{drawn(fmt.Sprintf("w%d-%d-a", w, r)), drawn(fmt.Sprintf("w%d-%d-b", w, r))}
						stored, err := s.Append(ctx, "room", batch, nil)
						cancel()
						mu.Lock()
						switch {
						case err == nil:
							acked[stored[0].ID], acked[stored[1].ID] = stored[0].Position, stored[1].Position
						case book.KindOf(err) == book.Cancelled:
							cancelled++
						default:
							t.Errorf("append: %v", err)
						}
						mu.Unlock()
					}
				})
			}
			wait.Wait()
			close(stop)
			readers.Wait()
			if len(acked) == 0 || cancelled == 0 {
				t.Errorf("%d acknowledged, %d cancelled: the test wants some of each", len(acked), cancelled)
			}
			t.Logf("%s: %d entries acknowledged, %d batches cancelled", e.name, len(acked), cancelled)
			s = reopen(t, s, c)
			holds(t, s.Since, acked)
			if err := s.Verify(t.Context(), "room"); err != nil {
				t.Error(err)
			}
		})
	}
}

// holds checks that every acknowledged entry stands at its position, that batches came about whole, and that
// positions have no gaps.
func holds(
	t *testing.T, since func(context.Context, string, int64, int) ([]book.Entry, error), acked map[string]int64,
) {
	t.Helper()
	all, err := since(t.Context(), "room", 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]int64{}
	for i, e := range all {
		if e.Position != int64(i)+1 {
			t.Fatalf("position %d stands as number %d", e.Position, i+1)
		}
		if _, twice := at[e.ID]; twice {
			t.Errorf("entry %s stands twice", e.ID)
		}
		at[e.ID] = e.Position
	}
	for id, position := range acked {
		if at[id] != position {
			t.Errorf("acknowledged entry %s stands at %d, was acknowledged at %d", id, at[id], position)
		}
	}
}
