package store

import (
	"context"
	"fmt"
	"slices"
	"strconv"

	"wetside/book"
)

// Append writes entries at the end of a darkroom's book, all or none, and returns them as they stand there, in the
// order given. An entry that was written before is not written again; its stored form is returned. expect is the
// position that decisions among the entries were made on; facts need none, and alone are written whatever it says.
//
// Errors: an id that stands there with other contents (a *book.ConflictError), something written since expect (a
// *book.StaleError with what came between), what a decision would break (a *book.RefusedError), what can't be read
// (BadInput), an unknown darkroom (NotFound).
func (tx *Tx) Append(ctx context.Context, darkroom string, entries []book.Entry, expect *int64) ([]book.Entry, error) {
	head, err := tx.Head(ctx, darkroom)
	if err != nil {
		return nil, err
	}
	stored, fresh, err := tx.sort(ctx, darkroom, entries)
	if err != nil || len(fresh) == 0 {
		return stored, err
	}
	if err := tx.current(ctx, head, fresh, expect); err != nil {
		return nil, err
	}
	state, err := tx.State(ctx, darkroom)
	if err != nil {
		return nil, err
	}
	find := tx.finder(ctx, darkroom, fresh)
	if state, err = tx.awakeFor(ctx, state, false, fresh, find); err != nil {
		return nil, err
	}
	if state, err = state.Admit(fresh, find); err != nil {
		return nil, err
	}
	if head, err = tx.place(ctx, head, fresh, stored, state); err != nil {
		return nil, err
	}
	tx.states[darkroom] = state
	return stored, tx.moveHead(ctx, head)
}

// place writes what is fresh after the head, gives it its place in stored, and returns the new head. state is that after
// them.
func (tx *Tx) place(ctx context.Context, head book.Head, fresh, stored []book.Entry, state *book.State) (book.Head, error) {
	placed := map[string]book.Entry{}
	for _, e := range fresh {
		e.RecordedAt = tx.now
		e, head = head.Place(e)
		if err := tx.insert(ctx, e); err != nil {
			return head, err
		}
		placed[e.ID] = e
	}
	if state.Position() != head.Position {
		return head, fmt.Errorf("state at %d, head at %d of %s", state.Position(), head.Position, head.Darkroom)
	}
	for i, e := range stored {
		if e.Position == 0 {
			stored[i] = placed[e.ID]
		}
	}
	return head, nil
}

// moveHead moves a book's end on, and tells other processes when the transaction is committed.
func (tx *Tx) moveHead(ctx context.Context, head book.Head) error {
	tx.moved = append(tx.moved, head)
	err := tx.exec(ctx, `UPDATE heads SET position = ?, hash = ? WHERE darkroom = ?`, head.Position, head.Hash.String(), head.Darkroom)
	if err != nil || tx.store.dialect.announce == "" {
		return err
	}
	return tx.exec(ctx, tx.store.dialect.announce, head.Darkroom, head.Position)
}

// sort parts what was written before from what is fresh. stored has an entry for each that was given, fresh ones at
// position 0.
func (tx *Tx) sort(ctx context.Context, darkroom string, entries []book.Entry) (stored, fresh []book.Entry, err error) {
	batch := map[string]book.Entry{}
	for _, e := range entries {
		e.Darkroom, e.Position, e.PrevHash = darkroom, 0, book.Hash{}
		e.HappenedAt = book.Instant(e.HappenedAt)
		was, known := batch[e.ID]
		if !known {
			was, err = tx.Find(ctx, darkroom, e.ID)
			known = err == nil
			if err != nil && book.KindOf(err) != book.NotFound {
				return nil, nil, err
			}
		}
		switch {
		case known && !was.Same(e):
			return nil, nil, &book.ConflictError{Stored: was}
		case !known:
			fresh, was = append(fresh, e), e
		}
		batch[e.ID] = was
		stored = append(stored, was)
	}
	return stored, fresh, nil
}

// current reports decisions that were made on another position than the head.
func (tx *Tx) current(ctx context.Context, head book.Head, fresh []book.Entry, expect *int64) error {
	decides := slices.IndexFunc(fresh, func(e book.Entry) bool { return e.Kind.Decides() })
	switch {
	case decides < 0:
		return nil
	case expect == nil:
		return &book.Error{Kind: book.BadInput, Key: "entry_no_expect", Cause: fmt.Errorf("%s decides", fresh[decides].Kind)}
	case *expect == head.Position:
		return nil
	case *expect < 0 || *expect > head.Position:
		return &book.Error{Kind: book.BadInput, Key: "entry_bad_expect", Cause: fmt.Errorf(
			"expected %s, the head is %d", strconv.FormatInt(*expect, 10), head.Position)}
	}
	after := max(*expect, head.Position-book.MaxBetween)
	between, err := tx.Since(ctx, head.Darkroom, after, book.MaxBetween)
	if err != nil {
		return err
	}
	return &book.StaleError{Expected: *expect, Head: head.Position, Between: between}
}

// finder finds entries among those that are about to be written and those that are.
func (tx *Tx) finder(ctx context.Context, darkroom string, fresh []book.Entry) book.Finder {
	return func(id string) (book.Entry, error) {
		for _, e := range fresh {
			if e.ID == id {
				return e, nil
			}
		}
		return tx.Find(ctx, darkroom, id)
	}
}
