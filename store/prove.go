package store

import (
	"context"

	"wetside/book"
	"wetside/book/proof"
)

// Prove follows the chain of a darkroom's book from its first entry to its head and reports all that is not as it was
// written. also, where given, is handed every entry in the same order; its error ends the proof. It reads one moment of the
// book, two entries at a time. The error is for what hinders looking at all: an unknown darkroom, a context that ended.
func (s *Store) Prove(ctx context.Context, darkroomID string, also func(book.Entry) error) (r proof.Report, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		head, err := tx.Head(ctx, darkroomID)
		if err != nil {
			return err
		}
		p := proof.New(head)
		var stop error
		err = tx.since(ctx, darkroomID, 0, 0, func(e book.Entry) error {
			p.Next(e)
			if also != nil {
				stop = also(e)
			}
			return stop
		})
		switch {
		case err == nil:
			r = p.End()
		case stop != nil || book.KindOf(err) == book.Cancelled:
			return err
		default:
			r = p.Broken(err)
		}
		return nil
	})
	return r, err
}

// Sound asks the engine whether its file is whole, beside what the chains say; each string is one fault in the engine's own
// words. An engine without a file of ours finds none.
func (s *Store) Sound(ctx context.Context) (faults []string, err error) {
	if s.dialect.sound == nil {
		return nil, nil
	}
	faults, err = s.dialect.sound(ctx, s.reader)
	if err = s.dialect.fail(err); book.KindOf(err) == book.Damaged {
		return append(faults, err.Error()), nil
	}
	return faults, err
}
