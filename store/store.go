package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"sync"
	"sync/atomic"
	"time"

	"wetside/book"
)

// Config says where a store is and what it needs from outside.
type Config struct {
	// Path is the database file. Its folder is made (0700) where there is none, the file with 0600.
	Path string
	// Database is the URL of a server's database, in place of a file. Several processes may have it open.
	Database string
	// Now is the clock for recorded_at.
	Now func() time.Time
	// Upcasts lift bodies of older versions; nil: the program's own.
	Upcasts book.Upcasts
	// Odd is told of what was set right by itself, for a log; nil: nobody wants to know.
	Odd func(error)
	// Told is called while an older database is brought to today's schema, after each statement; nil: nobody wants to know.
	Told func(Change)

	copied bool // the file is a copy: it needs no backup before it is changed
	still  bool // nobody writes the file: nothing is left beside it by reading
}

// A Store is open books. It is safe for use by several goroutines.
type Store struct {
	dialect dialect
	now     func() time.Time
	upcasts book.Upcasts

	lock     *os.File
	writer   *sql.DB
	reader   *sql.DB
	asked    map[string]*sql.Stmt       // by the reader, made ready; nil where the engine does not keep them
	turn     chan struct{}              // held while writing
	failed   atomic.Pointer[book.Error] // why nothing is written any more
	line     line                       // what waits to be written together
	working  map[string]*book.State     // of whoever has the turn: as in the books, moved on in place
	closing  sync.Once
	closed   error // what Close came to
	states   states
	odd      atomic.Pointer[func(error)]
	warnings []Warning

	told   func(Change) // of a change of the database's form
	copied bool         // what is opened is a copy

	movements movements
	snapshots snapshots
	knows     int64          // the newest schema that this program knows
	has       int64          // the schema that the books stand in
	leave     func()         // ends what follows other processes
	following sync.WaitGroup // what follows other processes
}

// A Warning is something about the place of a store that may go wrong.
type Warning struct {
	Key  string // of the message catalogue: "store_on_network", "store_unsynced"
	What string // the file system's name, the setting's
}

// Open opens the books in a file or a server's database, makes the file where there is none, and brings it to today's
// schema. Errors have the kinds InUse (another process has the file), Newer, Foreign, NoAccess, Full, Failing, Damaged,
// BadInput (a URL that can't be read), Away (a server that can't be reached). No error has a password in it.
func Open(ctx context.Context, c Config) (*Store, error) {
	s, err := unopened(c)
	if err != nil {
		return nil, err
	}
	if err := s.open(ctx); err != nil {
		_ = s.Close()
		return nil, s.dialect.fail(fmt.Errorf("opening %s: %w", s.dialect.place, err))
	}
	return s, nil
}

// unopened returns a store that is still to be opened.
func unopened(c Config) (*Store, error) {
	d, err := dialectOf(c)
	if err != nil {
		return nil, err
	}
	s := &Store{dialect: d, now: c.Now, upcasts: c.Upcasts, states: newStates(), working: map[string]*book.State{}}
	s.told, s.copied = c.Told, c.copied
	s.TellOdd(c.Odd)
	if s.upcasts == nil {
		s.upcasts = book.Upcasters()
	}
	s.turn = make(chan struct{}, s.dialect.writers)
	return s, nil
}

func (s *Store) open(ctx context.Context) error {
	if err := s.dialect.open(ctx, s); err != nil {
		return err
	}
	s.writer.SetMaxOpenConns(s.dialect.writers)
	s.reader.SetMaxOpenConns(s.dialect.readers)
	s.reader.SetMaxIdleConns(s.dialect.readers)
	err := s.dialect.alone(ctx, s.reader, func() error {
		if err := s.dialect.claim(ctx, s.writer); err != nil {
			return err
		}
		var err error
		s.knows, err = s.bringUp(ctx)
		s.has = s.knows
		return err
	})
	if err != nil {
		return err
	}
	if err := s.reader.PingContext(ctx); err != nil {
		return err
	}
	if err := s.makeReady(ctx); err != nil {
		return err
	}
	s.follow(context.WithoutCancel(ctx))
	return nil
}

// TellOdd puts another in the place of Config.Odd, for whoever has a log only once the books are open; nil for nobody.
func (s *Store) TellOdd(odd func(error)) {
	if odd == nil {
		odd = func(error) {}
	}
	s.odd.Store(&odd)
}

func (s *Store) tellOdd(err error) { (*s.odd.Load())(err) }

// Warnings returns what may go wrong where the store is.
func (s *Store) Warnings() []Warning { return s.warnings }

// Place returns where the store is, for people: a URL without its password.
func (s *Store) Place() string { return s.dialect.place }

// Close waits for whoever writes, closes the database and lets go of its lock. Closing again does nothing.
func (s *Store) Close() error {
	s.closing.Do(func() {
		if s.leave != nil {
			s.leave()
			s.following.Wait()
		}
		s.snapshots.close()
		for range cap(s.turn) {
			s.turn <- struct{}{}
		}
		s.failed.Store(&book.Error{Kind: book.Internal, Key: "store_closed"})
		var errs []error
		for _, statement := range s.asked {
			errs = append(errs, statement.Close())
		}
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
