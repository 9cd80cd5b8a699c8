package store

// SQLiteDSN is for the test of what every connection is set to.
func SQLiteDSN(path string, writes bool) string { return sqliteDSN(path, writes) }

// Waiting returns how many wait to be written together.
func (s *Store) Waiting() int {
	s.line.mu.Lock()
	defer s.line.mu.Unlock()
	return len(s.line.all)
}
