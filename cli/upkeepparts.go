package cli

import (
	"context"
	"io"
	"time"

	"wetside/book/journal"
	"wetside/book/proof"
)

// Upkeep keeps the books at a place whole: it looks through them, copies them and brings them back. It needs no book that is in
// order, and reads beside whoever has the books open.
type Upkeep interface {
	// Verify looks through all books there and changes nothing.
	Verify(ctx context.Context, at Where) (Verified, error)
	// Backup copies the books to a file that is not there yet, or to one with the moment in its name in a folder.
	Backup(ctx context.Context, at Where, out string) (Saved, error)
	// Restore puts a backup in the place of what is there, which is kept aside; other allows one of another darkroom.
	Restore(ctx context.Context, at Where, from string, other bool) (Restored, error)
	// WriteOut writes the whole book of a darkroom as text, with the names of people where they are wanted.
	WriteOut(ctx context.Context, at Where, w io.Writer, names bool) (journal.Head, error)
	// TakeOver reads such a text and writes what the book does not have yet; asFar takes what is whole of one that is not.
	TakeOver(ctx context.Context, at Where, r io.Reader, asFar bool) (TakenOver, error)
	// Examine looks at everything that may go wrong here.
	Examine(ctx context.Context, at Where, o Examination) ([]Check, error)
}

// Verified is what was found in books and their file.
type Verified struct {
	Place  string
	File   bool // the place is a file, which was looked through, too
	Schema int64
	Books  []Proved
	Faults []string // of the file, in the engine's words
}

// Whole reports whether nothing is wrong.
func (v *Verified) Whole() bool {
	for i := range v.Books {
		if !v.Books[i].Whole() {
			return false
		}
	}
	return len(v.Faults) == 0
}

// Good reports whether nothing is to be done: all is whole, and no short cut says something else than the entries.
func (v *Verified) Good() bool {
	for i := range v.Books {
		if v.Books[i].Snapshot == SnapshotDiffers {
			return false
		}
	}
	return v.Whole()
}

// SnapshotFound says what there is of a book's short cut for a quick start.
type SnapshotFound string

// What there may be.
const (
	NoSnapshot      SnapshotFound = "none"
	SnapshotSame    SnapshotFound = "same"    // as the entries
	SnapshotDropped SnapshotFound = "dropped" // it can't be used; the next start makes it anew
	SnapshotDiffers SnapshotFound = "differs" // from the entries
)

// Proved is one darkroom's book.
type Proved struct {
	proof.Report
	Unread   int // entries that this version can't read; they are kept
	Snapshot SnapshotFound
}

// Saved is a backup.
type Saved struct {
	Verified
	Path  string
	Bytes int64
}

// Restored is what a restore did.
type Restored struct {
	Saved        // the books that are there now
	Aside string // the file that what was there is kept in; empty: there was nothing
	Was   int64  // entries that were there, where they could be read
}

// TakenOver is what came out of an export.
type TakenOver struct {
	Darkroom string
	Read     int64 // entries that it has
	Written  int64 // of them new
	Stopped  error // why it went no further, where it was to be taken as far as it is whole
}

// Examination says what to look at beside the books.
type Examination struct {
	Cert, Key string // PEM files; both or neither
}

// State is how a check went.
type State string

// The states.
const (
	Good    State = "good"
	Warning State = "warning" // it works, and something should be done
	Bad     State = "bad"     // it does not work, or soon won't
)

// A Check is one row of an examination.
type Check struct {
	Name  string
	State State
	Kind  string // what was found: the sentences "doctor.KIND" and, where it is not good, "doctor.KIND_mend"
	// Figures are what the sentences' places hold.
	Figures map[string]Figure
}

// A Figure is a number, a moment, a length of time or words; the one that is set.
type Figure struct {
	Text  string
	Bytes int64
	Count int64
	At    time.Time
	For   time.Duration
}
