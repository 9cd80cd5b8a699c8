package store

// SQLiteDSN is for the test of what every connection is set to.
func SQLiteDSN(path string, writes bool) string { return sqliteDSN(path, writes) }
