//go:build darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd

package store

import (
	"errors"
	"os"
	"strconv"
	"strings"
	"syscall"

	"wetside/book"
)

// lock takes the lock of a database: an advisory lock on a file beside it, so that the database itself is never opened
// by plain file calls, which would drop SQLite's own locks. The kernel lets go of it when the process ends, however it
// ends, so a file that was left behind locks nobody out. The file is never removed: whoever removed it could take the
// name from under another's lock.
func lock(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		holder := holderOf(f)
		_ = f.Close()
		if errors.Is(err, syscall.EWOULDBLOCK) {
			return nil, &book.Error{Kind: book.InUse, Key: "store_in_use", Cause: &heldError{path, holder}}
		}
		return nil, err
	}
	// Who holds it is a help for people, no part of the lock.
	if err := f.Truncate(0); err == nil {
		_, _ = f.WriteAt([]byte(strconv.Itoa(os.Getpid())+"\n"), 0)
	}
	return f, nil
}

// holderOf returns what the holder of a lock wrote into it.
func holderOf(f *os.File) string {
	b := make([]byte, 20)
	n, _ := f.ReadAt(b, 0)
	if pid := strings.TrimSpace(string(b[:n])); pid != "" {
		return "process " + pid
	}
	return "another process"
}
