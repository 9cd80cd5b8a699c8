package health_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/internal/health"
	"wetside/internal/outside"
)

// A shelfBook is a book that is at a position, or can't be reached.
type shelfBook struct {
	at  int64
	err error
}

func (b *shelfBook) Ready(context.Context) error             { return b.err }
func (b *shelfBook) Position(context.Context) (int64, error) { return b.at, b.err }

// clock goes on by 4 ms whenever it is asked.
func clock() func() time.Time {
	at := time.Date(2027, 3, 1, 18, 0, 0, 0, time.UTC)
	return func() time.Time {
		at = at.Add(4 * time.Millisecond)
		return at
	}
}

func ask(t *testing.T, h http.Handler, path string) *httptest.ResponseRecorder {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequestWithContext(t.Context(), http.MethodGet, path, nil))
	return w
}

func TestReady(t *testing.T) {
	b := &shelfBook{at: 7}
	var log bytes.Buffer
	w := health.New(b, "v1", clock(), slog.New(slog.NewTextHandler(&log, nil)))
	full := &book.Error{Kind: book.Full, Key: "disk_full", Cause: errors.New("/home/ilka/book.db: no space left on device")}
	for _, c := range []struct {
		err        error
		path, body string
		status     int
	}{
		{nil, "/livez", "ok\n", 200},
		{nil, "/readyz", "ok\n", 200},
		{full, "/readyz", "not ready: disk_full\n", 503},
		{full, "/readyz", "not ready: disk_full\n", 503},
		{errors.New("something else of the driver's"), "/readyz", "not ready: internal\n", 503},
		{full, "/livez", "ok\n", 200}, // it lives, and is not to be started anew for that
		{nil, "/readyz", "ok\n", 200},
	} {
		b.err = c.err
		if a := ask(t, w.Handler(), c.path); a.Code != c.status || a.Body.String() != c.body {
			t.Errorf("%s with %v: %d %q, want %d %q", c.path, c.err, a.Code, a.Body, c.status, c.body)
		}
	}
	if n := strings.Count(log.String(), "no space left on device"); n != 1 { // the log has the cause, once
		t.Errorf("the log has it %d times: %s", n, log.String())
	}
	if a := ask(t, w.Handler(), "/baths"); a.Code != http.StatusNotFound {
		t.Errorf("a page of the darkroom: %d", a.Code)
	}
}

// read is what another program's reader of the format makes of a text: every figure by its name and labels.
const read = `
import json, sys
from prometheus_client.parser import text_string_to_metric_families
out = {}
for family in text_string_to_metric_families(sys.stdin.read()):
    for s in family.samples:
        out[s.name + "".join(" %s=%s" % x for x in sorted(s.labels.items()))] = s.value
    assert family.documentation and family.type != "unknown", family.name
json.dump(out, sys.stdout)
`

// What is counted is read back by python3-prometheus-client (Debian), which knows the format.
func TestMetrics(t *testing.T) {
	python := outside.Python(t, "prometheus_client")
	b := &shelfBook{at: 42}
	w := health.New(b, `v"1`, clock(), slog.New(slog.DiscardHandler))
	open, closed := make(chan bool), make(chan bool)
	pages := w.Count(http.HandlerFunc(func(out http.ResponseWriter, r *http.Request) {
		switch r.URL.Path {
		case "/missing":
			http.NotFound(out, r)
		case "/live":
			out.Header().Set("Content-Type", "text/event-stream")
			if err := http.NewResponseController(out).Flush(); err != nil {
				t.Error(err)
			}
			out.WriteHeader(http.StatusOK)
			open <- true
			<-closed
		default:
			_, _ = out.Write([]byte("page"))
		}
	}))
	for _, path := range []string{"/", "/baths", "/missing"} {
		ask(t, pages, path)
	}
	done := make(chan bool)
	go func() {
		ask(t, pages, "/live")
		done <- true
	}()
	<-open
	figures := func() map[string]float64 {
		c := exec.CommandContext(t.Context(), python, "-c", read)
		c.Stdin = bytes.NewReader(ask(t, w.Handler(), "/metrics").Body.Bytes())
		out, err := c.Output()
		if err != nil {
			t.Fatalf("%v: %s", err, outErr(err))
		}
		var all map[string]float64
		if err := json.Unmarshal(out, &all); err != nil {
			t.Fatal(err)
		}
		return all
	}
	got := figures()
	if n := got["go_memstats_heap_alloc_bytes"]; n < 1e5 || n > 1e9 {
		t.Errorf("%v bytes of heap", n)
	}
	want := map[string]float64{
		"wetside_answers_total status=2xx": 2, "wetside_answers_total status=4xx": 1, "wetside_answers_total status=5xx": 0,
		"wetside_answer_seconds_bucket le=0.0025": 0, "wetside_answer_seconds_bucket le=0.005": 3, "wetside_answer_seconds_bucket le=+Inf": 3,
		"wetside_answer_seconds_count": 3, "wetside_answer_seconds_sum": 0.012,
		"wetside_answers_under_way": 0, "wetside_streams": 1, "wetside_ready": 1, "wetside_book_position": 42,
		`wetside_build_info version=v"1`: 1,
	}
	for name, value := range want {
		if diff := cmp.Diff(value, got[name]); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
	closed <- true
	<-done
	b.err = errors.New("away")
	if got = figures(); got["wetside_streams"] != 0 || got["wetside_ready"] != 0 || got["wetside_answer_seconds_count"] != 3 {
		t.Errorf("after the stream, with the book away: %v", got)
	}
}

func outErr(err error) string {
	if exit, ok := errors.AsType[*exec.ExitError](err); ok {
		return string(exit.Stderr)
	}
	return ""
}
