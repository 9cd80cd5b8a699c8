//go:build linux

package store_test

import (
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
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

// TestPageTornOnItsWay tears each page of the file that the log has, too, as a power cut may while the log is being moved into the file: the
// book is whole, and nothing is missing.
func TestPageTornOnItsWay(t *testing.T) {
	c := kept(t, engines()[0].fresh(t).Path, 200) // in the file
	p := start(t, "write", c.Path, "0", 0)
	for range 60 { // in the log
		if p.next() == "" {
			t.Fatal("the child ended by itself")
		}
	}
	_ = p.Process.Kill()
	_ = p.Wait()
	db, log := bytesOf(t, c.Path), bytesOf(t, c.Path+"-wal")
	const page, header, frame = 4096, 32, 24 // sqlite.org/walformat.html
	torn, want := map[uint32]bool{}, int64(-1)
	for at := header; at+frame+page <= len(log); at += frame + page {
		number := binary.BigEndian.Uint32(log[at:])
		end := int(number) * page
		if torn[number] || end > len(db) {
			continue
		}
		torn[number] = true
		spoilt := append([]byte{}, db...)
		for i := end - page/2; i < end; i++ {
			spoilt[i] ^= 0xa5
		}
		to := store.Config{Path: filepath.Join(t.TempDir(), "x.db"), Now: c.Now}
		write(t, to.Path, spoilt)
		write(t, to.Path+"-wal", log)
		s := open(t, to)
		books, faults, err := s.ProveAll(t.Context())
		if err = errors.Join(err, s.Close()); err != nil || len(faults) > 0 || len(books) != 1 || !books[0].Whole() {
			t.Fatalf("page %d torn: %+v, %v, %v", number, books, faults, err)
		}
		if want < 0 {
			want = books[0].Entries
		}
		if books[0].Entries != want || want < 260 {
			t.Errorf("page %d torn: %d entries", number, books[0].Entries)
		}
	}
	if len(torn) < 3 {
		t.Errorf("only %d pages were torn", len(torn))
	}
	t.Logf("%d pages torn, %d entries each time", len(torn), want)
}

// TestClockJumps sets the clock back and forward while facts and decisions are written, by an hour and over the end of summer time
// and its beginning, in a place that has it: nothing is refused or lost, the chain is whole, each moment is the one that it was,
// and the state is the same after a fold from nothing.
func TestClockJumps(t *testing.T) {
	place, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		outside.Without(t, "no table of time zones: "+err.Error())
	}
	for name, from := range map[string]time.Time{
		"an evening":         evening,
		"summer time ends":   time.Date(2026, time.October, 25, 0, 30, 0, 0, time.UTC).In(place), // 02:30 twice
		"summer time begins": time.Date(2027, time.March, 28, 0, 45, 0, 0, time.UTC).In(place),   // no 02:30 at all
	} {
		for _, e := range engines() {
			t.Run(name+" "+e.name, func(t *testing.T) { jumpOn(t, e, from) })
		}
	}
}

func jumpOn(t *testing.T, e engine, at time.Time) {
	t.Helper()
	c := e.fresh(t)
	c.Now = func() time.Time { return at }
	s := open(t, c)
	if err := s.Create(t.Context(), "room"); err != nil {
		t.Fatal(err)
	}
	var want []time.Time
	for i, jump := range []time.Duration{0, -time.Hour, time.Minute, time.Hour, time.Hour, -3 * time.Hour, time.Hour} {
		at = at.Add(jump)
		fact := drawn(fmt.Sprint("f", i))
		fact.HappenedAt = at
		appendTo(t, s, fact, named(fmt.Sprint("n", i), fmt.Sprint("Room ", i)))
		want = append(want, at)
	}
	s = reopen(t, s, c)
	n := 0
	r, err := s.Prove(t.Context(), "room", func(e book.Entry) error {
		if n%2 == 0 && (!e.HappenedAt.Equal(want[n/2]) || !e.RecordedAt.Equal(want[n/2])) {
			t.Errorf("entry %d happened %s, recorded %s, want %s", n+1, e.HappenedAt, e.RecordedAt, want[n/2])
		}
		n++
		return nil
	})
	if err != nil || !r.Whole() || n != 2*len(want) {
		t.Errorf("proved %+v, %v", r, err)
	}
	f, err := s.Export(t.Context(), "room")
	if err != nil || f.Darkroom.Name == "" {
		t.Errorf("the room is called %q, %v", f.Darkroom.Name, err)
	}
}

// TestNetworkFileSystems knows file systems of networks by the numbers in the kernel's headers, and finds one that is mounted.
func TestNetworkFileSystems(t *testing.T) {
	numbers := map[string]string{
		"NFS_SUPER_MAGIC": "NFS", "SMB_SUPER_MAGIC": "SMB", "CIFS_SUPER_MAGIC": "SMB", "SMB2_SUPER_MAGIC": "SMB", "CEPH_SUPER_MAGIC": "Ceph",
		"AFS_SUPER_MAGIC": "AFS", "AFS_FS_MAGIC": "AFS", "V9FS_MAGIC": "9P", "CODA_SUPER_MAGIC": "Coda", "OCFS2_SUPER_MAGIC": "OCFS2",
		"FUSE_SUPER_MAGIC": "FUSE", "EXT4_SUPER_MAGIC": "", "BTRFS_SUPER_MAGIC": "", "TMPFS_MAGIC": "", "OVERLAYFS_SUPER_MAGIC": "",
	}
	header, err := os.ReadFile("/usr/include/linux/magic.h")
	if err != nil {
		outside.Without(t, "no headers of the kernel (Debian's linux-libc-dev)")
	}
	found := 0
	for line := range strings.Lines(string(header)) {
		words := strings.Fields(line)
		if len(words) < 3 || words[0] != "#define" {
			continue
		}
		want, asked := numbers[words[1]]
		number, err := strconv.ParseUint(strings.TrimSuffix(words[2], "U"), 0, 32)
		if !asked || err != nil {
			continue
		}
		found++
		if got := store.NetworkName(uint32(number)); got != want {
			t.Errorf("%s is %q, want %q", words[1], got, want)
		}
	}
	if found != len(numbers) {
		t.Errorf("%d numbers are in the header, want %d", found, len(numbers))
	}
}

// TestOnNetwork opens a book in a folder on a file system of a network; the warning says which.
func TestOnNetwork(t *testing.T) {
	disk := smallDisk(t, "2m")
	if disk == "" {
		return
	}
	if n := store.Network(disk); n != "" {
		t.Errorf("a disk of this machine is taken for %s", n)
	}
	fuse, err := os.OpenFile("/dev/fuse", os.O_RDWR, 0)
	if err != nil {
		outside.Without(t, "no FUSE: "+err.Error())
	}
	defer func() { _ = fuse.Close() }()
	// Mounted for another user, whom nobody serves: the kernel answers what kind of file system it is by itself.
	how := fmt.Sprintf("fd=%d,rootmode=40000,user_id=65533,group_id=65533", fuse.Fd())
	if err := syscall.Mount("sshfs", disk, "fuse.sshfs", 0, how); err != nil {
		outside.Without(t, "no FUSE can be mounted: "+err.Error())
	}
	defer func() { _ = syscall.Unmount(disk, syscall.MNT_DETACH) }()
	if n := store.Network(disk); n != "FUSE" {
		t.Errorf("a FUSE is taken for %q", n)
	}
}
