package outside

import (
	"os"
	"path/filepath"
	"testing"
)

// Axe returns the script of axe-core, which looks for what hinders people in a page. tools/packages fetches it with npm; it is
// for the tests alone, and stands in the user's cache.
func Axe(tb testing.TB) string {
	tb.Helper()
	cache, err := os.UserCacheDir()
	if err != nil {
		tb.Fatal(err)
	}
	script, err := os.ReadFile(filepath.Join(cache, "wetside-tests", "node_modules", "axe-core", "axe.min.js"))
	if err != nil {
		Missing(tb, "axe-core (npm's package axe-core)")
	}
	return string(script)
}
