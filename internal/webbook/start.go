package webbook

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"time"

	"github.com/google/uuid"

	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/plan"
	"wetside/sheet"
	"wetside/store"
	"wetside/web"
	"wetside/words"
)

// Open opens a store in a file and returns its one darkroom with the pages over it. The caller closes Book.Store.
func Open(ctx context.Context, path string, now func() time.Time, log *slog.Logger) (Book, http.Handler, error) {
	return OpenUntil(context.WithoutCancel(ctx), path, now, log)
}

// OpenUntil is Open with streams that end with the context.
func OpenUntil(ctx context.Context, path string, now func() time.Time, log *slog.Logger) (Book, http.Handler, error) {
	s, err := store.Open(ctx, store.Config{Path: path, Now: now})
	if err != nil {
		return Book{}, nil, err
	}
	b := Book{Store: s, Room: "darkroom", Now: now, NewID: uuid.NewString}
	if err := s.Create(ctx, b.Room); err != nil {
		return b, nil, err
	}
	pages, err := web.New(web.Config{
		Book: b, Now: now, NewID: b.NewID, Log: log, Example: example.YAML, Parts: true, Stop: ctx,
		Sheet: func(w io.Writer, p plan.Plan, f darkroom.File) error {
			d := f.Darkroom
			v, err := words.New(d.Language, d.Units, d.Ounce, words.Zone(now().Location()), words.Currency(d.Currency))
			if err != nil {
				return err
			}
			return sheet.Mix(w, v, p, f)
		},
	})
	return b, pages, err
}

// LoadExample writes the example darkroom of today into a book.
func (b Book) LoadExample(ctx context.Context) error {
	f, err := example.File(b.Now())
	if err != nil {
		return err
	}
	return b.Keep(ctx, f, web.Keeping{})
}
