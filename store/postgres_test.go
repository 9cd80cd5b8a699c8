package store_test

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	_ "github.com/lib/pq"

	"wetside/internal/outside"
	"wetside/store"
)

// books is the database in the private cluster in which each store has a schema of its own.
const books = "books"

// A cluster is the private cluster of this test binary; it is made when a test first asks.
type cluster struct {
	once    sync.Once
	server  *outside.Postgres
	err     error
	schemas atomic.Int64
}

var private cluster //nolint:gochecknoglobals // one for the test binary, which TestMain stops

// postgres returns the cluster of this test binary.
func postgres(tb testing.TB) *outside.Postgres {
	tb.Helper()
	bin := outside.PostgresBin(tb)
	private.once.Do(func() {
		private.server, private.err = outside.StartPostgres(bin, "local all club scram-sha-256", "local all shut reject")
		if private.err == nil {
			private.server.SQL(tb, "postgres", "CREATE DATABASE "+books)
		}
	})
	if private.err != nil {
		tb.Fatal(private.err)
	}
	return private.server
}

func (c *cluster) stop() error {
	if c.server == nil {
		return nil
	}
	return c.server.Stop()
}

func postgresEngine() engine {
	return engine{
		name:  "postgres",
		older: olderPostgres,
		fresh: func(tb testing.TB) store.Config {
			tb.Helper()
			server := postgres(tb)
			schema := fmt.Sprint("s", private.schemas.Add(1))
			exec1(tb, server.URL(books, ""), "CREATE SCHEMA "+schema)
			return store.Config{Database: server.URL(books, "&search_path="+schema), Now: clock(evening)}
		},
		raw: func(tb testing.TB, c store.Config, statement string) {
			tb.Helper()
			exec1(tb, c.Database, statement)
		},
		holds: func(tb testing.TB, c store.Config, word string) bool {
			tb.Helper()
			exec1(tb, c.Database, "CHECKPOINT")
			err := exec.CommandContext(tb.Context(), "grep", "-r", "-a", "-q", "-e", word, filepath.Join(postgres(tb).Dir(), "data", "base")).Run()
			if exit, ok := errors.AsType[*exec.ExitError](err); err != nil && (!ok || exit.ExitCode() != 1) {
				tb.Fatal(err)
			}
			return err == nil
		},
		poison: `CREATE FUNCTION no() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE 'no'; END $$;
			CREATE TRIGGER bad BEFORE INSERT ON entries FOR EACH ROW WHEN (NEW.id = 'poison') EXECUTE FUNCTION no()`,
		cure: `DROP TRIGGER bad ON entries`,
	}
}

// olderPostgres takes the oldest kept export into a database of the oldest schema.
func olderPostgres(t *testing.T) store.Config {
	t.Helper()
	c := postgresEngine().fresh(t)
	s, err := store.OpenOld(t.Context(), c, 1)
	if err != nil {
		t.Fatal(err)
	}
	text := bytesOf(t, strings.TrimSuffix(releases(t)[0], ".db")+".jsonl")
	if _, err := takeOver(t, s, bytes.NewReader(text)); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return c
}

// exec1 runs statements on a connection of their own.
func exec1(tb testing.TB, at, statements string) {
	tb.Helper()
	db, err := sql.Open("postgres", at)
	if err != nil {
		tb.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	if _, err := db.ExecContext(tb.Context(), statements); err != nil {
		tb.Fatal(err)
	}
}
