package store

import (
	"context"
	"slices"

	"wetside/book"
	"wetside/darkroom"
)

// Darkrooms returns the ends of all books, by id.
func (s *Store) Darkrooms(ctx context.Context) (all []book.Head, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		all, err = tx.Darkrooms(ctx)
		return err
	})
	return all, err
}

// Create begins a darkroom's book; where there is one, nothing changes.
func (s *Store) Create(ctx context.Context, darkroomID string) error {
	return s.Write(ctx, func(tx *Tx) error { return tx.Create(ctx, darkroomID) })
}

// State returns the present state of a darkroom. It is shared by all who ask: Clone it before Apply.
func (s *Store) State(ctx context.Context, darkroomID string) (state *book.State, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		state, err = tx.State(ctx, darkroomID)
		return err
	})
	return state, err
}

// Append is Tx.Append in a transaction of its own; facts alone share one with whatever else waits to be written.
func (s *Store) Append(ctx context.Context, darkroomID string, entries []book.Entry, expect *int64) (stored []book.Entry, err error) {
	if !slices.ContainsFunc(entries, func(e book.Entry) bool { return e.Kind.Decides() }) {
		return s.appendFacts(ctx, darkroomID, entries)
	}
	err = s.insist(ctx, func() error { // an entry that is sent again is written once
		return s.Write(ctx, func(tx *Tx) error {
			stored, err = tx.Append(ctx, darkroomID, entries, expect)
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return stored, nil
}

// Since returns the entries after a position, oldest first, at most limit of them; limit 0 is all.
func (s *Store) Since(ctx context.Context, darkroomID string, after int64, limit int) (all []book.Entry, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		all, err = tx.Since(ctx, darkroomID, after, limit)
		return err
	})
	return all, err
}

// Find returns the entry of an id; an error of kind NotFound where there is none.
func (s *Store) Find(ctx context.Context, darkroomID, id string) (e book.Entry, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		e, err = tx.Find(ctx, darkroomID, id)
		return err
	})
	return e, err
}

// Head returns the end of a darkroom's book.
func (s *Store) Head(ctx context.Context, darkroomID string) (h book.Head, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		h, err = tx.Head(ctx, darkroomID)
		return err
	})
	return h, err
}

// CanTakeBack reports why an entry can't be taken back now (a *book.RefusedError), nil where it can.
func (s *Store) CanTakeBack(ctx context.Context, darkroomID, id string) error {
	return s.Read(ctx, func(tx *Tx) error {
		state, err := tx.State(ctx, darkroomID)
		if err != nil {
			return err
		}
		find := tx.finder(ctx, darkroomID, nil)
		state, err = tx.awake(ctx, state, false, func(s *book.State) (book.Waking, error) { return s.NeedsToTakeBack(id, find) })
		if err != nil {
			return err
		}
		return state.CanTakeBack(id, find)
	})
}

// Import writes what makes the book say what the file says: entries and people's record in one transaction. The same
// file imported twice writes nothing. Something to write on a book that has moved on past o.Expect is a *book.StaleError.
func (s *Store) Import(
	ctx context.Context, darkroomID string, f darkroom.File, a *book.Author, o book.ImportOptions,
) (im book.Imported, err error) {
	err = s.Write(ctx, func(tx *Tx) error {
		state, err := tx.State(ctx, darkroomID)
		if err != nil {
			return err
		}
		people, err := tx.People(ctx, darkroomID)
		if err != nil {
			return err
		}
		if im, err = book.Import(state, people, f, a, o); err != nil {
			return err
		}
		expect := state.Position()
		if o.Expect != nil {
			expect = *o.Expect
		}
		if im.Entries, err = tx.Append(ctx, darkroomID, im.Entries, &expect); err != nil {
			return err
		}
		for _, p := range im.People {
			if err := tx.PutPerson(ctx, darkroomID, p); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return book.Imported{}, err
	}
	return im, nil
}

// Export returns what there is now as a darkroom file, without people's notes.
func (s *Store) Export(ctx context.Context, darkroomID string) (f darkroom.File, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		state, err := tx.State(ctx, darkroomID)
		if err != nil {
			return err
		}
		people, err := tx.People(ctx, darkroomID)
		if err != nil {
			return err
		}
		f, _ = state.File(people)
		return nil
	})
	return f, err
}

// People returns the erasable record of a darkroom.
func (s *Store) People(ctx context.Context, darkroomID string) (all book.People, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		all, err = tx.People(ctx, darkroomID)
		return err
	})
	return all, err
}

// PutPerson keeps a name and notes in place of what was there.
func (s *Store) PutPerson(ctx context.Context, darkroomID string, p book.Person) error {
	return s.Write(ctx, func(tx *Tx) error { return tx.PutPerson(ctx, darkroomID, p) })
}

// ErasePerson forgets a name and notes for good: they are overwritten in the files, too. The entries keep the id, and
// the chain stays whole.
func (s *Store) ErasePerson(ctx context.Context, darkroomID, id string) error {
	if err := s.Write(ctx, func(tx *Tx) error { return tx.erasePerson(ctx, darkroomID, id) }); err != nil {
		return err
	}
	for _, table := range []string{"people", "keyholders", "keys", "seconds"} { // a name stands in each, or what somebody came in by
		if err := s.dialect.fail(s.dialect.forget(ctx, s.writer, table)); err != nil {
			return err
		}
	}
	return nil
}
