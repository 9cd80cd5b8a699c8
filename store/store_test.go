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
	fresh func(t testing.TB) store.Config
}

// engines are all engines; another one is one more line.
func engines() []engine {
	return []engine{{name: "sqlite", fresh: func(t testing.TB) store.Config {
		return store.Config{Path: filepath.Join(t.TempDir(), "books", "wetside.db"), Now: clock(evening)}
	}}}
}

// onEach runs a test on each engine, under its name.
func onEach(t *testing.T, test func(t *testing.T, e engine)) {
	t.Helper()
	ran := 0
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) { test(t, e) })
		ran++
	}
	if ran == 0 {
		t.Fatal("no engine to test on")
	}
}

// clock returns a clock that goes on by a second each time it is looked at.
func clock(from time.Time) func() time.Time {
	var looked atomic.Int64
	return func() time.Time { return from.Add(time.Duration(looked.Add(1)) * time.Second) }
}

func open(t testing.TB, c store.Config) *store.Store {
	t.Helper()
	s, err := store.Open(t.Context(), c)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// begun opens a fresh store with one darkroom, "room".
func begun(t testing.TB, e engine) (*store.Store, store.Config) {
	t.Helper()
	c := e.fresh(t)
	s := open(t, c)
	if s.Engine() != e.name {
		t.Fatalf("engine is %s, want %s", s.Engine(), e.name)
	}
	if err := s.Create(t.Context(), "room"); err != nil {
		t.Fatal(err)
	}
	return s, c
}

func reopen(t testing.TB, s *store.Store, c store.Config) *store.Store {
	t.Helper()
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return open(t, c)
}

// drawn is a fact: so much out of a lot.
func drawn(id string) book.Entry {
	return book.Entry{
		ID: id, Kind: book.Drawn, Version: 1, HappenedAt: evening, By: "p1", Device: "d1",
		Body: `{"lot":"lot1","amount":"30 mL"}`,
	}
}

// named is a decision: the room's name.
func named(id, name string) book.Entry {
	return book.Entry{
		ID: id, Kind: book.RoomSet, Version: 1, HappenedAt: evening, Body: fmt.Sprintf(`{"as":{"name":%q}}`, name),
	}
}

func appendTo(t testing.TB, s *store.Store, entries ...book.Entry) []book.Entry {
	t.Helper()
	head, err := s.Head(t.Context(), "room")
	if err != nil {
		t.Fatal(err)
	}
	stored, err := s.Append(t.Context(), "room", entries, &head.Position)
	if err != nil {
		t.Fatal(err)
	}
	return stored
}

func wantKind(t testing.TB, err error, want book.ErrorKind, key string) {
	t.Helper()
	if err == nil || book.KindOf(err) != want || book.KeyOf(err) != key {
		t.Errorf("error is %v (kind %d, key %s), want kind %d, key %s", err, book.KindOf(err), book.KeyOf(err), want, key)
	}
}
