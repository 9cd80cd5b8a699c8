package api

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"strconv"
	"sync"
	"time"

	"wetside/access"
	"wetside/book"
	"wetside/words"
	"wetside/words/facts"
)

// A Book is the record of one darkroom, as far as the API needs it.
type Book interface {
	// State returns what is there now; it is shared by all who ask.
	State(ctx context.Context) (*book.State, error)
	// Awake returns what is there now, with what needs names awake that long finished and rests.
	Awake(ctx context.Context, needs func(*book.State) book.Waking) (*book.State, error)
	// Position returns the position of the last entry.
	Position(ctx context.Context) (int64, error)
	// Since returns the entries after a position, oldest first, at most limit of them.
	Since(ctx context.Context, after int64, limit int) ([]book.Entry, error)
	// Find returns the entry of an id, an error of kind NotFound where there is none.
	Find(ctx context.Context, id string) (book.Entry, error)
	// Moved returns a channel that is closed when the book next moves on. It is asked for before the book is looked at.
	Moved() <-chan struct{}
	// Add writes an entry, once however often it is added, and returns it as it stands. A decision was made on position expect.
	Add(ctx context.Context, e book.Entry, expect *int64) (book.Entry, error)
	// TakeBack writes a correction, which is decided on the book as it then is.
	TakeBack(ctx context.Context, e book.Entry) (book.Entry, error)
}

// Config is what the API gets handed in.
type Config struct {
	Book  Book
	Keys  access.Keys
	Now   func() time.Time // in the room's zone
	NewID func() string    // a UUID
	Log   *slog.Logger
	Words func() (*words.Catalogue, error)
	// Stop ends all streams when it ends, so that the server can stop; nil: never.
	Stop context.Context //nolint:containedctx // the server's life, not a request's
	// Patience is how long an answer may take; 0 is 15 s.
	Patience time.Duration
	// Beat is how long a stream is silent at most, so that proxies keep the line and a program can tell a dead one; 0 is 15 s.
	Beat time.Duration
}

// Prefix is where all of it lies.
const Prefix = "/api/v1"

// What one sender may ask: so often at once, and then ten times a second. Common practice; a board that reads every second and a
// script that follows the book stay far below.
const (
	atOnce   = 120
	oneEach  = 100 * time.Millisecond
	senders  = 4096
	patience = 15 * time.Second
	beat     = 15 * time.Second
)

type api struct {
	Config
	words   *words.Catalogue
	limit   *access.Limit
	cross   *http.CrossOriginProtection
	sending sending
	probes  sync.Mutex // one reading is looked at after the other
	looks   looks
	streams *access.Streams
}

// New returns the API as a handler of all paths under /api. An error is a part that is missing, or a mistake in a message file.
func New(c Config) (http.Handler, error) {
	if c.Book == nil || c.Keys == nil || c.Now == nil || c.NewID == nil || c.Log == nil || c.Words == nil {
		return nil, errors.New("api: a part is missing from the configuration")
	}
	if c.Stop == nil {
		c.Stop = context.Background()
	}
	if c.Patience <= 0 {
		c.Patience = patience
	}
	if c.Beat <= 0 {
		c.Beat = beat
	}
	catalogue, err := c.Words()
	if err != nil {
		return nil, err
	}
	return &api{
		Config: c, words: catalogue, streams: access.NewStreams(access.StreamsOfOne, access.StreamsOfAddress, access.StreamsInAll),
		limit: access.NewLimit(c.Now, atOnce, oneEach, senders), cross: http.NewCrossOriginProtection(),
	}, nil
}

// A call is one request on its way to its answer.
type call struct {
	a   *api
	w   http.ResponseWriter
	r   *http.Request
	who access.Who
	id  string
}

func (c *call) ctx() context.Context { return c.r.Context() }

// ServeHTTP answers one request.
func (a *api) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Cache-Control", "no-store")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'")
	c := &call{a: a, w: w, r: r, id: a.NewID()}
	if err := c.answer(); err != nil {
		c.fail(err)
	}
}

func (c *call) answer() error {
	o, err := find(c.w, c.r)
	if err != nil {
		return err
	}
	if err := c.a.cross.Check(c.r); err != nil {
		return &failure{slug: pFrom, cause: err}
	}
	if !o.open {
		if err := c.comesIn(o); err != nil {
			return err
		}
	}
	if !o.streams(c.r) {
		ctx, cancel := context.WithTimeout(c.ctx(), c.a.Patience)
		defer cancel()
		c.r = c.r.WithContext(ctx)
	}
	return o.do(c)
}

// comesIn finds out who asks and whether they may.
func (c *call) comesIn(o *operation) error {
	who, err := c.a.Keys.Who(c.r)
	if err != nil {
		return err
	}
	c.who = who
	from := "key " + who.Key
	if who.Key == "" {
		from = "address " + access.Address(c.r)
	}
	if wait := c.a.limit.Take(from); wait > 0 {
		seconds := int64(wait/time.Second) + 1
		c.w.Header().Set("Retry-After", itoa(seconds))
		return &failure{slug: pTooOften, args: []string{"Seconds", itoa(seconds)}}
	}
	switch {
	case who.Role == access.Stranger:
		c.w.Header().Set("WWW-Authenticate", "Bearer")
		return &failure{slug: pNoToken}
	case !o.writes && !access.Reads(who.Role):
		return mayNot(who, access.Reads)
	}
	c.r = c.r.WithContext(access.With(c.ctx(), who))
	return nil
}

// send answers with an object.
func (c *call) send(status int, kind string, v any) error {
	text, err := encode(v)
	if err != nil {
		return err
	}
	return c.sendText(status, kind, text)
}

const kindJSON = "application/json"

func (c *call) sendText(status int, kind string, text []byte) error {
	c.w.Header().Set("Content-Type", kind)
	c.w.Header().Set("Content-Length", strconv.Itoa(len(text)))
	c.w.WriteHeader(status)
	_, err := c.w.Write(text)
	if err != nil {
		c.a.Log.DebugContext(c.ctx(), "answer not taken", "request", c.id, "error", err)
	}
	return nil
}

// fail answers with a problem. What is our fault goes to the log with its cause.
func (c *call) fail(err error) {
	f := failureOf(err)
	if statusOf(f.slug) >= http.StatusInternalServerError {
		c.a.Log.ErrorContext(c.ctx(), "request failed", "request", c.id, "method", c.r.Method, "path", c.r.URL.Path, "error", err)
	}
	c.tell(f)
	v, verr := c.voice()
	if verr != nil { // the book is away: in English, then
		if v, verr = c.a.words.Voice("", 0, 0); verr != nil {
			c.w.WriteHeader(http.StatusInternalServerError)
			return
		}
	}
	p := f.told(v, "urn:uuid:"+c.id)
	_ = c.send(p.Status, "application/problem+json", p)
}

// voice speaks the language and the units of the room.
func (c *call) voice() (*words.Voice, error) {
	ctx, cancel := context.WithTimeout(context.WithoutCancel(c.ctx()), time.Second)
	defer cancel()
	s, err := c.a.Book.State(ctx)
	if err != nil {
		return nil, err
	}
	return c.a.voiceOf(s)
}

func (a *api) voiceOf(s *book.State) (*words.Voice, error) {
	f, _ := s.File(nil)
	d := f.Darkroom
	v, err := a.words.Voice(d.Language, d.Units, d.Ounce, words.Zone(a.Now().Location()), words.Currency(d.Currency))
	if err != nil {
		return nil, fmt.Errorf("the room's language: %w", err)
	}
	return v, nil
}

func entriesOf(all []book.Entry) []facts.Entry {
	out := make([]facts.Entry, 0, len(all))
	for _, e := range all {
		out = append(out, facts.OfEntry(e))
	}
	return out
}

func itoa(n int64) string { return strconv.FormatInt(n, 10) }

// encode writes an object on one line, as people write: <, > and & are left as they are.
func encode(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	return b.Bytes(), err
}
