package webbook

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"time"

	"github.com/google/uuid"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/draw/label"
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
	b, err := open(ctx, store.Config{Path: path, Now: now})
	if err != nil {
		return b, nil, err
	}
	c := b.Config(log)
	c.Parts, c.Stop = true, ctx
	pages, err := web.New(c)
	return b, pages, err
}

// OpenDatabase opens a darkroom in a server's database, which others may have open too; without pages.
func OpenDatabase(ctx context.Context, url string, now func() time.Time) (Book, error) {
	return open(ctx, store.Config{Database: url, Now: now})
}

func open(ctx context.Context, c store.Config) (Book, error) {
	s, err := store.Open(ctx, c)
	if err != nil {
		return Book{}, err
	}
	b := Book{Store: s, Room: "darkroom", Now: c.Now, NewID: uuid.NewString, Names: []string{"darkroom.test"}}
	return b, s.Create(ctx, b.Room)
}

// Config returns what the pages over the book are handed: its clock and its ids among it. What they are to do without or have
// besides is for the caller to change.
func (b Book) Config(log *slog.Logger) web.Config {
	return web.Config{Book: b, Doors: b.Doors(), Now: b.Now, NewID: b.NewID, Log: log, Labels: Labels(b.Now), Cards: Cards(b.Now), Calendar: Calendar(b.Now), Sheet: Sheet(b.Now), WasteSheet: WasteSheet(b.Now), WasteTable: sheet.WasteCSV, Example: example.YAML}
}

// Cards returns what draws the cards of an evening in a room's language, for the zone of a clock.
func Cards(now func() time.Time) func(io.Writer, plan.Plan, ahead.Report, darkroom.File) error {
	return func(w io.Writer, p plan.Plan, r ahead.Report, f darkroom.File) error {
		v, err := spoken(f, now)
		if err != nil {
			return err
		}
		return sheet.Cards(w, v, p, r, f)
	}
}

// Calendar returns what writes a calendar in a room's language, for the zone of a clock.
func Calendar(now func() time.Time) func(io.Writer, []plan.Dated, ahead.Report, darkroom.File) error {
	return func(w io.Writer, all []plan.Dated, r ahead.Report, f darkroom.File) error {
		v, err := spoken(f, now)
		if err != nil {
			return err
		}
		return sheet.Calendar(w, v, all, r, f)
	}
}

func spoken(f darkroom.File, now func() time.Time) (*words.Voice, error) {
	d := f.Darkroom
	return words.New(d.Language, d.Units, d.Ounce, words.Zone(now().Location()), words.Currency(d.Currency))
}

// Labels returns what prints labels, dated by a clock.
func Labels(now func() time.Time) func(io.Writer, []label.Label, label.Stock, int) error {
	return func(w io.Writer, all []label.Label, on label.Stock, start int) error {
		return sheet.Labels(w, all, on, start, now())
	}
}

// Sheet returns what draws the mix sheet in a room's language, for the zone of a clock.
func Sheet(now func() time.Time) func(io.Writer, plan.Plan, darkroom.File) error {
	return func(w io.Writer, p plan.Plan, f darkroom.File) error {
		v, err := spoken(f, now)
		if err != nil {
			return err
		}
		return sheet.Mix(w, v, p, f)
	}
}

// WasteSheet returns what draws a year of the waste cans in a room's language, for the zone of a clock.
func WasteSheet(now func() time.Time) func(io.Writer, ahead.WasteYear, darkroom.File) error {
	return func(w io.Writer, y ahead.WasteYear, f darkroom.File) error {
		v, err := spoken(f, now)
		if err != nil {
			return err
		}
		return sheet.Waste(w, v, y, f)
	}
}

// LoadExample writes the example darkroom of today into a book that is still empty.
func (b Book) LoadExample(ctx context.Context) error {
	at, err := b.Position(ctx)
	if err != nil || at > 0 {
		return err
	}
	f, err := example.File(b.Now())
	if err != nil {
		return err
	}
	return b.Keep(ctx, f, web.Keeping{})
}
