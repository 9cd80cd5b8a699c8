//go:build darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd

package upkeep

import (
	"os"
	"syscall"
)

// handOver gives files that root made to the user whose directory they are in, so that a service under a user of its own can
// open them. Names that are empty or not there are passed over. Whoever is not root owns what they make already.
func handOver(dir string, files ...string) {
	if os.Geteuid() != 0 {
		return
	}
	info, err := os.Stat(dir)
	if err != nil {
		return
	}
	whose, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return
	}
	for _, f := range files {
		_ = os.Lchown(f, int(whose.Uid), int(whose.Gid)) // a link is not followed: the directory is somebody else's
	}
}
