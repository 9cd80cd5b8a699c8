package store

import (
	"context"
	"database/sql"
)

// What every page asks.
const (
	askStretch = `SELECT position, id, kind, version, happened_at, recorded_at, person, device, takes_back, body
		FROM entries WHERE darkroom = ?`
	whatIsNew = ` AND position > ? ORDER BY position LIMIT ?`
	askFolded = askStretch + whatIsNew
	askPeople = `SELECT id, name, notes FROM people WHERE darkroom = ? ORDER BY id`
	askKept   = `SELECT EXISTS (SELECT 1 FROM keyholders WHERE darkroom = ?)`
	askKey    = `SELECT ` + keyColumns + ` FROM keys WHERE darkroom = ? AND token = ?`
	askGuest  = `SELECT session, person FROM guests WHERE darkroom = ? AND token = ?`
)

// makeReady has the engine read what every page asks once for each connection, where the engine keeps that as long as it.
func (s *Store) makeReady(ctx context.Context) error {
	if !s.dialect.keepsStatements {
		return nil
	}
	s.asked = map[string]*sql.Stmt{}
	for _, query := range []string{askFolded, askPeople, askKept, askKey, askGuest} {
		statement, err := s.reader.PrepareContext(ctx, query) //nolint:sqlclosecheck // Close closes it
		if err != nil {
			return err
		}
		s.asked[query] = statement
	}
	return nil
}

func (tx *Tx) query(ctx context.Context, query string, args ...any) (*sql.Rows, error) {
	if ready := tx.store.asked[query]; ready != nil && !tx.writes {
		return tx.sql.StmtContext(ctx, ready).QueryContext(ctx, args...) //nolint:sqlclosecheck // it ends with the transaction
	}
	return tx.sql.QueryContext(ctx, tx.store.dialect.rebind(query), args...)
}

func (tx *Tx) row(ctx context.Context, query string, args ...any) *sql.Row {
	if ready := tx.store.asked[query]; ready != nil && !tx.writes {
		return tx.sql.StmtContext(ctx, ready).QueryRowContext(ctx, args...) //nolint:sqlclosecheck // it ends with the transaction
	}
	return tx.sql.QueryRowContext(ctx, tx.store.dialect.rebind(query), args...)
}
