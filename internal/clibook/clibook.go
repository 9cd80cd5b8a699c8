package clibook

import (
	"context"
	"errors"
	"path/filepath"
	"time"

	"wetside/book"
	"wetside/cli"
	"wetside/darkroom"
	"wetside/store"
)

var _ cli.Book = Book{}

// Room is the id of the one darkroom of a book at home.
const Room = "darkroom"

// A Book is one darkroom of a store as the command line sees it.
type Book struct {
	*store.Store
	Room  string // id of the darkroom
	Now   func() time.Time
	NewID func() string
}

// Open opens the book in a directory, and makes it where there is none. Errors are those of store.Open.
func Open(ctx context.Context, dir string, now func() time.Time, newID func() string) (Book, error) {
	return OpenAt(ctx, cli.Where{Dir: dir, Darkroom: Room}, now, newID)
}

// OpenAt is Open for a place in a server's database, too. told, where given, is told of a change of the books' form.
func OpenAt(ctx context.Context, at cli.Where, now func() time.Time, newID func() string, told ...func(store.Change)) (Book, error) {
	s, err := store.Open(ctx, configOf(at, now, told))
	if err != nil {
		return Book{}, err
	}
	if err := s.Create(ctx, at.Darkroom); err != nil {
		return Book{}, errors.Join(err, s.Close())
	}
	return Book{s, at.Darkroom, now, newID}, nil
}

// A command that has the file for a moment is waited for so often and so long.
const (
	tries = 20
	pause = 100 * time.Millisecond
)

// OpenServing is OpenAt for a server: a command that has the file for a moment is waited for, another server is not.
func OpenServing(ctx context.Context, at cli.Where, now func() time.Time, newID func() string, told ...func(store.Change)) (b Book, err error) {
	for range tries {
		if b, err = OpenAt(ctx, at, now, newID, told...); book.KindOf(err) != book.InUse {
			return b, err
		}
		select {
		case <-time.After(pause):
		case <-ctx.Done():
			return b, err
		}
	}
	return b, err
}

// OpenPassing is OpenAt for a command that is done in a moment: while another process has the file open, the book is read
// beside it, and writing is refused.
func OpenPassing(ctx context.Context, at cli.Where, now func() time.Time, newID func() string, told ...func(store.Change)) (Book, error) {
	b, err := OpenAt(ctx, at, now, newID, told...)
	if book.KindOf(err) != book.InUse {
		return b, err
	}
	s, err := store.OpenBeside(ctx, configOf(at, now, told))
	if err != nil {
		return Book{}, err
	}
	return Book{s, at.Darkroom, now, newID}, nil
}

func configOf(at cli.Where, now func() time.Time, told []func(store.Change)) store.Config {
	c := store.Config{Path: filepath.Join(at.Dir, "wetside.db"), Database: string(at.Database), Now: now}
	if len(told) > 0 {
		c.Told = told[0]
	}
	return c
}

func (b Book) author() *book.Author {
	return &book.Author{Device: "command-line", Now: b.Now(), NewID: b.NewID}
}

// Import writes what differs between a file and the book.
func (b Book) Import(ctx context.Context, f darkroom.File) (int, error) {
	im, err := b.Store.Import(ctx, b.Room, f, b.author(), book.ImportOptions{})
	return len(im.Entries), err
}

// Export returns the darkroom as the book has it.
func (b Book) Export(ctx context.Context) (darkroom.File, error) { return b.Store.Export(ctx, b.Room) }

// State returns what is there now.
func (b Book) State(ctx context.Context) (*book.State, error) { return b.Store.State(ctx, b.Room) }

// Awake returns what is there now, with what needs names awake.
func (b Book) Awake(ctx context.Context, needs func(*book.State) book.Waking) (*book.State, error) {
	return b.Store.Awake(ctx, b.Room, needs)
}

// Write writes what happened at a moment, all or none.
func (b Book) Write(ctx context.Context, at time.Time, expect int64, bodies ...book.Body) (ids []string, err error) {
	a := b.author()
	a.Now = at
	entries := make([]book.Entry, 0, len(bodies))
	for _, body := range bodies {
		e, err := a.Write(body)
		if err != nil {
			return nil, err
		}
		entries, ids = append(entries, e), append(ids, e.ID)
	}
	_, err = b.Append(ctx, b.Room, entries, &expect)
	return ids, err
}
