package clibook_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"wetside/book"
	"wetside/cli"
	"wetside/darkroom/example"
	"wetside/internal/clibook"
)

func evening() time.Time { return time.Date(2026, time.March, 12, 18, 0, 0, 0, time.UTC) }

// What the command line writes is in the file when it is opened again: a room once and no second time, a fact at its own
// moment; a decision made on an older position is refused and writes nothing.
func TestKeeps(t *testing.T) {
	dir, n := t.TempDir(), 0
	open := func() clibook.Book {
		b, err := clibook.Open(t.Context(), dir, evening, func() string { n++; return fmt.Sprintf("id-%04d", n) })
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	b := open()
	f, err := example.File(evening())
	if err != nil {
		t.Fatal(err)
	}
	if first, err := b.Import(t.Context(), f); err != nil || first == 0 {
		t.Fatalf("import: %d entries, %v", first, err)
	}
	if again, err := b.Import(t.Context(), f); err != nil || again != 0 {
		t.Errorf("a second import writes %d entries, %v", again, err)
	}
	s, err := b.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	at := evening().Add(-time.Hour)
	mixed := &book.Mixed{Bath: "w", Use: book.Holding, Volume: "3 L"}
	if ids, err := b.Write(t.Context(), at, s.Position(), mixed); err != nil || len(ids) != 1 {
		t.Fatalf("write: %v, %v", ids, err)
	}
	if _, err := b.Write(t.Context(), at, s.Position(), &book.Disposed{Bath: "w"}); book.KindOf(err) != book.Stale {
		t.Errorf("a decision on an older position: %v", err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = open()
	defer func() { _ = b.Close() }()
	if s, err = b.State(t.Context()); err != nil {
		t.Fatal(err)
	}
	if w, there := s.Bath("w"); !there || !w.MixedAt.Equal(at) || w.Gone != nil {
		t.Errorf("opened again: %+v, %v", w, there)
	}
}

// A server waits for a command that has the book for a moment, and is refused beside another server; a command reads beside a
// server and writes nothing.
func TestServersAndCommands(t *testing.T) {
	at := cli.Where{Dir: t.TempDir(), Darkroom: clibook.Room}
	id := func() string { return "id" }
	passing, err := clibook.OpenPassing(t.Context(), at, evening, id)
	if err != nil {
		t.Fatal(err)
	}
	closed := make(chan error, 1)
	go func() {
		time.Sleep(300 * time.Millisecond)
		closed <- passing.Close()
	}()
	server, err := clibook.OpenServing(t.Context(), at, evening, id)
	if err != nil {
		t.Fatalf("a server beside a command: %v", err)
	}
	defer func() { _ = server.Close() }()
	if err := <-closed; err != nil {
		t.Error(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 250*time.Millisecond)
	defer cancel()
	if _, err := clibook.OpenServing(ctx, at, evening, id); book.KindOf(err) != book.InUse {
		t.Errorf("a second server: %v", err)
	}
	command, err := clibook.OpenPassing(t.Context(), at, evening, id)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = command.Close() }()
	if s, err := command.State(t.Context()); err != nil || s.Position() != 0 {
		t.Errorf("a command beside a server reads: %v", err)
	}
	if _, err := command.Write(t.Context(), evening(), 0, &book.Mixed{Bath: "w", Use: book.Holding, Volume: "3 L"}); book.KeyOf(err) != "store_read_only" {
		t.Errorf("a command beside a server writes: %v", err)
	}
}
