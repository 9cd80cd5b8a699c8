package web_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"wetside/book"
	"wetside/internal/webbook"
	"wetside/web"
)

// A told is one message of a stream.
type told struct {
	Event, ID string
	Now       string
	Position  int64
	Entries   []struct {
		ID        string
		Position  int64
		Kind      string
		At        string
		Device    string
		Body      json.RawMessage
		TakesBack string `json:"takes_back"`
	}
	at time.Time // when it came
}

// listen reads a stream until the context ends. A line that is none of a stream's fails the test.
func listen(ctx context.Context, tb testing.TB, url, last string) <-chan told {
	tb.Helper()
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, url, nil)
	if err != nil {
		tb.Fatal(err)
	}
	if last != "" {
		r.Header.Set("Last-Event-ID", last)
	}
	resp, err := (&http.Client{}).Do(r) //nolint:bodyclose // it is closed by the goroutine that reads it
	if err != nil {
		tb.Fatal(err)
	}
	if resp.StatusCode != http.StatusOK || resp.Header.Get("Content-Type") != "text/event-stream" || resp.Header.Get("Cache-Control") != "no-store" {
		tb.Fatalf("%s %v", resp.Status, resp.Header)
	}
	out := make(chan told, 1_000)
	go func() {
		defer close(out)
		defer func() { _ = resp.Body.Close() }()
		lines := bufio.NewScanner(resp.Body)
		lines.Buffer(nil, 64<<20)
		var m told
		for lines.Scan() {
			name, value, _ := strings.Cut(lines.Text(), ": ")
			switch name {
			case "event":
				m.Event = value
			case "id":
				m.ID = value
			case "data":
				if err := json.Unmarshal([]byte(value), &m); err != nil {
					tb.Errorf("%s: %v", value, err)
				}
			case "retry":
				if value != "1000" {
					tb.Errorf("retry %s", value)
				}
			case "":
				if m.Event != "" {
					m.at = time.Now()
					out <- m
				}
				m = told{}
			default:
				tb.Errorf("a stream says %q", lines.Text())
			}
		}
	}()
	return out
}

// next returns the next message.
func next(tb testing.TB, from <-chan told) told {
	tb.Helper()
	select {
	case m, ok := <-from:
		if !ok {
			tb.Fatal("the stream ended")
		}
		return m
	case <-time.After(20 * time.Second):
		tb.Fatal("nothing comes")
	}
	return told{}
}

// until returns all entries up to a position, which must come in order.
func until(tb testing.TB, from <-chan told, position int64) (ids []string, messages []told) {
	tb.Helper()
	for {
		m := next(tb, from)
		messages = append(messages, m)
		for _, e := range m.Entries {
			ids = append(ids, e.ID)
		}
		if m.ID != strconv.FormatInt(m.Position, 10) || m.Event != "book" || m.Now == "" {
			tb.Errorf("message %+v", m)
		}
		if m.Position >= position {
			return ids, messages
		}
	}
}

// TestLive taps on one device and reads on another: what was before, what comes, from where the device was.
func TestLive(t *testing.T) {
	h := withExample(t)
	start := h.position()
	_, _ = h.send(sending(loadTap("a"), loadTap("b")))
	one := listen(t.Context(), t, h.URL+"/live?after="+strconv.FormatInt(start, 10), "")
	ids, _ := until(t, one, start+2)
	_, _ = h.send(sending(strings.Replace(loadTap("c"), `"body":{`, "\"body\":{\n\r\n ", 1), undoTap("u", "a")))
	more, messages := until(t, one, start+4)
	if ids = append(ids, more...); !slices.Equal(ids, []string{"a", "b", "c", "u"}) {
		t.Fatalf("told %v", ids)
	}
	last := messages[len(messages)-1].Entries
	c, u := last[len(last)-2], last[len(last)-1]
	if c.Kind != "bath.worked" || c.Device != "phone-1" || c.At != "2026-03-12T17:00:00.123456Z" || !strings.Contains(string(c.Body), `"sheets":1`) {
		t.Errorf("entry %+v", c)
	}
	if u.Kind != "correction" || u.TakesBack != "a" || u.Position != start+4 {
		t.Errorf("entry %+v", u)
	}
	again := listen(t.Context(), t, h.URL+"/live?after=0", strconv.FormatInt(start+3, 10))
	if ids, _ := until(t, again, start+4); !slices.Equal(ids, []string{"u"}) {
		t.Errorf("after Last-Event-ID: %v", ids)
	}
	everything := listen(t.Context(), t, h.URL+"/live", "")
	if ids, _ := until(t, everything, start+4); int64(len(ids)) != start+4 {
		t.Errorf("from the beginning: %d entries, want %d", len(ids), start+4)
	}
	head := listen(t.Context(), t, fmt.Sprint(h.URL, "/live?after=", start+4), "")
	if m := next(t, head); m.Position != start+4 || len(m.Entries) > 0 || m.Entries == nil {
		t.Errorf("at the head: %+v", m)
	}
}

// TestLivePages reads a long book in pages of 200, of some kinds only, both far back and from what is kept.
func TestLivePages(t *testing.T) {
	h := withExample(t)
	start := h.position()
	for from := range 6 {
		var taps []string
		for i := range 500 {
			tap := loadTap(fmt.Sprint("t", from, "-", i))
			if i%2 == 1 {
				tap = strings.Replace(tap, `"kind":"bath.worked"`, `"kind":"bath.tested"`, 1)
				envelope, _, _ := strings.Cut(tap, `"body"`)
				tap = envelope + `"body":{"bath":"dev1","test":"silver strip","result":"1 g/L","steps":[0.5,1,2]}}`
			}
			taps = append(taps, tap)
		}
		if _, got := h.send(sending(taps...)); len(got.Refused) > 0 {
			t.Fatalf("refused %+v", got.Refused[0])
		}
	}
	for name, tt := range map[string]struct {
		query string
		want  int
	}{
		"all":            {"", 3_000 + int(start)},
		"one kind":       {"?kinds=bath.tested", 1_500},
		"two beginnings": {"?kinds=bath.tes,bath.wor", 3_000},
		"none":           {"?kinds=print.", 0},
		"latest":         {fmt.Sprint("?kinds=bath.worked&after=", start+2_000), 500},
	} {
		ids, messages := until(t, listen(t.Context(), t, h.URL+"/live"+tt.query, ""), start+3_000)
		if len(ids) != tt.want || messages[len(messages)-1].Position != start+3_000 {
			t.Errorf("%s: %d entries up to %d, want %d", name, len(ids), messages[len(messages)-1].Position, tt.want)
		}
		for _, m := range messages {
			if len(m.Entries) > 200 {
				t.Errorf("%s: %d entries in one message", name, len(m.Entries))
			}
		}
		// One in 50 ms at most. Where it is read late the times between two say little, so all are taken together, with half of it.
		gaps := len(messages) - 1
		if took := messages[gaps].at.Sub(messages[0].at); took < time.Duration(gaps)*25*time.Millisecond {
			t.Errorf("%s: %d messages came in %v", name, gaps+1, took)
		}
	}
}

// A moving book is written to each time that it has been read.
type moving struct {
	web.Book
	more chan book.Entry
}

func (m moving) Since(ctx context.Context, after int64, limit int) ([]book.Entry, error) {
	all, err := m.Book.Since(ctx, after, limit)
	select {
	case e := <-m.more:
		_, err = m.Each(ctx, []book.Entry{e})
	default:
	}
	return all, err
}

// TestLiveMissesNothing writes to the book in the moment after each reading: all of it is told.
func TestLiveMissesNothing(t *testing.T) {
	h := withExample(t)
	start := h.position()
	m := moving{h.book, make(chan book.Entry, 5)}
	for i := range 5 {
		m.more <- book.Entry{
			ID: fmt.Sprint("e", i), Kind: book.BathWorked, Version: 1, HappenedAt: evening(), Device: "d",
			Body: `{"baths":["dev1"],"material":"RC paper","size":"8x10 in","sheets":1}`,
		}
	}
	c := h.book.Config(slog.New(slog.DiscardHandler))
	c.Book = m
	pages, err := web.New(c)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(pages)
	defer server.Close()
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	ids, _ := until(t, listen(ctx, t, fmt.Sprint(server.URL, "/live?after=", start), ""), start+5)
	if !slices.Equal(ids, []string{"e0", "e1", "e2", "e3", "e4"}) {
		t.Errorf("told %v", ids)
	}
}

// An unheard book moves without anybody being told, as before another process's word has come.
type unheard struct {
	web.Book
	still chan struct{}
}

// Moved returns a channel that nobody closes.
func (u unheard) Moved() <-chan struct{} { return u.still }

// A device that was told by another process of more than this one has heard of comes here with that: it is no other book.
func TestLiveAheadOfThisProcess(t *testing.T) {
	h := withExample(t)
	start := h.position()
	c := h.book.Config(slog.New(slog.DiscardHandler))
	c.Book = unheard{h.book, make(chan struct{})}
	pages, err := web.New(c)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(pages)
	defer server.Close()
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	if m := next(t, listen(ctx, t, fmt.Sprint(server.URL, "/live?after=", start), "")); m.Event != "book" || m.Position != start {
		t.Fatalf("%+v", m)
	}
	for i := range 2 {
		e := book.Entry{
			ID: fmt.Sprint("e", i), Kind: book.BathWorked, Version: 1, HappenedAt: evening(), Device: "d",
			Body: `{"baths":["dev1"],"material":"RC paper","size":"8x10 in","sheets":1}`,
		}
		if err := h.book.Append(t.Context(), []book.Entry{e}, nil); err != nil {
			t.Fatal(err)
		}
	}
	if m := next(t, listen(ctx, t, fmt.Sprint(server.URL, "/live?after=", start+1), "")); m.Event != "book" || m.Position != start+2 || len(m.Entries) != 1 {
		t.Errorf("a device ahead of this process is told %+v", m)
	}
	if m := next(t, listen(ctx, t, fmt.Sprint(server.URL, "/live?after=", start+9), "")); m.Event != "again" {
		t.Errorf("a device of another book is told %+v", m)
	}
}

// A stream of a position that the book does not have is told so, and gets the book from the beginning.
func TestLiveOfARestoredBook(t *testing.T) {
	h := withExample(t)
	start := h.position()
	s := listen(t.Context(), t, fmt.Sprint(h.URL, "/live?after=", start+7), "")
	if m := next(t, s); m.Event != "again" || m.ID != "0" || m.Position != start || m.Now == "" {
		t.Errorf("%+v", m)
	}
	if ids, _ := until(t, s, start); int64(len(ids)) != start {
		t.Errorf("%d entries, want %d", len(ids), start)
	}
}

func TestLiveOfTheWrongForm(t *testing.T) {
	h := withExample(t)
	for _, query := range []string{"after=-1", "after=x", "after=99999999999999999999", "kinds=" + strings.Repeat("a,", 20)} {
		a := h.get("/live?" + query)
		if a.StatusCode != http.StatusBadRequest || a.Header.Get("Content-Type") != "application/problem+json" {
			t.Errorf("%s: %d %s", query, a.StatusCode, a.Text)
		}
	}
}

// served starts a house behind a server with time limits, and a function that ends its streams.
func served(t *testing.T, limit time.Duration) (h *house, stop context.CancelFunc) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	t.Cleanup(stop)
	h = &house{t: t}
	b, pages, err := webbook.OpenUntil(ctx, filepath.Join(t.TempDir(), "book.db"), ticking(), slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	h.book, h.Server = b, httptest.NewUnstartedServer(pages)
	h.Config.ReadTimeout, h.Config.WriteTimeout = limit, limit
	h.Start()
	t.Cleanup(func() {
		stop()
		h.Close()
		_ = b.Store.Close()
	})
	return h, stop
}

// TestLiveOutlivesTheTimeLimits keeps a stream for longer than the server gives any other page.
func TestLiveOutlivesTheTimeLimits(t *testing.T) {
	h, _ := served(t, 500*time.Millisecond)
	s := listen(t.Context(), t, h.URL+"/live", "")
	next(t, s)
	for i := range 4 {
		time.Sleep(400 * time.Millisecond)
		_, _ = h.send(sending(loadTap(fmt.Sprint("tap", i))))
		if m := next(t, s); m.Position != int64(i+1) {
			t.Errorf("tap %d: %+v", i, m)
		}
	}
}

// TestLiveEndsWithTheServer stops a server with 30 streams, some of which take nothing: it is done at once, and nothing of
// them is left.
func TestLiveEndsWithTheServer(t *testing.T) {
	h, stop := served(t, time.Minute)
	var streams []<-chan told
	for range 20 {
		s := listen(t.Context(), t, h.URL+"/live", "")
		next(t, s)
		streams = append(streams, s)
	}
	for range 10 {
		deaf(t, h)
	}
	fill(t, h)
	began := time.Now()
	stop()
	if err := h.Config.Shutdown(t.Context()); err != nil {
		t.Error(err)
	}
	if took := time.Since(began); took > 3*time.Second {
		t.Errorf("stopping took %v", took)
	}
	for _, s := range streams {
		for range s { // until it ends
		}
	}
	for range 200 {
		if !strings.Contains(stacks(), "wetside/web.(*stream)") {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Error("streams are left")
}

// stacks returns what all goroutines are at.
func stacks() string {
	text := make([]byte, 4<<20)
	return string(text[:runtime.Stack(text, true)])
}

// deaf opens a stream and reads nothing of it.
func deaf(t *testing.T, h *house) {
	t.Helper()
	c, err := (&net.Dialer{}).DialContext(t.Context(), "tcp", h.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	if tcp, ok := c.(*net.TCPConn); ok {
		_ = tcp.SetReadBuffer(4096)
	}
	t.Cleanup(func() { _ = c.Close() })
	if _, err := fmt.Fprintf(c, "GET /live HTTP/1.1\r\nHost: %s\r\n\r\n", h.Listener.Addr()); err != nil {
		t.Fatal(err)
	}
}

// fill writes more than the buffers of a connection hold.
func fill(t *testing.T, h *house) {
	t.Helper()
	for i := range 40 {
		tap := strings.Replace(loadTap(fmt.Sprint("big", i)), `"sheets":1`, `"sheets":1,"how":"`+strings.Repeat("x", 200_000)+`"`, 1)
		if _, got := h.send(sending(tap)); len(got.Taken) != 1 {
			t.Fatalf("%+v", got)
		}
	}
}

// TestLiveSlowReaders lets ten devices read nothing while one reads and another taps: neither waits for them.
func TestLiveSlowReaders(t *testing.T) {
	h, _ := served(t, time.Minute)
	for range 10 {
		deaf(t, h)
	}
	s := listen(t.Context(), t, h.URL+"/live", "")
	next(t, s)
	began := time.Now()
	fill(t, h)
	written := time.Since(began)
	until(t, s, 40)
	if !strings.Contains(stacks(), "wetside/web.(*stream).flush") {
		t.Error("no deaf stream is held up: the test shows nothing")
	}
	if all := time.Since(began); all > 30*time.Second { // a deaf stream is given up after a minute
		t.Errorf("40 taps were written within %v and read within %v beside ten deaf streams", written, all)
	}
}

// TestLiveManyStreams lets 50 devices tap and listen at the same time: each is told every tap once, in order.
func TestLiveManyStreams(t *testing.T) {
	h, _ := served(t, time.Minute)
	const devices, each = 50, 6
	var wait sync.WaitGroup
	for range devices {
		s := listen(t.Context(), t, h.URL+"/live?kinds=bath.", "")
		wait.Go(func() {
			for at := int64(0); at < devices*each; {
				m, ok := <-s
				if !ok {
					t.Error("a stream ended")
					return
				}
				for _, e := range m.Entries {
					if at++; e.Position != at {
						t.Errorf("after %d comes %d", at-1, e.Position)
					}
				}
			}
		})
	}
	for d := range devices {
		wait.Go(func() {
			for i := range each {
				r := h.request(http.MethodPost, "/taps", strings.NewReader(sending(loadTap(fmt.Sprint(d, "-", i)))))
				if a := h.ask(r); a.StatusCode != http.StatusOK {
					t.Errorf("%d %s", a.StatusCode, a.Text)
				}
			}
		})
	}
	wait.Wait()
}
