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

// Missing is Without for what tools/packages installs.
func Missing(tb testing.TB, what string) {
	tb.Helper()
	Without(tb, what+" is missing: run tools/packages")
}

// Without says why a test can't be held against something here: it skips the test at a desk and fails it in CI.
func Without(tb testing.TB, why string) {
	tb.Helper()
	if os.Getenv("CI") == "true" { //nolint:forbidigo // tests have no configuration but the environment
		tb.Fatal(why)
		return
	}
	tb.Skip(why)
}
