package web

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"sync"

	"wetside/book"
)

// Bounds of what the feed keeps and of one message.
const (
	feedLines   = 2_000
	feedBytes   = 2 << 20
	readAtOnce  = 1_000 // entries in one reading of the book
	maxMessage  = 200   // entries in one message
	maxScanning = 5_000 // entries that one message looks at, where most are of kinds that are not wanted
)

// A feed keeps the latest entries of the book in the form in which streams send them: a movement of the book is read and
// rendered once, however many streams there are.
type feed struct {
	book Book

	mu    sync.Mutex
	moved <-chan struct{} // as it was before the last reading; nil before the first
	end   int64           // the last position that was read
	lines []line          // up to end, without gaps
	bytes int
}

// A line is one entry.
type line struct {
	position int64
	kind     book.Kind
	text     []byte // JSON
}

// A kindStarts is how the kinds begin that a stream wants; none: all.
type kindStarts []string

func (w kindStarts) has(k book.Kind) bool {
	return len(w) == 0 || slices.ContainsFunc(w, func(start string) bool { return strings.HasPrefix(string(k), start) })
}

// A message is what a stream is told at once: that the book stands at a position, and the entries up to there.
type message struct {
	position int64
	lines    []line
	more     bool // the book goes on after position
	beyond   bool // the stream was at a position that the book does not have
}

// after returns what comes after a position, and a channel that is closed when the book moves on from there.
func (f *feed) after(ctx context.Context, position int64, w kindStarts) (message, <-chan struct{}, error) {
	lines, end, moved, err := f.latest(ctx, position)
	switch {
	case err != nil:
		return message{}, nil, err
	case position > end:
		return message{position: end, beyond: true}, moved, nil
	case position >= end-int64(len(lines)):
		m := message{position: position}
		m.take(lines[int64(len(lines))-(end-position):], w)
		m.more = m.position < end
		return m, moved, nil
	}
	m, err := f.early(ctx, position, w)
	m.more = m.position < end
	return m, moved, err
}

// latest reads on where the book has moved on, or where somebody knows a later position: of a book that another process wrote
// to a device may hear there before this process does. Lines once returned never change.
func (f *feed) latest(ctx context.Context, known int64) ([]line, int64, <-chan struct{}, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	moved := f.book.Moved() // with the lock: an older one than f.moved would make everybody read again
	if moved == f.moved && known <= f.end {
		return f.lines, f.end, moved, nil
	}
	if f.moved == nil {
		head, err := f.book.Position(ctx)
		if err != nil {
			return nil, 0, nil, err
		}
		f.end = head
	}
	for {
		more, err := f.book.Since(ctx, f.end, readAtOnce)
		if err != nil {
			return nil, 0, nil, err
		}
		for _, e := range more {
			f.add(lineOf(e))
		}
		if len(more) < readAtOnce {
			f.moved = moved
			return f.lines, f.end, moved, nil
		}
	}
}

// add adds a line and lets the oldest go. Whoever has the old list keeps it as it was.
func (f *feed) add(l line) {
	f.lines = append(f.lines, l)
	f.bytes += len(l.text)
	f.end = l.position
	for len(f.lines) > feedLines || f.bytes > feedBytes {
		f.bytes -= len(f.lines[0].text)
		f.lines = f.lines[1:]
	}
}

// early reads what the feed no longer keeps.
func (f *feed) early(ctx context.Context, position int64, w kindStarts) (message, error) {
	m := message{position: position}
	for seen := 0; seen < maxScanning && len(m.lines) < maxMessage; {
		entries, err := f.book.Since(ctx, m.position, readAtOnce)
		if err != nil {
			return m, err
		}
		lines := make([]line, 0, len(entries))
		for _, e := range entries {
			if w.has(e.Kind) {
				lines = append(lines, lineOf(e))
			} else {
				lines = append(lines, line{position: e.Position, kind: e.Kind})
			}
		}
		m.take(lines, w)
		if seen += len(entries); len(entries) < readAtOnce {
			break
		}
	}
	return m, nil
}

// take takes lines into the message until it is full.
func (m *message) take(lines []line, w kindStarts) {
	for _, l := range lines {
		if w.has(l.kind) {
			if len(m.lines) == maxMessage {
				return
			}
			m.lines = append(m.lines, l)
		}
		m.position = l.position
	}
}

// lineSent is an entry as devices get it.
type lineSent struct {
	ID        string          `json:"id"`
	Position  int64           `json:"position"`
	Kind      book.Kind       `json:"kind"`
	At        string          `json:"at"`
	By        string          `json:"by"`
	Device    string          `json:"device"`
	Body      json.RawMessage `json:"body"`
	TakesBack string          `json:"takes_back,omitempty"`
}

// lineOf renders an entry on one line. A body that is no JSON, which no program of ours writes, is left out.
func lineOf(e book.Entry) line {
	sent := lineSent{
		ID: e.ID, Position: e.Position, Kind: e.Kind, At: e.HappenedAt.UTC().Format(instants), By: e.By, Device: e.Device,
		Body: json.RawMessage(e.Body), TakesBack: e.TakesBack,
	}
	text, err := json.Marshal(sent)
	if err != nil {
		sent.Body = json.RawMessage("null")
		text, _ = json.Marshal(sent)
	}
	return line{e.Position, e.Kind, text}
}
