package web

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"time"

	"wetside/access"
	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/draw/label"
	"wetside/plan"
	"wetside/words"
)

// A Book is the record of the darkroom, as far as the pages need it.
type Book interface {
	// State returns what is there now; it is shared by all who ask.
	State(ctx context.Context) (*book.State, error)
	// Awake returns what is there now, with what needs names awake that long finished and rests.
	Awake(ctx context.Context, needs func(*book.State) book.Waking) (*book.State, error)
	// People returns the erasable record of names and notes.
	People(ctx context.Context) (book.People, error)
	// Keep writes what differs between the file and the book.
	// A book that has moved on past the position that was expected is a *book.StaleError.
	Keep(ctx context.Context, f darkroom.File, k Keeping) error
	// Append writes entries, all or none. Decisions among them were made on position expect.
	Append(ctx context.Context, entries []book.Entry, expect *int64) error
	// CanTakeBack says why an entry can't be taken back, nil where it can.
	CanTakeBack(ctx context.Context, id string) error
	// Each writes entries, each by itself; corrections among them are decided on the book as it then is.
	// The error is for what concerns all of them: nothing was written.
	Each(ctx context.Context, entries []book.Entry) ([]Outcome, error)
	// Find returns the entry of an id, an error of kind NotFound where there is none.
	Find(ctx context.Context, id string) (book.Entry, error)
	// Position returns the position of the last entry.
	Position(ctx context.Context) (int64, error)
	// Since returns the entries after a position, oldest first, at most limit of them.
	Since(ctx context.Context, after int64, limit int) ([]book.Entry, error)
	// Moved returns a channel that is closed when the book next moves on. It is asked for before the book is looked at.
	Moved() <-chan struct{}
	Evenings
}

// An Outcome is what became of an entry.
type Outcome struct {
	Entry book.Entry // as it stands in the book
	Err   error      // why it does not stand there
}

// Keeping says how a file is kept.
type Keeping struct {
	Replace bool   // take away what the file does not have
	Expect  *int64 // the position that it was decided on; nil: whatever it is
	Device  string // by which it is kept
	// Persons are ids, by name, of members whom the file names and who are not among the book's people.
	Persons map[string]string
}

// Config is what the pages get handed in.
type Config struct {
	Book  Book
	Doors Doors
	Now   func() time.Time // in the room's zone
	NewID func() string
	Log   *slog.Logger
	// Sheet draws the mix sheet as PDF.
	Sheet func(w io.Writer, p plan.Plan, f darkroom.File) error
	// Cards draws the cards of an evening as PDF, Calendar writes what falls on which day as an iCalendar.
	Cards    func(w io.Writer, p plan.Plan, r ahead.Report, f darkroom.File) error
	Calendar func(w io.Writer, all []plan.Dated, r ahead.Report, f darkroom.File) error
	// Labels prints labels on a stock as PDF, from its place start on.
	Labels func(w io.Writer, all []label.Label, on label.Stock, start int) error
	// WasteSheet draws a year of the waste cans as PDF, WasteTable writes it as CSV.
	WasteSheet func(w io.Writer, y ahead.WasteYear, f darkroom.File) error
	WasteTable func(w io.Writer, y ahead.WasteYear) error
	// Example returns the example darkroom of a day, as a file's text.
	Example func(day time.Time) []byte
	// Patience is how long a page may think; 0 is 15 s.
	Patience time.Duration
	// Stop ends all streams when it ends, so that the server can stop; nil: never.
	Stop context.Context //nolint:containedctx // the server's life, not a request's
	// Words returns the messages; nil reads them. What takes long can be begun before the rest is there.
	Words func() (*words.Catalogue, error)
	// Parts serves the page that shows every part of the look.
	Parts bool
}

// maxForm is the most that a form or a file may send.
const maxForm = 1 << 20

type server struct {
	Config
	words  *words.Catalogue
	pages  *pages
	feed   feed
	recent recent
	guests guestLimits

	streams *access.Streams
}

// New returns the pages as a handler. An error is a mistake in a template or a message file.
func New(c Config) (http.Handler, error) {
	if c.Book == nil || c.Doors == nil || c.Now == nil || c.NewID == nil || c.Log == nil || c.Sheet == nil || c.Labels == nil || c.Cards == nil || c.Calendar == nil || c.WasteSheet == nil || c.WasteTable == nil || c.Example == nil {
		return nil, errors.New("web: a part is missing from the configuration")
	}
	if c.Patience <= 0 {
		c.Patience = patience
	}
	if c.Stop == nil {
		c.Stop = context.Background()
	}
	if c.Words == nil {
		c.Words = words.Opening()
	}
	p, err := newPages()
	if err != nil {
		return nil, err
	}
	catalogue, err := c.Words()
	if err != nil {
		return nil, err
	}
	c.Book, c.Doors = guarded{c.Book, c.Now, c.NewID}, watched{c.Doors, c.Log}
	s := &server{Config: c, words: catalogue, pages: p, feed: feed{book: c.Book}, guests: newGuestLimits(c.Now), streams: access.NewStreams(access.StreamsOfOne, access.StreamsOfAddress, access.StreamsInAll)}
	return s.guard(s.door(s.routes())), nil
}

// routes is the whole surface, in one list.
func (s *server) routes() *http.ServeMux {
	mux := http.NewServeMux()
	for pattern, h := range s.surface() {
		mux.Handle(pattern, h)
	}
	return mux
}

// surface is every page, form and stream by its pattern.
func (s *server) surface() map[string]http.Handler {
	all := map[string]http.Handler{
		"GET /worker.js":     http.HandlerFunc(s.pages.sendWorker),
		"POST /taps":         http.HandlerFunc(s.taps),
		"GET /live":          http.HandlerFunc(s.live),
		"GET /assets/{name}": http.HandlerFunc(s.pages.asset),
		"/":                  s.handle(func(*http.Request, *visit) error { return errNotFound }),
	}
	for _, some := range []map[string]handler{s.pageRoutes(), s.wasteRoutes(), s.eveningRoutes(), s.paperRoutes(), s.doorRoutes()} {
		for pattern, h := range some {
			all[pattern] = s.handle(h)
		}
	}
	if s.Parts {
		all["GET /parts"] = s.handle(s.parts)
	}
	return all
}

// pageRoutes are the pages of the room and of the work in it.
func (s *server) pageRoutes() map[string]handler {
	return map[string]handler{
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
		"GET /mix.pdf":                   inWhite(inLanguage(s.mixPDF)),
		"POST /undo/{id}":                s.undo,
		"GET /wrong":                     s.wrong,
		"POST /wrong/{sign}":             s.keepFound,
		"GET /baths":                     s.baths,
		"GET /baths/stands":              s.stands,
		"POST /baths/stands":             s.keepStands,
		"GET /baths/{id}":                s.bath,
		"POST /baths/{id}/worked":        s.worked,
		"POST /baths/{id}/tested":        s.tested,
		"POST /baths/{id}/topped":        s.toppedUp,
		"POST /baths/{id}/back":          s.pouredBack,
		"POST /baths/{id}/out":           s.pouredOut,
		"POST /baths/{id}/away":          s.bathAway,
		"POST /baths/{id}/forward":       s.forward,
		"GET /wash":                      s.wash,
		"GET /sink":                      s.sink,
		"POST /sink/move":                s.moveAtSink,
		"GET /sink/setup.json":           s.sinkSetup,
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
		"GET /safety":                    inLanguage(s.safety),
		"GET /room":                      s.room,
		"POST /room":                     s.keepRoom,
		"GET /file":                      s.file,
		"POST /file":                     s.keepFile,
		"GET /darkroom.yaml":             inWhite(s.download),
	}
}
