package main

import (
	"context"
	"io"
	"path/filepath"
	"time"

	"github.com/google/uuid"

	"wetside/book"
	"wetside/cli"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/sheet"
	"wetside/store"
	"wetside/words"
)

// theRoom is the id of the one darkroom of a book at home; several come with sharing.
const theRoom = "darkroom"

// A house holds what the rooms get handed in.
type house struct {
	now func() time.Time
}

// aBook is the book of one darkroom in a store.
type aBook struct {
	*store.Store
	now func() time.Time
}

func (h house) open(ctx context.Context, dir string) (*aBook, error) {
	s, err := store.Open(ctx, store.Config{Path: filepath.Join(dir, "wetside.db"), Now: h.now})
	if err != nil {
		return nil, err
	}
	b := &aBook{s, h.now}
	if err := s.Create(ctx, theRoom); err != nil {
		return nil, err
	}
	return b, nil
}

func (h house) openBook(ctx context.Context, dir string) (cli.Book, error) {
	b, err := h.open(ctx, dir)
	if err != nil {
		return nil, err
	}
	return cliBook{b}, nil
}

func (h house) sheet(w io.Writer, p plan.Plan, f darkroom.File) error {
	v, err := words.New(f.Darkroom.Language, f.Darkroom.Units, f.Darkroom.Ounce,
		words.Zone(h.now().Location()), words.Currency(f.Darkroom.Currency))
	if err != nil {
		return err
	}
	return sheet.Mix(w, v, p, f)
}

// author writes entries in the name of this device.
func (b *aBook) author(device string) *book.Author {
	return &book.Author{Device: device, Now: b.now(), NewID: uuid.NewString}
}

// cliBook is a book as the command line sees it.
type cliBook struct{ *aBook }

// Import writes what differs between a file and the book.
func (b cliBook) Import(ctx context.Context, f darkroom.File) (int, error) {
	im, err := b.Store.Import(ctx, theRoom, f, b.author("command line"), book.ImportOptions{})
	return len(im.Entries), err
}

// Export returns the darkroom as the book has it.
func (b cliBook) Export(ctx context.Context) (darkroom.File, error) {
	return b.Store.Export(ctx, theRoom)
}
