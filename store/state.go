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

// State returns the present state of a darkroom, folded on from the last that is known. It is shared: Clone it before
// Apply. In a transaction that writes, it stays the present one.
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
		state = book.New(darkroom, tx.store.upcasts)
	}
	f := folding{apply: func(e book.Entry) error {
		if !own {
			state, own = state.Clone(), true
		}
		return state.Apply(e)
	}}
	err := tx.folded(ctx, darkroom, state.Position(), f.add)
	if folded := f.end(); err == nil {
		err = folded
	}
	if err != nil {
		return nil, err
	}
	tx.states[darkroom] = state
	return state, nil
}
