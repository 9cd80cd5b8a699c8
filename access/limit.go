package access

import (
	"crypto/sha256"
	"sync"
	"time"
)

// A Limit lets something be tried so often at once, and then once in a while. It is safe for use by several goroutines.
type Limit struct {
	now   func() time.Time
	most  int           // at once
	every time.Duration // after which there is one try more
	room  int           // how many are remembered

	mu   sync.Mutex
	full map[[16]byte]time.Time // when all tries are back
}

// NewLimit returns a limit of most tries at once and one more after each every. It remembers room of those who try; where
// more try than that, the unremembered share one count.
func NewLimit(now func() time.Time, most int, every time.Duration, room int) *Limit {
	return &Limit{now: now, most: most, every: every, room: room, full: map[[16]byte]time.Time{}}
}

// Take takes a try of somebody; wait is how long until there is one where there is none.
func (l *Limit) Take(who string) (wait time.Duration) {
	l.mu.Lock()
	defer l.mu.Unlock()
	now, k := l.now(), l.key(who)
	full := l.full[k]
	if full.Before(now) {
		full = now
	}
	full = full.Add(l.every)
	if over := full.Sub(now) - time.Duration(l.most)*l.every; over > 0 {
		return over
	}
	l.full[k] = full
	return 0
}

// Give gives the last try back: it was a good one.
func (l *Limit) Give(who string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	k := l.key(who)
	if full, ok := l.full[k]; ok {
		l.full[k] = full.Add(-l.every)
	}
}

// key is where somebody's tries are counted. Who has them all back needs no place.
func (l *Limit) key(who string) (k [16]byte) {
	sum := sha256.Sum256([]byte(who))
	copy(k[:], sum[:])
	if _, known := l.full[k]; known || len(l.full) < l.room {
		return k
	}
	now := l.now()
	for k, full := range l.full {
		if !full.After(now) {
			delete(l.full, k)
		}
	}
	if len(l.full) < l.room {
		return k
	}
	return [16]byte{}
}
