package api_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"wetside/access"
	"wetside/api"
	"wetside/book"
	"wetside/internal/doors"
	"wetside/internal/webbook"
	"wetside/words"
)

// A house is a served book with its example, and its doors.
type house struct {
	*httptest.Server
	t     testing.TB
	book  webbook.Book
	doors *doors.Doors
	clock *clock
	log   *bytes.Buffer
	end   context.CancelFunc // of the server's life
	key   string             // sent with each request; empty: none
}

// A clock is moved by hand, and by a fifth of a second each time it is read, so that nobody asks too often.
type clock struct {
	at   atomic.Int64 // nanoseconds after the evening began
	step atomic.Int64
}

func evening() time.Time { return time.Date(2026, time.March, 12, 17, 0, 0, 0, time.UTC) }

func (c *clock) now() time.Time { return evening().Add(time.Duration(c.at.Add(c.step.Load()))) }

func (c *clock) pass(d time.Duration) { c.at.Add(int64(d)) }

// serve starts a house; change may change what the API is handed.
func serve(tb testing.TB, change ...func(*api.Config)) *house {
	tb.Helper()
	h := &house{t: tb, clock: &clock{}, log: &bytes.Buffer{}}
	h.clock.step.Store(int64(200 * time.Millisecond))
	log := slog.New(slog.NewTextHandler(h.log, nil))
	b, _, err := webbook.Open(tb.Context(), filepath.Join(tb.TempDir(), "book.db"), h.clock.now, log)
	if err != nil {
		tb.Fatal(err)
	}
	h.book = b
	if err := b.LoadExample(tb.Context()); err != nil {
		tb.Fatal(err)
	}
	h.doors = doors.New(doors.Config{Store: b.Store, Room: b.Room, Now: h.clock.now, NewID: uuid.NewString})
	stop, end := context.WithCancel(context.WithoutCancel(tb.Context()))
	c := api.Config{Book: b, Keys: h.doors, Now: h.clock.now, NewID: uuid.NewString, Log: log, Words: words.Opening(), Stop: stop}
	for _, f := range change {
		f(&c)
	}
	handler, err := api.New(c)
	if err != nil {
		tb.Fatal(err)
	}
	h.end, h.Server = end, httptest.NewServer(handler)
	tb.Cleanup(func() {
		end()
		h.Close()
		if err := b.Store.Close(); err != nil {
			tb.Error(err)
		}
	})
	return h
}

// keyholder makes the first keyholder: from now on a key is asked for.
func (h *house) keyholder() {
	h.t.Helper()
	if _, err := h.doors.MakeFirst(h.t.Context(), "", "Ilka", "seven grey gloves on a line", "127.0.0.1"); err != nil {
		h.t.Fatal(err)
	}
}

// as makes a key of a role, in the name of a person, and returns a house that shows it.
func (h *house) as(role access.Role, person string) *house {
	h.t.Helper()
	made, err := h.doors.MakeKey(h.t.Context(), access.Who{Role: access.Keyholder, Person: person}, role, "of "+role.String(), 0)
	if err != nil {
		h.t.Fatal(err)
	}
	other := *h
	other.key = made.Token
	return &other
}

// An answer is what came back.
type answer struct {
	Status int
	Header http.Header
	Text   string
	t      testing.TB
}

// into reads the answer's JSON.
func (a answer) into(v any) {
	a.t.Helper()
	if err := json.Unmarshal([]byte(a.Text), v); err != nil {
		a.t.Fatalf("%v: %s", err, a.Text)
	}
}

// problem reads the answer as a problem of a sort.
func (a answer) problem(slug string) api.Problem {
	a.t.Helper()
	var p api.Problem
	a.into(&p)
	if p.Type != "urn:wetside:problem:"+slug || p.Status != a.Status || p.Title == "" || p.Detail == "" || !strings.HasPrefix(p.Instance, "urn:uuid:") {
		a.t.Errorf("%d %s, want the problem %s in full", a.Status, a.Text, slug)
	}
	if strings.Contains(a.Text, "[tell.") {
		a.t.Errorf("a sentence is missing: %s", a.Text)
	}
	return p
}

// at returns the codes of a problem's mistakes by their places.
func codes(p api.Problem) map[string]string {
	all := map[string]string{}
	for _, m := range p.Errors {
		all[m.Pointer+m.Parameter] = m.Code
	}
	return all
}

// request makes a request; headers are pairs.
func (h *house) request(method, path, body string, headers ...string) *http.Request {
	h.t.Helper()
	r, err := http.NewRequestWithContext(h.t.Context(), method, h.URL+path, strings.NewReader(body))
	if err != nil {
		h.t.Fatal(err)
	}
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/json")
	}
	if h.key != "" {
		r.Header.Set("Authorization", "Bearer "+h.key)
	}
	for i := 0; i+1 < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	return r
}

// send sends a request and holds it and its answer to the description.
func (h *house) send(r *http.Request, body string) answer {
	h.t.Helper()
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		h.t.Fatal(err)
	}
	defer func() { _ = resp.Body.Close() }()
	text, err := io.ReadAll(resp.Body)
	if err != nil {
		h.t.Fatal(err)
	}
	a := answer{resp.StatusCode, resp.Header, string(text), h.t}
	h.described(r, body, a)
	return a
}

func (h *house) get(path string, headers ...string) answer {
	h.t.Helper()
	return h.send(h.request(http.MethodGet, api.Prefix+path, "", headers...), "")
}

func (h *house) post(path, body string, headers ...string) answer {
	h.t.Helper()
	return h.send(h.request(http.MethodPost, api.Prefix+path, body, headers...), body)
}

// say writes a body as the pages do.
func (h *house) say(b book.Body) string {
	h.t.Helper()
	a := book.Author{Device: "page", Now: h.clock.now(), NewID: uuid.NewString}
	e, err := a.Write(b)
	if err != nil {
		h.t.Fatal(err)
	}
	at, err := h.book.Position(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	if err := h.book.Append(h.t.Context(), []book.Entry{e}, &at); err != nil {
		h.t.Fatal(err)
	}
	return e.ID
}

func (h *house) position() int64 {
	h.t.Helper()
	at, err := h.book.Position(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	return at
}

// pour mixes a bath of the example's product of a name, in the tray of a name.
func (h *house) pour(bath, product, dilution, tray string) {
	h.t.Helper()
	s, err := h.book.State(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	f, ids := s.File(nil)
	b := &book.Mixed{Bath: bath, Dilution: dilution, Volume: "1 L"}
	for i, p := range f.Shelf.Products {
		if p.Name == product {
			b.Product = ids.Products[i]
		}
	}
	for i, x := range f.Bench.Trays {
		if x.Name == tray {
			b.Tray = ids.Trays[i]
		}
	}
	if b.Product == "" || b.Tray == "" {
		h.t.Fatalf("the example has no %s, or no tray %s", product, tray)
	}
	h.say(b)
}
