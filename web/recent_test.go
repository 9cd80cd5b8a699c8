package web_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"wetside/internal/webbook"
	"wetside/web"
)

// withClock starts a house with the example darkroom and a clock of the test's.
func withClock(t *testing.T, now func() time.Time) *house {
	t.Helper()
	h := &house{t: t, log: &bytes.Buffer{}}
	b, pages, err := webbook.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), now, slog.New(slog.NewTextHandler(h.log, nil)))
	if err != nil {
		t.Fatal(err)
	}
	h.book, h.Server = b, httptest.NewServer(pages)
	t.Cleanup(func() {
		h.Close()
		if err := b.Store.Close(); err != nil {
			t.Error(err)
		}
	})
	if err := b.LoadExample(t.Context()); err != nil {
		t.Fatal(err)
	}
	return h
}

// The sink is shown again within a second alone: its times go on, what was tapped is there at once, and whoever comes
// second has a device of their own.
func TestSinkShownAgain(t *testing.T) {
	var past atomic.Int64
	h := withClock(t, func() time.Time { return evening().Add(time.Duration(past.Load())) })
	h.mixAll()
	h.get("/sink")
	h.press("start", "RC-paper-8x10-in whole")
	left := func(a answer) string {
		found := regexp.MustCompile(`<span class="left">([^<]+)</span>`).FindStringSubmatch(a.Text)
		if found == nil {
			t.Fatal("no time on the page")
		}
		return found[1]
	}
	device := func(cookie string) (answer, string) {
		r := h.request(http.MethodGet, "/sink", nil)
		r.Header.Set("Cookie", cookie)
		a := h.ask(r)
		for _, c := range a.Cookies() {
			if c.Name == "device" {
				return a, c.Value
			}
		}
		return a, ""
	}
	first, id := device("")
	if id == "" {
		t.Fatal("the first has no device")
	}
	packed := h.request(http.MethodGet, "/sink", nil)
	packed.Header.Set("Accept-Encoding", "gzip")
	if a := h.ask(packed); a.Header.Get("Content-Encoding") != "gzip" || unpacked(t, a.Text) != first.Text {
		t.Errorf("packed it is another page, %q", a.Header.Get("Content-Encoding"))
	}
	second, other := device("")
	if other == "" || other == id || left(second) != left(first) {
		t.Errorf("the second's device is %q beside %q, its time %s beside %s", other, id, left(second), left(first))
	}
	again, none := device("device=" + id)
	past.Add(int64(900 * time.Millisecond))
	if same, _ := device("device=" + id); none != "" || left(same) != left(again) {
		t.Errorf("within a second a device %q, times %s and %s", none, left(again), left(same))
	}
	past.Add(int64(time.Second))
	if later, _ := device("device=" + id); left(later) == left(first) {
		t.Errorf("after two seconds the time is still %s", left(later))
	}
	h.press("on", keysOf(again.Text, "on")[0])
	if moved, _ := device("device=" + id); keysOf(moved.Text, "on")[0] == keysOf(again.Text, "on")[0] {
		t.Error("the page shows the print where it was")
	}
}

// Of many who ask for a page at once one makes it, and the others wait for that; whoever comes after it makes the next.
func TestMadeByOne(t *testing.T) {
	var making web.Making
	for range 3 {
		var makers, waiters atomic.Int64
		begun := make(chan struct{})
		var all sync.WaitGroup
		for range 8 {
			all.Go(func() {
				made, done := making.Make("/sink")
				if made == nil {
					makers.Add(1)
					<-begun
					done()
					return
				}
				if waiters.Add(1) == 7 {
					close(begun)
				}
				<-made
			})
		}
		all.Wait()
		if makers.Load() != 1 {
			t.Fatalf("%d make it", makers.Load())
		}
	}
	first, done := making.Make("/sink")
	other, alsoDone := making.Make("/wall")
	if first != nil || other != nil {
		t.Error("two pages wait for one another")
	}
	done()
	alsoDone()
}

func unpacked(t *testing.T, text string) string {
	t.Helper()
	r, err := gzip.NewReader(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	all, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(all)
}

// The clock stands: what was reckoned is shown again as long as the book stands still, and never once it has moved on; many at once see the same.
func TestRecentlyReckoned(t *testing.T) {
	h := withClock(t, evening)
	fixer := h.mixAll()["Fixer 1"]
	if fixer == "" {
		t.Fatal("no fixer was mixed")
	}
	before := h.get(fixer).Text
	for n, sheets := range []string{"20", "30"} {
		if got := h.post(fixer+"/worked", url.Values{"load": {sheets + " 8x10 in RC paper"}}); got.StatusCode != http.StatusSeeOther {
			t.Fatalf("got %d %s", got.StatusCode, got.Text)
		}
		after := h.get(fixer).Text
		if total := []string{"20 ", "50 "}[n]; after == before || !strings.Contains(after, total) {
			t.Errorf("the page does not tell the %s sheets that went through", total)
		}
		before = after
	}
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			for _, path := range []string{"/", "/baths", "/wall", "/shelf", "/sink"} {
				if got := h.get(path); got.StatusCode != http.StatusOK {
					t.Errorf("%s: %d", path, got.StatusCode)
				}
			}
		})
	}
	for range 3 {
		h.post(fixer+"/worked", url.Values{"load": {"1 8x10 in RC paper"}})
	}
	all.Wait()
	if got := h.get(fixer).Text; !strings.Contains(got, "53 ") {
		t.Error("the page does not tell all 53 sheets")
	}
}
