package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"wetside/book"
)

// columns of an entry, in the order of scan and insert.
const columns = `darkroom, position, id, kind, version, happened_at, recorded_at, person, device, takes_back, body, prev_hash`

// Head returns the end of a darkroom's book. An unknown darkroom is an error of kind NotFound. In a transaction that writes
// it is the end until the transaction ends: whoever else wants to write to the book waits.
func (tx *Tx) Head(ctx context.Context, darkroom string) (book.Head, error) {
	h, lock := book.Head{Darkroom: darkroom}, ""
	if tx.writes {
		lock = tx.store.dialect.forUpdate
	}
	var hash string
	err := tx.row(ctx, `SELECT position, hash FROM heads WHERE darkroom = ?`+lock, darkroom).Scan(&h.Position, &hash)
	if errors.Is(err, sql.ErrNoRows) {
		return book.Head{}, &book.Error{Kind: book.NotFound, Key: "darkroom_not_found", Cause: fmt.Errorf("darkroom %q", darkroom)}
	}
	if err != nil {
		return book.Head{}, tx.store.dialect.fail(err)
	}
	return h, damaged(h.Hash.UnmarshalText([]byte(hash)))
}

// damaged is for what no program of ours writes.
func damaged(err error) error {
	if err == nil {
		return nil
	}
	return &book.Error{Kind: book.Damaged, Key: "store_damaged", Cause: err}
}

// Ready writes a darkroom's head as it stands. The error is that of any write. A disk that is full for an entry
// may still take so little.
func (s *Store) Ready(ctx context.Context, darkroom string) error {
	return s.Write(ctx, func(tx *Tx) error {
		return tx.exec(ctx, `UPDATE heads SET position = position WHERE darkroom = ?`, darkroom)
	})
}

// Darkrooms returns the ends of all books, by id.
func (tx *Tx) Darkrooms(ctx context.Context) ([]book.Head, error) {
	var all []book.Head
	err := tx.each(ctx, func(rows *sql.Rows) error {
		var h book.Head
		var hash string
		if err := rows.Scan(&h.Darkroom, &h.Position, &hash); err != nil {
			return err
		}
		all = append(all, h)
		return damaged(all[len(all)-1].Hash.UnmarshalText([]byte(hash)))
	}, `SELECT darkroom, position, hash FROM heads ORDER BY darkroom`)
	return all, err
}

// Create begins a darkroom's book; where there is one, nothing changes.
func (tx *Tx) Create(ctx context.Context, darkroom string) error {
	if !book.ValidID(darkroom) {
		return &book.Error{Kind: book.BadInput, Key: "darkroom_bad_id"}
	}
	return tx.exec(ctx, `INSERT INTO heads (darkroom, position, hash) VALUES (?, 0, ?) ON CONFLICT (darkroom) DO NOTHING`,
		darkroom, book.Hash{}.String())
}

// Find returns the entry of an id; an error of kind NotFound where there is none.
func (tx *Tx) Find(ctx context.Context, darkroom, id string) (book.Entry, error) {
	e, err := scan(tx.row(ctx, `SELECT `+columns+` FROM entries WHERE darkroom = ? AND id = ?`, darkroom, id))
	if errors.Is(err, sql.ErrNoRows) {
		return book.Entry{}, &book.Error{Kind: book.NotFound, Key: "entry_not_found", Cause: fmt.Errorf("entry %q", id)}
	}
	return e, tx.store.dialect.fail(err)
}

// Since returns the entries after a position, oldest first, at most limit of them; limit 0 is all.
func (tx *Tx) Since(ctx context.Context, darkroom string, after int64, limit int) ([]book.Entry, error) {
	var all []book.Entry
	err := tx.since(ctx, darkroom, after, limit, func(e book.Entry) error {
		all = append(all, e)
		return nil
	})
	return all, err
}

// since calls f with the entries after a position.
func (tx *Tx) since(ctx context.Context, darkroom string, after int64, limit int, f func(book.Entry) error) error {
	query := `SELECT ` + columns + ` FROM entries WHERE darkroom = ? AND position > ? ORDER BY position`
	args := []any{darkroom, after}
	if limit > 0 {
		query, args = query+` LIMIT ?`, append(args, limit)
	}
	return tx.each(ctx, func(rows *sql.Rows) error {
		e, err := scan(rows)
		if err != nil {
			return err
		}
		return f(e)
	}, query, args...)
}

// scan reads one row of columns.
func scan(row interface{ Scan(to ...any) error }) (book.Entry, error) {
	var e book.Entry
	var version, happened, recorded int64 // plain types: those of the book are read at twice the cost
	var kind, prev string
	err := row.Scan(&e.Darkroom, &e.Position, &e.ID, &kind, &version, &happened, &recorded, &e.By, &e.Device,
		&e.TakesBack, &e.Body, &prev)
	if err != nil {
		return book.Entry{}, err
	}
	e.Kind, e.Version = book.Kind(kind), int(version)
	e.HappenedAt, e.RecordedAt = time.UnixMicro(happened).UTC(), time.UnixMicro(recorded).UTC()
	return e, damaged(e.PrevHash.UnmarshalText([]byte(prev)))
}

func (tx *Tx) insert(ctx context.Context, e book.Entry) error {
	return tx.exec(ctx, `INSERT INTO entries (`+columns+`) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		e.Darkroom, e.Position, e.ID, string(e.Kind), e.Version, e.HappenedAt.UnixMicro(), e.RecordedAt.UnixMicro(), e.By,
		e.Device, e.TakesBack, e.Body, e.PrevHash.String())
}
