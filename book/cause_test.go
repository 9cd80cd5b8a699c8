package book_test

import (
	"errors"
	"fmt"
	"io/fs"
	"testing"

	"wetside/book"
)

func TestCauseOf(t *testing.T) {
	root := errors.New("the tap is shut")
	file := &fs.PathError{Op: "open", Path: "/x", Err: fs.ErrPermission}
	for want, err := range map[string]error{
		"the tap is shut":            &book.Error{Kind: book.Full, Key: "k", Cause: fmt.Errorf("mixing: %w", root)},
		"open /x: permission denied": fmt.Errorf("opening: %w", &book.Error{Cause: file}),
		"k":                          &book.Error{Key: "k"},
		"alone":                      errors.Join(&book.Error{Key: "k", Cause: errors.New("alone")}, root),
	} {
		if got := book.CauseOf(err); got != want {
			t.Errorf("%v: got %q, want %q", err, got, want)
		}
	}
}
