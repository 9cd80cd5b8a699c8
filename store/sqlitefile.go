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
	"syscall"

	"wetside/book"
)

// maxFaults bounds what is told of a broken file.
const maxFaults = 20

// soundSQLite runs SQLite's own checks of every page, index and reference.
func soundSQLite(ctx context.Context, db *sql.DB) (faults []string, err error) {
	for _, check := range []string{
		fmt.Sprintf("PRAGMA integrity_check(%d)", maxFaults),
		`SELECT 'a row of ' || "table" || ' names a row of ' || parent || ' that is not there' FROM pragma_foreign_key_check`,
	} {
		found, err := texts(ctx, db, check)
		faults = append(faults, found...)
		if err != nil || len(faults) > 0 {
			return faults, err
		}
	}
	return nil, nil
}

// texts returns the rows of a check but ok, at most maxFaults.
func texts(ctx context.Context, db *sql.DB, query string) (all []string, err error) {
	rows, err := db.QueryContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() && len(all) < maxFaults {
		var text string
		if err := rows.Scan(&text); err != nil {
			return all, err
		}
		if text = strings.TrimPrefix(text, "*** in database main ***\n"); text != "ok" {
			all = append(all, text)
		}
	}
	return all, rows.Err()
}

// copySQLite lets SQLite write the copy, so that what is still in the write-ahead log is in it, and nothing that was erased.
// The live file is never read by plain file calls: closing it would drop SQLite's own locks.
func copySQLite(ctx context.Context, path string, still bool, out string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	if out, err = filepath.Abs(out); err != nil {
		return err
	}
	db, err := sql.Open("sqlite", besideDSN(path, still))
	if err != nil {
		return err
	}
	_, err = db.ExecContext(ctx, "VACUUM INTO ?", out)
	return errors.Join(err, db.Close())
}

// besideDSN returns the name under which the driver opens a file to read it beside whoever has it open. A file without a log
// beside it is nobody's at the moment: SQLite is told that it stands still where that must not leave anything beside it.
func besideDSN(path string, still bool) string {
	settings := []string{
		"mode=ro", "_pragma=busy_timeout(10000)", "_pragma=foreign_keys(1)", "_pragma=mmap_size(0)", "_pragma=trusted_schema(0)",
		"_dqs=0", "_defensive=1",
	}
	if _, err := os.Stat(path + "-wal"); errors.Is(err, fs.ErrNotExist) && (still || readOnly(filepath.Dir(path))) {
		settings = append(settings, "immutable=1")
	}
	name := url.URL{Scheme: "file", Path: path, RawQuery: strings.Join(settings, "&")}
	return name.String()
}

// readOnly reports whether a folder lies on a disk that nobody can write: there SQLite can't make the files that it keeps beside
// an open database, and nobody else can, either.
func readOnly(folder string) bool {
	f, err := os.CreateTemp(folder, ".wetside-probe-*")
	if err == nil {
		_, _ = f.Close(), os.Remove(f.Name())
	}
	return errors.Is(err, syscall.EROFS)
}

// besideSQLite opens a file to read it, where it holds books.
func besideSQLite(ctx context.Context, s *Store, path string, still bool) error {
	s.dialect.copy = func(ctx context.Context, out string) error { return copySQLite(ctx, path, still, out) }
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &book.Error{Kind: book.NotFound, Key: "store_no_file", Cause: err}
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return &book.Error{Kind: book.Foreign, Key: "store_foreign", Cause: errors.New("no plain file")}
	}
	at, err := place(path)
	if err != nil {
		return err
	}
	if s.reader, err = sql.Open("sqlite", besideDSN(at, still)); err != nil {
		return err
	}
	if err := probeOpen(ctx, s.reader); err != nil {
		return err
	}
	var tables int
	err = s.reader.QueryRowContext(ctx, `SELECT COUNT(*) FROM sqlite_schema WHERE name IN ('goose_db_version', 'heads', 'entries')`).Scan(&tables)
	if err == nil && tables < 3 {
		err = &book.Error{Kind: book.Foreign, Key: "store_foreign", Cause: errors.New("a database without books")}
	}
	return err
}

// emptyLog moves what is in the write-ahead log of a file that nobody has open into the file. Where that can't be done the log
// stays, and goes along.
func emptyLog(ctx context.Context, path string) {
	if probeSQLite(ctx, path) != nil {
		return
	}
	db, err := sql.Open("sqlite", sqliteDSN(path, true))
	if err != nil {
		return
	}
	defer func() { _ = db.Close() }() // the last to close a file empties its log
	_ = forgetSQLite(ctx, db, "")
}

// Network returns the name of the network file system that a folder is on, empty for none that is known. On one, the locks that
// keep two writers apart can't be trusted.
func Network(folder string) string { return network(folder) }

// A heldError says who has a lock.
type heldError struct{ path, holder string }

// Error says it for the log.
func (e *heldError) Error() string { return e.path + " is held by " + e.holder }

// Holder tells who has the books in a file open to write them, in words such as "process 123"; empty for nobody.
func Holder(path string) (string, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	if _, err := os.Stat(path + ".lock"); errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	held, err := lock(path + ".lock")
	if held != nil {
		return "", held.Close()
	}
	if inUse, ok := errors.AsType[*heldError](err); ok {
		return inUse.holder, nil
	}
	return "", err
}
