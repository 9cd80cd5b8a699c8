package main

import (
	"context"
	"errors"
	"fmt"
	"os"

	"github.com/google/uuid"
	"golang.org/x/term"

	"wetside/cli"
	"wetside/internal/clibook"
	"wetside/internal/doors"
	"wetside/internal/upkeep"
)

// keyholders are the doors of a darkroom with the book that they hang in.
type keyholders struct {
	*doors.Doors
	book clibook.Book
}

// Close closes the book.
func (k keyholders) Close() error { return k.book.Close() }

func (h house) openDoors(ctx context.Context, at cli.Where) (cli.Keyholders, error) {
	b, err := clibook.OpenPassing(ctx, at, h.now, uuid.NewString, upkeep.Telling(os.Stderr))
	if err != nil {
		return nil, err
	}
	stolen, err := doors.OpenStolen(at.Stolen)
	if err != nil {
		return nil, errors.Join(err, b.Close())
	}
	return keyholders{doors.New(doors.Config{Store: b.Store, Room: b.Room, Now: h.now, NewID: uuid.NewString, Stolen: stolen}), b}, nil
}

// hidden reads a line from the terminal without showing it; hidden is false where there is no terminal.
func hidden(prompt string) (typed string, hidden bool, err error) {
	in := int(os.Stdin.Fd())
	if !term.IsTerminal(in) {
		return "", false, nil
	}
	_, _ = fmt.Fprint(os.Stderr, prompt)
	line, err := term.ReadPassword(in)
	_, _ = fmt.Fprintln(os.Stderr)
	return string(line), true, err
}
