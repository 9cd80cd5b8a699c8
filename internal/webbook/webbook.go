package webbook

import (
	"cmp"
	"context"
	"time"

	"wetside/access"
	"wetside/api"
	"wetside/book"
	"wetside/darkroom"
	"wetside/internal/doors"
	"wetside/store"
	"wetside/web"
)

var (
	_ web.Book = Book{}
	_ api.Book = Book{}
)

// A Book is one darkroom of a store as the pages see it.
type Book struct {
	Store *store.Store
	Room  string // id of the darkroom
	Now   func() time.Time
	NewID func() string
	// Names are hosts beside the loopback ones by which a darkroom without a keyholder may be asked. Outside says that other
	// machines reach the server; Word then makes the first keyholder.
	Names   []string
	Outside bool
	Word    string
	Stolen  *access.Stolen // passwords that were stolen elsewhere; nil: nobody knows
}

// Doors returns the ways into the darkroom. A server has one of them: they count tries.
func (b Book) Doors() *doors.Doors {
	return doors.New(doors.Config{Store: b.Store, Room: b.Room, Now: b.Now, NewID: b.NewID, Names: b.Names, Outside: b.Outside, Word: b.Word, Stolen: b.Stolen})
}

// State returns what is there now.
func (b Book) State(ctx context.Context) (*book.State, error) { return b.Store.State(ctx, b.Room) }

// Awake returns what is there now, with what needs names awake.
func (b Book) Awake(ctx context.Context, needs func(*book.State) book.Waking) (*book.State, error) {
	return b.Store.Awake(ctx, b.Room, needs)
}

// Ready returns why nothing can be read or written at present.
func (b Book) Ready(ctx context.Context) error { return b.Store.Ready(ctx, b.Room) }

// People returns the erasable record.
func (b Book) People(ctx context.Context) (book.People, error) { return b.Store.People(ctx, b.Room) }

// CanTakeBack says why an entry can't be taken back.
func (b Book) CanTakeBack(ctx context.Context, id string) error {
	return b.Store.CanTakeBack(ctx, b.Room, id)
}

// Keep writes what differs between the file and the book.
func (b Book) Keep(ctx context.Context, f darkroom.File, k web.Keeping) error {
	a := &book.Author{By: access.From(ctx).Person, Device: cmp.Or(k.Device, "page"), Now: b.Now(), NewID: b.NewID}
	_, err := b.Store.Import(ctx, b.Room, f, a, book.ImportOptions{Replace: k.Replace, Expect: k.Expect, Persons: k.Persons})
	return err
}

// Append writes entries, all or none.
func (b Book) Append(ctx context.Context, entries []book.Entry, expect *int64) error {
	_, err := b.Store.Append(ctx, b.Room, entries, expect)
	return err
}

// Each writes entries, each by itself.
func (b Book) Each(ctx context.Context, entries []book.Entry) ([]web.Outcome, error) {
	out, err := b.Store.Each(ctx, b.Room, entries)
	if err != nil {
		return nil, err
	}
	all := make([]web.Outcome, len(out))
	for i, o := range out {
		all[i] = web.Outcome(o)
	}
	return all, nil
}

// Add writes one entry and returns it as it stands.
func (b Book) Add(ctx context.Context, e book.Entry, expect *int64) (book.Entry, error) {
	stored, err := b.Store.Append(ctx, b.Room, []book.Entry{e}, expect)
	if err != nil {
		return e, err
	}
	return stored[0], nil
}

// TakeBack writes a correction, which is decided on the book as it then is.
func (b Book) TakeBack(ctx context.Context, e book.Entry) (book.Entry, error) {
	out, err := b.Store.Each(ctx, b.Room, []book.Entry{e})
	if err != nil {
		return e, err
	}
	return out[0].Entry, out[0].Err
}

// Find returns the entry of an id.
func (b Book) Find(ctx context.Context, id string) (book.Entry, error) {
	return b.Store.Find(ctx, b.Room, id)
}

// Position returns the position of the last entry.
func (b Book) Position(ctx context.Context) (int64, error) {
	head, err := b.Store.Head(ctx, b.Room)
	return head.Position, err
}

// Since returns the entries after a position.
func (b Book) Since(ctx context.Context, after int64, limit int) ([]book.Entry, error) {
	return b.Store.Since(ctx, b.Room, after, limit)
}

// Moved returns a channel that is closed when the book next moves on.
func (b Book) Moved() <-chan struct{} { return b.Store.Moved(b.Room) }
