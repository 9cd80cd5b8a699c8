package store

import (
	"context"
	"database/sql"
	"time"

	"wetside/book"
)

// A Tx is one transaction: all of it comes about or nothing. It is not safe for use by several goroutines, and means
// nothing after the function it was given to has returned.
type Tx struct {
	store  *Store
	sql    *sql.Tx
	now    time.Time              // one moment for the whole transaction
	states map[string]*book.State // as of this transaction
	writes bool
	moved  []book.Head // the books that it moves on
	failed error       // of a statement; what it left half done is never committed
}

// Write runs f in a transaction and makes it durable. Where f or the disk fails, nothing of it comes about; where
// Write returns nil, it is on disk. A context that ends before the commit ends the transaction; one that ends during
// the commit does not.
func (s *Store) Write(ctx context.Context, f func(*Tx) error) error {
	select {
	case s.turn <- struct{}{}:
		defer func() { <-s.turn }()
	case <-ctx.Done():
		return s.dialect.fail(ctx.Err())
	}
	return s.writeNow(ctx, f)
}

// writeNow is Write for whoever has the turn.
func (s *Store) writeNow(ctx context.Context, f func(*Tx) error) error {
	if failed := s.failed.Load(); failed != nil {
		return failed
	}
	tx, err := s.write(ctx, f)
	if err = s.dialect.fail(err); err != nil {
		if s.dialect.failsForGood && keepsFailing(err) {
			s.failed.CompareAndSwap(nil, &book.Error{Kind: book.Failing, Key: "store_failing", Cause: err})
		}
		return err
	}
	for _, state := range tx.states {
		s.states.put(state)
		s.keepSnapshot(state)
	}
	s.movements.tell(tx.moved)
	return nil
}

func (s *Store) write(ctx context.Context, f func(*Tx) error) (*Tx, error) {
	sqlTx, err := s.begin(ctx, context.WithoutCancel(ctx), s.writer, nil)
	if err != nil {
		return nil, err
	}
	defer func() { _ = sqlTx.Rollback() }() // after a commit it does nothing
	tx := s.tx(sqlTx)
	tx.writes = true
	if err := f(tx); err != nil {
		return nil, err
	}
	if tx.failed != nil {
		return nil, tx.failed
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return tx, sqlTx.Commit()
}

// Read runs f in a transaction that sees one moment of the books and can't write.
func (s *Store) Read(ctx context.Context, f func(*Tx) error) error {
	sqlTx, err := s.begin(ctx, ctx, s.reader, &sql.TxOptions{ReadOnly: true, Isolation: s.dialect.snapshot})
	if err != nil {
		return s.dialect.fail(err)
	}
	defer func() { _ = sqlTx.Rollback() }()
	tx := s.tx(sqlTx)
	if err := f(tx); err != nil {
		return s.dialect.fail(err)
	}
	for _, state := range tx.states {
		s.states.put(state)
		s.keepSnapshot(state)
	}
	return nil
}

// begin begins a transaction that ends with the context within. A server that is started again is waited for, until ctx ends.
func (s *Store) begin(ctx, within context.Context, db *sql.DB, o *sql.TxOptions) (tx *sql.Tx, err error) {
	err = s.insist(ctx, func() error {
		tx, err = db.BeginTx(within, o)
		return err
	})
	return tx, err
}

// insist tries until it goes, while the database is away for a moment. After patience it gives up.
func (s *Store) insist(ctx context.Context, try func() error) error {
	if s.dialect.patience == 0 {
		return try()
	}
	ctx, cancel := context.WithTimeout(ctx, s.dialect.patience)
	defer cancel()
	for pause := 10 * time.Millisecond; ; pause = min(2*pause, time.Second/2) {
		err := s.dialect.fail(try())
		if book.KindOf(err) != book.Away {
			return err
		}
		select {
		case <-time.After(pause):
		case <-ctx.Done():
			return err
		}
	}
}

func (s *Store) tx(t *sql.Tx) *Tx {
	return &Tx{store: s, sql: t, now: book.Instant(s.now()), states: map[string]*book.State{}}
}

func (tx *Tx) exec(ctx context.Context, query string, args ...any) error {
	_, err := tx.sql.ExecContext(ctx, tx.store.dialect.rebind(query), args...)
	if err = tx.store.dialect.fail(err); err != nil && tx.failed == nil {
		tx.failed = err
	}
	return err
}

// each calls f with every row, closes them and returns the first error.
func (tx *Tx) each(ctx context.Context, f func(*sql.Rows) error, query string, args ...any) (err error) {
	rows, err := tx.query(ctx, query, args...)
	if err != nil {
		return tx.store.dialect.fail(err)
	}
	defer func() {
		if closing := rows.Close(); err == nil {
			err = tx.store.dialect.fail(closing)
		}
	}()
	for rows.Next() {
		if err := f(rows); err != nil {
			return tx.store.dialect.fail(err)
		}
	}
	return tx.store.dialect.fail(rows.Err())
}
