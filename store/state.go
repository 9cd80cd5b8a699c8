package store

import (
	"context"
	"sync"

	"wetside/book"
)

// states keeps the latest fold of each darkroom. What is in it is never changed, only replaced.
type states struct {
	mu sync.Mutex
	of map[string]*book.State
}

func newStates() states { return states{of: map[string]*book.State{}} }

func (s *states) get(darkroom string) *book.State {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.of[darkroom]
}

// put keeps a state where it is newer.
func (s *states) put(state *book.State) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if was := s.of[state.Darkroom()]; was == nil || was.Position() < state.Position() {
		s.of[state.Darkroom()] = state
	}
}

// State returns the present state of a darkroom, folded on from the last that is known: in memory, or, at the start, from the
// snapshot. It is shared: Clone it before Apply. In a transaction that writes, it stays the present one. What is long finished
// rests in it; see Awake.
func (tx *Tx) State(ctx context.Context, darkroom string) (*book.State, error) {
	state := tx.states[darkroom]
	if state == nil {
		state = tx.store.states.get(darkroom)
	}
	own := state == nil
	if own || tx.writes {
		if _, err := tx.Head(ctx, darkroom); err != nil {
			return nil, err
		}
	}
	if own {
		var err error
		if state, err = tx.begun(ctx, darkroom); err != nil {
			return nil, err
		}
	}
	f := folding{tx: tx, darkroom: darkroom, state: state, own: own}
	if err := f.on(ctx); err != nil {
		return nil, err
	}
	tx.states[darkroom] = f.state
	return f.state, nil
}

// Awake returns the present state in which nothing rests of what needs names; it is asked anew until it names nothing. The state is
// the caller's own where something was woken, and is not kept.
func (s *Store) Awake(ctx context.Context, darkroomID string, needs func(*book.State) book.Waking) (state *book.State, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		if state, err = tx.State(ctx, darkroomID); err != nil {
			return err
		}
		state, err = tx.awake(ctx, state, false, func(s *book.State) (book.Waking, error) { return needs(s), nil })
		return err
	})
	return state, err
}
