package certfile_test

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"wetside/internal/certfile"
)

// nobody is a user who owns no file of the test's.
const nobody = 65534

// asNobody calls f with the rights to files of a user who owns none, where root runs the tests; whoever else runs them has no more than
// their own rights as it is.
func asNobody(t *testing.T, f func()) {
	t.Helper()
	if os.Geteuid() != 0 {
		f()
		return
	}
	done := make(chan bool)
	go func() {
		defer close(done)
		runtime.LockOSThread() // never let go: the thread ends with the goroutine, and its rights with it
		for range 2 {          // it returns what was before, so the second call tells whether the first one worked (setfsuid(2))
			if was, _, _ := syscall.RawSyscall(syscall.SYS_SETFSUID, nobody, 0, 0); was == nobody {
				f()
				return
			}
		}
		t.Error("the rights of root could not be put down")
	}()
	<-done
}

// A key that is another user's, or in a folder that is, as a certificate that root fetched has it: the error says what the service needs.
func TestUnreadable(t *testing.T) {
	for what, shut := range map[string]func(dir, key string) error{
		"the key":    func(_, key string) error { return os.Chmod(key, 0) },
		"the folder": func(dir, _ string) error { return os.Chmod(dir, 0) },
	} {
		t.Run(what, func(t *testing.T) {
			dir := t.TempDir()
			cert, key := write(t, dir, "darkroom.example", time.Now())
			for _, path := range []string{filepath.Dir(dir), dir, cert, key} { // anybody may read and enter, but for what is shut now
				if err := os.Chmod(path, 0o755); err != nil { //nolint:gosec // the key is made here
					t.Fatal(err)
				}
			}
			asNobody(t, func() {
				if _, err := certfile.Open(cert, key, time.Now); err != nil {
					t.Errorf("before it is shut: %v", err)
				}
			})
			if err := shut(dir, key); err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { _ = os.Chmod(dir, 0o700) }) //nolint:gosec // a folder, to be emptied
			asNobody(t, func() {
				_, err := certfile.Open(cert, key, time.Now)
				if err == nil || !strings.Contains(err.Error(), "docs/serving.md") || !strings.Contains(err.Error(), key) {
					t.Errorf("it says %v", err)
				}
			})
		})
	}
}
