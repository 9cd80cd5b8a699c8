package store

import "context"

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
