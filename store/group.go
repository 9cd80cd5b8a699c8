package store

import (
	"context"
	"slices"
	"sync"

	"wetside/book"
)

// Bounds of a group.
const (
	maxGroup = 1_000 // entries in one transaction, so that a decision that waits is not held up long
	maxAhead = 1_000 // entries that the writer's own state is ahead of the one that readers share
)

// An Outcome is what became of an entry that was to be written by itself.
type Outcome struct {
	Entry book.Entry // as it stands in the book
	Err   error      // why it does not stand there
}

// Each writes entries at the end of a darkroom's book, in their order, each by itself: what is refused hinders no other.
// Corrections among them are decided on the book as it then is; other decisions are BadInput here. The error is for what
// concerns all of them (the disk, an unknown darkroom, a context that ended): then nothing was written.
func (s *Store) Each(ctx context.Context, darkroom string, entries []book.Entry) ([]Outcome, error) {
	w := &waiting{ctx: ctx, darkroom: darkroom, done: make(chan struct{})}
	for i := range entries {
		w.parts = append(w.parts, part{entries: entries[i : i+1]})
	}
	if err := s.share(ctx, w); err != nil {
		return nil, err
	}
	out := make([]Outcome, len(entries))
	for i, p := range w.parts {
		if out[i].Err = p.err; p.err == nil {
			out[i].Entry = p.stored[0]
		}
	}
	return out, nil
}

// appendFacts writes facts, all or none.
func (s *Store) appendFacts(ctx context.Context, darkroom string, entries []book.Entry) ([]book.Entry, error) {
	w := &waiting{ctx: ctx, darkroom: darkroom, parts: []part{{entries: entries}}, done: make(chan struct{})}
	if err := s.share(ctx, w); err != nil {
		return nil, err
	}
	return w.parts[0].stored, w.parts[0].err
}

// waiting is what one caller wants to be written.
type waiting struct {
	ctx      context.Context // the caller's
	darkroom string
	parts    []part
	err      error         // of all parts
	done     chan struct{} // closed when it is known what became of it
}

// A part is entries that are written all or none, and what became of them.
type part struct {
	entries, stored []book.Entry
	err             error
}

// line is who waits.
type line struct {
	mu  sync.Mutex
	all []*waiting
}

func (l *line) join(w *waiting) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.all = append(l.all, w)
}

// leave takes somebody out of the line; false where a leader has taken him along.
func (l *line) leave(w *waiting) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	for i, other := range l.all {
		if other == w {
			l.all = append(l.all[:i:i], l.all[i+1:]...)
			return true
		}
	}
	return false
}

// take returns who goes next: at least one where somebody waits, together not much more than maxGroup entries.
func (l *line) take() []*waiting {
	l.mu.Lock()
	defer l.mu.Unlock()
	n, entries := 0, 0
	for n < len(l.all) && entries < maxGroup {
		for _, p := range l.all[n].parts {
			entries += len(p.entries)
		}
		n++
	}
	group := l.all[:n:n]
	l.all = l.all[n:]
	return group
}

// share waits until w was written together with what else waits. Who gets the turn writes for all.
func (s *Store) share(ctx context.Context, w *waiting) error {
	s.line.join(w)
	for {
		select {
		case <-w.done:
			return w.err
		case s.turn <- struct{}{}:
			s.lead(context.WithoutCancel(ctx)) // a member's context ends what is the member's, nothing else
		case <-ctx.Done():
			if s.line.leave(w) {
				return s.dialect.fail(ctx.Err())
			}
			<-w.done // it is being written
			return w.err
		}
	}
}

// lead writes what waits in one transaction, tells everybody what became of it, and lets go of the turn.
func (s *Store) lead(ctx context.Context) {
	defer func() { <-s.turn }()
	members := s.line.take()
	if len(members) == 0 {
		return
	}
	g := &group{store: s, heads: map[string]book.Head{}}
	var err error = &book.Error{Kind: book.Internal, Key: "internal"} // where the writing does not return
	defer func() { g.settle(err, members) }()
	err = s.insist(ctx, func() error { // an entry that is sent again is written once
		clear(g.heads)
		err := s.writeNow(ctx, func(tx *Tx) error { return g.write(ctx, tx, members) })
		if err != nil {
			clear(s.working) // they say what never came about
		}
		return err
	})
}

// A group is one transaction of several members.
type group struct {
	store *Store
	heads map[string]book.Head // of the books that it moves on
}

// write writes every member's parts. The error fails them all.
func (g *group) write(ctx context.Context, tx *Tx, members []*waiting) error {
	if err := lockAll(ctx, tx, members); err != nil {
		return err
	}
	for _, w := range members {
		if w.err = g.store.dialect.fail(w.ctx.Err()); w.err != nil {
			continue
		}
		for i := range w.parts {
			p := &w.parts[i]
			if p.stored, p.err = g.append(ctx, tx, w, p.entries); p.err == nil {
				continue
			}
			p.stored = nil
			if !refusal(p.err) {
				return p.err
			}
		}
	}
	for darkroom := range g.heads {
		if err := tx.moveHead(ctx, g.heads[darkroom]); err != nil {
			return err
		}
	}
	return nil
}

// lockAll locks the books of a group that writes to several, in the same order in each process, so that no two wait for each
// other.
func lockAll(ctx context.Context, tx *Tx, members []*waiting) error {
	var darkrooms []string
	for _, w := range members {
		darkrooms = append(darkrooms, w.darkroom)
	}
	slices.Sort(darkrooms)
	if darkrooms = slices.Compact(darkrooms); len(darkrooms) < 2 {
		return nil
	}
	for _, d := range darkrooms {
		if _, err := tx.Head(ctx, d); err != nil && book.KindOf(err) != book.NotFound {
			return err
		}
	}
	return nil
}

// refusal reports an error that is the sender's, before which nothing was written.
func refusal(err error) bool {
	switch book.KindOf(err) {
	case book.BadInput, book.NotFound, book.Conflict, book.Stale, book.Refused:
		return true
	default:
		return false
	}
}

// append is Tx.Append on the writer's own state.
func (g *group) append(ctx context.Context, tx *Tx, w *waiting, entries []book.Entry) ([]book.Entry, error) {
	head, own := g.heads[w.darkroom]
	if !own {
		var err error
		if head, err = tx.Head(ctx, w.darkroom); err != nil {
			return nil, err
		}
	}
	stored, fresh, err := tx.sort(ctx, w.darkroom, entries)
	if err != nil || len(fresh) == 0 {
		return stored, err
	}
	if fresh[0].Kind != book.Correction { // which is decided on the head; appendFacts has none
		if err := tx.current(ctx, head, fresh, nil); err != nil {
			return nil, err
		}
	}
	state, err := g.admit(ctx, tx, head, fresh)
	if err != nil {
		return nil, err
	}
	if head, err = tx.place(ctx, head, fresh, stored, state); err == nil {
		g.heads[w.darkroom] = head
	}
	return stored, err
}

// admit moves the writer's own state on by what is fresh and returns it.
func (g *group) admit(ctx context.Context, tx *Tx, head book.Head, fresh []book.Entry) (*book.State, error) {
	state, err := g.state(ctx, tx, head)
	if err != nil {
		return nil, err
	}
	find := tx.finder(ctx, head.Darkroom, fresh)
	if _, err = tx.awakeFor(ctx, state, true, fresh, find); err != nil {
		return nil, err
	}
	if len(fresh) == 1 {
		if taken, err := state.Take(fresh[0], find); taken || err != nil {
			return state, err
		}
	}
	if state, err = state.Admit(fresh, find); err != nil {
		return nil, err
	}
	g.store.working[head.Darkroom] = state
	return state, nil
}

// state returns the writer's own state of a book, at its head.
func (g *group) state(ctx context.Context, tx *Tx, head book.Head) (*book.State, error) {
	state := g.store.working[head.Darkroom]
	if state == nil {
		shared, err := tx.State(ctx, head.Darkroom)
		if err != nil {
			return nil, err
		}
		state = shared.Clone()
		g.store.working[head.Darkroom] = state
	}
	if state.Position() == head.Position {
		return state, nil
	}
	f := folding{tx: tx, darkroom: head.Darkroom, state: state, own: true}
	return state, f.on(ctx)
}

// rest puts to rest what is long finished, before a state is shared.
func (g *group) rest(state *book.State) {
	if state.Position()-state.RestedAt() >= restsEvery {
		state.Rest(g.store.now().Add(-book.RestsAfter))
	}
}

// settle tells the members, and shares states that readers would have to catch up with.
func (g *group) settle(err error, members []*waiting) {
	if err != nil {
		clear(g.store.working) // where the writing did not return, too
	}
	for darkroom := range g.heads {
		state, shared := g.store.working[darkroom], g.store.states.get(darkroom)
		if state != nil && (shared == nil || state.Position()-shared.Position() > maxAhead) {
			g.rest(state)
			g.store.states.put(state)
			delete(g.store.working, darkroom)
		}
	}
	for _, w := range members {
		if err != nil {
			w.err = err
		}
		close(w.done)
	}
}
