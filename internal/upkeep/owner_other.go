//go:build !(darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd)

package upkeep

// handOver has nothing to do where files have no owner of this kind.
func handOver(string, ...string) {}
