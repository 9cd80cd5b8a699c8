package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/pressly/goose/v3"

	"wetside/book"
	"wetside/store/postgres"
)

// channel is where processes on one schema tell each other that a book has moved on.
const channel = `('wetside_' || md5(current_schema()))`

// waitForServer is the patience with a server that is started again.
const waitForServer = 10 * time.Second

// postgresDialect is the dialect of PostgreSQL at a URL.
func postgresDialect(at string) (dialect, error) {
	config, err := postgres.Read(at)
	if err != nil {
		return dialect{}, &book.Error{Kind: book.BadInput, Key: "store_bad_url", Cause: err}
	}
	return dialect{
		name:      "postgres",
		place:     postgres.Redacted(at),
		goose:     goose.DialectPostgres,
		tokens:    strings.NewReplacer("{text}", `TEXT COLLATE "C"`, "{bigint}", "BIGINT", "{bytes}", "BYTEA", "{table}", ""),
		rebind:    numbered,
		forUpdate: " FOR NO KEY UPDATE", // whoever inserts a row that names the darkroom is not held up
		snapshot:  sql.LevelRepeatableRead,
		writers:   1,
		readers:   6,
		patience:  waitForServer,
		announce:  `SELECT pg_notify(` + channel + `, CAST(? AS TEXT) || ' ' || CAST(? AS BIGINT))`,
		open:      func(ctx context.Context, s *Store) error { return openPostgres(ctx, s, config) },
		beside:    func(ctx context.Context, s *Store, _ bool) error { return besidePostgres(ctx, s, config) },
		alone:     alonePostgres,
		claim:     claimPostgres,
		forget:    forgetPostgres,
		kind:      kindOfPostgres,
		key:       keyOfPostgres,
		listen: func(ctx context.Context, db *sql.DB, heard func(string, int64)) error {
			return listenPostgres(ctx, db, config, heard)
		},
	}, nil
}

// numbered turns ? into $1, $2 and so on. No statement of ours has a ? in a text.
func numbered(query string) string {
	var b strings.Builder
	for n := 1; ; n++ {
		before, after, found := strings.Cut(query, "?")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		b.WriteString("$" + strconv.Itoa(n))
		query = after
	}
}

// openPostgres connects.
func openPostgres(ctx context.Context, s *Store, config *postgres.Config) error {
	s.writer, s.reader = sql.OpenDB(config), sql.OpenDB(config)
	settings := map[string]string{"server_encoding": "", "fsync": "", "full_page_writes": ""}
	for name := range settings {
		var value string
		if err := s.reader.QueryRowContext(ctx, `SELECT current_setting($1)`, name).Scan(&value); err != nil {
			return advised(err, config)
		}
		settings[name] = value
	}
	if settings["server_encoding"] != "UTF8" {
		return &book.Error{Kind: book.Foreign, Key: "database_foreign", Cause: fmt.Errorf(
			"the database keeps text as %s: make one with  createdb --encoding=UTF8 --template=template0", settings["server_encoding"])}
	}
	for _, name := range []string{"fsync", "full_page_writes"} {
		if settings[name] == "off" {
			s.warnings = append(s.warnings, Warning{Key: "store_unsynced", What: name})
		}
	}
	return nil
}

// alonePostgres holds an advisory lock, which ends with its connection, while f runs.
func alonePostgres(ctx context.Context, db *sql.DB, f func() error) error {
	conn, err := db.Conn(ctx)
	if err != nil {
		return err
	}
	defer func() { _ = conn.Close() }()
	if _, err := conn.ExecContext(ctx, `SET lock_timeout = 0`); err != nil { // a migration takes what it takes
		return err
	}
	if _, err := conn.ExecContext(ctx, `SELECT pg_advisory_lock($1)`, applicationID); err != nil {
		return err
	}
	defer func() {
		ctx := context.WithoutCancel(ctx)
		_, unlocked := conn.ExecContext(ctx, `SELECT pg_advisory_unlock($1)`, applicationID)
		if _, reset := conn.ExecContext(ctx, `RESET lock_timeout`); unlocked != nil || reset != nil {
			_ = conn.Raw(func(any) error { return errors.New("let go") }) // with its lock
		}
	}()
	return f()
}

// besidePostgres connects to read, where there are books.
func besidePostgres(ctx context.Context, s *Store, config *postgres.Config) error {
	if err := openPostgres(ctx, s, config); err != nil {
		return err
	}
	claimed, err := claimedPostgres(ctx, s.reader)
	if err == nil && !claimed {
		err = &book.Error{Kind: book.NotFound, Key: "store_no_file", Cause: fmt.Errorf("%s is empty", s.dialect.place)}
	}
	return err
}

// claimPostgres marks the schema by a table of our name, and refuses one in which others' tables stand.
func claimPostgres(ctx context.Context, db *sql.DB) error {
	claimed, err := claimedPostgres(ctx, db)
	if err != nil || claimed {
		return err
	}
	if _, err = db.ExecContext(ctx, `CREATE TABLE wetside (books TEXT NOT NULL)`); err == nil {
		return nil
	}
	return advised(err, nil)
}

// claimedPostgres reports whether the schema is marked as ours. One in which others' tables stand is an error.
func claimedPostgres(ctx context.Context, db *sql.DB) (bool, error) {
	rows, err := db.QueryContext(ctx, `SELECT tablename FROM pg_tables WHERE schemaname = current_schema() ORDER BY tablename COLLATE "C"`)
	if err != nil {
		return false, err
	}
	defer func() { _ = rows.Close() }()
	var tables []string
	for rows.Next() {
		var name string
		if err := rows.Scan(&name); err != nil {
			return false, err
		}
		tables = append(tables, name)
	}
	if err := rows.Err(); err != nil || slices.Contains(tables, "wetside") {
		return err == nil, err
	}
	if len(tables) > 0 {
		return false, &book.Error{Kind: book.Foreign, Key: "database_foreign", Cause: fmt.Errorf(
			"another program's tables stand in this database (%s and %d more): give wetside a database of its own", tables[0], len(tables)-1)}
	}
	return false, nil
}

// forgetPostgres writes a table's file anew, without what was deleted from it, where nobody reads it for long. What is still
// in the write-ahead log goes as the server recycles it.
func forgetPostgres(ctx context.Context, db *sql.DB, table string) error {
	if err := outlastReaders(ctx, db); err != nil {
		return err
	}
	_, err := db.ExecContext(ctx, `VACUUM (FULL) `+table)
	if kind, _ := kindOfPostgres(err); err != nil && kind == book.Busy {
		return nil // whatever erases next does it
	}
	return err
}

// outlastReaders waits, for a few seconds at most, until nobody looks at a moment before now: for whoever does, a table that is written
// anew keeps what was deleted since.
func outlastReaders(ctx context.Context, db *sql.DB) error {
	var now string
	if err := db.QueryRowContext(ctx, "SELECT pg_current_xact_id()::text").Scan(&now); err != nil {
		return err
	}
	const looked = `SELECT EXISTS (SELECT 1 FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()
		AND age(backend_xmin) >= age($1::xid8::xid))`
	for range 100 {
		var looks bool
		if err := db.QueryRowContext(ctx, looked, now).Scan(&looks); err != nil || !looks {
			return err
		}
		select {
		case <-time.After(30 * time.Millisecond):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return nil
}

// listenPostgres hears on a connection of its own, until that ends.
func listenPostgres(ctx context.Context, db *sql.DB, config *postgres.Config, heard func(string, int64)) error {
	var name string
	if err := db.QueryRowContext(ctx, "SELECT "+channel).Scan(&name); err != nil {
		return err
	}
	return config.Listen(ctx, name, func() { heard("", 0) }, func(said string) {
		darkroom, at, _ := strings.Cut(said, " ")
		if position, err := strconv.ParseInt(at, 10, 64); err == nil {
			heard(darkroom, position)
		}
	})
}
