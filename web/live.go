package web

import (
	"bytes"
	"context"
	"errors"
	"net/http"
	"strconv"
	"strings"
	"time"

	"wetside/access"
	"wetside/book"
)

// The rhythm of a stream.
const (
	pause   = 50 * time.Millisecond // at least, between two messages
	beat    = 15 * time.Second      // at most, so that proxies keep the line and a device can tell a dead one
	lag     = 20 * time.Second      // after which a device that takes nothing is let go; it comes again by itself
	comesIn = "1000"                // ms after which a device that lost its stream comes again
	recheck = 3 * time.Second       // from one look to the next whether a device may still listen
	maxKind = 16                    // beginnings of kinds that a stream may name
)

// errStreams is for one stream too many.
var errStreams = errors.New("too many streams are open; ask for the pages every ten seconds instead, or close some")

var errLiveForm = errors.New("after is a position of the book, 0 or more, and kinds at most 16 beginnings of kinds")

// live sends the book on from a position, for as long as the device listens (HTML Standard, Server-sent events).
//
// Each message "book" carries the server's clock, the position that it leads to and the entries up to there; the first
// comes at once. "beat" carries the clock alone. "again" says that the book is not the one that the device knew: it stands
// at an earlier position, so that what the device knows is to be thrown away; the stream goes on from the beginning.
func (s *server) live(w http.ResponseWriter, r *http.Request) {
	after, kinds, err := readLive(r)
	if err != nil {
		s.problem(w, r, err)
		return
	}
	done, ok := s.streams.Open(access.From(r.Context()), access.Address(r))
	if !ok {
		w.Header().Set("Retry-After", access.StreamAgain)
		s.problem(w, r, errStreams)
		return
	}
	defer done()
	ctx, cancel := context.WithCancel(r.Context())
	defer cancel()
	defer context.AfterFunc(s.Stop, cancel)()
	go s.whileAllowed(ctx, r, cancel)
	t := &stream{s: s, w: w, control: http.NewResponseController(w), after: after, kinds: kinds}
	defer context.AfterFunc(ctx, func() { _ = t.control.SetWriteDeadline(time.Unix(1, 0)) })()
	renewKey(w, r)
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	h.Set("X-Accel-Buffering", "no")
	if err := t.run(ctx); ctx.Err() == nil {
		s.Log.DebugContext(ctx, "stream ended", "error", err)
	}
}

// whileAllowed ends a stream of whoever may no longer listen: their key was withdrawn, or they are another by now.
func (s *server) whileAllowed(ctx context.Context, r *http.Request, end func()) {
	was := access.From(ctx)
	ticker := time.NewTicker(recheck)
	defer ticker.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
			now, err := s.Doors.Who(r.WithContext(ctx))
			if err == nil && now == was || book.KindOf(err) != book.Refused && err != nil {
				continue // a book that is away is no reason to end
			}
			end()
			return
		}
	}
}

// readLive reads where a stream begins and what it wants. A device that comes again says by its header where it was.
func readLive(r *http.Request) (after int64, kinds kindStarts, err error) {
	from := r.FormValue("after")
	if last := r.Header.Get("Last-Event-ID"); last != "" {
		from = last
	}
	if from != "" {
		if after, err = strconv.ParseInt(from, 10, 64); err != nil || after < 0 {
			return 0, nil, errLiveForm
		}
	}
	if list := r.FormValue("kinds"); list != "" {
		kinds = strings.Split(list, ",")
	}
	if len(kinds) > maxKind {
		return 0, nil, errLiveForm
	}
	return after, kinds, nil
}

// A stream is one device that listens.
type stream struct {
	s       *server
	w       http.ResponseWriter
	control *http.ResponseController
	after   int64
	kinds   kindStarts
	buffer  bytes.Buffer
}

// run sends until the device or the server goes away, and returns why.
func (t *stream) run(ctx context.Context) error {
	t.buffer.WriteString("retry: " + comesIn + "\n\n")
	m, moved, err := t.s.feed.after(ctx, t.after, t.kinds)
	for first := true; ; first = false {
		if err != nil {
			return err
		}
		if m.beyond || first || m.position > t.after {
			if err := t.tell(m); err != nil {
				return err
			}
			if err := wait(ctx, pause); err != nil {
				return err
			}
		}
		if !m.more && !m.beyond {
			if err := t.rest(ctx, moved); err != nil {
				return err
			}
		}
		m, moved, err = t.s.feed.after(ctx, t.after, t.kinds)
	}
}

// rest waits until the book moves on, and says from time to time that the line is alive.
func (t *stream) rest(ctx context.Context, moved <-chan struct{}) error {
	for {
		select {
		case <-moved:
			return nil
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(beat):
			t.buffer.WriteString("event: beat\ndata: {\"now\":\"" + t.now() + "\"}\n\n")
			if err := t.flush(); err != nil {
				return err
			}
		}
	}
}

func wait(ctx context.Context, d time.Duration) error {
	select {
	case <-time.After(d):
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (t *stream) now() string { return t.s.Now().UTC().Format(instants) }

// tell sends one message.
func (t *stream) tell(m message) error {
	position, b := strconv.FormatInt(m.position, 10), &t.buffer
	if t.after = m.position; m.beyond {
		t.after = 0
		b.WriteString("event: again\nid: 0\ndata: {\"now\":\"" + t.now() + "\",\"position\":" + position + "}\n\n")
		return t.flush()
	}
	b.WriteString("event: book\nid: " + position + "\ndata: {\"now\":\"" + t.now() + "\",\"position\":" + position + ",\"entries\":[")
	for i, l := range m.lines {
		if i > 0 {
			b.WriteByte(',')
		}
		b.Write(l.text)
	}
	b.WriteString("]}\n\n")
	return t.flush()
}

// flush sends what is in the buffer. A device that takes nothing for too long ends its own stream and holds up no other.
func (t *stream) flush() error {
	_ = t.control.SetWriteDeadline(time.Now().Add(lag)) //nolint:forbidigo // the network's clock, not the book's
	if _, err := t.buffer.WriteTo(t.w); err != nil {
		return err
	}
	return t.control.Flush()
}
