package store

import (
	"context"
	"database/sql"
	"slices"
	"time"

	"wetside/book"
)

// Bounds of a fold.
const (
	handful    = 1_000 // entries that are read at a time
	restsEvery = 4_096 // entries, after which what is long finished is put to rest
)

// A folding moves a state on by what is in the books. Entries are read and folded on two cores: reading a long book takes about as
// long as folding it. What a late entry wakes is asked of whoever reads, because one transaction answers one question at a time.
type folding struct {
	tx       *Tx
	darkroom string
	state    *book.State
	own      bool // nobody else has the state

	calls chan func() // for the reader while somebody else folds; nil where the reader folds
}

// on folds the entries after the state's.
func (f *folding) on(ctx context.Context) error {
	hand, err := f.tx.folded(ctx, f.darkroom, f.state.Position(), handful)
	if err != nil || len(hand) < handful {
		if err == nil {
			err = f.all(ctx, hand)
		}
		return err
	}
	f.calls = make(chan func())
	hands, ended := make(chan []book.Entry, 4), make(chan error, 1)
	go func() {
		for hand := range hands {
			if err := f.all(ctx, hand); err != nil {
				ended <- err
				return
			}
		}
		ended <- nil
	}()
	for err == nil && len(hand) > 0 {
		if over, why := f.hand(hands, hand, ended); over {
			return why
		}
		hand, err = f.tx.folded(ctx, f.darkroom, hand[len(hand)-1].Position, handful)
	}
	close(hands)
	if folded := f.wait(ended); err == nil {
		err = folded
	}
	return err
}

// hand hands entries over, and answers what is asked meanwhile; over is true where the fold ended before.
func (f *folding) hand(hands chan<- []book.Entry, hand []book.Entry, ended <-chan error) (over bool, err error) {
	for {
		select {
		case hands <- hand:
			return false, nil
		case call := <-f.calls:
			call()
		case err := <-ended: // it ends before the last only where it fails
			return true, err
		}
	}
}

func (f *folding) wait(ended <-chan error) error {
	for {
		select {
		case call := <-f.calls:
			call()
		case err := <-ended:
			return err
		}
	}
}

// ask lets the reader do something with the transaction.
func (f *folding) ask(do func()) {
	if f.calls == nil {
		do()
		return
	}
	done := make(chan struct{})
	f.calls <- func() {
		defer close(done)
		do()
	}
	<-done
}

func (f *folding) find(ctx context.Context) book.Finder {
	return func(id string) (e book.Entry, err error) {
		f.ask(func() { e, err = f.tx.Find(ctx, f.darkroom, id) })
		return e, err
	}
}

func (f *folding) all(ctx context.Context, hand []book.Entry) error {
	for i := range hand {
		if err := f.next(ctx, &hand[i]); err != nil {
			return err
		}
	}
	return nil
}

// next moves the state on by one entry.
func (f *folding) next(ctx context.Context, e *book.Entry) error {
	if !f.own {
		f.state, f.own = f.state.Clone(), true
	}
	for {
		w, err := f.state.Next(*e, f.find(ctx))
		if err != nil {
			return err
		}
		if w.None() {
			break
		}
		f.ask(func() { err = f.tx.wake(ctx, f.state, w) })
		if err != nil {
			return err
		}
	}
	if f.state.Position()-f.state.RestedAt() >= restsEvery {
		f.state.Rest(e.RecordedAt.Add(-book.RestsAfter))
	}
	return nil
}

// folded returns the next entries after a position, without what a fold does not look at: the hash of the entry before.
func (tx *Tx) folded(ctx context.Context, darkroom string, after int64, most int) ([]book.Entry, error) {
	var all []book.Entry // mostly none: a page asks what is new
	err := tx.stretch(ctx, darkroom, whatIsNew, func(e book.Entry) error {
		all = append(all, e)
		return nil
	}, after, most)
	return all, err
}

// stretch calls f with the entries that the end of a query names, as folded returns them.
func (tx *Tx) stretch(ctx context.Context, darkroom, which string, f func(book.Entry) error, args ...any) error {
	query := askStretch + which
	return tx.each(ctx, func(rows *sql.Rows) error {
		e := book.Entry{Darkroom: darkroom}
		var version, happened, recorded int64
		var kind string
		err := rows.Scan(&e.Position, &e.ID, &kind, &version, &happened, &recorded, &e.By, &e.Device, &e.TakesBack, &e.Body)
		if err != nil {
			return err
		}
		e.Kind, e.Version = book.Kind(kind), int(version)
		e.HappenedAt, e.RecordedAt = time.UnixMicro(happened).UTC(), time.UnixMicro(recorded).UTC()
		return f(e)
	}, query, append([]any{darkroom}, args...)...)
}

// between calls f with the entries from one position to another.
func (tx *Tx) between(ctx context.Context, darkroom string, from, to int64, f func(book.Entry) error) error {
	return tx.stretch(ctx, darkroom, ` AND position >= ? AND position <= ? ORDER BY position`, f, from, to)
}

// wake wakes what rests in a state of our own.
func (tx *Tx) wake(ctx context.Context, state *book.State, w book.Waking) error {
	want := w.Positions()
	all := make([]book.Entry, 0, len(want))
	err := w.Ranges(func(from, to int64) error {
		return tx.between(ctx, state.Darkroom(), from, to, func(e book.Entry) error {
			if _, wanted := slices.BinarySearch(want, e.Position); wanted {
				all = append(all, e)
			}
			return nil
		})
	})
	if err != nil {
		return err
	}
	return state.Wake(w, all)
}

// awake wakes what is needed until nothing is, in a copy of a state that others have. own says that nobody has.
func (tx *Tx) awake(ctx context.Context, state *book.State, own bool, needs func(*book.State) (book.Waking, error)) (*book.State, error) {
	for {
		w, err := needs(state)
		if err != nil || w.None() {
			return state, err
		}
		if !own {
			state, own = state.Clone(), true
		}
		if err := tx.wake(ctx, state, w); err != nil {
			return nil, err
		}
	}
}

// awakeFor is awake for entries that are to be admitted.
func (tx *Tx) awakeFor(ctx context.Context, state *book.State, own bool, fresh []book.Entry, find book.Finder) (*book.State, error) {
	return tx.awake(ctx, state, own, func(s *book.State) (book.Waking, error) { return s.Needs(fresh, find) })
}
