//go:build linux

package store_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"wetside/book"
	"wetside/internal/outside"
	"wetside/store"
)

// smallDisk mounts a disk of its own in a namespace of its own; it returns empty where this process is not in one yet, and has
// run the test in one.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	if os.Getenv(namespaceEnv) == "" {
		inNamespace(t)
		return ""
	}
	disk := t.TempDir()
	if err := syscall.Mount("", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, ""); err != nil {
		outside.Without(t, "mounts can't be kept apart: "+err.Error())
	}
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size="+size); err != nil {
		outside.Without(t, "no small disk can be mounted: "+err.Error())
	}
	t.Cleanup(func() { _ = syscall.Unmount(disk, syscall.MNT_DETACH) })
	return disk
}

// TestReadOnlyDisk makes a disk read-only: opening the book says so, and it can still be read, verified and saved elsewhere.
func TestReadOnlyDisk(t *testing.T) {
	disk := smallDisk(t, "4m")
	if disk == "" {
		return
	}
	c := kept(t, filepath.Join(disk, "x.db"), 5)
	if err := syscall.Mount("", disk, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		outside.Without(t, "no disk can be made read-only: "+err.Error())
	}
	_, err := store.Open(t.Context(), c)
	wantKind(t, err, book.NoAccess, "store_no_access")
	s := beside(t, c)
	out := filepath.Join(t.TempDir(), "out.db")
	k, err := s.Backup(t.Context(), out)
	if err != nil || !k.Whole() || k.Books[0].Entries != 5 {
		t.Errorf("saved elsewhere: %+v, %v", k, err)
	}
	_, err = s.Backup(t.Context(), filepath.Join(disk, "out.db"))
	wantKind(t, err, book.NoAccess, "store_no_access")
	if _, err := store.Restore(t.Context(), c, out, store.RestoreOptions{}); book.KindOf(err) != book.NoAccess {
		t.Errorf("restored onto a read-only disk: %v", err)
	}
}

// TestFullDiskUnderUpkeep fills a disk and lets the backup, the restore and a change of the form run into it: each says so, leaves
// nothing behind, and goes when there is space again.
func TestFullDiskUnderUpkeep(t *testing.T) {
	disk := smallDisk(t, "2m")
	if disk == "" {
		return
	}
	from := releases(t)[0]
	c := store.Config{Path: filepath.Join(disk, "x.db"), Now: clock(evening)}
	write(t, c.Path, bytesOf(t, from))
	ballast := filepath.Join(disk, "ballast")
	fillDisk(t, ballast)
	was := bytesOf(t, c.Path)
	full := func(what string, err error) {
		t.Helper()
		if book.KindOf(err) != book.Full {
			t.Errorf("%s on a full disk: %v", what, err)
		}
		noLitter(t, disk)
		if string(bytesOf(t, c.Path)) != string(was) {
			t.Errorf("%s changed the book", what)
		}
	}
	_, err := store.Open(t.Context(), c)
	full("a change of the form", err)
	_, err = store.Restore(t.Context(), c, from, store.RestoreOptions{})
	full("a restore", err)
	elsewhere := kept(t, filepath.Join(t.TempDir(), "x.db"), 300)
	_, err = beside(t, elsewhere).Backup(t.Context(), filepath.Join(disk, "out.db"))
	full("a backup", err)
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	if r, err := store.Restore(t.Context(), c, from, store.RestoreOptions{}); err != nil || r.Aside == "" {
		t.Errorf("restored with space: %+v, %v", r, err)
	}
	if _, err := open(t, c).Backup(t.Context(), filepath.Join(disk, "out.db")); err != nil {
		t.Errorf("backed up with space: %v", err)
	}
}

// fillDisk writes a file until a disk is full.
func fillDisk(t *testing.T, path string) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = f.Write(make([]byte, 4096))
	}
	if !errors.Is(err, syscall.ENOSPC) {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestTornLog kills a writer and cuts its write-ahead log at many places, in the middle of a page too, and spoils a sector in it,
// as a power cut may leave it: what opens is the book as it was at some moment, whole batches, an unbroken chain.
func TestTornLog(t *testing.T) {
	c := engines()[0].fresh(t)
	p := start(t, "write", c.Path, "0", 0)
	for range 150 {
		if p.next() == "" {
			t.Fatal("the child ended by itself")
		}
	}
	_ = p.Process.Kill()
	_ = p.Wait()
	db, log := bytesOf(t, c.Path), bytesOf(t, c.Path+"-wal")
	if len(log) < 20_000 {
		t.Fatalf("the log has only %d bytes", len(log))
	}
	least, most := int64(-1), int64(0)
	step := len(log)/12 + 333
	for at := 0; at <= len(log); at += step {
		for _, spoil := range []bool{false, true} {
			torn := append([]byte{}, log[:at]...)
			if spoil {
				torn = append([]byte{}, log...)
				clear(torn[at:min(at+512, len(torn))])
			}
			to := store.Config{Path: filepath.Join(t.TempDir(), "x.db"), Now: c.Now}
			write(t, to.Path, db)
			write(t, to.Path+"-wal", torn)
			s, err := store.Open(t.Context(), to)
			if err != nil {
				t.Fatalf("the log cut at %d: %v", at, err)
			}
			books, faults, err := s.ProveAll(t.Context())
			if err != nil || len(faults) > 0 {
				t.Fatalf("the log cut at %d: %v, %v", at, faults, err)
			}
			for i := range books {
				if !books[i].Whole() {
					t.Errorf("the log cut at %d: %+v", at, books[i].Breaks)
				}
				all, err := s.Since(t.Context(), "room", 0, 0)
				if err != nil {
					t.Fatal(err)
				}
				wholeBatches(t, all)
				if n := books[i].Entries; least < 0 || n < least {
					least = n
				}
				most = max(most, books[i].Entries)
			}
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
		}
	}
	if most <= least {
		t.Errorf("between %d and %d entries came back: the cuts cut nothing", least, most)
	}
	t.Logf("between %d and %d entries came back", least, most)
}

// TestClockJumps sets the clock back and forward by an hour while facts and decisions are written: nothing is refused or lost, the
// chain is whole, and the state is the same after a fold from nothing.
func TestClockJumps(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			at := evening
			c := e.fresh(t)
			c.Now = func() time.Time { return at }
			s := open(t, c)
			if err := s.Create(t.Context(), "room"); err != nil {
				t.Fatal(err)
			}
			for i, jump := range []time.Duration{0, -time.Hour, time.Minute, 2 * time.Hour, -3 * time.Hour, time.Hour} {
				at = at.Add(jump)
				fact := drawn(fmt.Sprint("f", i))
				fact.HappenedAt = at
				appendTo(t, s, fact, named(fmt.Sprint("n", i), fmt.Sprint("Room ", i)))
			}
			s = reopen(t, s, c)
			r, err := s.Prove(t.Context(), "room", nil)
			if err != nil || !r.Whole() || r.Entries != 12 {
				t.Errorf("proved %+v, %v", r, err)
			}
			f, err := s.Export(t.Context(), "room")
			if err != nil || f.Darkroom.Name == "" {
				t.Errorf("the room is called %q, %v", f.Darkroom.Name, err)
			}
		})
	}
}
