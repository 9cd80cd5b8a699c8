package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"

	"github.com/pressly/goose/v3"

	"wetside/book"
)

//go:embed migrations/*.sql
var migrations embed.FS

// migrate brings the database to today's schema, each step in a transaction of its own. A database that is ahead of
// this program is refused untouched.
func migrate(ctx context.Context, db *sql.DB, d *dialect, files fs.FS) error {
	steps, err := steps(d, files)
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(d.goose, db, nil, goose.WithGoMigrations(steps...),
		goose.WithDisableGlobalRegistry(true), goose.WithLogger(goose.NopLogger()))
	if err != nil {
		return err
	}
	has, knows, err := p.GetVersions(ctx)
	if err != nil {
		return err
	}
	if has > knows {
		return &book.Error{Kind: book.Newer, Key: "store_newer", Cause: fmt.Errorf(
			"the database has schema %d, this program knows %d", has, knows)}
	}
	_, err = p.Up(ctx)
	return err
}

// steps reads the numbered files and puts the engine's words in.
func steps(d *dialect, files fs.FS) ([]*goose.Migration, error) {
	names, err := fs.Glob(files, "migrations/*.sql")
	if err != nil {
		return nil, err
	}
	var all []*goose.Migration
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		number, err := goose.NumericComponent(name)
		if err != nil {
			return nil, err
		}
		statements := d.tokens.Replace(string(text))
		all = append(all, goose.NewGoMigration(number, &goose.GoFunc{
			RunTx: func(ctx context.Context, tx *sql.Tx) error {
				_, err := tx.ExecContext(ctx, statements)
				return err
			},
		}, nil))
	}
	return all, nil
}
