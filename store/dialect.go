package store

import (
	"context"
	"database/sql"
	"strings"
	"time"

	"github.com/pressly/goose/v3"

	"wetside/book"
)

// A dialect is all in which one engine differs from another. Beside the files of the engines no file names one.
type dialect struct {
	// name of the engine, for logs and tests.
	name string
	// place is where the store is, for people: without a password.
	place string
	// goose is the engine's name in migrations.
	goose goose.Dialect
	// tokens are the words in migrations and what they stand for.
	tokens *strings.Replacer
	// rebind turns ? into the engine's own marks for arguments.
	rebind func(query string) string
	// forUpdate ends a query whose row is locked until the transaction ends.
	forUpdate string
	// snapshot is the isolation in which a transaction sees one moment.
	snapshot sql.IsolationLevel
	// writers is how many transactions of this process may write at once, readers how many may read.
	writers, readers int
	// keepsStatements says that a statement that was made ready is good as long as its connection, whatever becomes of the schema.
	keepsStatements bool
	// failsForGood says that after a failed disk nothing more is written until the store is opened anew.
	failsForGood bool
	// patience is how long an engine that is away is waited for; 0 where it can't be away.
	patience time.Duration
	// announce is a statement that tells other processes of a darkroom and a position; empty where there are none.
	announce string

	// open takes the place and opens the store's writer and reader.
	open func(ctx context.Context, s *Store) error
	// beside opens the store's reader alone where there are books, and changes nothing. still says that nobody writes there.
	beside func(ctx context.Context, s *Store, still bool) error
	// alone runs f while no other process prepares the database.
	alone func(ctx context.Context, db *sql.DB, f func() error) error
	// claim marks a database as books of ours. One of another program is refused without being changed.
	claim func(ctx context.Context, db *sql.DB) error
	// forget makes sure that rows deleted from a table can't be read from the database's files.
	forget func(ctx context.Context, db *sql.DB, table string) error
	// sound tells what of the engine's own file is not whole; nil where there is no such file.
	sound func(ctx context.Context, db *sql.DB) (faults []string, err error)
	// copy writes a copy of all that is in the database, as of one moment, into an empty file; nil where there is no file.
	copy func(ctx context.Context, path string) error
	// kind tells the trouble by the driver's code; false where the driver does not know the error.
	kind func(err error) (book.ErrorKind, bool)
	// key returns the key of the sentence for a kind of trouble.
	key func(kind book.ErrorKind) string
	// listen calls heard with what other processes of a database announce, after once with nothing when it can hear, until
	// it can't.
	// nil where there are no other processes.
	listen func(ctx context.Context, db *sql.DB, heard func(darkroom string, position int64)) error
}

// dialectOf returns the dialect of the engine that a place is for.
func dialectOf(c Config) (dialect, error) {
	if c.Database != "" {
		return postgresDialect(c.Database)
	}
	return sqliteDialect(c.Path), nil
}
