package webbook

import (
	"context"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/store"
	"wetside/web"
)

var _ web.Book = Book{}

// A Book is one darkroom of a store as the pages see it.
type Book struct {
	Store *store.Store
	Room  string // id of the darkroom
	Now   func() time.Time
	NewID func() string
}

// State returns what is there now.
func (b Book) State(ctx context.Context) (*book.State, error) { return b.Store.State(ctx, b.Room) }

// People returns the erasable record.
func (b Book) People(ctx context.Context) (book.People, error) { return b.Store.People(ctx, b.Room) }

// CanTakeBack says why an entry can't be taken back.
func (b Book) CanTakeBack(ctx context.Context, id string) error {
	return b.Store.CanTakeBack(ctx, b.Room, id)
}

// Keep writes what differs between the file and the book.
func (b Book) Keep(ctx context.Context, f darkroom.File, k web.Keeping) error {
	a := &book.Author{Device: "page", Now: b.Now(), NewID: b.NewID}
	_, err := b.Store.Import(ctx, b.Room, f, a, book.ImportOptions{Replace: k.Replace, Expect: k.Expect})
	return err
}

// Append writes entries, all or none.
func (b Book) Append(ctx context.Context, entries []book.Entry, expect *int64) error {
	_, err := b.Store.Append(ctx, b.Room, entries, expect)
	return err
}
