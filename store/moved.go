package store

import (
	"sync"

	"wetside/book"
)

// movements wakes whoever waits for a book to move on.
type movements struct {
	mu sync.Mutex
	of map[string]chan struct{} // closed by the next movement; none where nobody waits
	at map[string]int64         // the last position that was told of, by darkroom
}

// Moved returns a channel that is closed when a darkroom's book next moves on, by whichever process. Whoever asks for it
// before looking at the book misses nothing. It costs the writer no more than closing it, and nothing is left behind by
// whoever goes away.
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

// tell wakes whoever waits for these books, unless it was told of those positions before; each may be named several times.
func (m *movements) tell(heads []book.Head) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, h := range heads {
		if h.Position <= m.at[h.Darkroom] {
			continue
		}
		if m.at == nil {
			m.at = map[string]int64{}
		}
		m.at[h.Darkroom] = h.Position
		if next, waits := m.of[h.Darkroom]; waits {
			close(next)
			delete(m.of, h.Darkroom)
		}
	}
}

// awaited reports whether anybody waits.
func (m *movements) awaited() bool {
	m.mu.Lock()
	defer m.mu.Unlock()
	return len(m.of) > 0
}
