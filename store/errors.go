package store

import (
	"context"
	"errors"
	"io/fs"
	"syscall"

	"wetside/book"
)

// fail turns an error of the driver or the system into one of package book, by its code. Errors that have a kind stay.
func (d *dialect) fail(err error) error {
	if err == nil || hasKind(err) {
		return err
	}
	kind, known := d.kind(err)
	switch {
	case known:
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		kind = book.Cancelled
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		kind = book.Full
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS), errors.Is(err, fs.ErrNotExist),
		errors.Is(err, syscall.ENOTDIR), errors.Is(err, syscall.EISDIR):
		kind = book.NoAccess
	}
	return &book.Error{Kind: kind, Key: d.key(kind), Cause: err}
}

// hasKind reports whether err has a kind already.
func hasKind(err error) bool {
	_, ok := errors.AsType[interface {
		error
		ErrorKind() book.ErrorKind
	}](err)
	return ok
}

// keyOf returns the key of the sentence for trouble with the engine.
func keyOf(k book.ErrorKind) string {
	switch k {
	case book.Full:
		return "store_full"
	case book.Failing:
		return "store_failing"
	case book.Busy:
		return "store_busy"
	case book.Away:
		return "store_away"
	case book.NoAccess:
		return "store_no_access"
	case book.Damaged:
		return "store_damaged"
	case book.Foreign:
		return "store_foreign"
	case book.Cancelled:
		return "store_cancelled"
	default:
		return "internal"
	}
}

// keepsFailing reports trouble after which the engine's own view of the disk can't be trusted: nothing more is
// acknowledged until the store is opened anew.
func keepsFailing(err error) bool {
	k := book.KindOf(err)
	return k == book.Failing || k == book.Damaged
}
