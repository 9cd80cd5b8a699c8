package store_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/store"
)

// longEnough is a book that is long enough to have a snapshot.
const longEnough = 13_000

// A restedBook is a book with a snapshot, what was told of it for a log, and its entries.
type restedBook struct {
	t       *testing.T
	c       store.Config
	entries []book.Entry
	mu      sync.Mutex
	odd     []error
}

func newRestedBook(t *testing.T, e engine) *restedBook {
	t.Helper()
	b := &restedBook{t: t, c: e.fresh(t)}
	b.c.Odd = func(err error) {
		b.mu.Lock()
		defer b.mu.Unlock()
		b.odd = append(b.odd, err)
	}
	b.c.Now = func() time.Time { return load(longEnough).HappenedAt }
	s := b.open()
	head := book.Head{Darkroom: "room"}
	_, err := s.TakeOver(t.Context(), "room", func() (book.Entry, error) {
		if len(b.entries) == longEnough {
			return book.Entry{}, io.EOF
		}
		e := load(len(b.entries))
		e.RecordedAt = e.HappenedAt
		e, head = head.Place(e)
		b.entries = append(b.entries, e)
		return e, nil
	}, func() ([]book.Person, error) { return nil, nil })
	if err != nil {
		t.Fatal(err)
	}
	b.state(s)
	b.close(s) // which waits for the snapshot
	return b
}

func (b *restedBook) open() *store.Store {
	b.t.Helper()
	s, err := store.Open(b.t.Context(), b.c)
	if err != nil {
		b.t.Fatal(err)
	}
	b.t.Cleanup(func() { _ = s.Close() })
	return s
}

func (b *restedBook) close(s *store.Store) {
	b.t.Helper()
	if err := s.Close(); err != nil {
		b.t.Fatal(err)
	}
}

func (b *restedBook) state(s *store.Store) *book.State {
	b.t.Helper()
	state, err := s.State(b.t.Context(), "room")
	if err != nil {
		b.t.Fatal(err)
	}
	return state
}

// plain is the fold of which nothing ever rested.
func (b *restedBook) plain(more ...book.Entry) *book.State {
	b.t.Helper()
	plain, err := book.Fold("room", append(slices.Clip(b.entries), more...))
	if err != nil {
		b.t.Fatal(err)
	}
	return plain
}

func (b *restedBook) told() []error {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.odd
}

func (b *restedBook) snapshot() []byte {
	b.t.Helper()
	s := b.open()
	defer b.close(s)
	rests, err := s.RawSnapshot(b.t.Context(), "room")
	if err != nil {
		b.t.Fatal(err)
	}
	return rests
}

// wholly returns a state in which nothing rests.
func wholly(s *store.Store) (*book.State, error) {
	return s.Awake(context.Background(), "room", (*book.State).NeedsAll)
}

// TestBeginWithASnapshot holds a start with a snapshot against a plain fold, before and after what rests was woken; and the same with
// a snapshot that is damaged, cut, or of another book, which is dropped and told for the log. A snapshot that is whole and says
// something else than the entries is found by Retell.
func TestBeginWithASnapshot(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			b := newRestedBook(t, e)
			plain, all := b.plain(), cmp.Exporter(func(reflect.Type) bool { return true })
			holds := func(what string, drops int) {
				t.Helper()
				s := b.open()
				defer b.close(s)
				if d := plain.Differs(b.state(s)); len(d) > 0 {
					t.Errorf("%s: told otherwise: %v", what, d)
				}
				awake, err := wholly(s)
				if err != nil {
					t.Fatal(err)
				}
				if d := cmp.Diff(plain.Baths(), awake.Baths(), all); d != "" {
					t.Errorf("%s: baths (-plain +woken):\n%.2000s", what, d)
				}
				if d := cmp.Diff(plain.Waste(), awake.Waste(), all); d != "" {
					t.Errorf("%s: waste (-plain +woken):\n%.2000s", what, d)
				}
				if told := b.told(); len(told) != drops || drops > 0 && !errors.Is(told[drops-1], book.ErrSnapshot) {
					t.Errorf("%s: told %v, want %d dropped", what, told, drops)
				}
			}
			holds("as kept", 0)
			s := b.open()
			if n, all := len(b.state(s).Baths()), len(plain.Baths()); n*2 > all {
				t.Errorf("%d of %d baths are awake: little rests", n, all)
			}
			r, err := s.Retell(t.Context(), "room")
			if err != nil || r.Snapshot != store.SnapshotSame {
				t.Errorf("told again: %+v, %v", r, err)
			}
			b.close(s)
			kept := b.snapshot()
			put := func(rests []byte) {
				s := b.open()
				defer b.close(s)
				if err := s.PutRawSnapshot(t.Context(), "room", rests); err != nil {
					t.Fatal(err)
				}
			}
			for i, x := range []struct {
				what string
				make func()
			}{
				{"a byte changed", func() {
					wrong := bytes.Clone(kept)
					wrong[len(wrong)/2] ^= 1
					put(wrong)
				}},
				{"cut short", func() { put(kept[:len(kept)/2]) }},
				{"nothing", func() { put([]byte{}) }},
				{"of another book", func() { e.raw(t, b.c, `UPDATE snapshots SET hash = 'other'`) }},
			} {
				x.make()
				holds(x.what, i+1)
			}
			s = b.open()
			defer b.close(s)
			if r, err := s.Retell(t.Context(), "room"); err != nil || r.Snapshot == store.SnapshotDiffers {
				t.Errorf("after a fold anew: %+v, %v", r, err)
			}
		})
	}
}

// TestLateForWhatRests writes facts and corrections about what rests, alone and together, and asks to see it: all is as if nothing
// had ever rested.
func TestLateForWhatRests(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			b := newRestedBook(t, e)
			s := b.open()
			old := longEvening{evening: 3}
			late := func(n int, kind book.Kind, body string) book.Entry {
				e := old.entry(kind, "%s", body)
				e.ID, e.HappenedAt = longID('x', n), load(3*eveningOf+100).HappenedAt
				return e
			}
			back := func(n, taken int) book.Entry {
				e := late(n, book.Correction, `{}`)
				e.TakesBack = longID('e', taken)
				return e
			}
			worked := late(1, book.BathWorked, fmt.Sprintf(`{"baths":[%q,%q],"material":"RC paper","size":"8x10 in","sheets":5}`, old.bath('d'), old.bath('f')))
			if err := s.CanTakeBack(t.Context(), "room", longID('e', 3*eveningOf+212)); err != nil {
				t.Errorf("an old load can't be taken back: %v", err)
			}
			if err := s.CanTakeBack(t.Context(), "room", longID('e', 4*eveningOf+217)); book.KindOf(err) != book.Refused {
				t.Errorf("what was taken back can be taken back again: %v", err)
			}
			var more []book.Entry
			stored, err := s.Append(t.Context(), "room", []book.Entry{worked}, nil)
			if err != nil {
				t.Fatal(err)
			}
			more = append(more, stored...)
			out, err := s.Each(t.Context(), "room", []book.Entry{
				late(2, book.PrintOut, fmt.Sprintf(`{"print":%q,"abandoned":true}`, longID('p', 5*40))),
				back(3, 3*eveningOf+12),  // the start of a print
				back(4, 3*eveningOf+7),   // a mix that was drawn on: refused while loads went through
				back(5, 3*eveningOf+225), // a reading
			})
			if err != nil {
				t.Fatal(err)
			}
			for i, o := range out {
				if refused := book.KindOf(o.Err) == book.Refused; refused != (i == 2) {
					t.Errorf("%d: %v", i, o.Err)
				}
				if o.Err == nil {
					more = append(more, o.Entry)
				}
			}
			head, err := s.Head(t.Context(), "room")
			if err != nil {
				t.Fatal(err)
			}
			if stored, err = s.Append(t.Context(), "room", []book.Entry{back(6, 3*eveningOf+213)}, &head.Position); err != nil {
				t.Fatal(err)
			}
			more = append(more, stored...)
			plain := b.plain(more...)
			one, err := s.Awake(t.Context(), "room", func(s *book.State) book.Waking { return s.NeedsBaths(old.bath('d')) })
			if err != nil {
				t.Fatal(err)
			}
			want, _ := plain.Bath(old.bath('d'))
			got, is := one.Bath(old.bath('d'))
			if d := cmp.Diff(want, got, cmp.Exporter(func(reflect.Type) bool { return true })); d != "" || !is {
				t.Errorf("an old bath (-plain +woken):\n%.2000s", d)
			}
			b.close(s)
			s = b.open()
			if d := plain.Differs(b.state(s)); len(d) > 0 {
				t.Errorf("opened anew, told otherwise: %v", d)
			}
			b.close(s)
		})
	}
}
