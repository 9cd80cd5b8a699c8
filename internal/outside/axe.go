package outside

import (
	"os"
	"path/filepath"
	"testing"
)

// Axe returns the script of axe-core, which looks for what hinders people in a page.
func Axe(tb testing.TB) string {
	tb.Helper()
	return string(Module(tb, "axe-core", "axe.min.js"))
}

// Module returns a file of one of npm's packages. tools/packages fetches those that tests need; they are for the tests alone, and stand
// in the user's cache.
func Module(tb testing.TB, name, path string) []byte {
	tb.Helper()
	cache, err := os.UserCacheDir()
	if err != nil {
		tb.Fatal(err)
	}
	content, err := os.ReadFile(filepath.Join(cache, "wetside-tests", "node_modules", name, path)) //nolint:gosec // a test names it
	if err != nil {
		Missing(tb, name+" (npm's package "+name+")")
	}
	return content
}
