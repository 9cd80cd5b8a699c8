package main

import (
	"context"
	"io"
	"time"

	"github.com/google/uuid"

	"wetside/cli"
	"wetside/darkroom"
	"wetside/internal/clibook"
	"wetside/plan"
	"wetside/sheet"
	"wetside/words"
)

// A house holds what the rooms get handed in.
type house struct {
	now func() time.Time
}

func (h house) open(ctx context.Context, dir string) (clibook.Book, error) {
	return clibook.Open(ctx, dir, h.now, uuid.NewString)
}

func (h house) openBook(ctx context.Context, dir string) (cli.Book, error) {
	b, err := h.open(ctx, dir)
	if err != nil {
		return nil, err
	}
	return b, nil
}

func (h house) sheet(w io.Writer, p plan.Plan, f darkroom.File) error {
	v, err := words.New(f.Darkroom.Language, f.Darkroom.Units, f.Darkroom.Ounce,
		words.Zone(h.now().Location()), words.Currency(f.Darkroom.Currency))
	if err != nil {
		return err
	}
	return sheet.Mix(w, v, p, f)
}
