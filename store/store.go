package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"time"

	"wetside/book"
)

// Config says where a store is and what it needs from outside.
type Config struct {
	// Path is the database file. Its folder is made (0700) where there is none, the file with 0600.
	Path string
	// Now is the clock for recorded_at.
	Now func() time.Time
	// Upcasts lift bodies of older versions; nil: the program's own.
	Upcasts book.Upcasts
}

// A Store is open books. It is safe for use by several goroutines.
type Store struct {
	dialect dialect
	now     func() time.Time
	upcasts book.Upcasts

	lock     *os.File
	writer   *sql.DB
	reader   *sql.DB
	turn     chan struct{}              // held while writing
	failed   atomic.Pointer[book.Error] // why nothing is written any more
	line     line                       // what waits to be written together
	working  map[string]*book.State     // of whoever has the turn: as in the books, moved on in place
	closing  sync.Once
	closed   error // what Close came to
	states   states
	warnings []Warning

	movements movements
}

// A Warning is something about the place of a store that may go wrong.
type Warning struct {
	Key  string // of the message catalogue: "store_on_network"
	What string // the file system's name
}

// readers is how many transactions may read at once in SQLite.
const readers = 4

// Open opens the books in a file, making it where there is none, and brings it to today's schema. Errors have the
// kinds InUse (another process has it), Newer, Foreign, NoAccess, Full, Failing, Damaged.
func Open(ctx context.Context, c Config) (*Store, error) {
	s := &Store{dialect: sqliteDialect(), now: c.Now, upcasts: c.Upcasts, states: newStates(), working: map[string]*book.State{}}
	if s.upcasts == nil {
		s.upcasts = book.Upcasters()
	}
	s.turn = make(chan struct{}, s.dialect.writers)
	if err := s.open(ctx, c.Path); err != nil {
		_ = s.Close()
		return nil, s.dialect.fail(fmt.Errorf("opening %s: %w", c.Path, err))
	}
	return s, nil
}

func (s *Store) open(ctx context.Context, path string) error {
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
	if err := s.dialect.probe(ctx, path); err != nil {
		return err
	}
	if s.writer, err = sql.Open("sqlite", sqliteDSN(path, true)); err != nil {
		return err
	}
	s.writer.SetMaxOpenConns(s.dialect.writers)
	if err := s.dialect.claim(ctx, s.writer); err != nil {
		return err
	}
	if err := migrate(ctx, s.writer, &s.dialect, migrations); err != nil {
		return err
	}
	if s.reader, err = sql.Open("sqlite", sqliteDSN(path, false)); err != nil {
		return err
	}
	s.reader.SetMaxOpenConns(readers)
	return s.reader.PingContext(ctx)
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

// Warnings returns what may go wrong where the store is.
func (s *Store) Warnings() []Warning { return s.warnings }

// Engine returns the name of the database engine.
func (s *Store) Engine() string { return s.dialect.name }

// Close waits for whoever writes, closes the database and lets go of its lock. Closing again does nothing.
func (s *Store) Close() error {
	s.closing.Do(func() {
		for range cap(s.turn) {
			s.turn <- struct{}{}
		}
		s.failed.Store(&book.Error{Kind: book.Internal, Key: "store_closed"})
		var errs []error
		for _, db := range []*sql.DB{s.reader, s.writer} {
			if db != nil {
				errs = append(errs, db.Close())
			}
		}
		if s.lock != nil {
			errs = append(errs, s.lock.Close())
		}
		for range cap(s.turn) {
			<-s.turn
		}
		s.closed = s.dialect.fail(errors.Join(errs...))
	})
	return s.closed
}
