//go:build linux

package upkeep_test

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"wetside/cli"
	"wetside/internal/clibook"
	"wetside/internal/outside"
	"wetside/internal/upkeep"
)

// What root restores, and remembers of a backup, belongs to the user whose directory it is in: a service of its own user opens it.
func TestRootHandsOver(t *testing.T) {
	if os.Geteuid() != 0 {
		outside.Without(t, "only root can give files to somebody else: CI runs this as root")
	}
	const other = 65534
	dir, out := filepath.Join(t.TempDir(), "data"), t.TempDir()
	at := cli.Where{Dir: dir, Darkroom: clibook.Room}
	b, err := clibook.OpenAt(t.Context(), at, now, func() string { return "00000000-0000-4000-8000-000000000001" })
	must(t, err)
	must(t, b.Close())
	for _, path := range append(names(t, dir), dir) {
		must(t, os.Chown(path, other, other))
	}
	k := upkeep.Keeper{Now: now}
	saved, err := k.Backup(t.Context(), at, out)
	must(t, err)
	_, err = k.Restore(t.Context(), at, saved.Path, false)
	must(t, err)
	for _, path := range names(t, dir) {
		info, err := os.Lstat(path)
		must(t, err)
		if whose, ok := info.Sys().(*syscall.Stat_t); !ok || whose.Uid != other || whose.Gid != other {
			t.Errorf("%s is not its directory's owner's: %+v", path, whose)
		}
	}
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(dir, "*"))
	if err != nil || len(all) == 0 {
		t.Fatalf("%s: %v %v", dir, all, err)
	}
	return all
}
