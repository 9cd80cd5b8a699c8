package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"github.com/pressly/goose/v3"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"wetside/book"
)

// applicationID marks a SQLite file as a book of ours, in its header: "WETS".
const applicationID = 0x57455453

// sqliteDialect is the dialect of SQLite in a file.
func sqliteDialect(path string) dialect {
	return dialect{
		name:            "sqlite",
		place:           path,
		goose:           goose.DialectSQLite3,
		tokens:          strings.NewReplacer("{text}", "TEXT", "{bigint}", "INTEGER", "{bytes}", "BLOB", "{table}", " STRICT"),
		rebind:          func(query string) string { return query },
		writers:         1,
		readers:         4,
		failsForGood:    true,
		keepsStatements: true,
		open:            func(ctx context.Context, s *Store) error { return openSQLite(ctx, s, path) },
		beside:          func(ctx context.Context, s *Store, still bool) error { return besideSQLite(ctx, s, path, still) },
		alone:           func(_ context.Context, _ *sql.DB, f func() error) error { return f() }, // by the lock of the file
		claim:           claimSQLite,
		forget:          forgetSQLite,
		sound:           soundSQLite,
		copy:            func(ctx context.Context, out string) error { return copySQLite(ctx, path, false, out) },
		kind:            kindOfSQLite,
		key:             keyOf,
	}
}

// openSQLite takes the file's lock, makes the file where there is none, and opens it where it is a book.
func openSQLite(ctx context.Context, s *Store, path string) error {
	path, err := place(path)
	if err != nil {
		return err
	}
	if s.lock, err = lock(path + ".lock"); err != nil {
		return err
	}
	if err := create(path); err != nil {
		return err
	}
	if name := network(filepath.Dir(path)); name != "" {
		s.warnings = append(s.warnings, Warning{Key: "store_on_network", What: name})
	}
	if err := probeSQLite(ctx, path); err != nil {
		return err
	}
	if s.writer, err = sql.Open("sqlite", sqliteDSN(path, true)); err != nil {
		return err
	}
	s.reader, err = sql.Open("sqlite", sqliteDSN(path, false))
	return err
}

// place makes the folder and returns the file's real path, so that two names of one file have one lock.
func place(path string) (string, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return "", err
	}
	resolved, err := filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		folder, err := filepath.EvalSymlinks(filepath.Dir(path))
		return filepath.Join(folder, filepath.Base(path)), err
	}
	return resolved, err
}

// create makes an empty file that only its owner may read, before SQLite has it open; SQLite gives the files beside it
// the same rights. The folder is synced, so that the file is there after a power cut.
func create(path string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		if info, err := os.Stat(path); err != nil || info.Mode().IsRegular() {
			return err
		}
		return fmt.Errorf("no plain file: %w", fs.ErrPermission)
	}
	if err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	folder, err := os.Open(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer func() { _ = folder.Close() }()
	return folder.Sync()
}

// sqliteDSN returns the name under which the driver opens the file, with all settings in it, because one set by a
// statement would reach one connection only. Writers take the write lock when they begin; readers can't write.
func sqliteDSN(path string, writes bool) string {
	settings := []string{
		"_pragma=busy_timeout(10000)", // first, so that what follows waits
		"_pragma=journal_mode(WAL)",
		"_pragma=synchronous(FULL)", // every commit reaches the disk
		"_pragma=foreign_keys(1)",
		"_pragma=secure_delete(1)", // what is erased is overwritten
		"_pragma=mmap_size(0)",     // a failed read is an error, never a signal
		"_pragma=trusted_schema(0)",
		"_dqs=0",
		"_defensive=1",
	}
	if writes {
		settings = append(settings, "_txlock=immediate")
	} else {
		settings = append(settings, "_pragma=query_only(1)")
	}
	name := url.URL{Scheme: "file", Path: path, RawQuery: strings.Join(settings, "&")}
	return name.String()
}

// probeSQLite refuses a file that is another program's or no database, without changing it: opened as a book it would
// be switched to a write-ahead log.
func probeSQLite(ctx context.Context, path string) error {
	err := probeAs(ctx, path, "ro")
	if e, ok := errors.AsType[*sqlite.Error](err); ok && e.Code() == sqlite3.SQLITE_READONLY_ROLLBACK {
		return probeAs(ctx, path, "rw") // a kill left half a transaction, which SQLite takes back first
	}
	return err
}

// probeAs is probeSQLite in a mode of opening.
func probeAs(ctx context.Context, path, mode string) error {
	name := url.URL{Scheme: "file", Path: path, RawQuery: "mode=" + mode + "&_pragma=busy_timeout(10000)"}
	db, err := sql.Open("sqlite", name.String())
	if err != nil {
		return err
	}
	defer func() { _ = db.Close() }()
	return probeOpen(ctx, db)
}

// probeOpen is probeSQLite for a file that is open.
func probeOpen(ctx context.Context, db *sql.DB) error {
	var id, tables int
	if err := db.QueryRowContext(ctx, "PRAGMA application_id").Scan(&id); err != nil {
		return err
	}
	if err := db.QueryRowContext(ctx, "SELECT COUNT(*) FROM sqlite_schema").Scan(&tables); err != nil {
		return err
	}
	if id == applicationID || id == 0 && tables == 0 {
		return nil
	}
	return &book.Error{Kind: book.Foreign, Key: "store_foreign", Cause: fmt.Errorf(
		"a SQLite database of another program: application_id %#x, %d tables and indexes", id, tables)}
}

// claimSQLite marks the database as a book, once.
func claimSQLite(ctx context.Context, db *sql.DB) error {
	var id int
	if err := db.QueryRowContext(ctx, "PRAGMA application_id").Scan(&id); err != nil || id == applicationID {
		return err
	}
	_, err := db.ExecContext(ctx, fmt.Sprintf("PRAGMA application_id=%d", applicationID))
	return err
}

// forgetSQLite moves everything out of the write-ahead log, in which deleted rows would stay readable for a while, and
// empties it. With a reader at work the log is emptied later, at the latest when the store is closed.
func forgetSQLite(ctx context.Context, db *sql.DB, _ string) error {
	var busy, logged, moved int
	return db.QueryRowContext(ctx, "PRAGMA wal_checkpoint(TRUNCATE)").Scan(&busy, &logged, &moved)
}

// kindOfSQLite tells the trouble by SQLite's result code (sqlite.org/rescode.html).
func kindOfSQLite(err error) (book.ErrorKind, bool) {
	e, ok := errors.AsType[*sqlite.Error](err)
	if !ok {
		return book.Internal, false
	}
	switch e.Code() & 0xff {
	case sqlite3.SQLITE_FULL:
		return book.Full, true
	case sqlite3.SQLITE_IOERR:
		return book.Failing, true
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return book.Busy, true
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_AUTH:
		return book.NoAccess, true
	case sqlite3.SQLITE_CORRUPT:
		return book.Damaged, true
	case sqlite3.SQLITE_NOTADB:
		return book.Foreign, true
	case sqlite3.SQLITE_INTERRUPT:
		return book.Cancelled, true
	default:
		return book.Internal, true
	}
}
