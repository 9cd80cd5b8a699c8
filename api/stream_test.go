package api_test

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"wetside/access"
	"wetside/api"
	"wetside/book"
	"wetside/words/facts"
)

// A message is one of a stream.
type message struct {
	event, id string
	comment   bool
	data      facts.Entries
	at        time.Time
}

// A listener reads a stream.
type listener struct {
	t    *testing.T
	resp *http.Response
	text *bufio.Reader
}

// listen opens a stream; headers are pairs.
func (h *house) listen(t *testing.T, path string, headers ...string) *listener {
	t.Helper()
	r := h.request(http.MethodGet, api.Prefix+path, "", append(headers, "Accept", "text/event-stream")...)
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = resp.Body.Close() })
	if kind := resp.Header.Get("Content-Type"); resp.StatusCode != http.StatusOK || kind != "text/event-stream" {
		t.Fatalf("%d %s", resp.StatusCode, kind)
	}
	return &listener{t, resp, bufio.NewReader(resp.Body)}
}

// next reads the next message (HTML Standard, 9.2.6).
func (l *listener) next() (m message, err error) {
	l.t.Helper()
	for {
		line, err := l.text.ReadString('\n')
		if err != nil {
			return m, err
		}
		line = strings.TrimSuffix(line, "\n")
		name, value, _ := strings.Cut(line, ":")
		value = strings.TrimPrefix(value, " ")
		switch {
		case line == "" && (m.event != "" || m.comment):
			m.at = time.Now()
			return m, nil
		case line == "":
		case name == "":
			m.comment = true
		case name == "event":
			m.event = value
		case name == "id":
			m.id = value
		case name == "data":
			if err := described().holds("/components/schemas/Entries", value); err != nil {
				l.t.Errorf("a message is not as described: %v\n%s", err, value)
			}
			if err := json.Unmarshal([]byte(value), &m.data); err != nil {
				l.t.Fatal(err)
			}
		}
	}
}

func (l *listener) must() message {
	l.t.Helper()
	m, err := l.next()
	if err != nil {
		l.t.Fatal(err)
	}
	return m
}

func (h *house) load(sheets int) {
	h.say(&book.Worked{Baths: []string{"d"}, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: sheets}})
}

// A stream catches up from where a program was, then follows: each entry once, in order. A program that comes again goes on from
// the id of its last message.
func TestStreamFollows(t *testing.T) {
	h := serve(t)
	for i := range 450 {
		h.load(1 + i%9)
	}
	head := h.position()
	want := int64(10)
	l := h.listen(t, "/entries?after=10")
	take := func(m message) {
		t.Helper()
		for _, e := range m.data.Entries {
			if want++; e.Position != want {
				t.Fatalf("position %d, want %d", e.Position, want)
			}
		}
		if m.event != "entries" || m.id != fmt.Sprint(want) || m.data.Next != want {
			t.Fatalf("%s %s up to %d, want %d", m.event, m.id, m.data.Next, want)
		}
	}
	for want < head {
		take(l.must())
	}
	h.load(3)
	m := l.must()
	take(m)
	_ = l.resp.Body.Close()
	h.load(4)
	l = h.listen(t, "/entries?after=0", "Last-Event-ID", m.id)
	take(l.must())
	if want != h.position() {
		t.Errorf("up to %d of %d", want, h.position())
	}
	kinds := h.listen(t, fmt.Sprintf("/entries?kinds=session.&after=%d", want))
	if m := kinds.must(); len(m.data.Entries) != 0 {
		t.Errorf("%+v", m.data)
	}
	h.load(5)
	h.say(sessionOpened("s1"))
	for m := kinds.must(); len(m.data.Entries) == 0; m = kinds.must() {
		want = m.data.Next
	}
}

// A program that knows a later position than the book has is told to begin again, and gets all of it.
func TestStreamBeginsAgain(t *testing.T) {
	h := serve(t)
	l := h.listen(t, "/entries", "Last-Event-ID", "99999")
	if m := l.must(); m.event != "again" || m.id != "0" || m.data.Position != h.position() {
		t.Fatalf("%+v", m)
	}
	if m := l.must(); m.event != "entries" || m.data.Entries[0].Position != 1 {
		t.Errorf("%+v", m)
	}
	a := h.get("/entries", "Accept", "text/event-stream", "Last-Event-ID", "x")
	if got := codes(a.problem("invalid")); got["Last-Event-ID"] != "no_position" {
		t.Errorf("%v", got)
	}
}

// However fast a book moves on, a stream sends twenty messages a second at the most, and a comment when nothing happens.
func TestStreamsRhythm(t *testing.T) {
	h := serve(t, func(c *api.Config) { c.Beat = 300 * time.Millisecond })
	after := h.position()
	l := h.listen(t, fmt.Sprintf("/entries?after=%d", after))
	l.must()
	done := make(chan bool)
	go func() {
		defer close(done)
		for i := range 150 {
			h.load(1 + i%9)
		}
	}()
	began, seen, messages := time.Now(), int64(0), 0
	for seen < after+150 {
		if m := l.must(); !m.comment {
			seen = m.data.Next
			messages++
		}
	}
	took := time.Since(began)
	if most := int(took/(50*time.Millisecond)) + 2; messages > most {
		t.Errorf("%d messages in %v, want %d at the most", messages, took, most)
	}
	<-done
	quiet := time.Now()
	if m := l.must(); !m.comment {
		t.Errorf("%+v", m)
	}
	if m, waited := l.must(), time.Since(quiet); !m.comment || waited < 300*time.Millisecond || waited > 3*time.Second {
		t.Errorf("a second beat after %v", waited)
	}
}

// When the server stops, streams end by themselves and it stops at once.
func TestStreamsEndWithTheServer(t *testing.T) {
	h := serve(t)
	l := h.listen(t, "/entries")
	l.must()
	began := time.Now()
	defer time.AfterFunc(3*time.Second, h.CloseClientConnections).Stop() // else it would never end
	h.end()
	if _, err := l.next(); err == nil {
		t.Error("the stream goes on")
	} else if !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		t.Errorf("it ends with %v", err)
	}
	h.Close()
	if took := time.Since(began); took > 2*time.Second {
		t.Errorf("it took %v", took)
	}
}

// One key has sixteen streams at most; the next gets a problem that says when to come again, and another key its own.
func TestTooManyStreams(t *testing.T) {
	h := serve(t)
	h.keyholder()
	one, other := h.as(access.Sink, ""), h.as(access.Sink, "")
	for range access.StreamsOfOne {
		one.listen(t, "/entries")
	}
	a := one.get("/entries", "Accept", "text/event-stream")
	if p := a.problem("too_often"); a.Status != http.StatusTooManyRequests || a.Header.Get("Retry-After") != "10" || !strings.Contains(p.Detail, "streams") {
		t.Errorf("one too many: %d %s", a.Status, a.Text)
	}
	other.listen(t, "/entries")
}
