package web

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/words"
)

// A Book is the record of the darkroom, as far as the pages need it.
type Book interface {
	// State returns what is there now; it is shared by all who ask.
	State(ctx context.Context) (*book.State, error)
	// People returns the erasable record of names and notes.
	People(ctx context.Context) (book.People, error)
	// Keep writes what differs between the file and the book.
	// A book that has moved on past the position that was expected is a *book.StaleError.
	Keep(ctx context.Context, f darkroom.File, k Keeping) error
	// Append writes entries, all or none. Decisions among them were made on position expect.
	Append(ctx context.Context, entries []book.Entry, expect *int64) error
	// CanTakeBack says why an entry can't be taken back, nil where it can.
	CanTakeBack(ctx context.Context, id string) error
}

// Keeping says how a file is kept.
type Keeping struct {
	Replace bool   // take away what the file does not have
	Expect  *int64 // the position that it was decided on; nil: whatever it is
}

// Config is what the pages get handed in.
type Config struct {
	Book  Book
	Now   func() time.Time // in the room's zone
	NewID func() string
	Log   *slog.Logger
	// Sheet draws the mix sheet as PDF.
	Sheet func(w io.Writer, p plan.Plan, f darkroom.File) error
	// Example returns the example darkroom of a day, as a file's text.
	Example func(day time.Time) []byte
	// Patience is how long a page may think; 0 is 15 s.
	Patience time.Duration
	// Parts serves the page that shows every part of the look.
	Parts bool
}

// maxForm is the most that a form or a file may send.
const maxForm = 1 << 20

type server struct {
	Config
	words *words.Catalogue
	pages *pages
}

// New returns the pages as a handler. An error is a mistake in a template or a message file.
func New(c Config) (http.Handler, error) {
	if c.Book == nil || c.Now == nil || c.NewID == nil || c.Log == nil || c.Sheet == nil || c.Example == nil {
		return nil, errors.New("web: a part is missing from the configuration")
	}
	if c.Patience <= 0 {
		c.Patience = patience
	}
	read := sync.OnceValues(words.Open)
	go func() { _, _ = read() }() // the messages beside the pages: the two take as long
	p, err := newPages()
	if err != nil {
		return nil, err
	}
	catalogue, err := read()
	if err != nil {
		return nil, err
	}
	s := &server{Config: c, words: catalogue, pages: p}
	return s.guard(s.routes()), nil
}

// routes is the whole surface, in one list.
func (s *server) routes() *http.ServeMux {
	mux := http.NewServeMux()
	for pattern, h := range map[string]handler{
		"GET /{$}":                       s.today,
		"GET /begin":                     s.begin,
		"POST /begin":                    s.beginWith,
		"GET /begin/jugs":                s.beginJugs,
		"POST /begin/jugs":               s.keepJugs,
		"GET /begin/trays":               s.beginTrays,
		"POST /begin/trays":              s.keepTrays,
		"GET /begin/bottles":             s.beginBottles,
		"POST /begin/bottles":            s.keepBottles,
		"GET /begin/prints":              s.beginPrints,
		"POST /begin/prints":             s.keepPrints,
		"GET /jug":                       s.jug,
		"GET /plan":                      s.showPlan,
		"GET /plan/load/{i}":             s.editLoad,
		"POST /plan/load/{i}":            s.keepLoad,
		"POST /plan/load/{i}/away":       s.dropLoad,
		"GET /plan/when":                 s.editWhen,
		"POST /plan/when":                s.keepWhen,
		"GET /mix":                       s.mixSheet,
		"GET /mix/ready":                 s.mixReady,
		"GET /mix/{bath}/{n}":            s.mixStep,
		"POST /mix/{bath}/poured":        s.poured,
		"GET /mix.pdf":                   inWhite(s.mixPDF),
		"POST /undo/{id}":                s.undo,
		"GET /baths":                     s.baths,
		"GET /baths/{id}":                s.bath,
		"POST /baths/{id}/worked":        s.worked,
		"POST /baths/{id}/tested":        s.tested,
		"POST /baths/{id}/topped":        s.toppedUp,
		"POST /baths/{id}/back":          s.pouredBack,
		"POST /baths/{id}/out":           s.pouredOut,
		"POST /baths/{id}/away":          s.bathAway,
		"POST /baths/{id}/forward":       s.forward,
		"GET /wash":                      s.wash,
		"GET /red":                       s.tellRed,
		"POST /red":                      s.lightAs,
		"GET /red/white":                 s.askWhite,
		"POST /red/screen":               s.screenTested,
		"GET /bench":                     s.bench,
		"GET /bench/{kind}/{id}":         s.editThing,
		"POST /bench/{kind}/{id}":        s.keepThing,
		"POST /bench/{kind}/{id}/away":   s.dropThing,
		"GET /shelf":                     s.shelf,
		"GET /shelf/{kind}/{id}":         s.editThing,
		"POST /shelf/{kind}/{id}":        s.keepThing,
		"POST /shelf/{kind}/{id}/away":   s.dropThing,
		"POST /shelf/lot/{id}/opened":    s.lotOpened,
		"POST /shelf/lot/{id}/left":      s.lotLeft,
		"POST /shelf/lot/{id}/discarded": s.lotDiscarded,
		"GET /room":                      s.room,
		"POST /room":                     s.keepRoom,
		"GET /file":                      s.file,
		"POST /file":                     s.keepFile,
		"GET /darkroom.yaml":             inWhite(s.download),
	} {
		mux.Handle(pattern, s.handle(h))
	}
	if s.Parts {
		mux.Handle("GET /parts", s.handle(s.parts))
	}
	mux.Handle("GET /assets/{name}", http.HandlerFunc(s.pages.asset))
	mux.Handle("/", s.handle(func(*http.Request, *visit) error { return errNotFound }))
	return mux
}
