package book

import (
	"errors"
	"io/fs"
)

// CauseOf returns what went wrong in the first place, for a sentence's place: of a file its name, too. Of several errors that
// were joined it is the first's.
func CauseOf(err error) string {
	for {
		if file, ok := err.(*fs.PathError); ok { //nolint:errorlint // this very error, not one behind it
			return file.Error()
		}
		next := errors.Unwrap(err)
		if all, ok := err.(interface{ Unwrap() []error }); ok && len(all.Unwrap()) > 0 {
			next = all.Unwrap()[0]
		}
		if next == nil {
			return err.Error()
		}
		err = next
	}
}
