//go:build !linux

package outside

import (
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
)

// quit is what PostgreSQL takes as an immediate end.
const quit = syscall.SIGQUIT

func own(string) error { return nil }

func (p *Postgres) command(program string, args ...string) *exec.Cmd {
	cmd := exec.Command(filepath.Join(p.bin, program), args...)
	cmd.Dir = p.dir
	return cmd
}

func dieWithParent(*exec.Cmd) {}

// Freeze is for Linux.
func (p *Postgres) Freeze(tb testing.TB) (thaw func()) {
	tb.Helper()
	tb.Skip("processes are stopped on Linux only")
	return nil
}
