//go:build linux || darwin

package upkeep

import "syscall"

// diskFree asks the system how much a user may still write in a folder.
func diskFree(folder string) (free, size uint64, err error) {
	var s syscall.Statfs_t
	if err := syscall.Statfs(folder, &s); err != nil {
		return 0, 0, err
	}
	unit := uint64(s.Bsize)
	return s.Bavail * unit, s.Blocks * unit, nil
}
