package book

import (
	"errors"
	"fmt"

	"wetside/darkroom"
)

// ErrorKind is what kind of trouble an error is; pages, JSON and exit statuses go by it.
type ErrorKind uint8

// The kinds of trouble. The zero kind is Internal: the user gets a neutral sentence, the log the cause.
const (
	Internal  ErrorKind = iota
	BadInput            // what was sent cannot be read or is impossible
	NotFound            // no such darkroom, entry or person
	Conflict            // an id that is in the book with other contents
	Stale               // a decision made on a position that is no longer the head
	Refused             // a decision that would break what stands, or an undo that can't be
	InUse               // another process has the book open
	Newer               // the book was written by a newer program
	Foreign             // the file is not a book of ours
	Full                // no space left; nothing was written, and it can go on when there is space
	Failing             // the disk failed; nothing more is written until the book is opened anew
	NoAccess            // the file or folder may not be read or written
	Damaged             // the file or the chain is broken
	Busy                // the book could not be had in time
	Cancelled           // whoever asked went away
	Away                // the database's server can't be reached now; what was not acknowledged can be sent again
)

// An Error is a kind, a key of a safe sentence, and a cause for the log.
type Error struct {
	Kind  ErrorKind
	Key   string // of the message catalogue; tells nothing that a user may not see
	Cause error  // may be nil
}

// Error says it for the log.
func (e *Error) Error() string {
	if e.Cause == nil {
		return e.Key
	}
	return e.Key + ": " + e.Cause.Error()
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Cause }

// ErrorKind returns the kind.
func (e *Error) ErrorKind() ErrorKind { return e.Kind }

// ErrorKey returns the key.
func (e *Error) ErrorKey() string { return e.Key }

// kinded is an error that knows its kind and its sentence.
type kinded interface {
	error
	ErrorKind() ErrorKind
	ErrorKey() string
}

// KindOf returns the kind of the first error in err's chain that has one, else Internal.
func KindOf(err error) ErrorKind {
	if k, ok := errors.AsType[kinded](err); ok {
		return k.ErrorKind()
	}
	return Internal
}

// KeyOf returns the key of the safe sentence of the first error in err's chain that has one, else "internal".
func KeyOf(err error) string {
	if k, ok := errors.AsType[kinded](err); ok {
		return k.ErrorKey()
	}
	return "internal"
}

// A StaleError says that a decision was made on a position after which something else was written.
type StaleError struct {
	Expected, Head int64
	Between        []Entry // what came between, oldest first; at most MaxBetween, the latest of them
}

// MaxBetween is how many entries a StaleError carries at most.
const MaxBetween = 200

// Error says it for the log.
func (e *StaleError) Error() string {
	return fmt.Sprintf("decided on position %d, the head is %d", e.Expected, e.Head)
}

// ErrorKind makes it Stale.
func (e *StaleError) ErrorKind() ErrorKind { return Stale }

// ErrorKey returns the key of its sentence.
func (e *StaleError) ErrorKey() string { return "stale" }

// A ConflictError says that an id stands in the book with other contents.
type ConflictError struct {
	Stored Entry // what stands there
}

// Error says it for the log.
func (e *ConflictError) Error() string {
	return fmt.Sprintf("entry %s stands at position %d with other contents", e.Stored.ID, e.Stored.Position)
}

// ErrorKind makes it Conflict.
func (e *ConflictError) ErrorKind() ErrorKind { return Conflict }

// ErrorKey returns the key of its sentence.
func (e *ConflictError) ErrorKey() string { return "conflict" }

// Reason is why a decision is refused.
type Reason string

// The reasons.
const (
	NoSuchEntry    Reason = "no_such_entry"    // a correction of what is not in the book
	AlreadyUndone  Reason = "already_undone"   // it has been taken back
	ChangedSince   Reason = "changed_since"    // something later stands in its place; take that back first
	NewerEntry     Reason = "newer_entry"      // written by a newer program: what it did is not known here
	LotDrawnSince  Reason = "lot_drawn_since"  // the lot was drawn from, so it was there
	LotNotThere    Reason = "lot_not_there"    // no such lot, or it is gone
	BathUsedSince  Reason = "bath_used_since"  // a load went through the bath, or something else was done with it: it was there
	BathNotThere   Reason = "bath_not_there"   // no such bath, or it is gone
	ProductHasLots Reason = "product_has_lots" // lots of the product stand on the shelf
	ProductNamed   Reason = "product_named"    // a vessel is kept for the product, or the wanted session names it
	NameTaken      Reason = "name_taken"       // two things of one name
	RoomStays      Reason = "room_stays"       // without its room a darkroom has no name
	ThingNotThere  Reason = "thing_not_there"  // nothing of that id to remove
	WouldNotHold   Reason = "would_not_hold"   // the darkroom file would not be right; Problem says how
)

// A RefusedError says why a decision can't be, or why an entry can't be taken back.
type RefusedError struct {
	Reason  Reason
	Entry   string           // the entry that was to be taken back, or the decision that is refused
	Subject string           // the id of the thing, lot or product in question, a path of the file, or empty
	Because string           // the id of the entry that stands in the way, or empty
	Problem darkroom.Problem // what of the file would be wrong, where that is the reason
}

// Error says it for the log.
func (e *RefusedError) Error() string {
	return fmt.Sprintf("entry %s refused: %s (subject %q, because of %q)", e.Entry, e.Reason, e.Subject, e.Because)
}

// ErrorKind makes it Refused.
func (e *RefusedError) ErrorKind() ErrorKind { return Refused }

// ErrorKey returns the key of its sentence.
func (e *RefusedError) ErrorKey() string { return "refused_" + string(e.Reason) }
