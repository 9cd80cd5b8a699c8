package web_test

import (
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"wetside/book"
	"wetside/internal/browsertest"
	"wetside/internal/webbook"
)

// A line is a house whose clock runs on, with a network that can be cut and a server that can be started anew.
type line struct {
	*house
	path  string
	begun time.Time
	leapt atomic.Int64                 // how much later it is than the clock says, ns
	pages atomic.Pointer[http.Handler] // nil: the network is gone
}

// ServeHTTP hands on to the server, or tears the connection.
func (l *line) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if p := l.pages.Load(); p != nil {
		(*p).ServeHTTP(w, r)
		return
	}
	if c, _, err := http.NewResponseController(w).Hijack(); err == nil {
		_ = c.Close()
	}
}

// now is the evening's time.
func (l *line) now() time.Time {
	return evening().Add(time.Since(l.begun) + time.Duration(l.leapt.Load()))
}

// running is a house at work: its baths are mixed, and time goes on.
func running(t *testing.T) *line {
	t.Helper()
	l := &line{house: &house{t: t}, path: filepath.Join(t.TempDir(), "book.db"), begun: time.Now()}
	l.open()
	l.Server = httptest.NewServer(l)
	t.Cleanup(func() {
		l.pages.Store(nil)
		l.CloseClientConnections()
		l.Close()
		if err := l.book.Store.Close(); err != nil {
			t.Error(err)
		}
	})
	if err := l.book.LoadExample(t.Context()); err != nil {
		t.Fatal(err)
	}
	l.mixAll()
	return l
}

func (l *line) open() {
	l.t.Helper()
	b, pages, err := webbook.Open(l.t.Context(), l.path, l.now, slog.New(slog.DiscardHandler))
	if err != nil {
		l.t.Fatal(err)
	}
	l.book = b
	l.pages.Store(&pages)
}

// cut takes the network away, and mend brings it back.
func (l *line) cut() (mend func()) {
	was := l.pages.Swap(nil)
	l.CloseClientConnections()
	return func() { l.pages.Store(was) }
}

// again kills the server and starts it anew on the same book.
func (l *line) again() {
	l.t.Helper()
	l.cut()
	if err := l.book.Store.Close(); err != nil {
		l.t.Fatal(err)
	}
	l.open()
}

func (l *line) state() *book.State {
	l.t.Helper()
	s, err := l.book.State(l.t.Context())
	if err != nil {
		l.t.Fatal(err)
	}
	return s
}

// mapped is the house's address by a name that is not loopback.
func (l *line) mapped() string {
	return strings.Replace(l.URL, "127.0.0.1", browsertest.MappedHost, 1)
}

// A sinkTab is the sink page in a browser.
type sinkTab struct {
	*browsertest.Page
	t *testing.T
}

func openSink(t *testing.T, base string, l browsertest.Look) sinkTab {
	t.Helper()
	s := sinkTab{browsertest.Open(t, &chromium, base, l), t}
	s.ExpectCuts()
	s.Go("/sink")
	readySink(t, s.Page)
	return s
}

// ask evaluates an expression in which page is the page's own object.
func ask[T any](s sinkTab, expression string) T {
	s.t.Helper()
	got, err := browsertest.Eval[T](s.Tab, `((page) => `+expression+`)(document.querySelector("form.sink").page)`)
	if err != nil {
		s.t.Fatal(err)
	}
	return got
}

// holds waits until an expression holds.
func (s sinkTab) holds(expression string) {
	s.t.Helper()
	s.Until(expression, func() bool { return ask[bool](s, expression) })
}

// press clicks the first key whose value begins so.
func (s sinkTab) press(name, value string) {
	s.t.Helper()
	if !ask[bool](s, `(k => { if (k) k.click(); return !!k })(document.querySelector('button[name="`+name+`"][value^="`+value+`"]'))`) {
		s.t.Fatalf("no key %s %q", name, value)
	}
}

// where tells where the prints under way are, by their numbers.
func (s sinkTab) where() string {
	s.t.Helper()
	return ask[string](s, `page.state().tags.map((t) => t.number + " " + page.setup.stations[t.station].key).join(", ")`)
}

// wait waits out the time in which a second touch is the same touch.
func (s sinkTab) wait() { time.Sleep(650 * time.Millisecond) }

func sheetsIn(t *testing.T, s *book.State, step string, stations map[string]string) int {
	t.Helper()
	b, ok := s.Bath(stations[step])
	if !ok {
		t.Fatalf("no bath at %s: %v", step, stations)
	}
	n := 0
	for _, e := range b.Events {
		if load, isLoad := e.Did.(book.Load); isLoad {
			n += load.Said.Sheets
		}
	}
	return n
}

func (s sinkTab) stations() map[string]string {
	s.t.Helper()
	return ask[map[string]string](s, `Object.fromEntries(page.setup.stations.map((x) => [x.key, x.bath || ""]))`)
}

func number(n int) string { return strconv.Itoa(n) }
