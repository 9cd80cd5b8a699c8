package health

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"
	"time"

	"wetside/book"
)

// patience is how long a book may take to answer before it counts as not ready.
const patience = 2 * time.Second

// A Book is what is looked at.
type Book interface {
	// Ready returns why nothing can be read or written at present, nil where both can be.
	Ready(ctx context.Context) error
	// Position returns how many entries there are.
	Position(ctx context.Context) (int64, error)
}

// A Watch looks at a serving process.
type Watch struct {
	book    Book
	version string
	now     func() time.Time
	began   time.Time
	log     *slog.Logger
	counts  counts

	mu  sync.Mutex
	was string // why it was not ready when that was last asked; empty: it was
}

// New returns a watch over a process of a version that began now. Why it is not ready goes to the log, once for each reason.
func New(b Book, version string, now func() time.Time, log *slog.Logger) *Watch {
	return &Watch{book: b, version: version, now: now, began: now(), log: log}
}

// Ready asks the book, and gives it 2 s.
func (w *Watch) Ready(ctx context.Context) error {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	return w.book.Ready(ctx)
}

// Handler answers /livez, /readyz and /metrics.
func (w *Watch) Handler() http.Handler {
	m := http.NewServeMux()
	m.HandleFunc("GET /livez", func(out http.ResponseWriter, _ *http.Request) { say(out, http.StatusOK, "ok\n") })
	m.HandleFunc("GET /readyz", func(out http.ResponseWriter, r *http.Request) {
		if err := w.Ready(r.Context()); err != nil {
			say(out, http.StatusServiceUnavailable, "not ready: "+w.reason(r.Context(), err)+"\n")
			return
		}
		_ = w.reason(r.Context(), nil)
		say(out, http.StatusOK, "ok\n")
	})
	m.HandleFunc("GET /metrics", func(out http.ResponseWriter, r *http.Request) {
		out.Header().Set("Content-Type", "text/plain; version=0.0.4; charset=utf-8")
		_, _ = io.WriteString(out, w.metrics(r.Context()))
	})
	return m
}

// reason is a word for why it is not ready: what it rests on (a path, a host, a driver's sentence) is for the log alone.
func (w *Watch) reason(ctx context.Context, err error) string {
	reason := ""
	if err != nil {
		reason = book.KeyOf(err)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if err != nil && reason != w.was {
		w.log.WarnContext(ctx, "not ready", "reason", reason, "error", err)
	}
	w.was = reason
	return reason
}

func say(out http.ResponseWriter, status int, text string) {
	out.Header().Set("Content-Type", "text/plain; charset=utf-8")
	out.Header().Set("Cache-Control", "no-store")
	out.WriteHeader(status)
	_, _ = io.WriteString(out, text)
}

// metrics is what /metrics says.
func (w *Watch) metrics(ctx context.Context) string {
	var b strings.Builder
	one := func(name, kind, help string, value any) {
		fmt.Fprintf(&b, "# HELP %s %s\n# TYPE %s %s\n%s %v\n", name, help, name, kind, name, value)
	}
	fmt.Fprintf(&b, "# HELP wetside_build_info The version that runs.\n# TYPE wetside_build_info gauge\nwetside_build_info{version=%q} 1\n", w.version)
	one("wetside_start_time_seconds", "gauge", "When this process began, seconds since 1970.", float64(w.began.UnixMilli())/1000)
	ready, position := 0, int64(0)
	if w.Ready(ctx) == nil {
		ready = 1
		position, _ = w.book.Position(ctx)
	}
	one("wetside_ready", "gauge", "1 while the book can be read and written.", ready)
	if ready == 1 {
		one("wetside_book_position", "gauge", "Entries in the book.", position)
	}
	w.counts.write(&b, one)
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	one("go_goroutines", "gauge", "Goroutines.", runtime.NumGoroutine())
	one("go_memstats_heap_alloc_bytes", "gauge", "Bytes of heap in use.", m.HeapAlloc)
	one("go_memstats_sys_bytes", "gauge", "Bytes taken from the system.", m.Sys)
	if info, ok := debug.ReadBuildInfo(); ok {
		fmt.Fprintf(&b, "# HELP go_info The Go that it was built with.\n# TYPE go_info gauge\ngo_info{version=%q} 1\n", info.GoVersion)
	}
	return b.String()
}

func (c *counts) write(b *strings.Builder, one func(name, kind, help string, value any)) {
	c.mu.Lock()
	defer c.mu.Unlock()
	b.WriteString("# HELP wetside_answers_total Answers by the first digit of their status; streams are not among them.\n# TYPE wetside_answers_total counter\n")
	for digit := 1; digit < len(c.answers); digit++ {
		fmt.Fprintf(b, "wetside_answers_total{status=\"%dxx\"} %d\n", digit, c.answers[digit])
	}
	b.WriteString("# HELP wetside_answer_seconds How long answers took.\n# TYPE wetside_answer_seconds histogram\n")
	for i, bound := range bounds {
		fmt.Fprintf(b, "wetside_answer_seconds_bucket{le=\"%v\"} %d\n", bound, c.within[i])
	}
	fmt.Fprintf(b, "wetside_answer_seconds_bucket{le=\"+Inf\"} %d\nwetside_answer_seconds_sum %v\nwetside_answer_seconds_count %d\n", c.timed, c.seconds, c.timed)
	one("wetside_answers_under_way", "gauge", "Requests that are being answered, without streams.", c.underWay)
	one("wetside_streams", "gauge", "Live streams that are open.", c.streams)
}
