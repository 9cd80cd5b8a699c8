package store

import (
	"context"
	"database/sql"
	"strings"

	"github.com/pressly/goose/v3"

	"wetside/book"
)

// A dialect is all in which one engine differs from another. No other file names an engine.
type dialect struct {
	// name of the engine, for logs and tests.
	name string
	// goose is the engine's name in migrations.
	goose goose.Dialect
	// tokens are the words in migrations and what they stand for.
	tokens *strings.Replacer
	// rebind turns ? into the engine's own marks for arguments.
	rebind func(query string) string
	// forUpdate ends a query whose row is locked until the transaction ends.
	forUpdate string
	// writers is how many transactions may write at once.
	writers int
	// probe refuses a place that is something else than a book or an empty one, without changing it.
	probe func(ctx context.Context, path string) error
	// claim marks a database as a book.
	claim func(ctx context.Context, db *sql.DB) error
	// forget makes sure that deleted rows can't be read from the files.
	forget func(ctx context.Context, db *sql.DB) error
	// kind tells the trouble by the driver's code; false where the driver does not know the error.
	kind func(err error) (book.ErrorKind, bool)
}
