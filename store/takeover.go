package store

import (
	"context"
	"errors"
	"fmt"
	"io"

	"wetside/book"
)

// A DivergedError says that a book and what is to be taken into it go different ways.
type DivergedError struct {
	Position int64      // of the first entry that differs
	There    book.Entry // what stands there in the book
}

// Error says it for the log.
func (e *DivergedError) Error() string {
	return fmt.Sprintf("another entry stands at position %d: %s", e.Position, e.There.ID)
}

// Where returns the position.
func (e *DivergedError) Where() int64 { return e.Position }

// ErrorKind makes it Conflict.
func (e *DivergedError) ErrorKind() book.ErrorKind { return book.Conflict }

// ErrorKey returns the key of its sentence.
func (e *DivergedError) ErrorKey() string { return "import_diverged" }

// chunk is how many entries are compared at a time.
const chunk = 500

// TakeOver writes entries of a book that was written out, as they stand, from position 1 on: those that the darkroom's book
// has already are compared, the rest is written. next returns one after the other and io.EOF at the end, people the names
// that go along; a name that the record has stays. It is all or nothing, in one transaction, with a few entries at a time in
// memory. Taken over twice, nothing is written. It returns how many entries were.
//
// Errors: what next returns, a *DivergedError, and Damaged for an entry that does not follow the one before it.
func (s *Store) TakeOver(
	ctx context.Context, darkroomID string, next func() (book.Entry, error), people func() ([]book.Person, error),
) (written int64, err error) {
	err = s.Write(ctx, func(tx *Tx) error {
		if err := tx.Create(ctx, darkroomID); err != nil {
			return err
		}
		if written, err = tx.takeOver(ctx, darkroomID, next); err != nil {
			return err
		}
		return tx.takeNames(ctx, darkroomID, people)
	})
	if err != nil {
		return 0, err
	}
	return written, nil
}

func (tx *Tx) takeOver(ctx context.Context, darkroomID string, next func() (book.Entry, error)) (written int64, err error) {
	head, err := tx.Head(ctx, darkroomID)
	if err != nil {
		return 0, err
	}
	begun := head.Position
	var there []book.Entry
	for {
		e, err := next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return 0, err
		}
		if e.Position <= begun {
			if there, err = tx.compare(ctx, e, there); err != nil {
				return 0, err
			}
			continue
		}
		if head, err = head.Verify([]book.Entry{e}); err != nil {
			return 0, tx.leftAt(ctx, darkroomID, begun, err)
		}
		if err := tx.insert(ctx, e); err != nil {
			return 0, err
		}
		written++
	}
	if written == 0 {
		return 0, nil
	}
	return written, tx.moveHead(ctx, head)
}

// compare holds an entry against the one that stands at its position. there are those that were read ahead.
func (tx *Tx) compare(ctx context.Context, e book.Entry, there []book.Entry) ([]book.Entry, error) {
	if len(there) == 0 {
		var err error
		if there, err = tx.Since(ctx, e.Darkroom, e.Position-1, chunk); err != nil {
			return nil, err
		}
	}
	if len(there) == 0 || book.HashOf(there[0]) != book.HashOf(e) {
		d := &DivergedError{Position: e.Position}
		if len(there) > 0 {
			d.There = there[0]
		}
		return nil, d
	}
	return there[1:], nil
}

// leftAt makes a chain that breaks where the book ended one that went another way there.
func (tx *Tx) leftAt(ctx context.Context, darkroomID string, begun int64, err error) error {
	broken, ok := errors.AsType[*book.ChainError](err)
	if !ok || begun == 0 || broken.Position != begun+1 || broken.Why != book.HashDiffers {
		return err
	}
	last, reading := tx.Since(ctx, darkroomID, begun-1, 1)
	if reading != nil || len(last) == 0 {
		return err
	}
	return &DivergedError{Position: begun, There: last[0]}
}

// takeNames puts the names into the record that it has none for.
func (tx *Tx) takeNames(ctx context.Context, darkroomID string, people func() ([]book.Person, error)) error {
	all, err := people()
	if err != nil || len(all) == 0 {
		return err
	}
	known, err := tx.People(ctx, darkroomID)
	if err != nil {
		return err
	}
	for _, p := range all {
		if _, has := known[p.ID]; has {
			continue
		}
		if err := tx.PutPerson(ctx, darkroomID, p); err != nil {
			return err
		}
	}
	return nil
}

// WriteOut hands a darkroom's book over, as of one moment: first its end and its people, then each entry in order.
func (s *Store) WriteOut(
	ctx context.Context, darkroomID string, begin func(end book.Head, people book.People) error, each func(book.Entry) error,
) error {
	return s.Read(ctx, func(tx *Tx) error {
		head, err := tx.Head(ctx, darkroomID)
		if err != nil {
			return err
		}
		people, err := tx.People(ctx, darkroomID)
		if err != nil {
			return err
		}
		if err := begin(head, people); err != nil {
			return err
		}
		return tx.since(ctx, darkroomID, 0, 0, each)
	})
}
