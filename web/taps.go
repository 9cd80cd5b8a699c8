package web

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"time"

	"wetside/book"
	"wetside/words"
)

// What one sending of taps may be.
const (
	maxTapBytes = 256 << 10
	maxTaps     = 500
)

// instants is how moments are written for devices: UTC, whole microseconds.
const instants = "2006-01-02T15:04:05.000000Z"

// tapsSent is what a device sends: taps in the order in which they were made.
type tapsSent struct {
	Device string            `json:"device"`
	Taps   []json.RawMessage `json:"taps"`
}

// tapSent is one tap.
type tapSent struct {
	ID        string          `json:"id"`
	Kind      book.Kind       `json:"kind"`
	Version   int             `json:"version"` // of the body; 0: today's
	At        string          `json:"at"`
	By        string          `json:"by"`
	Body      json.RawMessage `json:"body"`
	TakesBack string          `json:"takes_back"`
}

// tapsAnswer is what became of the taps, each by itself.
type tapsAnswer struct {
	Now      string       `json:"now"`
	Position int64        `json:"position"`
	Taken    []tapTaken   `json:"taken"`
	Refused  []tapRefused `json:"refused"`
}

type tapTaken struct {
	ID       string `json:"id"`
	Position int64  `json:"position"`
}

type tapRefused struct {
	ID  string `json:"id"`
	Why string `json:"why"` // a sentence in the reader's language
	Key string `json:"key"`
}

// A tapError is a reason of this page's own: the key of its sentence.
type tapError string

// Why a tap is refused before the book is asked.
const (
	errTapUnreadable tapError = "tap_unreadable"
	errTapNoKind     tapError = "tap_no_kind"
	errTapDecides    tapError = "tap_decides"
)

// Error is the key of its sentence.
func (e tapError) Error() string { return string(e) }

// ErrorKind makes it BadInput.
func (e tapError) ErrorKind() book.ErrorKind { return book.BadInput }

// ErrorKey returns the key of its sentence.
func (e tapError) ErrorKey() string { return string(e) }

// A tried tap is an entry to be written, or why it can't be.
type tried struct {
	id    string
	entry book.Entry
	err   error
}

// taps writes what a device sends, each tap by itself. No page is made for it, and no plan.
func (s *server) taps(w http.ResponseWriter, r *http.Request) {
	sent, err := readTaps(http.MaxBytesReader(w, r.Body, maxTapBytes))
	if err != nil {
		s.problem(w, r, err)
		return
	}
	all := make([]tried, len(sent.Taps))
	for i, raw := range sent.Taps {
		if all[i].id, err = idOf(raw); err != nil {
			s.problem(w, r, err)
			return
		}
		all[i].entry, all[i].err = readTap(raw, sent.Device)
	}
	answer, err := s.write(r, all)
	if err != nil {
		s.problem(w, r, err)
		return
	}
	s.sendJSON(w, r, http.StatusOK, "application/json", answer)
}

// Why a whole sending is refused.
var (
	errTapsForm  = errors.New("no object with a device and a list of taps, each with an id")
	errTooMany   = fmt.Errorf("more than %d taps", maxTaps)
	errBadDevice = errors.New("the device's id is none")
)

// readTaps reads the envelope.
func readTaps(body interface{ Read(b []byte) (int, error) }) (sent tapsSent, err error) {
	d := json.NewDecoder(body)
	if err := d.Decode(&sent); err != nil {
		if _, ok := errors.AsType[*http.MaxBytesError](err); ok {
			return sent, err
		}
		return sent, errors.Join(errTapsForm, err)
	}
	switch {
	case d.More():
		return sent, errTapsForm
	case !book.ValidID(sent.Device):
		return sent, errBadDevice
	case sent.Taps == nil:
		return sent, errTapsForm
	case len(sent.Taps) > maxTaps:
		return sent, errTooMany
	}
	return sent, nil
}

// idOf returns a tap's id, without which nobody can be told what became of it.
func idOf(raw json.RawMessage) (string, error) {
	var tap struct {
		ID string `json:"id"`
	}
	if err := json.Unmarshal(raw, &tap); err != nil || !book.ValidID(tap.ID) {
		return "", errTapsForm
	}
	return tap.ID, nil
}

// readTap makes an entry of a tap.
func readTap(raw json.RawMessage, device string) (book.Entry, error) {
	var t tapSent
	if err := json.Unmarshal(raw, &t); err != nil {
		return book.Entry{}, errTapUnreadable
	}
	at, err := time.Parse(time.RFC3339Nano, t.At)
	switch {
	case err != nil:
		return book.Entry{}, errTapUnreadable
	case !t.Kind.Known():
		return book.Entry{}, errTapNoKind
	case t.Kind.Decides() && t.Kind != book.Correction:
		return book.Entry{}, errTapDecides
	}
	if t.Version == 0 {
		t.Version = book.Upcasters().Version(t.Kind)
	}
	if t.Body == nil {
		t.Body = json.RawMessage("{}")
	}
	return book.Entry{
		ID: t.ID, Kind: t.Kind, Version: t.Version, HappenedAt: book.Instant(at), By: t.By, Device: device,
		TakesBack: t.TakesBack, Body: string(t.Body),
	}, nil
}

// write writes those that can be and tells of all. The error is for what concerns them all.
func (s *server) write(r *http.Request, all []tried) (*tapsAnswer, error) {
	var entries []book.Entry
	for i := range all {
		if t := &all[i]; t.err == nil {
			t.err = s.mayUndo(r, all[:i], &t.entry)
		}
		if all[i].err == nil {
			entries = append(entries, all[i].entry)
		}
	}
	out, err := s.Book.Each(r.Context(), entries)
	if err != nil {
		return nil, err
	}
	a := &tapsAnswer{Now: s.Now().UTC().Format(instants), Taken: []tapTaken{}, Refused: []tapRefused{}}
	if a.Position, err = s.Book.Position(r.Context()); err != nil {
		return nil, err
	}
	why := refuser{s: s}
	for _, t := range all {
		if t.err == nil {
			t.err, t.entry = out[0].Err, out[0].Entry
			out = out[1:]
		}
		if t.err == nil {
			a.Taken = append(a.Taken, tapTaken{t.id, t.entry.Position})
			continue
		}
		text, err := why.says(r, t.err)
		if err != nil {
			return nil, err
		}
		a.Refused = append(a.Refused, tapRefused{t.id, text, book.KeyOf(t.err)})
	}
	return a, nil
}

// mayUndo refuses to take back a decision here: that is done where it was made, by whoever sees what came since. What is
// not in the book, nor among the taps before, is left to the book to refuse.
func (s *server) mayUndo(r *http.Request, before []tried, e *book.Entry) error {
	for id := e.TakesBack; e.Kind == book.Correction; {
		target, there, err := s.target(r, before, id)
		switch {
		case err != nil:
			return err
		case !there:
			return nil
		case target.Kind != book.Correction && target.Kind.Decides():
			return errTapDecides
		case target.Kind != book.Correction || target.TakesBack == id:
			return nil
		}
		id = target.TakesBack
	}
	return nil
}

// target finds an entry in the book, and what is not there yet among the taps before.
func (s *server) target(r *http.Request, before []tried, id string) (e book.Entry, there bool, err error) {
	e, err = s.Book.Find(r.Context(), id)
	if err == nil || book.KindOf(err) != book.NotFound {
		return e, err == nil, err
	}
	for _, t := range before {
		if t.id == id && t.err == nil {
			return t.entry, true, nil
		}
	}
	return e, false, nil
}

// A refuser says why taps are refused. It opens the darkroom for its language when the first is.
type refuser struct {
	s *server
	v *visit
}

func (f *refuser) says(r *http.Request, err error) (string, error) {
	if f.v == nil {
		v := &visit{s: f.s, id: f.s.NewID()}
		if err := v.look(r.Context()); err != nil {
			return "", err
		}
		if err := v.open(); err != nil {
			return "", err
		}
		f.v = v
	}
	return refusal(f.v.say, f.v, err), nil
}

// refusal says why one tap is refused.
func refusal(say *words.Voice, v *visit, err error) string {
	var refused *book.RefusedError
	var field *book.FieldError
	switch {
	case errors.Is(err, errTapDecides):
		return say.Tell("tap_decides").Text()
	case errors.Is(err, errTapNoKind):
		return say.Tell("tap_no_kind").Text()
	case errors.As(err, &refused) && refused.Reason == book.NoSuchEntry:
		return say.Tell("tap_no_entry").Text()
	case errors.As(err, &refused) && refused.Reason == book.AlreadyUndone:
		return say.Tell("tap_undone").Text()
	case errors.As(err, &refused):
		return say.Tell("cannot_undo").Text()
	case errors.As(err, &field):
		return v.unreadable(err)
	case book.KindOf(err) == book.Conflict:
		return say.Tell("tap_conflict").Text()
	}
	return say.Tell("tap_unreadable").Text()
}

// A problem is an error for a program (RFC 9457).
type problem struct {
	Type   string `json:"type"`
	Title  string `json:"title"`
	Status int    `json:"status"`
	Detail string `json:"detail"`
}

// problem tells a program what is wrong with its request; what is wrong with us goes to the log.
func (s *server) problem(w http.ResponseWriter, r *http.Request, err error) {
	code, id := http.StatusBadRequest, s.NewID()
	var tooLarge *http.MaxBytesError
	switch {
	case errors.Is(err, errTooMany), errors.As(err, &tooLarge):
		code = http.StatusRequestEntityTooLarge
	case errors.Is(err, errStreams):
		code = http.StatusTooManyRequests
	case errors.Is(err, errTapsForm), errors.Is(err, errBadDevice), errors.Is(err, errLiveForm):
	default:
		code, _ = status(err)
	}
	p := problem{Type: "about:blank", Title: http.StatusText(code), Status: code, Detail: err.Error()}
	if code >= http.StatusInternalServerError {
		s.Log.ErrorContext(r.Context(), "request failed", "request", id, "method", r.Method, "path", toldPath(r), "error", err)
		p.Detail = book.KeyOf(err) + " " + id
	}
	if turnsAway(code) {
		s.turnedAway(r, id, err.Error())
	}
	s.sendJSON(w, r, code, "application/problem+json", p)
}

func (s *server) sendJSON(w http.ResponseWriter, r *http.Request, code int, kind string, v any) {
	body, err := json.Marshal(v)
	if err != nil {
		s.Log.ErrorContext(r.Context(), "answer failed", "path", r.URL.Path, "error", err)
		code, body = http.StatusInternalServerError, []byte("{}")
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(code)
	_, _ = w.Write(append(body, '\n'))
}
