package facts

import (
	"time"

	"wetside/book/proof"
)

// Verified is what `wetside verify --json` prints.
type Verified struct {
	Whole  bool     `json:"whole"`
	Place  string   `json:"place"`
	Schema int64    `json:"schema"`
	Books  []Proved `json:"books"`
	File   []string `json:"file_faults"` // in the engine's words
}

// Proved is one darkroom's book.
type Proved struct {
	Darkroom string     `json:"darkroom"`
	Whole    bool       `json:"whole"`
	Entries  int64      `json:"entries"`
	Hash     string     `json:"hash"`        // of the last entry
	Last     *time.Time `json:"last_at"`     // when it was recorded
	Unread   int        `json:"unread"`      // entries of a newer version
	Snapshot string     `json:"snapshot"`    // the short cut for a quick start: none, same as the entries, dropped, differs; empty: not looked at
	Breaks   []Break    `json:"breaks"`      // in order of position
	Count    int        `json:"break_count"` // of all, told or not
}

// Break is one place where a book is not as it was written.
type Break struct {
	Fault   string `json:"fault"` // changed, missing, inserted, moved, after_end, unreadable
	From    int64  `json:"from_position"`
	To      int64  `json:"to_position"`
	ID      string `json:"id,omitempty"`
	Kind    string `json:"kind,omitempty"`
	Was     int64  `json:"was_position,omitempty"`
	Field   string `json:"field,omitempty"`
	Written string `json:"written_hash,omitempty"`
	Stands  string `json:"stands_hash,omitempty"`
	Message string `json:"message"`
}

// OfProof takes apart what was found in a book.
func OfProof(r *proof.Report, unread int, snapshot string, sentence func(*proof.Break) string) Proved {
	out := Proved{
		Darkroom: r.Darkroom, Whole: r.Whole(), Entries: r.Entries, Hash: r.Head.Hash.String(), Unread: unread, Snapshot: snapshot,
		Breaks: []Break{}, Count: r.Count,
	}
	if !r.Last.IsZero() {
		out.Last = &r.Last
	}
	for i := range r.Breaks {
		b := &r.Breaks[i]
		f := Break{
			Fault: string(b.Fault), From: b.From, To: b.To, ID: b.ID, Kind: string(b.Kind), Was: b.Was, Field: b.Field,
			Message: sentence(b),
		}
		if b.Fault == proof.Changed {
			f.Written, f.Stands = b.Written.String(), b.Stands.String()
		}
		out.Breaks = append(out.Breaks, f)
	}
	return out
}

// Saved is what `wetside backup --json` prints.
type Saved struct {
	Path  string   `json:"path"`
	Bytes int64    `json:"bytes"`
	Found Verified `json:"found"` // in the backup
}

// Restored is what `wetside restore --json` prints.
type Restored struct {
	Path   string   `json:"path"`
	Aside  *string  `json:"aside"` // where what was there before is kept
	Was    int64    `json:"was_entries"`
	Schema int64    `json:"backup_schema"`
	Found  Verified `json:"found"`
}

// TakenOver is what `wetside book import --json` prints.
type TakenOver struct {
	Darkroom string  `json:"darkroom"`
	Read     int64   `json:"read"`
	Written  int64   `json:"written"`
	Stopped  *string `json:"stopped"` // why it went no further
}

// Examined is what `wetside doctor --json` prints.
type Examined struct {
	Well   bool    `json:"well"`
	Checks []Check `json:"checks"`
}

// Check is one row of it.
type Check struct {
	Name    string `json:"name"`
	State   string `json:"state"` // good, warning, bad
	Kind    string `json:"kind"`
	Message string `json:"message"`
	Mend    string `json:"mend,omitempty"`
}
