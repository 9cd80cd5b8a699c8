//go:build !(linux || darwin)

package upkeep

import "errors"

// diskFree does not know how to ask here.
func diskFree(string) (free, size uint64, err error) { return 0, 0, errors.ErrUnsupported }
