package web_test

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"

	"wetside/internal/browsertest"
)

// How a proxy between a device and the server treats the stream.
const (
	streams  = iota
	swallows // it takes the request and never answers
	refuses
)

// behind is the house's address behind a proxy that treats the stream as it is told; all else passes.
func (l *line) behind(t *testing.T, how *atomic.Int32) string {
	t.Helper()
	proxy := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.URL.Path != "/live" || how.Load() == streams:
			l.ServeHTTP(w, r)
		case how.Load() == swallows:
			<-r.Context().Done()
		default:
			http.Error(w, "no streams here", http.StatusBadGateway)
		}
	}))
	t.Cleanup(func() {
		proxy.CloseClientConnections()
		proxy.Close()
	})
	return strings.Replace(proxy.URL, "127.0.0.1", browsertest.MappedHost, 1)
}

// A line on which nothing comes any more is found dead after 35 s, said to be, and made anew. (The time is let pass at once.)
func TestDeadLine(t *testing.T) {
	t.Parallel()
	l := running(t)
	var how atomic.Int32
	how.Store(swallows)
	s := openSink(t, l.behind(t, &how), browsertest.Phone())
	s.holds("page.live.leads && !!page.live.source && !page.live.up")
	if ask[int](s, "page.live.fails") != 0 {
		t.Error("it gave up before its time")
	}
	ask[bool](s, "((page.live.word -= 20000), true)")
	s.wait()
	if ask[int](s, "page.live.fails") != 0 {
		t.Error("after 20 s it gave up")
	}
	ask[bool](s, "((page.live.word -= 16000), true)")
	s.holds("page.live.fails > 0")
	s.See("No word from the darkroom")
	how.Store(streams)
	s.holds("page.live.up === true && page.live.fails === 0")
}

// Where no stream can be had, the page asks now and then: what another device taps is seen all the same.
func TestWithoutAStream(t *testing.T) {
	t.Parallel()
	l := running(t)
	var how atomic.Int32
	how.Store(refuses)
	s := openSink(t, l.behind(t, &how), browsertest.Phone())
	s.Expect(http.StatusBadGateway)
	other := openSink(t, l.URL, browsertest.Phone())
	other.press("start", "RC-paper-8x10-in whole")
	other.holds("page.box.taps.length === 0")
	ask[bool](s, "((page.live.fails = Math.max(page.live.fails, 3)), (page.live.next = 0), true)") // as after some tries
	s.holds("page.state().tags.length === 1")
	if ask[bool](s, "page.live.up === true") {
		t.Error("it says that it has a line")
	}
}
