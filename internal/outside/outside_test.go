package outside_test

import (
	"strings"
	"testing"

	"wetside/internal/outside"
)

// A caller is a test as far as Missing goes.
type caller struct {
	testing.TB
	failed, skipped string
}

func (c *caller) Helper()           {}
func (c *caller) Fatal(args ...any) { c.failed, _ = args[0].(string) }
func (c *caller) Skip(args ...any)  { c.skipped, _ = args[0].(string) }

// What is missing is skipped at a desk and never in CI.
func TestMissing(t *testing.T) {
	for ci, fails := range map[string]bool{"": false, "true": true} {
		t.Setenv("CI", ci)
		c := &caller{TB: t}
		outside.Program(c, "no-such-program", "no-such-package")
		if got := c.failed + c.skipped; !strings.Contains(got, "no-such-package") || (c.failed != "") != fails || (c.skipped != "") == fails {
			t.Errorf("CI=%q: failed %q, skipped %q", ci, c.failed, c.skipped)
		}
	}
}
