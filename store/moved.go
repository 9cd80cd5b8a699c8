package store

import "sync"

// movements wakes whoever waits for a book to move on.
type movements struct {
	mu sync.Mutex
	of map[string]chan struct{} // closed by the next movement; none where nobody waits
}

// Moved returns a channel that is closed when a darkroom's book next moves on. Whoever asks for it before looking at the
// book misses nothing. It costs the writer no more than closing it, and nothing is left behind by whoever goes away.
func (s *Store) Moved(darkroom string) <-chan struct{} {
	m := &s.movements
	m.mu.Lock()
	defer m.mu.Unlock()
	next, waits := m.of[darkroom]
	if !waits {
		if m.of == nil {
			m.of = map[string]chan struct{}{}
		}
		next = make(chan struct{})
		m.of[darkroom] = next
	}
	return next
}

// tell wakes whoever waits for these books; each may be named several times.
func (m *movements) tell(darkrooms []string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, d := range darkrooms {
		if next, waits := m.of[d]; waits {
			close(next)
			delete(m.of, d)
		}
	}
}
