package facts

import (
	"encoding/json"
	"time"

	"wetside/book"
)

// Entry is one entry of the book, with the names that an export has (docs/export.md); its body is an object here.
type Entry struct {
	ID         string          `json:"id"`          // made by whoever sent it
	Position   int64           `json:"position"`    // 1, 2, 3, ... without gaps
	Kind       string          `json:"kind"`        // what happened, or what was decided
	Version    int             `json:"version"`     // of the kind's body
	HappenedAt string          `json:"happened_at"` // by the clock of whoever sent it
	RecordedAt string          `json:"recorded_at"` // by the clock of the book
	By         string          `json:"by"`          // a person's id; empty: in nobody's name
	Device     string          `json:"device"`      // the device's id, or empty
	TakesBack  string          `json:"takes_back"`  // the id of the entry that a correction takes back, else empty
	Body       json.RawMessage `json:"body"`        // as its kind says
}

// Entries are entries in the order of the book.
type Entries struct {
	Position int64   `json:"position"` // of the book's last entry
	Entries  []Entry `json:"entries"`
	Next     int64   `json:"next"` // what to send as after, for those that follow
	More     bool    `json:"more"` // some follow already
}

// OfEntry takes an entry apart. A body that is no JSON, which no program of ours writes, is an empty object.
func OfEntry(e book.Entry) Entry {
	body := json.RawMessage(e.Body)
	if !json.Valid(body) {
		body = json.RawMessage("{}")
	}
	return Entry{
		ID: e.ID, Position: e.Position, Kind: string(e.Kind), Version: e.Version, HappenedAt: instant(e.HappenedAt),
		RecordedAt: instant(e.RecordedAt), By: e.By, Device: e.Device, TakesBack: e.TakesBack, Body: body,
	}
}

// instant writes a moment as the book keeps it: UTC, at most microseconds.
func instant(t time.Time) string { return book.Instant(t).Format(time.RFC3339Nano) }

// moment writes a moment, nil where there is none.
func moment(t time.Time) *string {
	if t.IsZero() {
		return nil
	}
	s := instant(t)
	return &s
}

// some returns a text, nil where it is empty.
func some(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}
