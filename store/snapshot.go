package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"sync"

	"wetside/book"
)

// snapshotEvery is after how many entries a new snapshot is made: at a start no more have to be folded, and it takes few of their
// time to make one.
const snapshotEvery = 10_000

// snapshots knows where the snapshots stand.
type snapshots struct {
	mu     sync.Mutex
	at     map[string]int64 // positions of the snapshots that are kept or on their way, by darkroom
	making bool
	made   sync.WaitGroup
	closed bool
}

// begun returns the state that a fold begins with: that of the snapshot, or an empty one where there is none that is of any use.
func (tx *Tx) begun(ctx context.Context, darkroom string) (*book.State, error) {
	state, err := tx.resumed(ctx, darkroom)
	switch {
	case err == nil:
		tx.store.snapshots.stands(darkroom, state.Position())
		return state, nil
	case errors.Is(err, sql.ErrNoRows):
	case errors.Is(err, book.ErrSnapshot):
		tx.store.tellOdd(fmt.Errorf("the snapshot of %s is dropped, and the book folded anew: %w", darkroom, err))
	default:
		return nil, err
	}
	return book.New(darkroom, tx.store.upcasts), nil
}

// resumed returns the state of the snapshot. The error is sql.ErrNoRows where there is none, and book.ErrSnapshot for one that is
// damaged, of another program or of another book.
func (tx *Tx) resumed(ctx context.Context, darkroom string) (*book.State, error) {
	if tx.store.has < snapshotsSince {
		return nil, sql.ErrNoRows
	}
	var position int64
	var hash string
	var r *book.Resumption
	err := tx.each(ctx, func(rows *sql.Rows) error {
		var rests sql.RawBytes // a copy would be as large as all else at a start
		err := rows.Scan(&position, &hash, &rests)
		if err == nil {
			r, err = book.Resume(darkroom, tx.store.upcasts, rests)
		}
		return err
	}, `SELECT position, hash, rests FROM snapshots WHERE darkroom = ?`, darkroom)
	if err != nil {
		return nil, err
	}
	if r == nil {
		return nil, sql.ErrNoRows
	}
	last, err := tx.Since(ctx, darkroom, position-1, 1)
	if err != nil {
		return nil, err
	}
	if r.Position() != position || len(last) == 0 || last[0].Position != position || book.HashOf(last[0]).String() != hash {
		return nil, fmt.Errorf("it is of another book: %w", book.ErrSnapshot)
	}
	err = r.Ranges(func(from, to int64) error {
		return tx.between(ctx, darkroom, from, to, func(e book.Entry) error {
			r.Tell(e)
			return nil
		})
	})
	if err != nil {
		return nil, err
	}
	return r.End()
}

// snapshotsSince is the schema that has snapshots.
const snapshotsSince = 5

// stands notes that a snapshot is kept.
func (k *snapshots) stands(darkroom string, position int64) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.at == nil {
		k.at = map[string]int64{}
	}
	k.at[darkroom] = max(k.at[darkroom], position)
}

// due reports whether a new snapshot is to be made, and that nobody else makes one now.
func (k *snapshots) due(state *book.State) bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.closed || k.making || state.RestedAt()-k.at[state.Darkroom()] < snapshotEvery {
		return false
	}
	k.making = true
	k.made.Add(1)
	return true
}

func (k *snapshots) done() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.making = false
	k.made.Done()
}

// close waits for the one that is made.
func (k *snapshots) close() {
	k.mu.Lock()
	k.closed = true
	k.mu.Unlock()
	k.made.Wait()
}

// keepSnapshot keeps a snapshot of a state that has moved on far, out of the way of whoever asked for it.
func (s *Store) keepSnapshot(state *book.State) {
	if s.failed.Load() != nil || !s.snapshots.due(state) {
		return
	}
	go func() {
		defer s.snapshots.done()
		err := s.putSnapshot(context.Background(), state)
		if err != nil {
			s.tellOdd(fmt.Errorf("a snapshot of %s could not be kept: %w", state.Darkroom(), err))
		}
		s.snapshots.stands(state.Darkroom(), state.Position()) // where it failed, it is tried again later
	}()
}

// putSnapshot writes a snapshot in place of what is there.
func (s *Store) putSnapshot(ctx context.Context, state *book.State) error {
	rests := state.Snapshot()
	return s.Write(ctx, func(tx *Tx) error {
		last, err := tx.Since(ctx, state.Darkroom(), state.Position()-1, 1)
		if err != nil || len(last) == 0 {
			return err
		}
		return tx.exec(ctx, `INSERT INTO snapshots (darkroom, position, hash, rests) VALUES (?, ?, ?, ?)
			ON CONFLICT (darkroom) DO UPDATE SET position = excluded.position, hash = excluded.hash, rests = excluded.rests`,
			state.Darkroom(), state.Position(), book.HashOf(last[0]).String(), rests)
	})
}

// A Retelling is what a fold from nothing came to, beside the snapshot.
type Retelling struct {
	Unread   int // entries that this program can't read
	Snapshot SnapshotFound
	Differs  []string // what the snapshot says otherwise than the entries, for a log
}

// SnapshotFound says what there is of a snapshot.
type SnapshotFound string

// What there may be.
const (
	NoSnapshot      SnapshotFound = "none"
	SnapshotSame    SnapshotFound = "same"    // what begins with it is what the entries say from the first on
	SnapshotDropped SnapshotFound = "dropped" // it is damaged or another program's; the next start makes it anew
	SnapshotDiffers SnapshotFound = "differs" // it says something else than the entries
)

// Retell folds a darkroom's book from nothing and holds that against what begins with the snapshot. A book that is broken is folded up
// to there, and its snapshot is not looked at. The error is for what hinders looking at all.
func (s *Store) Retell(ctx context.Context, darkroomID string) (r Retelling, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		r.Snapshot = NoSnapshot
		f := folding{tx: tx, darkroom: darkroomID, state: book.New(darkroomID, s.upcasts), own: true}
		if err := f.on(ctx); err != nil {
			if book.KindOf(err) != book.Damaged {
				return err
			}
			r.Unread = len(f.state.Unread())
			return nil
		}
		r.Unread = len(f.state.Unread())
		begun, err := tx.resumed(ctx, darkroomID)
		switch {
		case errors.Is(err, sql.ErrNoRows):
			return nil
		case errors.Is(err, book.ErrSnapshot):
			r.Snapshot = SnapshotDropped
			return nil
		case err != nil:
			return err
		}
		g := folding{tx: tx, darkroom: darkroomID, state: begun, own: true}
		if err := g.on(ctx); err != nil {
			return err
		}
		r.Snapshot = SnapshotSame
		if r.Differs = f.state.Differs(g.state); len(r.Differs) > 0 {
			r.Snapshot = SnapshotDiffers
		}
		return nil
	})
	return r, err
}

// dropSnapshots drops what is derived.
func (s *Store) dropSnapshots(ctx context.Context) error {
	return s.Write(ctx, func(tx *Tx) error { return tx.exec(ctx, `DELETE FROM snapshots`) })
}
