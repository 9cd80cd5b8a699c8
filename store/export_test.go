package store

import (
	"context"

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

// HostsOf is what a URL's hosts and ports are taken for.
func HostsOf(list string) (hosts, ports string) { return hostsOf(list) }

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
