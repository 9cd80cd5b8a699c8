//go:build linux

package store_test

import (
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"wetside/book"
	"wetside/internal/outside"
	"wetside/store"
)

// limitFiles makes every write beyond a size fail with EFBIG, as a disk does that fails on writing.
func limitFiles(bytes string) error {
	if bytes == "" {
		return nil
	}
	n, err := strconv.ParseUint(bytes, 10, 63)
	if err != nil {
		return err
	}
	signal.Ignore(syscall.SIGXFSZ) // the write fails instead
	return syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: n, Max: n})
}

// TestWritesFail lets writes fail once the files have some size: that is said as a failing disk, nothing is acknowledged
// after, and everything acknowledged before is there.
func TestWritesFail(t *testing.T) {
	for _, limit := range []int{240_000, 260_000, 400_000} {
		t.Run(strconv.Itoa(limit), func(t *testing.T) {
			c := engines()[0].fresh(t)
			acked, failed, order := runSome(t, c.Path, limit)
			if len(acked) == 0 || failed["store_failing"] == 0 || len(failed) != 1 {
				t.Errorf("%d acknowledged, failures %v, want some acknowledged, then a failing disk", len(acked), failed)
			}
			if i := strings.Index(order, "f"); i < 0 || strings.Contains(order[i:], "a") {
				t.Errorf("acknowledged after a failure: %s", order)
			}
			verifyAcked(t, c, acked)
		})
	}
}

// TestSharedWritesFail is TestWritesFail for writers who share transactions: the failure is everybody's, and whatever
// anybody was told is there. What was acknowledged just before may be told after.
func TestSharedWritesFail(t *testing.T) {
	c := engines()[0].fresh(t)
	acked, failed, _ := run(t, "many", c.Path, 260_000)
	if len(acked) == 0 || failed["store_failing"] < 8 || len(failed) != 1 {
		t.Errorf("%d acknowledged, failures %v, want some acknowledged, then a failing disk for all eight", len(acked), failed)
	}
	verifyAcked(t, c, acked)
}

// runSome runs a child that tries a number of batches, and returns what came of them, in order as a and f.
func runSome(t *testing.T, path string, limit int, before ...string) (acked map[string]int64, failed map[string]int, order string) {
	t.Helper()
	return run(t, "some", path, limit, before...)
}

func run(t *testing.T, job, path string, limit int, before ...string) (acked map[string]int64, failed map[string]int, order string) {
	t.Helper()
	acked, failed = map[string]int64{}, map[string]int{}
	p := start(t, job, path, "0", limit, before...)
	for line := p.next(); line != ""; line = p.next() {
		if line == "open" {
			continue
		}
		heed(t, line, acked, failed)
		order += line[:1]
	}
	_ = p.Wait()
	return acked, failed, order
}

// namespaceEnv is set in the process that has mounts of its own.
const namespaceEnv = "WETSIDE_STORE_NAMESPACE"

// TestDiskFull fills a disk of 16 MiB, finds that said, and goes on by itself when there is space again; the long form does so a
// hundred times on one book. It runs itself once more in a namespace of its own, where the disk can be mounted and is gone with
// the process.
func TestDiskFull(t *testing.T) {
	disk := smallDisk(t, "16m")
	if disk == "" {
		return
	}
	rounds := 3
	if os.Getenv(torture) != "" {
		rounds = 100
	}
	c := store.Config{Path: filepath.Join(disk, "x.db"), Now: clock(evening)}
	s := open(t, c)
	if err := s.Create(t.Context(), "room"); err != nil {
		t.Fatal(err)
	}
	acked := map[string]int64{}
	ballast := filepath.Join(disk, "ballast")
	for round := range rounds {
		fillDisk(t, ballast)
		if info, err := os.Stat(ballast); err != nil || os.Truncate(ballast, info.Size()-64<<10) != nil {
			t.Fatal("no room can be left: ", err)
		}
		fill(t, s, round, acked)
		if err := os.Remove(ballast); err != nil {
			t.Fatal(err)
		}
		id := fmt.Sprintf("r%d-w9-0-0", round)
		acked[id] = appendTo(t, s, drawn(id))[0].Position
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	verifyAcked(t, c, acked)
	if len(acked) < 3*rounds {
		t.Errorf("only %d entries were acknowledged before the disk was full", len(acked)-rounds)
	}
	t.Logf("full and freed %d times, %d entries acknowledged, none lost", rounds, len(acked))
}

// inNamespace runs the test that calls it in a process with mounts of its own, and holds it to have passed there.
func inNamespace(t *testing.T) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, "-test.run=^"+t.Name()+"$", "-test.v")
	cmd.Env = append(os.Environ(), namespaceEnv+"=1")
	cmd.SysProcAttr = &syscall.SysProcAttr{Cloneflags: syscall.CLONE_NEWNS}
	if os.Getuid() != 0 {
		cmd.SysProcAttr.Cloneflags |= syscall.CLONE_NEWUSER
		cmd.SysProcAttr.UidMappings = []syscall.SysProcIDMap{{HostID: os.Getuid(), Size: 1}}
		cmd.SysProcAttr.GidMappings = []syscall.SysProcIDMap{{HostID: os.Getgid(), Size: 1}}
	}
	out, err := cmd.CombinedOutput()
	switch {
	case strings.Contains(string(out), "--- PASS: "+t.Name()):
	case strings.Contains(string(out), "--- SKIP: "), len(out) == 0 && err != nil:
		outside.Without(t, fmt.Sprintf("no namespace with a small disk: %v\n%s", err, out))
	default:
		t.Fatalf("%v\n%s", err, out)
	}
}

// fill appends until the disk is full, and checks that this is said, twice.
func fill(t *testing.T, s *store.Store, round int, acked map[string]int64) {
	t.Helper()
	for n, refused := 0, 0; refused < 2; n += 3 {
		if n > 3_000 {
			t.Fatal("the disk never got full")
		}
		entry := drawn(fmt.Sprintf("r%d-w0-%d-0", round, n))
		entry.Body = `{"lot":"lot1","amount":"30 mL","why":"` + strings.Repeat("spilt ", 20) + `"}`
		stored, err := s.Append(t.Context(), "room", []book.Entry{entry}, nil)
		if err != nil {
			wantKind(t, err, book.Full, "store_full")
			refused++
			continue
		}
		acked[entry.ID] = stored[0].Position
	}
}

// TestSyncsFail fails each sync of a run in turn, once, by way of strace: what was acknowledged before is there, nothing
// is acknowledged after. The short form fails every ninth.
func TestSyncsFail(t *testing.T) {
	strace := outside.Program(t, "strace", "strace")
	step := 9
	if os.Getenv(torture) != "" {
		step = 1
	}
	hit := 0
	for n := 4; n < 40; n += step {
		c := engines()[0].fresh(t)
		inject := "inject=fsync,fdatasync:error=EIO:when=" + strconv.Itoa(n)
		acked, failed, order := runSome(t, c.Path, 0, strace, "-f", "-qqq", "-o", "/dev/null", "-e", inject)
		if failed["store_failing"] > 0 {
			hit++
		}
		if i := strings.IndexAny(order, "fr"); i >= 0 && strings.Contains(order[i:], "a") {
			t.Errorf("sync %d failed, and something was acknowledged after: %s", n, order)
		}
		s := open(t, c)
		holds(t, s.Since, acked)
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if hit == 0 {
		t.Error("no sync was made to fail")
	}
	t.Logf("%d failed syncs, nothing acknowledged was lost", hit)
}
