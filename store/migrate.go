package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"strings"

	"github.com/pressly/goose/v3"

	"wetside/book"
)

//go:embed migrations/*.sql
var migrations embed.FS

// A Change is a change of the database's form under way.
type Change struct {
	From, To int64  // schemas
	Done, Of int    // statements
	Kept     string // the backup that was made before, empty for none
}

// A migration brings one database to today's schema.
type migration struct {
	dialect *dialect
	files   fs.FS
	// before is called once, before a database that holds books is changed; it returns the backup's name. An error leaves the
	// database as it is.
	before func(ctx context.Context, has, knows int64) (kept string, err error)
	// told is called after each statement, within its transaction; nil: nobody wants to know.
	told func(Change)

	change Change
}

// run brings the database to today's schema, each step in a transaction of its own, so that after a kill it is at one
// schema or another with all that is in it. A database that is ahead of this program is refused untouched.
func (m *migration) run(ctx context.Context, db *sql.DB) error {
	steps, err := m.steps()
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(m.dialect.goose, db, nil, goose.WithGoMigrations(steps...),
		goose.WithDisableGlobalRegistry(true), goose.WithLogger(goose.NopLogger()))
	if err != nil {
		return err
	}
	has, knows, err := p.GetVersions(ctx)
	if err != nil {
		return err
	}
	if has > knows {
		return newer(has, knows)
	}
	m.change.From, m.change.To = has, knows
	if has > 0 && has < knows && m.before != nil {
		if m.change.Kept, err = m.before(ctx, has, knows); err != nil {
			return fmt.Errorf("a backup before the change: %w", err)
		}
	}
	_, err = p.Up(ctx)
	return err
}

func newer(has, knows int64) error {
	return &book.Error{Kind: book.Newer, Key: "store_newer", Cause: fmt.Errorf(
		"the database has schema %d, this program knows %d: run the newer wetside here, too", has, knows)}
}

// steps reads the numbered files and puts the engine's words in.
func (m *migration) steps() ([]*goose.Migration, error) {
	names, err := fs.Glob(m.files, "migrations/*.sql")
	if err != nil {
		return nil, err
	}
	var all []*goose.Migration
	for _, name := range names {
		text, err := fs.ReadFile(m.files, name)
		if err != nil {
			return nil, err
		}
		number, err := goose.NumericComponent(name)
		if err != nil {
			return nil, err
		}
		parts := statements(m.dialect.tokens.Replace(string(text)))
		all = append(all, goose.NewGoMigration(number, &goose.GoFunc{
			RunTx: func(ctx context.Context, tx *sql.Tx) error { return m.step(ctx, tx, number, parts) },
		}, nil))
	}
	return all, nil
}

// step runs the statements of one file.
func (m *migration) step(ctx context.Context, tx *sql.Tx, to int64, parts []string) error {
	for i, s := range parts {
		if _, err := tx.ExecContext(ctx, s); err != nil {
			return err
		}
		if m.told != nil {
			m.told(Change{From: m.change.From, To: to, Done: i + 1, Of: len(parts), Kept: m.change.Kept})
		}
	}
	return nil
}

// statements parts a file at the semicolons that end a line; a statement has none within.
func statements(text string) []string {
	var all []string
	for part := range strings.SplitSeq(text, ";\n") {
		if strings.TrimSpace(part) != "" {
			all = append(all, part)
		}
	}
	return all
}

// schemaOf returns the schema of a database that has one, and the one that this program knows.
func schemaOf(ctx context.Context, db *sql.DB) (has, knows int64, err error) {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		return 0, 0, err
	}
	for _, name := range names {
		n, err := goose.NumericComponent(name)
		if err != nil {
			return 0, 0, err
		}
		knows = max(knows, n)
	}
	err = db.QueryRowContext(ctx, `SELECT COALESCE(MAX(version_id), 0) FROM goose_db_version WHERE is_applied`).Scan(&has)
	return has, knows, err
}

// Schema returns the schema that the books stand in, and the one that this program knows.
func (s *Store) Schema(ctx context.Context) (has, knows int64, err error) {
	has, knows, err = schemaOf(ctx, s.reader)
	return has, knows, s.dialect.fail(err)
}

// bringUp brings the books to today's schema, and returns that. Before it changes a file that holds books it makes a backup.
func (s *Store) bringUp(ctx context.Context) (knows int64, err error) {
	m := migration{dialect: &s.dialect, files: migrations, told: s.told}
	if s.dialect.copy != nil && !s.copied {
		m.before = s.keepBefore
	}
	err = m.run(ctx, s.writer)
	return m.change.To, err
}
