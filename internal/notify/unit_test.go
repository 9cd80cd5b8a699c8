package notify_test

import (
	"os/exec"
	"testing"

	"wetside/internal/outside"
)

// The unit that packages install is held by systemd's own reckoning to an exposure of 2.0 of 10 at most, and says what this
// package speaks.
func TestUnit(t *testing.T) {
	analyze := outside.Program(t, "systemd-analyze", "systemd")
	const unit = "../../tools/packaging/wetside.service"
	out, err := exec.CommandContext(t.Context(), analyze, "security", "--offline=true", "--threshold=20", "--no-pager", unit).CombinedOutput()
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}
