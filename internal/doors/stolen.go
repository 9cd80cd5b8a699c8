package doors

import (
	"errors"
	"fmt"
	"os"

	"wetside/access"
)

// OpenStolen opens a list of stolen passwords, which stays open as long as the program runs; nil where none is named.
func OpenStolen(path string) (*access.Stolen, error) {
	if path == "" {
		return nil, nil //nolint:nilnil // a nil list has none
	}
	f, err := os.Open(path) //nolint:gosec // whoever runs it names it
	if err != nil {
		return nil, fmt.Errorf("--stolen: %w", err)
	}
	info, err := f.Stat()
	if err != nil {
		return nil, errors.Join(fmt.Errorf("--stolen: %w", err), f.Close())
	}
	s, err := access.NewStolen(f, info.Size())
	if err != nil {
		return nil, errors.Join(fmt.Errorf("--stolen %s: %w", path, err), f.Close())
	}
	return s, nil
}
