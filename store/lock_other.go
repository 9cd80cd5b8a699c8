//go:build !(darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd)

package store

import "os"

// lock opens the file beside the database; where there are no advisory locks, nothing keeps a second process out.
func lock(path string) (*os.File, error) { return os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600) }
