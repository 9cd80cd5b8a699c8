package book

import (
	"bytes"
	"encoding/json"
	"strings"
	"time"
	"unicode/utf8"
)

// An Entry is one thing that happened, or one decision. All fields are covered by the chain of hashes; once it
// is written, none ever changes.
type Entry struct {
	ID         string    `json:"id"`          // made by whoever tapped; written once, however often it is sent
	Position   int64     `json:"position"`    // 1, 2, 3, ... without gaps, within a darkroom
	Darkroom   string    `json:"darkroom"`    // the darkroom's id
	Kind       Kind      `json:"kind"`        //
	Version    int       `json:"version"`     // of the kind's body, 1 or more
	HappenedAt time.Time `json:"happened_at"` // by the clock of whoever tapped, whole microseconds
	RecordedAt time.Time `json:"recorded_at"` // by the clock of the store, whole microseconds
	By         string    `json:"by"`          // a person's id, or empty
	Device     string    `json:"device"`      // the device's id, or empty
	TakesBack  string    `json:"takes_back"`  // a correction's target, else empty
	Body       string    `json:"body"`        // JSON text, byte for byte as it was sent
	PrevHash   Hash      `json:"prev_hash"`   // of the entry at Position-1; all zero for the first
}

// Limits of an entry, so that one bad sender cannot fill a book.
const (
	MaxBody = 256 << 10 // bytes
	MaxID   = 128       // bytes, of any id
)

// Instant returns t in UTC, cut to the microsecond: the form in which entries keep time.
func Instant(t time.Time) time.Time { return t.UTC().Truncate(time.Microsecond) }

// Same reports whether two entries are the same sending: everything that the sender made is alike. Position,
// recorded_at and prev_hash are the store's and do not count.
func (e Entry) Same(f Entry) bool {
	return e.ID == f.ID && e.Darkroom == f.Darkroom && e.Kind == f.Kind && e.Version == f.Version &&
		e.HappenedAt.Equal(f.HappenedAt) && e.By == f.By && e.Device == f.Device &&
		e.TakesBack == f.TakesBack && e.Body == f.Body
}

// Check reports what is wrong with the envelope of an entry that is to be written, whatever its kind. The error
// is an *Error of kind BadInput whose key ends in the field's name.
func (e Entry) Check() error {
	switch {
	case !ValidID(e.ID):
		return badEntry("id")
	case e.Kind == "" || !ValidID(string(e.Kind)):
		return badEntry("kind")
	case e.Version < 1:
		return badEntry("version")
	case !validTime(e.HappenedAt):
		return badEntry("happened_at")
	case e.By != "" && !ValidID(e.By):
		return badEntry("by")
	case e.Device != "" && !ValidID(e.Device):
		return badEntry("device")
	case (e.Kind == Correction) != (e.TakesBack != "") || e.TakesBack != "" && !ValidID(e.TakesBack):
		return badEntry("takes_back")
	case !validBody(e.Body):
		return badEntry("body")
	}
	return nil
}

func badEntry(field string) error {
	return &Error{Kind: BadInput, Key: "entry_bad_" + field}
}

// ValidID reports whether id may be one: 1 to MaxID characters of printable ASCII without spaces, which every engine,
// URL and log keeps as they are.
func ValidID(id string) bool {
	return id != "" && len(id) <= MaxID && strings.IndexFunc(id, func(r rune) bool { return r <= ' ' || r > '~' }) < 0
}

// validTime accepts the years 1 to 9999, which microseconds and RFC 3339 both hold, in whole microseconds.
func validTime(t time.Time) bool {
	return t.Year() >= 1 && t.Year() <= 9999 && t.Equal(t.Truncate(time.Microsecond)) && !t.IsZero()
}

// validBody accepts one JSON object in UTF-8.
func validBody(body string) bool {
	return len(body) <= MaxBody && utf8.ValidString(body) && json.Valid([]byte(body)) &&
		strings.HasPrefix(strings.TrimLeft(body, " \t\r\n"), "{")
}

// encode returns v as JSON on one line with <, > and & left as they are.
func encode(v any) (string, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return "", err
	}
	return strings.TrimSuffix(b.String(), "\n"), nil
}
