package store

import (
	"context"
	"fmt"
	"io/fs"
	"testing/fstest"

	"wetside/book"
)

// SQLiteDSN is for the test of what every connection is set to.
func SQLiteDSN(path string, writes bool) string { return sqliteDSN(path, writes) }

// Waiting returns how many wait to be written together.
func (s *Store) Waiting() int {
	s.line.mu.Lock()
	defer s.line.mu.Unlock()
	return len(s.line.all)
}

// Mute makes a store tell other processes nothing, as if what it announces were lost.
func (s *Store) Mute() { s.dialect.announce = "" }

// Setting returns a setting of the connection that writes.
func (s *Store) Setting(ctx context.Context, name string) (value string, err error) {
	err = s.writer.QueryRowContext(ctx, "SELECT current_setting($1)", name).Scan(&value)
	return value, err
}

// Numbered is rebinding for PostgreSQL.
func Numbered(query string) string { return numbered(query) }

// Engine returns the name of the database engine.
func (s *Store) Engine() string { return s.dialect.name }

// Verify follows a chain from its first entry to its head, on another way than package proof; a *book.ChainError says where it
// is broken.
func (s *Store) Verify(ctx context.Context, darkroomID string) error {
	return s.Read(ctx, func(tx *Tx) error {
		head, err := tx.Head(ctx, darkroomID)
		if err != nil {
			return err
		}
		at := book.Head{Darkroom: darkroomID}
		err = tx.since(ctx, darkroomID, 0, 0, func(e book.Entry) error {
			at, err = at.Verify([]book.Entry{e})
			return err
		})
		if err == nil && at != head {
			return &book.ChainError{Position: head.Position, Why: book.HeadDiffers}
		}
		return err
	})
}

// OpenOld makes books in an older schema, as an older program did.
func OpenOld(ctx context.Context, c Config, schema int64) (*Store, error) {
	s, err := unopened(c)
	if err != nil {
		return nil, err
	}
	files := fstest.MapFS{}
	for n := range schema {
		names, err := fs.Glob(migrations, fmt.Sprintf("migrations/%05d_*.sql", n+1))
		if err != nil || len(names) != 1 {
			return nil, fmt.Errorf("schema %d: %v, %w", n+1, names, err)
		}
		text, err := migrations.ReadFile(names[0])
		if err != nil {
			return nil, err
		}
		files[names[0]] = &fstest.MapFile{Data: text}
	}
	if err := s.dialect.open(ctx, s); err != nil {
		return nil, err
	}
	if err := s.dialect.claim(ctx, s.writer); err != nil {
		return nil, err
	}
	m := migration{dialect: &s.dialect, files: files}
	return s, m.run(ctx, s.writer)
}
