package health

import (
	"net/http"
	"strings"
	"sync"
	"time"
)

// bounds are the upper ends of the times that answers are counted by, in seconds.
var bounds = [...]float64{0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 15}

// counts are what answers were given. A stream counts while it lasts and has no time.
type counts struct {
	mu       sync.Mutex
	answers  [6]uint64 // by the first digit of the status
	within   [len(bounds)]uint64
	seconds  float64
	timed    uint64
	underWay int
	streams  int
}

func (c *counts) done(status int, took time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.underWay--
	if digit := status / 100; digit > 0 && digit < len(c.answers) {
		c.answers[digit]++
	}
	c.timed++
	c.seconds += took.Seconds()
	for i, bound := range bounds {
		if took.Seconds() <= bound {
			c.within[i]++
		}
	}
}

func (c *counts) add(underWay, streams int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.underWay += underWay
	c.streams += streams
}

// Count counts what a handler answers, and how long it takes.
func (w *Watch) Count(next http.Handler) http.Handler {
	return http.HandlerFunc(func(out http.ResponseWriter, r *http.Request) {
		began := w.now()
		w.counts.add(1, 0)
		a := &answer{ResponseWriter: out, counts: &w.counts}
		defer func() {
			if a.streams {
				w.counts.add(0, -1)
				return
			}
			w.counts.done(a.code(), w.now().Sub(began))
		}()
		next.ServeHTTP(a, r)
	})
}

// An answer notes its status, and whether it is a stream.
type answer struct {
	http.ResponseWriter
	counts  *counts
	status  int
	streams bool
}

// WriteHeader notes the status and sends it.
func (a *answer) WriteHeader(status int) {
	if a.status == 0 {
		a.status = status
		if strings.HasPrefix(a.Header().Get("Content-Type"), "text/event-stream") {
			a.streams = true
			a.counts.add(-1, 1)
		}
	}
	a.ResponseWriter.WriteHeader(status)
}

// Write sends a part of the answer.
func (a *answer) Write(part []byte) (int, error) {
	if a.status == 0 {
		a.WriteHeader(http.StatusOK)
	}
	return a.ResponseWriter.Write(part)
}

// Unwrap lets a ResponseController reach the writer below.
func (a *answer) Unwrap() http.ResponseWriter { return a.ResponseWriter }

func (a *answer) code() int {
	if a.status == 0 {
		return http.StatusOK
	}
	return a.status
}
