package store_test

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/book"
	"wetside/store"
)

// A sending is what one caller wants to be written: each entry by itself, or all or none.
type sending struct {
	entries []book.Entry
	each    bool
}

// A fate is what became of a sending, or of one entry of it.
type fate struct {
	Stored []book.Entry
	Err    string
}

func (x sending) send(ctx context.Context, s *store.Store, room string) []fate {
	if !x.each {
		stored, err := s.Append(ctx, room, x.entries, nil)
		return []fate{{stored, said(err)}}
	}
	out, err := s.Each(ctx, room, x.entries)
	all := []fate{{Err: said(err)}}
	for _, o := range out {
		all = append(all, fate{[]book.Entry{o.Entry}, said(o.Err)})
	}
	return all
}

func said(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// sendings draws facts, some of them sent twice, some with an id that stands for something else, some unreadable, and
// corrections of them.
func sendings(t *rapid.T) []sending {
	var all []sending
	ids := rapid.SampledFrom([]string{"a", "b", "c", "d", "e", "f", "g", "h"})
	for range rapid.IntRange(1, 12).Draw(t, "sendings") {
		x := sending{each: rapid.Bool().Draw(t, "each")}
		for range rapid.IntRange(1, 3).Draw(t, "entries") {
			id := ids.Draw(t, "id")
			e := drawnOrWorked(id, rapid.IntRange(0, 7).Draw(t, "kind"))
			switch kind := rapid.IntRange(0, 9).Draw(t, "odd"); {
			case kind == 0:
				e.Body = `{"lot":7}`
			case kind < 4 && x.each:
				e = book.Entry{
					ID: "not-" + id + ids.Draw(t, "by"), Kind: book.Correction, Version: 1, HappenedAt: evening, TakesBack: ids.Draw(t, "target"), Body: "{}",
				}
			case kind == 4 && x.each:
				e = named(id, "Ropewalk") // a decision
			}
			x.entries = append(x.entries, e)
		}
		all = append(all, x)
	}
	return all
}

// TestGroupedIsOneByOne writes the same sendings one by one and in groups: all that comes about is the same, entries,
// refusals and chain.
func TestGroupedIsOneByOne(t *testing.T) {
	for _, engine := range engines() {
		t.Run(engine.name, func(t *testing.T) {
			taken, refused, rounds := 0, 0, 0
			still := func() time.Time { return evening }
			one, two := fixed(t, engine, still), fixed(t, engine, still)
			rapid.Check(t, func(r *rapid.T) {
				rounds++
				room := fmt.Sprint("room", rounds)
				if err := errors.Join(one.Create(t.Context(), room), two.Create(t.Context(), room)); err != nil {
					r.Fatal(err)
				}
				all := sendings(r)
				var want [][]fate
				for _, x := range all {
					want = append(want, x.send(t.Context(), one, room))
				}
				got := grouped(t, two, room, all, rapid.IntRange(1, len(all)).Draw(r, "in the first group"))
				if d := cmp.Diff(want, got); d != "" {
					r.Fatalf("(-one by one +grouped):\n%s", d)
				}
				for _, f := range got {
					for _, f := range f {
						if f.Err != "" {
							refused++
						}
						taken += len(f.Stored)
					}
				}
				if d := cmp.Diff(read(t, one, room), read(t, two, room)); d != "" {
					r.Fatalf("(-one by one +grouped):\n%s", d)
				}
				if err := errors.Join(one.Verify(t.Context(), room), two.Verify(t.Context(), room)); err != nil {
					r.Fatal(err)
				}
			})
			if taken < 2*rounds || refused < rounds/2 {
				t.Errorf("%d rounds: %d taken, %d refused: the test wants more of each", rounds, taken, refused)
			}
		})
	}
}

// fixed opens a store on a clock of one's own.
func fixed(t *testing.T, e engine, now func() time.Time) *store.Store {
	t.Helper()
	c := e.fresh(t)
	c.Now = now
	return open(t, c)
}

// A reading is all that a store says of a room.
type reading struct {
	Entries   []book.Entry
	Head      book.Head
	Positions int64
	Events    int
}

func read(t *testing.T, s *store.Store, room string) reading {
	t.Helper()
	all, err := s.Since(t.Context(), room, 0, 0)
	head, err2 := s.Head(t.Context(), room)
	state, err3 := s.State(t.Context(), room)
	if err := errors.Join(err, err2, err3); err != nil {
		t.Fatal(err)
	}
	return reading{all, head, state.Position(), len(state.Events())}
}

// grouped sends in two groups: while the turn to write is held, callers come one after the other and wait.
func grouped(t *testing.T, s *store.Store, room string, all []sending, first int) [][]fate {
	t.Helper()
	got := make([][]fate, len(all))
	for _, span := range [][2]int{{0, first}, {first, len(all)}} {
		var wait sync.WaitGroup
		err := s.Write(t.Context(), func(*store.Tx) error {
			for i := span[0]; i < span[1]; i++ {
				wait.Go(func() { got[i] = all[i].send(t.Context(), s, room) })
				for s.Waiting() < i-span[0]+1 {
					time.Sleep(10 * time.Microsecond)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		wait.Wait()
	}
	return got
}

// TestAGroupIsOneCommit counts commits by the store's clock, which each transaction looks at once.
func TestAGroupIsOneCommit(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			var all []sending
			for i := range 50 {
				all = append(all, sending{entries: []book.Entry{drawnOrWorked(fmt.Sprint("e", i), i)}})
			}
			moments := map[time.Time]int{}
			for _, f := range grouped(t, s, "room", all, 30) {
				moments[f[0].Stored[0].RecordedAt]++
			}
			if len(moments) != 2 {
				t.Errorf("recorded at %v, want at two moments", moments)
			}
		})
	}
}

// TestWhoLeavesTheLine cancels some of those who wait: nothing of theirs is written, all of the others'.
func TestWhoLeavesTheLine(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			ctx, cancel := context.WithCancel(t.Context())
			acked, gone := map[string]int64{}, 0
			var mu sync.Mutex
			var wait sync.WaitGroup
			err := s.Write(t.Context(), func(*store.Tx) error {
				for i := range 20 {
					wait.Go(func() {
						mine := t.Context()
						if i%2 == 0 {
							mine = ctx
						}
						stored, err := s.Append(mine, "room", []book.Entry{worked(fmt.Sprint("e", i))}, nil)
						mu.Lock()
						defer mu.Unlock()
						switch {
						case err == nil:
							acked[stored[0].ID] = stored[0].Position
						case book.KindOf(err) == book.Cancelled && i%2 == 0:
							gone++
						default:
							t.Errorf("append %d: %v", i, err)
						}
					})
				}
				for s.Waiting() < 20 {
					time.Sleep(time.Millisecond)
				}
				cancel()
				for s.Waiting() > 10 {
					time.Sleep(time.Millisecond)
				}
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
			wait.Wait()
			if len(acked) != 10 || gone != 10 {
				t.Errorf("%d acknowledged, %d gone, want 10 of each", len(acked), gone)
			}
			s = reopen(t, s, c)
			holds(t, s.Since, acked)
			if all, _ := s.Since(t.Context(), "room", 0, 0); len(all) != 10 {
				t.Errorf("%d entries, want 10", len(all))
			}
		})
	}
}

// TestReadersKeepWhatTheyHave takes states between sendings and finds each as it was, however the writer went on, through
// decisions and facts in turn.
func TestReadersKeepWhatTheyHave(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			var states []*book.State
			for i := range 60 {
				if i%7 == 0 {
					appendTo(t, s, named(fmt.Sprint("n", i), fmt.Sprint("Room ", i)))
				} else {
					appendTo(t, s, worked(fmt.Sprint("w", i)))
				}
				state, err := s.State(t.Context(), "room")
				if err != nil {
					t.Fatal(err)
				}
				states = append(states, state)
			}
			for i, state := range states {
				file, _ := state.File(nil)
				want := i + 1 - (i/7 + 1)
				if state.Position() != int64(i+1) || len(state.Events()) != want || file.Darkroom.Name != fmt.Sprint("Room ", i/7*7) {
					t.Errorf("state %d: at %d with %d loads in %q", i, state.Position(), len(state.Events()), file.Darkroom.Name)
				}
			}
		})
	}
}

// TestManyFactsAreShared writes more facts than readers are left behind, in one sending and one by one, and keeps a state
// of each moment.
func TestManyFactsAreShared(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			var many []book.Entry
			for i := range 1_200 {
				many = append(many, worked(fmt.Sprint("e", i)))
			}
			var states []*book.State
			for _, sent := range [][]book.Entry{many[:1_100], many[1_100:1_101], many[1_101:1_150], many[1_150:]} {
				if _, err := s.Each(t.Context(), "room", sent); err != nil {
					t.Fatal(err)
				}
				state, err := s.State(t.Context(), "room")
				if err != nil {
					t.Fatal(err)
				}
				states = append(states, state)
			}
			for i, want := range []int64{1_100, 1_101, 1_150, 1_200} {
				if got := states[i]; got.Position() != want || len(got.Events()) != int(want) {
					t.Errorf("state %d is at %d with %d loads, want %d", i, got.Position(), len(got.Events()), want)
				}
			}
		})
	}
}

// TestFailedGroupIsForgotten makes a group fail as a whole, after its entries were admitted: nothing of it is seen, and
// the same entries are written later.
func TestFailedGroupIsForgotten(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			appendTo(t, s, worked("first"))
			e.raw(t, c, e.poison)
			all := []sending{{entries: []book.Entry{worked("second")}}, {entries: []book.Entry{worked("poison")}}, {entries: []book.Entry{worked("third")}}}
			for i, f := range grouped(t, s, "room", all, 3) {
				if f[0].Err == "" || len(f[0].Stored) > 0 {
					t.Errorf("%d of the group was acknowledged: %+v", i, f)
				}
			}
			if r := read(t, s, "room"); len(r.Entries) != 1 || r.Positions != 1 || r.Events != 1 {
				t.Errorf("after the failure: %+v", r)
			}
			e.raw(t, c, e.cure)
			appendTo(t, s, worked("second"))
			appendTo(t, s, worked("poison"))
			if r := read(t, s, "room"); len(r.Entries) != 3 || r.Positions != 3 || r.Events != 3 || s.Verify(t.Context(), "room") != nil {
				t.Errorf("sent again: %+v", r)
			}
		})
	}
}

// TestMoved lets watchers follow a book that several writers move on: each sees every entry, and the last of them.
func TestMoved(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			const writers, each, watchers = 4, 40, 8
			var wait sync.WaitGroup
			for range watchers {
				wait.Go(func() {
					for at := int64(0); at < writers*each; {
						moved := s.Moved("room")
						more, err := s.Since(t.Context(), "room", at, 0)
						if err != nil {
							t.Error(err)
							return
						}
						for _, e := range more {
							if at++; e.Position != at {
								t.Errorf("at %d comes %d", at, e.Position)
							}
						}
						if at == writers*each {
							return
						}
						select {
						case <-moved:
						case <-time.After(20 * time.Second):
							t.Errorf("nobody woke who waits at %d", at)
							return
						}
					}
				})
			}
			for w := range writers {
				wait.Go(func() {
					for i := range each {
						if _, err := s.Append(t.Context(), "room", []book.Entry{worked(fmt.Sprint(w, "-", i))}, nil); err != nil {
							t.Error(err)
						}
					}
				})
			}
			wait.Wait()
		})
	}
}

// TestMovedWakesForNothingElse waits for a book while another moves on, one is refused, and what was there is sent again.
func TestMovedWakesForNothingElse(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			appendTo(t, s, worked("a"))
			if err := s.Create(t.Context(), "other"); err != nil {
				t.Fatal(err)
			}
			moved := s.Moved("room")
			appendTo(t, s, worked("a"))
			bad := worked("b")
			bad.Body = "{}"
			if _, err := s.Append(t.Context(), "room", []book.Entry{bad}, nil); err == nil {
				t.Error("a load of nothing was written")
			}
			if _, err := s.Append(t.Context(), "other", []book.Entry{worked("a")}, nil); err != nil {
				t.Fatal(err)
			}
			select {
			case <-moved:
				t.Error("woken for nothing")
			default:
			}
			appendTo(t, s, named("n", "Ropewalk")) // by a decision, too
			select {
			case <-moved:
			default:
				t.Error("not woken")
			}
		})
	}
}

// TestWatchersLeaveNothing runs in a bubble, which fails where a goroutine is left behind.
func TestWatchersLeaveNothing(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := &store.Store{}
		ctx, cancel := context.WithCancel(t.Context())
		for range 100 {
			go func() {
				select {
				case <-s.Moved("room"):
				case <-ctx.Done():
				}
			}()
		}
		synctest.Wait()
		cancel()
		synctest.Wait()
	})
}
