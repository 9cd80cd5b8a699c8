package packed_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"wetside/internal/packed"
)

// told counts what a test is told.
type told struct {
	testing.TB
	faults int
}

func (*told) Helper()                 {}
func (t *told) Errorf(string, ...any) { t.faults++ }

// What Hold packs gzip itself unpacks (RFC 1952); what is another's, broken or missing is told.
func TestHold(t *testing.T) {
	name, want := filepath.Join(t.TempDir(), "one.gz"), []byte("twelve sheets a litre")
	packed.Hold(t, name, want, true)
	packed.Hold(t, name, want, false)
	if got, err := exec.CommandContext(t.Context(), "gzip", "-dc", name).Output(); err != nil || string(got) != string(want) {
		t.Errorf("gzip reads %q, %v", got, err)
	}
	fake := &told{TB: t}
	packed.Hold(fake, name, []byte("ten"), false)
	packed.Hold(fake, name+".missing", want, false)
	if err := os.WriteFile(name, want, 0o600); err != nil {
		t.Fatal(err)
	}
	packed.Hold(fake, name, want, false)
	if fake.faults != 3 {
		t.Errorf("%d faults were told, want 3", fake.faults)
	}
}
