package store_test

import (
	"fmt"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"wetside/book"
	"wetside/store"
)

var evening = time.Date(2026, time.December, 3, 18, 30, 0, 0, time.UTC)

// An engine is a database engine that every test of this package runs on.
type engine struct {
	name string
	// fresh returns where a new, empty store is. Opened again, it is the same store.
	fresh func(tb testing.TB) store.Config
	// older returns where books in the oldest schema are, as if the program had been exchanged since.
	older func(t *testing.T) store.Config
	// raw runs a statement on a store's database past the store.
	raw func(tb testing.TB, c store.Config, statement string)
	// holds reports whether a word stands in a file of the database.
	holds func(tb testing.TB, c store.Config, word string) bool
	// poison is a statement after which an entry of the id poison can't be written, cure takes it back.
	poison, cure string
}

// engines are all engines; another one is one more line.
func engines() []engine { return []engine{sqliteEngine(), postgresEngine()} }

func sqliteEngine() engine {
	return engine{
		name:  "sqlite",
		older: older,
		fresh: func(tb testing.TB) store.Config {
			tb.Helper()
			return store.Config{Path: filepath.Join(tb.TempDir(), "books", "wetside.db"), Now: clock(evening)}
		},
		raw: func(tb testing.TB, c store.Config, statement string) {
			tb.Helper()
			rawly(tb, c.Path, statement)
		},
		holds: func(tb testing.TB, c store.Config, word string) bool {
			tb.Helper()
			return filesHold(tb, c.Path, word)
		},
		poison: `CREATE TRIGGER bad BEFORE INSERT ON entries WHEN NEW.id = 'poison' BEGIN SELECT RAISE(ABORT, 'no'); END`,
		cure:   `DROP TRIGGER bad`,
	}
}

func TestThereAreEngines(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			t.Logf("these tests run on %s at %s", s.Engine(), s.Place())
			if err := s.Ready(t.Context(), "room"); err != nil {
				t.Errorf("not ready: %v", err)
			}
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			if s.Ready(t.Context(), "room") == nil {
				t.Error("a closed store is ready")
			}
		})
	}
}

// clock returns a clock that goes on by a second each time it is looked at.
func clock(from time.Time) func() time.Time {
	var looked atomic.Int64
	return func() time.Time { return from.Add(time.Duration(looked.Add(1)) * time.Second) }
}

func open(tb testing.TB, c store.Config) *store.Store {
	tb.Helper()
	s, err := store.Open(tb.Context(), c)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { _ = s.Close() })
	return s
}

// begun opens a fresh store with one darkroom, "room".
func begun(tb testing.TB, e engine) (*store.Store, store.Config) {
	tb.Helper()
	c := e.fresh(tb)
	s := open(tb, c)
	if s.Engine() != e.name {
		tb.Fatalf("engine is %s, want %s", s.Engine(), e.name)
	}
	if err := s.Create(tb.Context(), "room"); err != nil {
		tb.Fatal(err)
	}
	return s, c
}

func reopen(tb testing.TB, s *store.Store, c store.Config) *store.Store {
	tb.Helper()
	if err := s.Close(); err != nil {
		tb.Fatal(err)
	}
	return open(tb, c)
}

// drawn is a fact: so much out of a lot.
func drawn(id string) book.Entry {
	return book.Entry{
		ID: id, Kind: book.Drawn, Version: 1, HappenedAt: evening, By: "p1", Device: "d1",
		Body: `{"lot":"lot1","amount":"30 mL"}`,
	}
}

// worked is a fact: a sheet went through two baths.
func worked(id string) book.Entry {
	return book.Entry{
		ID: id, Kind: book.BathWorked, Version: 1, HappenedAt: evening, By: "p1", Device: "d1",
		Body: `{"baths":["one","two"],"material":"RC paper","size":"8x10 in","sheets":1}`,
	}
}

// drawnOrWorked is one fact or the other.
func drawnOrWorked(id string, which int) book.Entry {
	if which%2 == 0 {
		return drawn(id)
	}
	return worked(id)
}

// named is a decision: the room's name.
func named(id, name string) book.Entry {
	return book.Entry{
		ID: id, Kind: book.RoomSet, Version: 1, HappenedAt: evening, Body: fmt.Sprintf(`{"as":{"name":%q}}`, name),
	}
}

func appendTo(tb testing.TB, s *store.Store, entries ...book.Entry) []book.Entry {
	tb.Helper()
	head, err := s.Head(tb.Context(), "room")
	if err != nil {
		tb.Fatal(err)
	}
	stored, err := s.Append(tb.Context(), "room", entries, &head.Position)
	if err != nil {
		tb.Fatal(err)
	}
	return stored
}

func wantKind(tb testing.TB, err error, want book.ErrorKind, key string) {
	tb.Helper()
	if err == nil || book.KindOf(err) != want || book.KeyOf(err) != key {
		tb.Errorf("error is %v (kind %d, key %s), want kind %d, key %s", err, book.KindOf(err), book.KeyOf(err), want, key)
	}
}
