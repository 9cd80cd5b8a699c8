package main

import (
	"context"
	"io"
	"os"
	"time"

	"github.com/google/uuid"

	"wetside/ahead"
	"wetside/cli"
	"wetside/darkroom"
	"wetside/draw/label"
	"wetside/internal/clibook"
	"wetside/internal/upkeep"
	"wetside/sheet"
	"wetside/words"
)

// A house holds what the rooms get handed in.
type house struct {
	now func() time.Time
}

func (h house) open(ctx context.Context, at cli.Where) (clibook.Book, error) {
	return clibook.OpenServing(ctx, at, h.now, uuid.NewString, upkeep.Telling(os.Stderr))
}

func (h house) openBook(ctx context.Context, at cli.Where) (cli.Book, error) {
	b, err := clibook.OpenPassing(ctx, at, h.now, uuid.NewString, upkeep.Telling(os.Stderr))
	if err != nil {
		return nil, err
	}
	return b, nil
}

func (h house) voice(f darkroom.File) (*words.Voice, error) {
	return words.New(f.Darkroom.Language, f.Darkroom.Units, f.Darkroom.Ounce,
		words.Zone(h.now().Location()), words.Currency(f.Darkroom.Currency))
}

func (h house) baths(w io.Writer, r ahead.Report, f darkroom.File) error {
	v, err := h.voice(f)
	if err != nil {
		return err
	}
	return sheet.Baths(w, v, r, f)
}

// tapes leaves a place for the name of who made a bath: names are kept apart from the book and not read here.
func (h house) tapes(w io.Writer, r ahead.Report, f darkroom.File) error {
	v, err := h.voice(f)
	if err != nil {
		return err
	}
	return sheet.Tapes(w, v, r, f, nil)
}

func (h house) labels(w io.Writer, all []label.Label, on label.Stock, start int) error {
	return sheet.Labels(w, all, on, start, h.now())
}
