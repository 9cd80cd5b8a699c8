package store

import (
	"context"
	"time"

	"wetside/book"
)

// catchUpEvery is how often the books are looked at beside what other processes announce: a lost announcement costs so long.
const catchUpEvery = time.Second

// follow wakes whoever waits for a book that another process moves on, until the store is closed.
func (s *Store) follow(ctx context.Context) {
	if s.dialect.listen == nil {
		return
	}
	ctx, s.leave = context.WithCancel(ctx)
	look := make(chan struct{}, 1)
	s.following.Go(func() { s.listen(ctx, look) })
	s.following.Go(func() {
		ticker := time.NewTicker(catchUpEvery)
		defer ticker.Stop()
		for {
			s.catchUp(ctx)
			select {
			case <-ticker.C:
			case <-look:
			case <-ctx.Done():
				return
			}
		}
	})
}

// listen hears what other processes announce. When it can hear, at first or anew, it asks for a look at the books, for what
// was announced before.
func (s *Store) listen(ctx context.Context, look chan<- struct{}) {
	for ctx.Err() == nil {
		_ = s.dialect.listen(ctx, s.reader, func(darkroom string, position int64) {
			if darkroom != "" {
				s.movements.tell([]book.Head{{Darkroom: darkroom, Position: position}})
				return
			}
			select {
			case look <- struct{}{}:
			default:
			}
		})
		select {
		case <-time.After(catchUpEvery):
		case <-ctx.Done():
		}
	}
}

// catchUp looks where the books stand, for whoever waits, and whether a newer program has taken the database over: then
// nothing more is written by this one. While the database is away nothing is done; the next look does it.
func (s *Store) catchUp(ctx context.Context) {
	ctx, cancel := context.WithTimeout(ctx, 10*catchUpEvery)
	defer cancel()
	has, knows, err := s.Schema(ctx)
	if err != nil {
		return
	}
	if has > knows {
		s.failed.CompareAndSwap(nil, &book.Error{Kind: book.Newer, Key: "store_newer", Cause: newer(has, knows)})
	}
	if !s.movements.awaited() {
		return
	}
	_ = s.Read(ctx, func(tx *Tx) error {
		heads, err := tx.Darkrooms(ctx)
		if err == nil {
			s.movements.tell(heads)
		}
		return err
	})
}
