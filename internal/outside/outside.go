package outside

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// debian is Debian's own interpreter: another that stands first in the path has none of Debian's modules.
const debian = "/usr/bin/python3"

// Program returns the path of a program that a Debian package brings.
func Program(tb testing.TB, name, pkg string) string {
	tb.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		Missing(tb, name+" (Debian's package "+pkg+")")
	}
	return path
}

// Python returns the interpreter with these modules, each of which the package python3-MODULE brings.
func Python(tb testing.TB, modules ...string) string {
	tb.Helper()
	if err := exec.CommandContext(tb.Context(), debian, "-c", "import "+strings.Join(modules, ", ")).Run(); err != nil {
		Missing(tb, "python3 with "+strings.Join(modules, ", "))
	}
	return debian
}

// Missing skips a test at a desk and fails it in CI.
func Missing(tb testing.TB, what string) {
	tb.Helper()
	if os.Getenv("CI") == "true" { //nolint:forbidigo // tests have no configuration but the environment
		tb.Fatal(what + " is missing: run tools/packages")
		return
	}
	tb.Skip(what + " is missing: run tools/packages")
}
