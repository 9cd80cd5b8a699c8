package api

import (
	"bytes"
	"context"
	"net/http"
	"time"

	"wetside/access"
	"wetside/words/facts"
)

const eventStream = "text/event-stream"

// The rhythm of a stream.
const (
	pause     = 50 * time.Millisecond // at least, between two messages
	lag       = 20 * time.Second      // after which a program that takes nothing is let go; it comes again by itself
	comesIn   = "1000"                // ms after which a program that lost its stream comes again
	inMessage = 200                   // entries in one message
)

// A stream is one program that listens (HTML Standard, Server-sent events).
type stream struct {
	c       *call
	control *http.ResponseController
	wish    wish
	buffer  bytes.Buffer
}

// stream sends the book on from a position for as long as the program listens. Each message "entries" has the object that the
// list has, its id is the position to go on from. "again" says that the book stands before the position that the program
// knows: it is another book than it was, and the stream goes on from its beginning.
func (c *call) stream(q wish) error {
	if last := c.r.Header.Get("Last-Event-Id"); last != "" {
		from, err := readWish(map[string][]string{"after": {last}})
		if err != nil {
			return invalid(mistake{param: "Last-Event-ID", code: "no_position", found: short([]byte(last))})
		}
		q.after = from.after
	}
	if q.limit = inMessage; c.r.Method == http.MethodHead {
		c.w.Header().Set("Content-Type", eventStream)
		return nil
	}
	done, ok := c.a.streams.Open(c.who, access.Address(c.r))
	if !ok {
		c.w.Header().Set("Retry-After", access.StreamAgain)
		return &failure{slug: pTooOften, key: "too_many_streams", args: []string{"Seconds", access.StreamAgain}}
	}
	defer done()
	ctx, cancel := context.WithCancel(c.ctx())
	defer cancel()
	defer context.AfterFunc(c.a.Stop, cancel)()
	s := &stream{c: c, control: http.NewResponseController(c.w), wish: q}
	defer context.AfterFunc(ctx, func() { _ = s.control.SetWriteDeadline(time.Unix(1, 0)) })()
	c.w.Header().Set("Content-Type", eventStream)
	c.w.Header().Set("X-Accel-Buffering", "no")
	if err := s.run(ctx); ctx.Err() == nil {
		c.a.Log.DebugContext(ctx, "stream ended", "request", c.id, "error", err)
	}
	return nil
}

// run sends until the program or the server goes away, and returns why.
func (s *stream) run(ctx context.Context) error {
	s.buffer.WriteString("retry: " + comesIn + "\n\n")
	for first := true; ; first = false {
		moved := s.c.a.Book.Moved()
		head, err := s.c.a.Book.Position(ctx)
		if err != nil {
			return err
		}
		if s.wish.after > head {
			if err := s.again(ctx, head); err != nil {
				return err
			}
			continue
		}
		page, err := s.c.a.page(ctx, s.wish)
		if err != nil {
			return err
		}
		if first || page.Next > s.wish.after {
			page.Position = max(head, page.Next)
			page.More = page.Next < page.Position
			if err := s.tell(ctx, "entries", page.Next, page); err != nil {
				return err
			}
		}
		if s.wish.after = page.Next; page.More {
			continue
		}
		if err := s.rest(ctx, moved); err != nil {
			return err
		}
	}
}

// again tells a program that knows a later position than the book has to begin anew.
func (s *stream) again(ctx context.Context, head int64) error {
	s.wish.after = 0
	return s.tell(ctx, "again", 0, facts.Entries{Position: head, Entries: []facts.Entry{}, More: head > 0})
}

// rest waits until the book moves on, and says from time to time that the line is alive.
func (s *stream) rest(ctx context.Context, moved <-chan struct{}) error {
	for {
		select {
		case <-moved:
			return nil
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(s.c.a.Beat):
			s.buffer.WriteString(": the line is alive\n\n")
			if err := s.flush(); err != nil {
				return err
			}
		}
	}
}

// tell sends one message and waits until there may be another.
func (s *stream) tell(ctx context.Context, event string, id int64, v any) error {
	text, err := encode(v)
	if err != nil {
		return err
	}
	s.buffer.WriteString("event: " + event + "\nid: " + itoa(id) + "\ndata: ")
	s.buffer.Write(text) // which ends its line
	s.buffer.WriteString("\n")
	if err := s.flush(); err != nil {
		return err
	}
	select {
	case <-time.After(pause):
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// flush sends what is in the buffer. A program that takes nothing for too long ends its own stream and holds up no other.
func (s *stream) flush() error {
	_ = s.control.SetWriteDeadline(time.Now().Add(lag)) //nolint:forbidigo // the network's clock, not the book's
	if _, err := s.buffer.WriteTo(s.c.w); err != nil {
		return err
	}
	return s.control.Flush()
}
